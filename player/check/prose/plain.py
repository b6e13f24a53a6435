"""Prose against what holds on any board: how a man moves, what can be passed, and what one word rules out."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.words import COUNTS, KIND, KINDS, SQUARE, denied, supposed
from player.facts.place import Place, is_playable
from player.facts.results import result_known

_SINGULAR = re.compile(
    r"\b(?:two|three|four|five|six|seven|eight|nine|ten) (?:white |black )?"
    r"(?:pawn|knight|bishop|rook|queen|king|square|step|move|man|piece|file|rank|guard|attacker)\b"
    r"(?![-'’])(?! \w+(?:s|es)\b)",
    re.IGNORECASE,
)
_PLURAL = re.compile(
    r"(?<!which )(?<!the )\b[Oo]ne (?:white |black |more |only"
    r" )?(?:pawns|knights|bishops|rooks|queens|kings|squares|men|pieces|files|ranks|guards)\b|\bneeded"
    r" one moves\b"
)
_SEES = re.compile(
    rf"\b(?P<kind>{KIND}) on (?P<on>{SQUARE}) (?:takes|attacks|guards|looks"
    rf" at|hits|watches|covers|controls|holds) (?P<square>{SQUARE})\b",
    re.IGNORECASE,
)
_ONLY_PAWNS = re.compile(
    r"\b(?:passed|isolated|backward) (?P<kind>knight|bishop|rook|queen|king)s?\b|"
    r"\bdoubled (?P<kind3>knight|bishop|king)s?\b|\b[a-h]-(?P<kind2>bishop|queen|king)s?\b|"
    r"\b(?P<kind4>knight|bishop|rook|queen|king) (?:chain|race|storm|island|structure|majority|skeleton)s?\b|"
    r"\b(?P<kind5>knight|bishop|rook|queen|king)s? (?:that |which |who )?(?:queens|promotes|becomes a queen"
    r"|gets (?:its|his|her) crown|(?:can |may )?(?:jumps?|goes|steps) two squares)\b",
    re.IGNORECASE,
)
_WEDGE = re.compile(
    r"\b(?P<number>three|four|five|six) squares (?:that )?(?:the|our|his|a) (?:wedge|pawn)"
    r" (?:guards|attacks|takes|holds)\b",
    re.IGNORECASE,
)
_SINCE = re.compile(
    r"\b(?P<one>White|Black) has it,? (?:since|because|as|for) (?P<two>White|Black) (?:has to|must|is)\b"
)
_WHO_HAS = re.compile(
    r"\b(?P<who>White|Black)'s (?:[a-h]-)?(?P<kind>pawn|knight|bishop|rook|queen|king) has just \w+"
)
_WHICH = re.compile(
    rf"\b[Ww]hich (?P<color>white|black) (?P<kind>man|piece|{KIND})"
    rf" (?:has|goes|comes|moves|should|is|made|can)\b"
)
_GONE = re.compile(
    rf"\b(?:the|his|her|our|your) (?P<kind>{KIND}) (?:is gone|falls|is lost|drops off|disappears)\b",
    re.IGNORECASE,
)
_LATE = re.compile(r"(?:^|[.;:,] )(?P<it>[Tt]oo late)\b(?! for)")
_ONLY = re.compile(r"\b(?P<it>(?:the )?only (?P<what>legal |winning |good |possible )?move)\b", re.IGNORECASE)
_ONE_WINS = re.compile(r"\b(?P<number>[Oo]nly one|[Oo]nly two|[Oo]nly three|[Tt]wo|[Tt]hree) moves? wins?\b")
_GETS_IT = re.compile(
    r"\b(?P<who>White|Black) (?:gets|finds|has) (?:the move|the one move) (?:he|she|it) (?:needs|needed)\b"
)


def plain_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about what cannot be so, wherever it is said, and about words like "only" and "too late"."""
    text = passage.text
    for pattern, message in (
        (_SINGULAR, "More than one would be named in the plural."),
        (_PLURAL, "One would be named in the singular."),
    ):
        for found in pattern.finditer(text):
            yield _doubt(found, 0, message, "prose-count")
    for found in _SEES.finditer(text):
        men = [chess.Piece(KINDS[found["kind"].lower()], color) for color in chess.COLORS]
        if not any(_looks(man, found["on"], found["square"]) for man in men) and not denied(
            text, found.start()
        ):
            yield _doubt(
                found,
                "square",
                f"No {found['kind'].lower()} on {found['on']} looks at {found['square']}.",
                "prose-hit",
            )
    for found in _ONLY_PAWNS.finditer(text):
        yield _doubt(found, found.lastgroup or "kind", "That is said of pawns only.", "prose-man")
    for found in _WEDGE.finditer(text):
        yield _doubt(found, "number", "A pawn guards two squares at most.", "prose-count")
    for found in _SINCE.finditer(text):
        if found["one"] == found["two"]:
            yield _doubt(found, "one", "The one who has it is not the one who must move.", "prose-side")
    if passage.role not in ("idea", "part"):
        yield from _sides(passage, boards)
        yield from _losses(passage, boards)
        yield from _onlys(passage, boards)


