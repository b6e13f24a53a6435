"""The inside of a script's brace: one move in words, or several in notation."""

from __future__ import annotations

import re

import chess

from player.wording.grammar import runs
from player.wording.hear import hear
from player.wording.hearing import Ambiguous, Illegal, MoveHeard, NotAMove, placed
from player.wording.languages import language as language_of
from player.wording.notation import FIGURINES
from player.wording.tokens import plain, slots

_MOST_WORDS = 12  # of "both sides castle" in any of its forms
_NUMBER = re.compile(r"^\d+\s*(?:\.+|…)?$")
_GLUED_NUMBER = re.compile(r"^\d+\s*(?:\.+|…)(?=\D|0\W?0)")
_PASSANT = re.compile(r"^\(?e\.?p\.?\)?[+#]?$", re.IGNORECASE)
_GLYPHS = re.compile(r"^(?:[!?+#=]+|\$\d+)$")


def hear_turns(
    board: chess.Board, deed: str, *, language: str = "en"
) -> tuple[chess.Move, ...] | Ambiguous | Illegal | NotAMove:
    """The moves that the inside of a brace means on this board, one at least.

    A phrase is one move; several moves stand in notation, parted by blanks, with or without move numbers;
    "both sides castle" is two moves. What goes wrong says at which move (`at`, from 0) and in which position
    (`fen`).
    """
    words = language_of(language)
    heard = slots(plain(deed), words) if len(deed.split()) <= _MOST_WORDS else []
    for run in runs(heard):
        if [token.kind for token in run if token.kind != "W"] == ["2"]:
            return _both(board, language)
    chunks = _notation(deed, language)
    whole = hear(board, deed, language=language, script=True)
    if len(chunks) < 2 or isinstance(whole, MoveHeard):
        if isinstance(whole, MoveHeard):
            return (whole.move,) if len(chunks) < 2 else _prefer(board, chunks, whole.move, language)
        return placed(whole, 0, board)
    return _several(board, chunks, language)


def _prefer(
    board: chess.Board, chunks: list[str], single: chess.Move, language: str
) -> tuple[chess.Move, ...] | Ambiguous | Illegal | NotAMove:
    """ "e2 e4" is one move in two words, unless each word is a move of its own."""
    several = _several(board, chunks, language)
    return several if isinstance(several, tuple) else (single,)


def _several(
    board: chess.Board, chunks: list[str], language: str
) -> tuple[chess.Move, ...] | Ambiguous | Illegal | NotAMove:
    board = board.copy()
    moves: list[chess.Move] = []
    for at, chunk in enumerate(chunks):
        found = hear(board, chunk, language=language, script=True)
        if not isinstance(found, MoveHeard):
            return placed(found, at, board)
        moves.append(found.move)
        board.push(found.move)
    return tuple(moves)


def _both(board: chess.Board, language: str) -> tuple[chess.Move, ...] | Ambiguous | Illegal | NotAMove:
    """Both sides castle: each on the one side it can; where one may choose, the choice is asked for."""
    board = board.copy()
    moves: list[chess.Move] = []
    for at in range(2):
        found = _castles(board, language)
        if not isinstance(found, MoveHeard):
            return placed(found, at, board)
        moves.append(found.move)
        board.push(found.move)
    return tuple(moves)


def _castles(board: chess.Board, language: str) -> MoveHeard | Ambiguous | Illegal | NotAMove:
    word = language_of(language).groups["castle"][0]
    return hear(board, word, language=language, script=True)


def _notation(deed: str, language: str) -> list[str]:
    """The moves in notation that the text is made of, or an empty list where anything else stands in it."""
    words = language_of(language)
    chunks: list[str] = []
    for raw in deed.replace("…", "...").split():
        chunk = _GLUED_NUMBER.sub("", raw).strip(",;")
        if not chunk or _NUMBER.match(chunk) or _GLYPHS.match(chunk) or chunk.strip(".") == "":
            continue
        if _PASSANT.match(chunk) and chunks:
            chunks[-1] += f" {chunk}"
            continue
        if not _is_notation(chunk.lstrip("."), words.by_letter):
            return []
        chunks.append(chunk.lstrip("."))
    return chunks


_MOVE = re.compile(
    r"(?:[^\W\d_♔-♟]|[♔-♟])?[a-z]?\d?[x:×*–—−-]?[a-z]\d(?:[=/(]?(?:[^\W\d_]|[♔-♟])\)?)?(?:e\.?p\.?)?[+#!?]*"
)
_SHORT = re.compile(r"[a-h]x?[a-h][+#!?]*")
_CASTLING = re.compile(r"[oO0][-–—−‑]?[oO0](?:[-–—−‑]?[oO0])?[+#!?]*")


def _is_notation(chunk: str, letters: object) -> bool:
    if any(char in FIGURINES for char in chunk):
        return True
    lower = chunk.lower()
    return bool(
        _MOVE.fullmatch(chunk)
        or _MOVE.fullmatch(lower)
        or _CASTLING.fullmatch(chunk)
        or _SHORT.fullmatch(lower)
    )
