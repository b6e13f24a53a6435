"""What is so of a side or of a man of its where prose names its colour, asked of the boards near."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import chess

from player.check.prose.passages import Boards, Passage
from player.check.prose.standing import can_reach, history
from player.check.prose.words import COUNTS, KIND, KINDS, SENTENCE_END, SQUARE
from player.facts.place import Place


@dataclass(frozen=True)
class Seen:
    """A passage and the boards its words may be about: those near, and all that led to them."""

    passage: Passage
    boards: Boards
    side: str

    @cached_property
    def places(self) -> tuple[Place, ...]:
        """The places near, those ahead, and all that led to them; gathered when they are first asked for."""
        turns = (turn.after for turn in self.passage.ahead)
        return tuple(dict.fromkeys((*self.passage.places(), *turns, *history(self.passage))))

    def any(self, good: Callable[[chess.Board], bool]) -> bool:
        return any(good(self.boards.of(place)) for place in self.places)

    def near(self, good: Callable[[chess.Board], bool]) -> bool:
        turns = (turn.after for turn in self.passage.ahead)
        return any(good(self.boards.of(place)) for place in (*self.passage.places(), *turns))

    def tight(self, found: re.Match[str], good: Callable[[chess.Board], bool]) -> bool:
        """The same for the places right where the words stand: before, at and after them, the answer's."""
        passage = self.passage
        own = [passage.before, passage.at(found.start()), passage.at(len(passage.text)), *passage.replied]
        own += [passage.answer.after] if passage.answer else []
        return any(good(self.boards.of(place)) for place in own)

    def asked(self) -> list[chess.Square]:
        """The squares that answer the question, of a reply those it replies to."""
        question = self.passage.question
        names: tuple[str, ...] = question.answers if question else ()
        if question and self.passage.role == "reply":
            names = next((one.answers for one in question.replies if one.spot == self.passage.spot), ())
        return [chess.parse_square(one) for one in names if re.fullmatch(SQUARE, one)]

    def mover(self, offset: int) -> bool | None:
        """Who has made the move that the words at this character are about."""
        told = [(at, turn) for at, turn in self.passage.turns if at < offset]
        if told:
            far = len(SENTENCE_END.findall(self.passage.text[told[-1][0] : offset])) > 1
            return None if far else self.boards.of(told[-1][1].before).turn
        question = self.passage.question
        if question is None or question.kind != "move" or self.passage.role == "question":
            return None
        return self.boards.of(question.place).turn


Holds = Callable[[Seen, re.Match[str], bool], bool]


def named_square(found: re.Match[str]) -> chess.Square:
    return chess.parse_square(found["square"])


