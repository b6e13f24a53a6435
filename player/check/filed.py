"""Prose against files: a file or its pawn that is named has to do with what is told, asked or shown there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import chess

from player.check.doubt import Doubt
from player.check.passages import Boards, Passage
from player.check.prose_words import KIND, KINDS, SQUARE, denied, sentence
from player.check.standing import history
from player.facts.place import Place

_FILE = re.compile(r"(?<![\w-])(?P<file>[a-h])-(?P<what>pawn|file)s?\b")
_FAR = re.compile(
    r"\b(?:[Aa]n?|[Nn]o|[Aa]ny|[Ee]very|[Ee]ach|likes?|loves?|always|usually|often|next time|one day|later|"
    r"other games?|general|opening|rule|had|was|were|[Ii]n the end)\b"
)
_PAWN = r"(?:the|our|his|her|my|your|White's|Black's|only the) (?P<file>[a-h])-pawn"
_GOES = r"(?:go|move|advance|run|step|walk|be pushed)"


@dataclass(frozen=True, slots=True)
class _Seen:
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
        return {move.to_square for _, move in self.moves} | set(_asked(self.passage))

    def focus(self, offset: int) -> set[int]:
        """Where the move goes that these words follow; the targets where they follow none."""
        told = [turn for at, turn in self.passage.turns if at < offset]
        return {chess.Move.from_uci(told[-1].uci).to_square} if told else self.targets()


_Holds = Callable[[_Seen, re.Match[str], int], bool]


def _ahead(man: int, white: bool, steps: int = 1) -> int:
    square = man + (8 if white else -8) * steps
    return square if 0 <= square < 64 else man


def _front(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether somebody stands in front of a pawn of the file, or the square there is asked for."""
    if found["it"] and seen.passage.replied:
        return any(chess.square_file(one) == file for one in seen.targets())
    return seen.pawns(
        file,
        lambda board, man, white: (
            board.piece_type_at(_ahead(man, white)) is not None or _ahead(man, white) in seen.targets()
        ),
    )


