"""Prose against counts: men on the board, guards and attackers, steps, material, and what is shown."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.standing import history
from player.check.prose.words import (
    COUNT,
    COUNTS,
    KIND,
    KINDS,
    SQUARE,
    sentence,
    supposed,
)
from player.facts.material import VALUES
from player.facts.place import Place
from player.wording.claim_words import number_of

_MEN = re.compile(
    rf"\b(?P<number>two|three|four|five|six|seven|eight|nine|both|no|only one)(?: (?:more|of the|of his|of"
    rf" our|of black's|of white's))? "
    rf"(?:(?P<color>white|black) )?(?P<kind>{KIND})s?\b"
    r"(?!['-]| (?:moves?|steps?|endings?|squares?|trades?|wings?)\b)",
    re.IGNORECASE,
)
_HAS = re.compile(
    r"\b(?P<side>White|Black|[Ww]e|[Hh]e|[Ss]he|[Tt]hey|[Yy]ou) (?:(?:still|now|only) )?(?:has|have|had) "
    rf"(?P<list>(?:(?:just |only )?(?:an?|{COUNT}) {KIND}s?\b(?: on {SQUARE})?(?:, (?:and )?| and )?)+)"
)
_EACH = re.compile(rf"\b(?P<number>an?|{COUNT}) (?P<kind>{KIND})s?\b", re.IGNORECASE)
_LEFT = re.compile(
    rf"\b(?:left (?P<square>{SQUARE}) on|(?:{KIND}) (?P<on>on) (?P<there>{SQUARE}),?(?: which| that)? "
    rf"(?:has not|never|has never) moved (?:since|after)) move (?P<number>[a-z-]+|\d+)",
    re.IGNORECASE,
)
_STEPS = re.compile(
    r"\b(?:goes|steps|moves|takes|took|went|jumps|with) (?:just |only"
    r" )?(?P<number>an?|one|two|three|four|five|six|single)(?: single| full)? (?:squares?|steps?)\b(?!"
    r" (?:from|between|on|to))",
    re.IGNORECASE,
)
_AHEAD = re.compile(
    r"\b(?P<side>White|Black|we|We)(?: is| are|'s)? (?:now |still |already )?(?:(?P<word>up|down)"
    r" )?(?P<thing>a pawn|two pawns|three pawns|a piece|a knight|a bishop|a rook|the exchange|a queen)(?:"
    r" (?P<word2>ahead|up|behind|down))?\b"
)
_THINGS = {
    "a pawn": 1,
    "two pawns": 2,
    "three pawns": 3,
    "a piece": 3,
    "a knight": 3,
    "a bishop": 3,
    "the exchange": 2,
    "a rook": 5,
    "a queen": 9,
}
_SHOWN = re.compile(r"\b(?P<number>one|two|three|four|five|six)\b(?: squares?)?", re.IGNORECASE)
_LISTED = re.compile(
    rf"^(?P<number>{COUNT}): (?P<list>(?:(?:, and |, | and )?(?:the {KIND} on )?{SQUARE})+)[.;]",
    re.IGNORECASE,
)


def counting_doubts(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Doubts about numbers of men, steps, moves, and squares shown."""
    yield from _men(passage, boards)
    yield from _has(passage, boards, side)
    yield from _steps(passage, boards)
    yield from _ahead(passage, boards, side)
    yield from _shown(passage)
    yield from _shown_in_sentence(passage)
    yield from _history(passage, boards)
    listed = _LISTED.match(passage.text)
    if listed:
        squares = re.findall(SQUARE, listed["list"])
        if len(set(squares)) != COUNTS.get(listed["number"].lower(), -1):
            yield Doubt(
                listed.start("number"), listed.end("number"), "prose-count", f"{len(set(squares))} are named."
            )


