"""Saying a move: the words for the voice and the notation for the eye."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import chess

from player.wording.languages import Language
from player.wording.languages import language as language_of
from player.wording.match import taken_square
from player.wording.san import San, in_letters, parts

Depth = Literal["full", "short", "spelled"]
Naming = Literal["letters", "fide", "alphabet"]


@dataclass(frozen=True, slots=True)
class Said:
    """A move as it is spoken, as it is shown in notation, and in words to be read: files as plain letters."""

    spoken: str
    shown: str
    words: str


def say(
    board: chess.Board,
    move: chess.Move,
    *,
    depth: Depth = "full",
    naming: Naming = "letters",
    language: str = "en",
) -> Said:
    """The words for a legal move and its notation in the language's letters.

    "full" names the man taken; "short" is as brief as notation is; "spelled" says both squares, file and rank
    apart. `naming` says files as letters, by the FIDE names (Laws, Appendix D) or in the spelling alphabet.
    What is spoken means this move alone when `hear` hears it on the same board. ValueError where the move is
    not legal.
    """
    if not board.is_legal(move):
        raise ValueError(f"{move.uci()} is not legal here")
    san = board.san(move)
    victim = 0
    passant = False
    if "x" in san:
        square = taken_square(board, move)
        victim = board.piece_type_at(square) or 0
        passant = square != move.to_square
    return _said(san, move.from_square, victim, passant, depth, naming, language)


@lru_cache(maxsize=8192)
def _said(
    san: str, origin: chess.Square, victim: int, passant: bool, depth: Depth, naming: Naming, code: str
) -> Said:
    words, apart = language_of(code), parts(san)
    spoken = _spoken(apart, origin, victim, passant, depth, naming, words)
    read = spoken
    if apart.file or naming != "letters" or depth == "spelled":
        read = _spoken(apart, origin, victim, passant, depth, None, words)
    return Said(spoken, in_letters(san, words), read)


def _spoken(
    san: San,
    origin: chess.Square,
    victim: int,
    passant: bool,
    depth: Depth,
    naming: Naming | None,
    words: Language,
) -> str:
    """The words of a move; without a naming they are for the eye."""
    said = words.said
    if san.castle is not None:
        text = said["kingside" if san.castle else "queenside"]
    else:
        text = _move(san, origin, victim, passant, depth, naming, words)
    if san.mark:
        text += f", {said['check' if san.mark == '+' else 'mate']}"
    return text


def _move(
    san: San,
    origin: chess.Square,
    victim: int,
    passant: bool,
    depth: Depth,
    naming: Naming | None,
    words: Language,
) -> str:
    forms = words.say[depth]
    files = _files(naming, words)
    target = square_said(chess.parse_square(san.square), depth, naming, words)
    whole = square_said(origin, depth, naming, words)
    pawn = san.man == chess.PAWN
    if depth == "spelled":
        from_where = whole
    elif pawn or not (san.file or san.rank):
        from_where = ""
    elif san.rank and (san.file or depth == "full"):
        from_where = forms.get("from", " {origin}").format(origin=whole)
    elif san.rank:
        from_where = forms.get("from", " {origin}").format(origin=words.ranks[int(san.rank) - 1])
    else:
        from_where = forms.get("from", " {origin}").format(origin=files["abcdefgh".index(san.file)])
    file = "abcdefgh"[origin & 7]
    clash = naming in (None, "letters") and (file in words.by_letter or file in words.heard_letters)
    form = "takes" if san.takes else "quiet"
    if pawn:
        form = ("pawn_apart" if clash else "pawn_takes") if san.takes else "pawn"
    text = forms[form].format(
        man=words.pieces[san.man],
        origin=from_where,
        square=target,
        victim=words.pieces[victim] if victim else "",
        passant=f" {words.said['passant']}" if passant else "",
        file=files["abcdefgh".index(file)],
        letter=file if naming in (None, "letters") else files["abcdefgh".index(file)],
    )
    if san.promotion:
        text = forms["promotes"].format(move=text, piece=words.pieces[san.promotion])
    return text


def _files(naming: Naming | None, words: Language) -> tuple[str, ...]:
    return words.files[naming] if naming is not None else tuple("abcdefgh")


def square_said(square: chess.Square, depth: Depth, naming: Naming | None, words: Language) -> str:
    """A square for the voice: "f3", or file and rank as two words; without a naming, for the eye."""
    if naming in (None, "letters") and depth != "spelled":
        return chess.square_name(square)
    return f"{_files(naming, words)[square & 7]} {words.ranks[square >> 3]}"