def _doubt(found: re.Match[str], group: str | int, message: str, code: str) -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message)


def _looks(piece: chess.Piece, on: str, square: str) -> bool:
    empty = chess.Board(None)
    empty.set_piece_at(chess.parse_square(on), piece)
    return chess.parse_square(square) in empty.attacks(chess.parse_square(on))


def _sides(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Whose man has just moved, whose move is asked for, and on which wing."""
    text, asked = passage.text, passage.question
    for found in _WHO_HAS.finditer(text):
        last = passage.before if asked is not None else passage.last(found.start())
        if last is not None and last.moves and boards.of(last).turn == (found["who"] == "White"):
            yield _doubt(found, "who", "The last move told is the other side's.", "prose-side")
    for found in _GETS_IT.finditer(text):
        next_turn = next((turn for at, turn in passage.turns if at >= found.end()), None)
        if next_turn is not None and boards.of(next_turn.before).turn != (found["who"] == "White"):
            yield _doubt(found, "who", f"{next_turn.san} is a move of the other side.", "prose-side")
    if asked is None or passage.role != "question":
        return
    turn = boards.of(passage.before).turn
    if asked.kind == "move":
        for found in _WHICH.finditer(text):
            if (found["color"] == "white") != turn:
                yield _doubt(found, "color", "The other side is asked for a move here.", "prose-side")


def _losses(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "The pawn is gone": such a man was taken in the words before."""
    for found in _GONE.finditer(passage.text):
        told = [turn.after for at, turn in passage.turns if at < found.start()]
        if "lost" in found[0]:
            told += [turn.after for _, turn in passage.turns] + [turn.after for turn in passage.ahead]
        if not told or supposed(passage.text, *found.span()) or denied(passage.text, found.start()):
            continue
        kind = KINDS[found["kind"].lower()]
        places = [*told, *([passage.moved] if passage.moved else []), *passage.replied]
        if not any(_taken(boards, place) == kind for place in places if place.moves):
            yield _doubt(found, "kind", f"No {found['kind'].lower()} has been taken here.", "prose-man")


def _taken(boards: Boards, place: Place) -> int | None:
    move = chess.Move.from_uci(place.moves[-1])
    before = boards.of(Place(place.root, place.moves[:-1]))
    return chess.PAWN if before.is_en_passant(move) else before.piece_type_at(move.to_square)


def _onlys(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "Too late" and "the only move", where legal moves and exact tables can tell."""
    text = passage.text
    for found in _ONE_WINS.finditer(text):
        number = COUNTS[found["number"].split()[-1].lower()]
        wins = _winning(boards.of(passage.at(found.start())))
        if wins is not None and wins != number:
            yield _doubt(found, "number", f"By the tables, moves that win: {wins}.", "prose-count")
    if passage.role in ("reply", "also"):
        for found in _LATE.finditer(text):
            places = [
                place
                for place in passage.replied
                if (value := _after(boards, place)) is not None and value >= 0
            ]
            if places and all(_after(boards, place) == _best(boards, place) for place in places):
                yield _doubt(found, "it", "By the tables nothing is lost with this move.", "prose-reply")
    for found in _ONLY.finditer(text):
        if denied(text, found.start()) or supposed(text, *found.span()):
            continue
        what = (found["what"] or "").strip().lower()
        counts: list[int] = []
        for place in tight_places(passage, found.start()):
            board = boards.of(place)
            if not is_playable(board):
                continue
            legal = board.legal_moves.count()
            wins = _winning(board)
            if what == "legal" or legal == 1:
                counts.append(legal)
            elif wins is not None:
                counts.append(wins or _holding(board) or 0)
            elif what != "legal":
                counts.append(1)
        if counts and 1 not in counts:
            yield _doubt(found, "it", "By the board more than one move does it here.", "prose-claim")


def _winning(board: chess.Board) -> int | None:
    """How many moves win for the side to move, by the exact tables; None where they do not know."""
    return _keeping(board, 1)


def _holding(board: chess.Board) -> int | None:
    return _keeping(board, 0)


def _keeping(board: chess.Board, wanted: int) -> int | None:
    if not is_playable(board) or chess.popcount(board.occupied) > 3:
        return None
    count = 0
    for move in board.legal_moves:
        after = board.copy(stack=False)
        after.push(move)
        value = _value(after)
        if value is None:
            return None
        count += value == wanted if board.turn else -value == wanted
    return count


def _value(board: chess.Board) -> int | None:
    """1 for White, 0 or -1, by the exact tables."""
    if board.is_checkmate():
        return -1 if board.turn else 1
    if board.is_stalemate() or board.is_insufficient_material():
        return 0
    return result_known(board) if chess.popcount(board.occupied) <= 3 else None


def _after(boards: Boards, place: Place) -> int | None:
    """What a place is worth to the one who has just moved, by the exact tables."""
    board = boards.of(place)
    value = _value(board) if is_playable(board) else None
    return None if value is None else -value if board.turn else value


def _best(boards: Boards, place: Place) -> int | None:
    board = boards.of(Place(place.root, place.moves[:-1]))
    value = _value(board) if is_playable(board) else None
    return None if value is None else value if board.turn else -value
