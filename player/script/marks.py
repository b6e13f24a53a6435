"""What `show` puts on the board: squares, lines, who hits whom, and the word for it."""

from __future__ import annotations

import re
from dataclasses import dataclass

import chess

from player.script.told import Mark, Shown

_SHOW = re.compile(r"show(?:\s+(?P<value>.*))?", re.DOTALL | re.IGNORECASE)
_SQUARE = "[a-hA-H][1-8]"
_MEANING = re.compile(r"(?:^|(?<=\s))as\s+(?P<word>\S.*)$", re.IGNORECASE)
_WORD = re.compile(r"[^\W\d_][\w'-]*(?: [^\W\d_][\w'-]*){0,2}")
_LINE = re.compile(rf"({_SQUARE})\s*-\s*({_SQUARE})")
_HIT = re.compile(rf"({_SQUARE})\s+to\s+({_SQUARE})", re.IGNORECASE)
_PART = re.compile(
    rf"(?P<hit>{_SQUARE}\s+to\s+{_SQUARE})|(?P<line>{_SQUARE}\s*-\s*{_SQUARE})|(?P<square>{_SQUARE})",
    re.IGNORECASE,
)
_BETWEEN = re.compile(r"(?:\s|,|;|\band\b)*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Unshown:
    """A `show` in no known form: what is wrong, and the text meant."""

    message: str
    text: str


def shown_value(deed: str) -> str | None:
    """What a brace shows; None where it does not show but move."""
    found = _SHOW.fullmatch(deed)
    return None if found is None else found["value"] or ""


def shown_of(value: str) -> Shown | Unshown:
    """`e4, d5`, `g2-b7`, `d5 to c4, e4`, each with or without `as WORD`, as marks."""
    listed, meaning = value.strip(), ""
    named = _MEANING.search(listed)
    if named:
        meaning = named["word"].strip()
        listed = listed[: named.start()].rstrip(" ,")
        if not _WORD.fullmatch(meaning):
            return Unshown("After as stands a word for what is shown.", meaning)
    marks: list[Mark] = []
    hitter, at = "", 0
    while at < len(listed):
        found = _PART.match(listed, at)
        if not found:
            return Unshown(FORMS, listed[at:])
        end = found.end()
        if end < len(listed) and (listed[end].isalnum() or listed[end] == "-"):
            return Unshown(FORMS, listed[at:])
        if found["hit"]:
            hitter, to = (square.lower() for square in _HIT.fullmatch(found["hit"]).groups())  # type: ignore[union-attr]
            marks.append(Mark("hit", hitter, to))
        elif found["line"]:
            first, last = (square.lower() for square in _LINE.fullmatch(found["line"]).groups())  # type: ignore[union-attr]
            if first == last:
                return Unshown("A line goes from one square to another.", found["line"])
            marks.append(Mark("line", first, last))
            hitter = ""
        elif hitter:
            marks.append(Mark("hit", hitter, found["square"].lower()))
        else:
            marks.append(Mark("square", found["square"].lower()))
        if marks[-1].kind == "hit" and marks[-1].to == hitter:
            return Unshown("A man does not hit its own square.", found[0])
        between = _BETWEEN.match(listed, end)
        at = between.end() if between else end
    if not marks:
        return Unshown(FORMS, value)
    return Shown(tuple(dict.fromkeys(marks)), meaning)


def no_hit(shown: Shown, board: chess.Board) -> str:
    """What is not so of who hits whom on this board, or is no line on any; "" where all of it is so."""
    for mark in shown.marks:
        if mark.kind == "line" and not _is_way(mark.square, mark.to):
            return f"{mark.square} and {mark.to} stand on no common file, rank or diagonal."
        if mark.kind != "hit":
            continue
        man = board.piece_at(chess.parse_square(mark.square))
        if man is None:
            return f"Nothing stands on {mark.square} that could hit {mark.to}."
        if chess.parse_square(mark.to) not in board.attacks(chess.parse_square(mark.square)):
            return f"The {chess.PIECE_NAMES[man.piece_type]} on {mark.square} does not hit {mark.to}."
    return ""


def _is_way(first: str, last: str) -> bool:
    """Whether a man of any kind could go from one square to the other on an empty board."""
    squares = chess.SquareSet.ray(chess.parse_square(first), chess.parse_square(last))
    return bool(squares) or bool(
        chess.BB_KNIGHT_ATTACKS[chess.parse_square(first)] & chess.BB_SQUARES[chess.parse_square(last)]
    )


FORMS = (
    "Shown are squares (e4, d5), lines (g2-b7) or who hits whom (d5 to c4, e4), and perhaps as and a word."
)


def near_show(value: str) -> str:
    """The squares in a value that shows nothing, as it could show them: g2-d5, or e4, d5; or ""."""
    squares = re.findall("[a-h][1-8]", value.lower())
    if len(squares) == 2 and _is_way(*squares):
        return "-".join(squares)
    return ", ".join(dict.fromkeys(squares[:8]))


def said_of(value: str) -> str:
    """What of a `show` in a brace is spoken where no other words are given: all but its meaning."""
    return _MEANING.sub("", value).strip(" ,")
