"""Notation in one unbroken chunk, in any case and any of the printed forms: Nf3, exd6, Ng1-f3, e7e8q, e8(Q),
♘f3.
"""

from __future__ import annotations

import re

import chess

from player.wording.languages import Language, Token

FIGURINES = {
    "♔": chess.KING, "♕": chess.QUEEN, "♖": chess.ROOK, "♗": chess.BISHOP, "♘": chess.KNIGHT, "♙": chess.PAWN,
    "♚": chess.KING, "♛": chess.QUEEN, "♜": chess.ROOK, "♝": chess.BISHOP, "♞": chess.KNIGHT, "♟": chess.PAWN,
}  # fmt: skip

_UCI = {"q": chess.QUEEN, "r": chess.ROOK, "b": chess.BISHOP, "n": chess.KNIGHT}
_CASTLING = re.compile(r"^[oO0]-?[oO0](-?[oO0])?[+#!?]*$")
_TAIL = re.compile(r"(?:\(?e\.?p\.?\)?)?[+#!?†‡]*$")
_MOVE = re.compile(
    r"^(?P<head>[^\W\d_xX♔-♟]?[a-wyz]?[0-9]?|[♔-♟][a-wyz]?[0-9]?)(?P<take>[x:*-]?)(?P<square>[a-z][0-9])"
    r"(?P<turn>[=/(]*)(?P<promo>[^\W\d_]|[♔-♟])?\)?$"
)
_PAWN_FILES = re.compile(r"^([a-h])[x:]?([a-h])$")


def compact(chunk: str, words: Language, capitals: bool) -> tuple[tuple[Token, ...], ...] | None:
    """Every reading of one chunk of notation as tokens, or None where it is no notation.

    `capitals` says that the whole text is in capitals, when a capital means nothing. A letter that names both
    a man and a file gives two readings, unless it is a capital in mixed case: then it is the man.
    """
    castling = _CASTLING.match(chunk)
    if castling:
        return ((Token("C", 0, chunk), Token("s", int(castling.group(1) is None), chunk)),)
    marks = _TAIL.search(chunk)
    tail = marks.group() if marks else ""
    body = chunk[: len(chunk) - len(tail)]
    after: tuple[Token, ...] = ()
    if "e" in tail.lower() and len(body) >= 2:
        after += (Token("e", 0, tail),)
    elif "e" in tail.lower():
        body, tail = chunk.rstrip("+#!?"), ""
    if any(mark in tail for mark in "+#†‡"):
        after += (Token("c", int("#" in tail or "++" in tail), tail),)
    runs: tuple[tuple[Token, ...], ...]
    if len(body) == 1:
        runs = tuple((token,) for token in _letters(body, words, capitals))
    elif len(body) == 2 and body[1] in "xX:" and body[0] not in "xX:":
        runs = tuple((token, Token("T", 0, body[1])) for token in _letters(body[0], words, capitals))
    else:
        runs = _body(body, words, capitals)
    return tuple(run + after for run in runs) or None


def _letters(letter: str, words: Language, capitals: bool) -> tuple[Token, ...]:
    """What a lone letter may be: a man, a file, or both."""
    if letter in FIGURINES:
        return (Token("P", FIGURINES[letter], letter),)
    lower = letter.lower()
    man = words.by_letter.get(lower)
    file = "abcdefgh".find(lower)
    as_man = () if man is None else (Token("P", man, letter),)
    if man is not None and (file < 0 or (letter.isupper() and not capitals)):
        return as_man
    as_file = (Token("F", file, letter),) if file >= 0 and lower else ()
    return as_file + as_man


def _body(body: str, words: Language, capitals: bool) -> tuple[tuple[Token, ...], ...]:
    files = _PAWN_FILES.match(body.lower())
    if files and abs(ord(files.group(1)) - ord(files.group(2))) == 1:
        take = Token("T", 0, "x")
        starts = _letters(body[0], words, capitals)
        target = Token("F", "abcdefgh".index(files.group(2)), files.group(2))
        return tuple((start, take, target) for start in starts)
    found = _MOVE.match(body) or _MOVE.match(body.lower())
    if not found:
        return ()
    square = _square(found["square"])
    if square is None:
        return ()
    rest: tuple[Token, ...] = (square,)
    if found["take"] in ("x", ":", "*") and found["take"]:
        rest = (Token("T", 0, "x"), square)
    promo = found["promo"]
    if promo:
        kind = FIGURINES.get(promo, words.by_letter.get(promo.lower()))
        if kind is None and len(found["head"]) == 2:
            kind = _UCI.get(promo)
        if kind is None:
            return ()
        rest += (Token("X", 0, "="), Token("P", kind, promo))
    elif found["turn"]:
        rest += (Token("X", 0, "="),)
    # The head keeps the letters' own case, which the lowered match may have lost.
    head = body[: len(found["head"])]
    return tuple(start + rest for start in _heads(head, words, capitals) if start or found["take"] != "-")


def _heads(head: str, words: Language, capitals: bool) -> list[tuple[Token, ...]]:
    """The readings of what stands before the square of arrival: nothing, a man, a file, a square, or a man
    and those.
    """
    if not head:
        return [()]
    if head in "12345678" and len(head) == 1:
        return [(Token("R", int(head) - 1, head),)]
    out: list[tuple[Token, ...]] = []
    first, rest = head[0], head[1:]
    if len(head) == 2 and head[1].isdigit() and head[0].lower() in "abcdefgh":
        out.append((Token("S", chess.parse_square(head.lower()), head),) if head[1] in "12345678" else ())
    for token in _letters(first, words, capitals):
        if not rest:
            out.append((token,))
        elif token.kind == "P" and len(rest) == 1:
            if rest.isdigit():
                out.append((token, Token("R", int(rest) - 1, rest)))
            elif rest.lower() in "abcdefgh":
                out.append((token, Token("F", "abcdefgh".index(rest.lower()), rest)))
        elif token.kind == "P" and len(rest) == 2:
            origin = _square(rest.lower())
            if origin is not None:
                out.append((token, origin))
    if len(head) == 2 and head[1].isdigit():
        # B1c3 with a capital in mixed case is the bishop of the first rank. b1c3 is two squares, and
        # the bishop only where bishops must be told apart (a weak rank).
        men = [run for run in out if run and run[0].kind == "P"]
        squares = [run for run in out if run and run[0].kind == "S"]
        if not squares or (men and first.isupper() and not capitals):
            return men
        return squares + [(run[0], Token("R", run[1].value, run[1].text, weak=True)) for run in men]
    return [run for run in out if run]


def _square(text: str) -> Token | None:
    """A square, on the board or off it; None where letter and figure can be no square at all."""
    file, rank = "abcdefgh".find(text[0]), int(text[1]) - 1
    if file >= 0 and 0 <= rank <= 7:
        return Token("S", chess.square(file, rank), text)
    return Token("S", -1, text)
