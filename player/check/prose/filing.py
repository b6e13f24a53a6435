"""What is so of a file, or of the pawn that is named by it, asked of the boards near and the moves told."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

import chess

from player.check.prose.passages import Boards, Passage
from player.check.prose.standing import history
from player.check.prose.words import KINDS, SQUARE


@dataclass(frozen=True, slots=True)
class Filed:
    """A passage, the boards its words are about, and the moves that it tells, asks for or answers."""

    passage: Passage
    boards: Boards
    here: tuple[chess.Board, ...]
    moves: tuple[tuple[chess.Board, chess.Move], ...]

    def pawns(self, file: int, good: Callable[[chess.Board, int, bool], bool]) -> bool:
        """Whether a pawn on a file is so on one of the boards."""
        return any(
            good(board, man, color)
            for board in self.here
            for color in chess.COLORS
            for man in board.pieces(chess.PAWN, color) & chess.BB_FILES[file]
        )

    def targets(self) -> set[int]:
        """Where the moves go, and the squares that are asked for or replied to."""
        return {move.to_square for _, move in self.moves} | set(asked_squares(self.passage))

    def focus(self, offset: int) -> set[int]:
        """Where the move goes that these words follow; the targets where they follow none."""
        told = [turn for at, turn in self.passage.turns if at < offset]
        return {chess.Move.from_uci(told[-1].uci).to_square} if told else self.targets()


Holds = Callable[[Filed, re.Match[str], int], bool]


def _ahead(man: int, white: bool, steps: int = 1) -> int:
    square = man + (8 if white else -8) * steps
    return square if 0 <= square < 64 else man


def front(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether somebody stands in front of a pawn of the file, or the square there is asked for."""
    if found["it"] and seen.passage.replied:
        return any(chess.square_file(one) == file for one in seen.targets())
    return seen.pawns(
        file,
        lambda board, man, white: (
            board.piece_type_at(_ahead(man, white)) is not None or _ahead(man, white) in seen.targets()
        ),
    )