def _behind(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether the move that is asked for goes from or to the file of the pawn."""
    passage = seen.passage
    if passage.answer and passage.role in ("question", "nudge") and passage.question is not None:
        return passage.question.kind != "move" or any(
            file in (move.from_square % 8, move.to_square % 8) for _, move in seen.moves[:1]
        )
    return True


def _takes(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file takes, or has taken, where the moves go."""
    made = any(
        move.from_square % 8 == file and before.piece_type_at(move.from_square) == chess.PAWN
        for before, move in seen.moves
    )
    goals = seen.targets() | _named(found.string)
    return made or seen.pawns(file, lambda board, man, _: bool(board.attacks(man) & _set(goals)))


def _stands_by(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file guards or hits a square spoken of, now or after some steps."""
    goals = seen.focus(found.start())
    return not goals or seen.pawns(
        file,
        lambda board, man, white: any(
            abs(one % 8 - file) == 1 and (one // 8 > man // 8 if white else one // 8 < man // 8)
            for one in goals
        ),
    )


def _frees(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a move steps out of the way of a pawn of the file."""
    return any(
        before.piece_type_at(move.from_square + step) == chess.PAWN
        for before, move in seen.moves
        for step in (-8, 8)
        if move.from_square % 8 == file and 0 <= move.from_square + step < 64
    )


def _free(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file can go, where the words say so two steps."""
    steps = (1, 2) if re.search(r"one step or two|two squares|two steps", found[0]) else (1,)

    def goes(board: chess.Board, man: int, white: bool) -> bool:
        home = man // 8 == (1 if white else 6)
        return (home or steps == (1,)) and not any(board.piece_at(_ahead(man, white, one)) for one in steps)

    return seen.pawns(file, goes)


def _stuck(seen: _Seen, found: re.Match[str], file: int) -> bool:
    return seen.pawns(file, lambda board, man, white: board.piece_at(_ahead(man, white)) is not None)


def _held(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a man that has moved, or one named, looks at a square in front of a pawn of the file."""
    men = seen.targets() | _named(found.string)
    return any(
        one % 8 == file and board.color_at(man) != white and (one > pawn if white else one < pawn)
        for board in seen.here
        for man in men
        for white in chess.COLORS
        for pawn in board.pieces(chess.PAWN, white) & chess.BB_FILES[file]
        for one in board.attacks(man)
    )


def _went(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file has moved lately."""
    root = seen.passage.before.root
    past = (seen.passage.before, *history(seen.passage)[:3], *(turn.after for _, turn in seen.passage.turns))
    lately = [chess.Move.from_uci(place.moves[-1]) for place in past if place.moves and place.root == root]
    return not lately or any(file in (move.from_square % 8, move.to_square % 8) for move in lately)


def _answers(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """In a nudge, whether the answer moves from or to the file, or the squares asked for are on it."""
    asked = seen.passage.question
    if (
        asked is None
        or seen.passage.role not in ("nudge", "otherwise")
        or asked.kind not in ("move", "square")
    ):
        return True
    near = [one for _, move in seen.moves[:1] for one in (move.from_square, move.to_square)]
    near = near if asked.kind == "move" else _asked(seen.passage)
    return not near or any(one % 8 == file for one in near)


def _before_king(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a king stands on the file or next to it."""
    return any(
        abs(king % 8 - file) <= 1
        for board in seen.here
        for white in chess.COLORS
        for king in board.pieces(6, white)
    )


def _guards(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a pawn of the file looks at the man that has moved, or at one that is named."""
    goals = seen.focus(found.start()) | _named(found.string)
    return seen.pawns(file, lambda board, man, _: bool(board.attacks(man) & _set(goals)))


def _in_sight(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether the man that has moved, or any man named, looks at a pawn of the file."""
    men = seen.focus(found.start()) | _named(found.string)
    return seen.pawns(file, lambda board, man, _: any(man in board.attacks(one) for one in men))


def _bare(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether no pawn, or none of the colour named, is left on the file."""
    who = found.groupdict().get("who") or ""
    colors = [who.lower().startswith("white")] if who else chess.COLORS
    spots = (found.start(), len(found.string))
    boards = [seen.boards.of(seen.passage.at(one)) for one in spots]
    men = [
        [man for c in colors for man in board.pieces(chess.PAWN, c) if man % 8 == file] for board in boards
    ]
    return not all(men)


def _less(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether some side has no pawn on the file, at least once the words are over."""
    boards = [
        seen.boards.of(seen.passage.at(len(found.string))),
        seen.boards.of(seen.passage.at(found.start())),
    ]
    return any(
        not board.pieces(chess.PAWN, c) & chess.BB_FILES[file] for board in boards for c in chess.COLORS
    )


def _stacked(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether two men of one kind and colour stand on the file."""
    return any(
        len(board.pieces(kind, white) & chess.BB_FILES[file]) >= 2
        for board in seen.here
        for kind in (chess.PAWN, chess.ROOK, chess.QUEEN)
        for white in chess.COLORS
    )


def _vacated(seen: _Seen, found: re.Match[str], file: int) -> bool:
    return any(move.from_square % 8 == file for _, move in seen.moves)


def _stands(seen: _Seen, found: re.Match[str], file: int) -> bool:
    square = chess.parse_square(found["square"])
    return square % 8 == file and any(board.piece_type_at(square) == chess.PAWN for board in seen.here)


def _passed(seen: _Seen, found: re.Match[str], file: int) -> bool:
    def free(board: chess.Board, man: int, white: bool) -> bool:
        return not any(
            abs(one % 8 - file) <= 1 and (one // 8 > man // 8 if white else one // 8 < man // 8)
            for one in board.pieces(chess.PAWN, not white)
        )

    return seen.pawns(file, free)


def _marching(seen: _Seen, found: re.Match[str], file: int) -> bool:
    return seen.pawns(file, lambda board, man, white: man // 8 != (1 if white else 6))


def _kind_behind(seen: _Seen, found: re.Match[str], file: int) -> bool:
    kind = KINDS[found["kind"].lower()]
    return seen.pawns(
        file,
        lambda board, man, white: any(
            one % 8 == file and (one < man if white else one > man) for one in board.pieces(kind, white)
        ),
    )


def _king_near(seen: _Seen, found: re.Match[str], file: int) -> bool:
    """Whether a king stands next to the file, or steps there."""
    board = seen.boards.of(seen.passage.at(found.start()))
    kings = [king for white in chess.COLORS for king in board.pieces(chess.KING, white)]
    return any(abs(king % 8 - file) <= 1 for king in kings) or any(
        move.to_square % 8 == file for _, move in seen.moves
    )


def _leaves(seen: _Seen, found: re.Match[str], file: int) -> bool:
    kind = KINDS[found["kind"].lower()]
    return any(
        man % 8 == file for board in seen.here for white in chess.COLORS for man in board.pieces(kind, white)
    )


_RULES: tuple[tuple[re.Pattern[str], _Holds, str], ...] = tuple(
    (re.compile(pattern), holds, message)
    for pattern, holds, message in (
        (rf"(?P<it>\b(?:[Ii]t|[Hh]e|[Ss]he) stands )?\bin front of {_PAWN}\b", _front,
         "Nobody stands in front of the {file}-pawn here."),
        (rf"\bbehind {_PAWN}\b(?!s)", _behind, "The answer has nothing to do with the {file}-pawn."),
        (r"\b(?:[Tt]he|[Hh]is|[Hh]er|[Oo]ur) (?P<file>[a-h])-pawn (?:must [^.;,]*? to take|can take|may"
         r" take|has to"
         r" take|takes?|captures?|recaptures?)\b(?= (?:it|back|that|him)\b|$|[.,;:])", _takes,
         "The {file}-pawn has nothing to take here."),
        (rf"\btak\w+ (?:it |back )?(?:[^.;:,]*? )?with"
         rf" {_PAWN}\b", _takes, "The {file}-pawn does not take there."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} (?:(?:can|could) )?(?:still |ever )?(?:guards?|stands"
         rf" behind|supports?|"
         r"chases?|kicks?|bothers?|evicts?) (?:it|ours|him|that|her)\b", _stands_by,
         "The {file}-pawn comes nowhere near it."),
        (rf"\b(?:unblocks?|frees?|clears?|makes way for) {_PAWN}\b", _frees,
         "No move here steps out of the way of the {file}-pawn."),
        (rf"\bleaves? {_PAWN} free to (?:move|go|run|advance)\b", _free, "The {file}-pawn is not free."),
        (rf"\b{_PAWN} keeps its choice of one step or two\b", _free, "The {file}-pawn has no such choice."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} (?:cannot|can't|can not) {_GOES}\b", _stuck,
         "Nobody stands in the way of the {file}-pawn."),
        (rf"\b(?:keeps?|holds?) {_PAWN} (?:modest|off|back|at home|quiet|in check|from)\b", _held,
         "Nothing here holds the {file}-pawn."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} has (?:just )?(?:jumped|passed|gone past|stepped|"
         rf"advanced)\b", _went,
         "The {file}-pawn has not moved lately."),
        (r"\b(?:[Ll]ook|[Ww]atch|[Tt]hink)(?: again)? (?:at|of|along|up|down) the"
         r" (?P<file>[a-h])-file\b", _answers,
         "The answer has nothing to do with the {file}-file."),
        (r"^[Tt]he (?P<file>[a-h])-pawn (?:takes a|goes|moves|steps|does|wants|is the one)\b", _answers,
         "The answer is no move on the {file}-file."),
        (r"\b[Tt]he (?P<kind>rook|queen|king)s? (?:steps?|walks?|goes|moves?|should leave|must leave|"
         r"leaves?)(?: off)?"
         r" the (?P<file>[a-h])-file\b", _leaves, "No {kind} stands on the {file}-file."),
        (r"\b(?P<file>[a-h])-pawn in front of (?:the|his|her|our|its) king\b", _before_king,
         "No king stands behind the {file}-pawn."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} (?:holding|holds|guards|covers) (?:it|the"
         rf" {KIND})\b", _guards,
         "The {file}-pawn guards nothing spoken of here."),
        (r"\btaken by (?:the|that|his|her|our)"
         r" (?P<file>[a-h])-pawn\b", _guards, "The {file}-pawn takes nothing there."),
        (r"\b(?:the|our|his|her|my) (?P<file>[a-h])-pawn (?:firmly )?in (?:its|his|her|their)"
         r" sights\b", _in_sight,
         "Nothing here looks at the {file}-pawn."),
        (r"\b(?:no pawns?(?: left)?|(?:isn't|is not) a pawn(?: left)?|not a pawn(?: left)?) on the"
         r" (?P<file>[a-h])-file\b", _bare, "There is a pawn on the {file}-file."),
        (r"\b(?P<who>White|Black) (?:is without|has no|is missing|has lost|lacks) (?:an?|the|his|her)?"
         r" ?(?P<file>[a-h])-pawn\b", _bare, "{who} has a pawn on the {file}-file."),
        (r"\b[Hh]alf-open (?P<file>[a-h])-file for (?P<who>White|Black)\b", _bare,
         "{who} has a pawn on the {file}-file."),
        (r"\b(?P<who>white|black|White's|Black's) (?P<file>[a-h])-pawn is gone\b", _bare,
         "There is such a pawn on the {file}-file."),
        (r"\b[Bb]oth (?P<file>[a-h])-pawns (?:are|have) (?:in the box|gone|off|left|been traded)\b", _bare,
         "There is a pawn on the {file}-file."),
        (r"\b[Tt]he (?P<file>[a-h])-pawn is (?:gone|off|in the"
         r" box)\b", _less, "Both {file}-pawns are there."),
        (r"\bstand on the (?P<file>[a-h])-file, one behind the other\b", _stacked,
         "No two such men stand on the {file}-file."),
        (r"\b(?:clears|vacates) the (?P<file>[a-h])-file\b|\bthe (?P<file2>[a-h])-file is"
         r" cleared\b", _vacated,
         "No move here leaves that file."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} is (?:already |now |still )?on"
         rf" (?P<square>{SQUARE})\b", _stands,
         "No {file}-pawn stands on {square}."),
        (r"\b(?:passed (?P<file>[a-h])-pawn|the (?P<file2>[a-h])-pawn, passed)\b", _passed,
         "No {file}-pawn is passed here."),
        (r"\b(?:the|his|her|our) (?P<file>[a-h])-pawn (?:is )?(?:marching|running|advancing|coming"
         r" down)\b", _marching,
         "The {file}-pawn has not moved."),
        (rf"\b(?P<kind>rook|queen) (?:has been|is|stands|sits|stood|goes|belongs) behind"
         rf" {_PAWN}\b", _kind_behind,
         "No {kind} stands behind the {file}-pawn."),
        (r"\b(?:[Hh]e|[Tt]he king) steps? (?:on)?to the (?P<file>[a-h])-file\b", _king_near,
         "No king is next to the {file}-file."),
        (r"\b(?P<kind>rook|queen|king)s? (?:stands?|sits?|meets?|is|are|lives?)(?: [a-z]+){0,5} on the"
         r" (?P<file>[a-h])-file\b", _leaves, "No {kind} stands on the {file}-file."),
    )
)  # fmt: skip


def file_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about files and pawns named by their file."""
    if passage.role in ("idea", "part") or not _FILE.search(passage.text):
        return
    text = passage.text
    near = _near(passage)
    here = tuple(boards.of(place) for place in dict.fromkeys((passage.before, *passage.places(), *near)))
    moves = tuple(
        (boards.of(Place(one.root, one.moves[:-1])), chess.Move.from_uci(one.moves[-1])) for one in near
    )
    seen = _Seen(passage, boards, here, moves)
    for pattern, holds, message in _RULES:
        for found in pattern.finditer(text):
            group = "file" if found["file"] else "file2"
            if not denied(text, found.start()) and not holds(seen, found, "abcdefgh".index(found[group])):
                words = {name: word or "" for name, word in found.groupdict().items()}
                said = message.format(**{**words, "file": found[group]})
                yield Doubt(found.start(group), found.end(group) + 5, "prose-wing", said)
    for found in _FILE.finditer(text):
        file = "abcdefgh".index(found["file"])
        begin, _ = sentence(text, *found.span())
        if (passage.role == "told" and not passage.turns) or text.endswith("behind the ", 0, found.start()):
            continue
        if not _FAR.search(text[begin : found.start()]) and file not in _tied(seen, found):
            message = f"Nothing told right here has to do with the {found['file']}-{found['what']}."
            yield Doubt(found.start("file"), found.end("what"), "prose-wing", message)


def _near(passage: Passage) -> list[Place]:
    """The places whose last moves the words may be about; the answer's or the reply's first."""
    places = list(passage.replied)
    places += [passage.answer.after] if passage.answer and not passage.replied else []
    places += [turn.after for _, turn in passage.turns]
    places += [turn.after for turn in passage.ahead[:2]]
    places += [passage.moved] if passage.moved else []
    if passage.role in ("back", "title"):
        places += passage.near
    before = passage.before
    places += [Place(before.root, before.moves[:-back] if back else before.moves) for back in (0, 1)]
    return [place for place in dict.fromkeys(places) if place.moves]


def _asked(passage: Passage) -> list[chess.Square]:
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


def _named(text: str) -> set[chess.Square]:
    return {chess.parse_square(one) for one in re.findall(rf"\b{SQUARE}\b", text)}


def _set(squares: set[int]) -> chess.SquareSet:
    return chess.SquareSet(squares)


def _tied(seen: _Seen, found: re.Match[str]) -> set[int]:
    """The files of moves, squares, marks and men near, for a pawn also those from which it takes."""
    passage = seen.passage
    squares = seen.targets() | {move.from_square for _, move in seen.moves}
    texts = [passage.text]
    asked = passage.question
    if asked is not None:
        other = [one for one in (asked.text, asked.because, asked.otherwise, *asked.nudges) if one]
        other += [reply.text for reply in (*asked.replies, *asked.also)]
        texts += [one.shown for one in other if one.shown != passage.text]
    marks = [one for _, mark in passage.marks for each in mark.marks for one in (each.square, each.to) if one]
    squares |= _named(" ".join((*texts, *marks)))
    files = {one % 8 for one in squares}
    files |= {"abcdefgh".index(one["file"]) for text in texts[1:] for one in _FILE.finditer(text)}
    for board in seen.here:
        for king in board.pieces(chess.KING, True) | board.pieces(chess.KING, False):
            files |= {king % 8 - 1, king % 8, king % 8 + 1}
        if found["what"] == "pawn":
            files |= {file for one in squares for file in _beside(board, one)}
            continue
        files |= {man % 8 for man in chess.SquareSet(board.queens | board.rooks)}
        if chess.popcount(board.occupied) < 7:
            for color in chess.COLORS:
                for man in board.pieces(chess.PAWN, color):
                    width = 7 - man // 8 if color else man // 8
                    files |= {man % 8 - width, man % 8 + width}
    return files


def _beside(board: chess.Board, square: chess.Square) -> Iterator[int]:
    """The files of pawns that guard or attack a square, or could after some steps."""
    for color in chess.COLORS:
        for man in board.pieces(chess.PAWN, color):
            ahead = (square // 8 - man // 8) * (1 if color else -1)
            if abs(man % 8 - square % 8) == 1 and ahead >= 1:
                yield man % 8