def related(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether such a man stands or stood on the square, could reach it, or sees it but for others."""
    kind, square = KINDS[found["kind"].lower()], named_square(found)

    def tied(board: chess.Board) -> bool:
        men = board.pieces(kind, white)
        empty = chess.Board(None)
        for man in men:
            empty.set_piece_at(man, chess.Piece(kind, white))
        sees = any(square == man or square in empty.attacks(man) for man in men)
        return sees or can_reach(board, square, kind, white)

    return seen.any(tied)


def controls(seen: Seen, found: re.Match[str], white: bool) -> bool:
    return seen.any(lambda board: board.is_attacked_by(white, named_square(found)))


def can_take(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether a man of the other side is, or could come, where this side takes it."""
    square = named_square(found)
    return seen.any(lambda board: board.color_at(square) == (not white))


def near_king(seen: Seen, found: re.Match[str], white: bool) -> bool:
    squares, king = seen.asked(), seen.boards.of(seen.passage.before).king(white)
    return not squares or king is None or any(chess.square_distance(king, one) <= 3 for one in squares)


def none_looks(seen: Seen, found: re.Match[str], white: bool) -> bool:
    board = seen.boards.of(seen.passage.at(found.start()))
    kinds = [KINDS[found["kind"]]] if found["kind"] in KINDS else list(chess.PIECE_TYPES)
    squares = [named_square(found)] if found["square"] else seen.asked()
    attackers = [man for one in squares for man in board.attackers(white, one)]
    return not any(board.piece_type_at(man) in kinds for man in attackers)


def unguarded(seen: Seen, found: re.Match[str], white: bool) -> bool:
    kind = KINDS[found["kind"].lower()]

    def loose(board: chess.Board) -> bool:
        return any(not board.is_attacked_by(white, man) for man in board.pieces(kind, white))

    passage = seen.passage
    if passage.role == "back":
        return loose(seen.boards.of(passage.near[-1]))
    return seen.near(loose)


def has_to_take(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether such a man has anything to take."""
    kind, file = KINDS[found["kind"].lower()], found["file"]

    def takes(board: chess.Board) -> bool:
        return any(
            board.attacks(man) & board.occupied_co[not white]
            for man in board.pieces(kind, white)
            if not file or chess.FILE_NAMES[chess.square_file(man)] == file
        )

    return any(takes(seen.boards.of(place)) for place in (*seen.passage.replied, *seen.passage.places()[1:]))


def has_lost(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the side has fewer such men than it once had in this line."""
    kind = KINDS[found["kind"].lower()]
    most = max(len(seen.boards.of(place).pieces(kind, white)) for place in seen.places)
    return seen.near(lambda board: len(board.pieces(kind, white)) < most)


def suffers(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the move spoken of is one of the other side."""
    mover = seen.mover(found.start("who"))
    return mover is None or mover != white


def moved_last(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the move told last is this side's."""
    mover = seen.mover(found.start("who"))
    return mover is None or mover == white


def made_by(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether such a man that has just moved, if any, is this side's."""
    told = [turn for at, turn in seen.passage.turns if at < found.start("who")]
    square = chess.Move.from_uci(told[-1].uci).to_square if told else 0
    man = seen.boards.of(told[-1].after).piece_at(square) if told else None
    return man is None or man.piece_type != KINDS[found["kind"]] or man.color == white


def shown_men(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the men on the squares that are marked right after the words are this side's."""
    marks = [one for at, one in seen.passage.marks if found.end() <= at <= found.end() + 3][:1]
    squares = [chess.parse_square(one.square) for mark in marks for one in mark.marks if one.square]
    board = seen.boards.of(seen.passage.at(found.start()))
    return all(board.color_at(one) in (None, white) for one in squares)


def counted(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether so many men of the side look at the square."""
    number = COUNTS.get(found["number"].lower())
    return number is None or seen.tight(
        found, lambda board: len(board.attackers(white, named_square(found))) == number
    )


def owned(seen: Seen, found: re.Match[str], white: bool) -> bool:
    man = chess.Piece(KINDS[found["kind"].lower()], white)
    return seen.any(lambda board: board.piece_at(named_square(found)) == man)


def one_move(seen: Seen, found: re.Match[str], white: bool) -> bool:
    return seen.near(lambda board: board.turn == white and len(list(board.legal_moves)) == 1)


def no_move(seen: Seen, found: re.Match[str], white: bool) -> bool:
    return seen.near(lambda board: board.turn == white and not any(board.legal_moves))


def theirs(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the side is not the one of those who learn."""
    return seen.side not in ("white", "black") or white != (seen.side == "white")


def lives_there(seen: Seen, found: re.Match[str], white: bool) -> bool:
    board, squares = seen.boards.of(seen.passage.before), seen.asked()
    man = chess.Piece(KINDS[found["kind"].lower()], white)
    return not squares or any(board.piece_at(one) == man for one in squares)


def to_answer(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the side is the one that a reply's moves leave to answer."""
    replied = seen.passage.replied if not seen.passage.turns else ()
    return not replied or any(seen.boards.of(place).turn == white for place in replied)


def asked_side(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the side is the one that is asked for a move."""
    question = seen.passage.question
    return question is None or question.kind != "move" or seen.boards.of(question.place).turn == white


def asked_men(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the men are those that the question counts."""
    question = seen.passage.question
    asked = re.search(r"\b[Hh]ow many (white|black)\b", question.text.shown if question else "")
    return asked is None or (asked[1] == "white") == white


def outnumbered(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether some man of the other side has so many attackers and guards."""
    kind, number, guards = KINDS[found["kind"]], COUNTS[found["number"].lower()], COUNTS[found["guards"]]
    return seen.near(
        lambda board: any(
            len(board.attackers(white, man)) == number and len(board.attackers(not white, man)) == guards
            for man in board.pieces(kind, not white)
        )
    )


def ours(seen: Seen, found: re.Match[str], white: bool) -> bool:
    return not theirs(seen, found, white)


def centred(seen: Seen, found: re.Match[str], white: bool) -> bool:
    middle = chess.SquareSet(chess.BB_CENTER | chess.BB_C4 | chess.BB_C5 | chess.BB_F4 | chess.BB_F5)
    return seen.near(lambda board: bool(board.pieces(KINDS[found["kind"]], white) & middle))


def both_out(seen: Seen, found: re.Match[str], white: bool) -> bool:
    rank = chess.BB_RANK_1 if white else chess.BB_RANK_8
    kind = KINDS[found["kind"]]
    return seen.near(lambda board: len(board.pieces(kind, white) - chess.SquareSet(rank)) >= 2)


def arrived(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the move told last is this side's, where it goes to that square."""
    told = [turn for at, turn in seen.passage.turns if at < found.start("who")]
    if not told or chess.Move.from_uci(told[-1].uci).to_square != named_square(found):
        return True
    return seen.boards.of(told[-1].before).turn == white


def armed(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the side has anything but its king to win with."""
    return seen.near(lambda board: chess.popcount(board.occupied_co[white]) > 1)


def gone(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the side's bishop on such squares has left the board."""
    shade = chess.BB_LIGHT_SQUARES if found["shade"] == "light" else chess.BB_DARK_SQUARES
    return seen.tight(found, lambda board: not int(board.pieces(chess.BISHOP, white)) & shade)


def never_guards(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether no pawn of the side can ever come to guard the square."""
    square = named_square(found)

    def none(board: chess.Board) -> bool:
        return not any(
            abs(man % 8 - square % 8) == 1 and (square // 8 - man // 8) * (1 if white else -1) >= 1
            for man in board.pieces(chess.PAWN, white)
        )

    return seen.tight(found, none)


def inventory(seen: Seen, found: re.Match[str], white: bool) -> bool:
    """Whether the side has the men of the list."""
    listed = re.findall(rf"\b([a-z]+) ({KIND})s?\b", found["men"])
    counts = [(COUNTS[number], KINDS[kind]) for number, kind in listed if number in COUNTS]
    return seen.tight(found, lambda b: all(len(b.pieces(kind, white)) == number for number, kind in counts))


def pawns_on(seen: Seen, found: re.Match[str], white: bool) -> bool:
    squares = [chess.parse_square(one) for one in re.findall(SQUARE, found["squares"])]
    man = chess.Piece(chess.PAWN, white)
    return seen.tight(found, lambda board: all(board.piece_at(one) == man for one in squares))


def onward(seen: Seen, found: re.Match[str], white: bool) -> bool:
    return (int(found["to"][1]) > int(found["from"][1])) == white or found["to"][1] == found["from"][1]


def won(seen: Seen, found: re.Match[str], white: bool) -> bool:
    kind, now = KINDS[found["kind"].lower()], seen.passage.at(found.start())
    before = seen.boards.of(Place(now.root, now.moves[:-6]))
    return len(seen.boards.of(now).pieces(kind, not white)) < len(before.pieces(kind, not white))