def _men(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    if passage.role in ("idea",):
        return
    around = [boards.of(place) for place in passage.places()]
    around += [boards.of(turn.after) for turn in passage.ahead]
    for found in _MEN.finditer(passage.text):
        word = found["number"].lower()
        kind = KINDS[found["kind"].lower()]
        color = None if not found["color"] else found["color"].lower() == "white"
        number = COUNTS.get(word)
        if number is None or number < 2:
            continue
        most = max(_number(board, kind, color) for board in around)
        if number > most and not supposed(passage.text, *found.span()):
            name = f"{found['color'] or ''} {found['kind'].lower()}s".strip()
            yield Doubt(
                found.start(), found.end(), "prose-count", f"There are not so many {name} here, but {most}."
            )


def _number(board: chess.Board, kind: int, color: bool | None) -> int:
    sides = chess.COLORS if color is None else (color,)
    return sum(len(board.pieces(kind, one)) for one in sides)


def _has(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    for found in _HAS.finditer(passage.text):
        if supposed(passage.text, *found.span()):
            continue
        word = found["side"].lower()
        sides = {"white": [True], "black": [False], "we": [side == "white"]}.get(word, chess.COLORS)
        around = [boards.of(place) for place in (*passage.places(), *history(passage)[:8])]
        sums: dict[int, int] = {}
        for each in _EACH.finditer(passage.text, found.start("list"), found.end("list")):
            word = each["number"].lower()
            kind = KINDS[each["kind"].lower()]
            sums[kind] = sums.get(kind, 0) + (int(word) if word.isdigit() else COUNTS.get(word, 1))
            if sums[kind] > max(_number(board, kind, color) for board in around for color in sides):
                yield Doubt(each.start(), each.end(), "prose-count", "That side has not so many here.")


def _steps(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    if passage.role not in ("nudge",) or passage.answer is None:
        return
    move = chess.Move.from_uci(passage.answer.uci)
    board = boards.of(passage.answer.before)
    if board.piece_type_at(move.from_square) == chess.KNIGHT or board.is_castling(move):
        return
    far = chess.square_distance(move.from_square, move.to_square)
    for found in _STEPS.finditer(passage.text):
        number = COUNTS.get(found["number"].lower())
        if number is not None and number != far and not supposed(passage.text, *found.span()):
            yield Doubt(
                found.start("number"), found.end(), "prose-count", f"{passage.answer.san} goes {far}."
            )


def _ahead(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    for found in _AHEAD.finditer(passage.text):
        word = found["word"] or found["word2"]
        if not word or supposed(passage.text, *found.span()):
            continue
        color = found["side"] == "White" if found["side"] in ("White", "Black") else side == "white"
        sign = (1 if color else -1) * (-1 if word in ("down", "behind") else 1)
        worth = _THINGS[found["thing"]]
        around = [boards.of(place) for place in passage.places()] + [
            boards.of(turn.after) for turn in passage.ahead[:1]
        ]
        balances = {sign * balance(board) for board in around}
        if not any(abs(one - worth) <= 1 and one > 0 for one in balances):
            yield Doubt(
                found.start(), found.end(), "prose-count", "The men on the board do not add up to that here."
            )


def balance(board: chess.Board) -> int:
    """White's men less Black's, in pawns."""
    return sum(
        value * (len(board.pieces(kind, chess.WHITE)) - len(board.pieces(kind, chess.BLACK)))
        for kind, value in VALUES.items()
        if kind != chess.KING
    )


def _shown_in_sentence(passage: Passage) -> Iterator[Doubt]:
    """ "Three squares" in a sentence that shows another number of them."""
    for found in re.finditer(rf"\b({COUNT}) squares?\b", passage.text, re.IGNORECASE):
        first, last = sentence(passage.text.replace(":", ","), *found.span())
        shown = [one for at, one in passage.marks if first <= at <= last]
        words = re.findall(rf"\b(?:{COUNT}) squares?\b", passage.text[first:last], re.IGNORECASE)
        if len(shown) != 1 or len(words) != 1 or len(shown[0].marks) < 2:
            continue
        marks = shown[0].marks
        number = int(found[1]) if found[1].isdigit() else COUNTS[found[1].lower()]
        if all(mark.kind == "square" for mark in marks) and number != len(marks):
            yield Doubt(found.start(), found.end(), "prose-count", f"{len(marks)} squares are shown here.")


def _history(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "It left h2 on move eleven", "has not moved since move three"."""
    moves = passage.before.moves
    if boards.of(Place(passage.before.root)).fullmove_number != 1 or not moves:
        return
    first = 0 if boards.of(Place(passage.before.root)).turn else 1
    for found in _LEFT.finditer(passage.text):
        number = number_of(found["number"])
        if number is None:
            continue
        told = [moves[ply] for ply in range(len(moves)) if (ply + first) // 2 + 1 == number]
        square = (found["square"] or found["there"]).lower()
        at = 2 if found["on"] else 0
        if told and not any(move[at : at + 2] == square for move in told):
            doubt = "came to" if found["on"] else "left"
            yield Doubt(
                found.start(),
                found.end(),
                "prose-count",
                f"No man {doubt} {square} on move {found['number']}.",
            )


def _shown(passage: Passage) -> Iterator[Doubt]:
    """Words right at marks: "two squares" for two of them, and squares that are among them."""
    text = passage.text
    for number, (at, shown) in enumerate(passage.marks):
        stop = passage.marks[number + 1][0] if number + 1 < len(passage.marks) else len(text)
        turns = [turn for turn, _ in passage.turns if turn > at]
        piece = text[at : min(stop, *turns) if turns else stop]
        piece = re.split(r"[,.;!?]", piece)[0]
        squares = [mark for mark in shown.marks if mark.kind == "square"]
        found = re.match(rf"(?:these |the |those )?{_SHOWN.pattern}", piece, re.IGNORECASE)
        if found and len(squares) == len(shown.marks) and COUNTS[found["number"].lower()] != len(squares):
            yield Doubt(
                at + found.start("number"),
                at + found.end("number"),
                "prose-count",
                f"{len(squares)} shown here.",
            )
        listed = re.match(rf"(?:on |the )?{SQUARE}(?:(?:, and |, | and )(?:on )?{SQUARE})+", text[at:])
        named = re.findall(SQUARE, listed[0]) if listed and len(shown.marks) > 1 else []
        if listed and len(set(named)) < len(named):
            yield Doubt(at, at + listed.end(), "prose-square", "One of these squares is said twice.")
        for one in re.finditer(SQUARE, listed[0]) if listed and len(shown.marks) > 1 else ():
            if one[0] not in {name for mark in shown.marks for name in (mark.square, mark.to)}:
                start = at + one.start()
                yield Doubt(start, start + 2, "prose-square", "Other squares are shown here.")
        said = re.match(rf"(?:the |this |on |these )*(?:squares? )?(?P<square>{SQUARE})\b", piece)
        names = {name for mark in shown.marks for name in (mark.square, mark.to)}
        if not said and len(shown.marks) == 1 and shown.marks[0].to:
            said = re.match(rf"[a-z ]+ (?:to|from) (?P<square>{SQUARE})$", piece)
        if said and said["square"] not in names:
            yield Doubt(
                at + said.start("square"),
                at + said.end("square"),
                "prose-square",
                "Another square is shown here.",
            )