def behind(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether the move that is asked for goes from or to the file of the pawn."""
    passage = seen.passage
    if passage.answer and passage.role in ("question", "nudge") and passage.question is not None:
        return passage.question.kind != "move" or any(
            file in (move.from_square % 8, move.to_square % 8) for _, move in seen.moves[:1]
        )
    return True


def takes(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file takes, or has taken, where the moves go."""
    made = any(
        move.from_square % 8 == file and before.piece_type_at(move.from_square) == chess.PAWN
        for before, move in seen.moves
    )
    goals = seen.targets() | named(found.string)
    return made or seen.pawns(file, lambda board, man, _: bool(board.attacks(man) & squares_of(goals)))


def stands_by(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file guards or hits a square spoken of, now or after some steps."""
    goals = seen.focus(found.start())
    return not goals or seen.pawns(
        file,
        lambda board, man, white: any(
            abs(one % 8 - file) == 1 and (one // 8 > man // 8 if white else one // 8 < man // 8)
            for one in goals
        ),
    )


def frees(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a move steps out of the way of a pawn of the file."""
    return any(
        before.piece_type_at(move.from_square + step) == chess.PAWN
        for before, move in seen.moves
        for step in (-8, 8)
        if move.from_square % 8 == file and 0 <= move.from_square + step < 64
    )


def free(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file can go, where the words say so two steps."""
    steps = (1, 2) if re.search(r"one step or two|two squares|two steps", found[0]) else (1,)

    def goes(board: chess.Board, man: int, white: bool) -> bool:
        home = man // 8 == (1 if white else 6)
        return (home or steps == (1,)) and not any(board.piece_at(_ahead(man, white, one)) for one in steps)

    return seen.pawns(file, goes)


def stuck(seen: Filed, found: re.Match[str], file: int) -> bool:
    return seen.pawns(file, lambda board, man, white: board.piece_at(_ahead(man, white)) is not None)


def went(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a man has moved on, from or to the file."""
    root = seen.passage.before.root
    past = (seen.passage.before, *history(seen.passage), *(turn.after for _, turn in seen.passage.turns))
    lately = [chess.Move.from_uci(place.moves[-1]) for place in past if place.moves and place.root == root]
    return not lately or any(file in (move.from_square % 8, move.to_square % 8) for move in lately)


def answers(seen: Filed, found: re.Match[str], file: int) -> bool:
    """In a nudge, whether the answer moves from or to the file, or the squares asked for are on it."""
    asked = seen.passage.question
    if (
        asked is None
        or seen.passage.role not in ("nudge", "otherwise")
        or asked.kind not in ("move", "square")
    ):
        return True
    near = [one for _, move in seen.moves[:1] for one in (move.from_square, move.to_square)]
    near = near if asked.kind == "move" else asked_squares(seen.passage)
    return not near or any(one % 8 == file for one in near)


def before_king(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a king stands on the file or next to it; of one that steps there, right now."""
    here = (seen.boards.of(seen.passage.at(found.start())),) if "step" in found[0] else seen.here
    return any(abs(king % 8 - file) <= 1 for board in here for king in chess.SquareSet(board.kings))


def guards(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file looks at the man that has moved, or at one that is named."""
    goals = seen.focus(found.start()) | named(found.string)
    return seen.pawns(file, lambda board, man, _: bool(board.attacks(man) & squares_of(goals)))


def bare(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether no pawn, or none of the colour named, is left on the file."""
    who = found.groupdict().get("who") or ""
    colors = [who.lower().startswith("white")] if who else chess.COLORS
    spots = (found.start(), len(found.string))
    boards = [seen.boards.of(seen.passage.at(one)) for one in spots]
    men = [
        [man for c in colors for man in board.pieces(chess.PAWN, c) if man % 8 == file] for board in boards
    ]
    return not all(men)


def less(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether some side has no pawn on the file, here or soon."""
    return any(
        not board.pieces(chess.PAWN, c) & chess.BB_FILES[file] for board in seen.here for c in chess.COLORS
    )


def vacated(seen: Filed, found: re.Match[str], file: int) -> bool:
    return any(move.from_square % 8 == file for _, move in seen.moves)


def stands(seen: Filed, found: re.Match[str], file: int) -> bool:
    square = chess.parse_square(found["square"])
    return square % 8 == file and any(board.piece_type_at(square) == chess.PAWN for board in seen.here)


def passed(seen: Filed, found: re.Match[str], file: int) -> bool:
    def free(board: chess.Board, man: int, white: bool) -> bool:
        return not any(
            abs(one % 8 - file) <= 1 and (one // 8 > man // 8 if white else one // 8 < man // 8)
            for one in board.pieces(chess.PAWN, not white)
        )

    return seen.pawns(file, free)


def marching(seen: Filed, found: re.Match[str], file: int) -> bool:
    return seen.pawns(file, lambda board, man, white: man // 8 != (1 if white else 6))


def kind_behind(seen: Filed, found: re.Match[str], file: int) -> bool:
    kind = KINDS[found["kind"].lower()]
    return seen.pawns(
        file,
        lambda board, man, white: any(
            one % 8 == file and (one < man if white else one > man) for one in board.pieces(kind, white)
        ),
    )


def leaves(seen: Filed, found: re.Match[str], file: int) -> bool:
    kind = KINDS[found["kind"].lower()]
    return any(
        man % 8 == file for board in seen.here for white in chess.COLORS for man in board.pieces(kind, white)
    )


def next_to(seen: Filed, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file stands on a file next to where the move spoken of goes."""
    goals = seen.focus(found.start())
    return not goals or seen.pawns(file, lambda *_: any(abs(one % 8 - file) <= 1 for one in goals))


def asked_squares(passage: Passage) -> list[chess.Square]:
    """The squares that answer the question, of a reply those it replies to; in words, those of a notation."""
    question = passage.question
    if question is None:
        return []
    names = question.answers
    if passage.role in ("reply", "also"):
        names = tuple(
            one
            for reply in (*question.replies, *question.also)
            if reply.text.shown == passage.text
            for one in reply.answers
        )
    squares = [re.fullmatch(rf"[KQRBN]?x?({SQUARE})\+?", one) for one in names]
    return [chess.parse_square(one[1]) for one in squares if one]


def named(text: str) -> set[chess.Square]:
    return {chess.parse_square(one) for one in re.findall(rf"\b{SQUARE}\b", text)}


def squares_of(squares: set[int]) -> chess.SquareSet:
    return chess.SquareSet(squares)
