"""Moves as a script says them, heard on the board they are said on."""

from __future__ import annotations

import re
from dataclasses import dataclass

import chess

from player.script.found import short
from player.script.notation_against import written_moves
from player.wording.hear import hear
from player.wording.hearing import Ambiguous, Illegal, MoveHeard, NotAMove
from player.wording.languages import codes
from player.wording.languages import language as language_of
from player.wording.san import lettered
from player.wording.turns import hear_turns

_PARTING = re.compile(r",? (?:and|then|und|dann|et|puis|y|luego)(?: then)? |, |; ")
_NUMBERED = re.compile(r"\s*\d+ ?(?P<dots>\.(?:\.\.)?|\N{HORIZONTAL ELLIPSIS})(?!\.)")
_LETTERED = re.compile(r"(?:\d+ ?\.+ ?)?(?P<man>[A-Z])[a-h]?[1-8]?[x:-]?[a-h][1-8][+#!?]*")
_LOOSE_END = re.compile(r"[\s.,;!?]+$")


@dataclass(frozen=True, slots=True)
class Lost:
    """Words that do not mean exactly one legal move: a fault's code, message and example.

    Of several moves in notation `at` is the number, from 0, of the lost one.
    """

    code: str
    message: str
    fix: str = ""
    at: int = 0


def turns_of(board: chess.Board, deed: str, language: str) -> tuple[chess.Move, ...] | Lost:
    """The moves that a brace means, one after another."""
    heard = hear_turns(board, deed, language=language)
    if isinstance(heard, tuple):
        return heard
    return _two_in_words(board, deed, language) or _lost(board, deed, heard, language)


def move_of(board: chess.Board, said: str, language: str) -> chess.Move | Lost:
    """The one move that some words mean, in any accepted wording."""
    heard = hear(board, said, language=language, script=True)
    return heard.move if isinstance(heard, MoveHeard) else _lost(board, said, heard, language)


def _lost(board: chess.Board, said: str, heard: Ambiguous | Illegal | NotAMove, language: str) -> Lost:
    there = chess.Board(heard.fen) if heard.fen else board
    written = written_moves(said)
    if len(written) > heard.at > 0:
        said = written[heard.at].text
    alone = len(written) < 2
    if not isinstance(heard, Ambiguous) and alone and (other := _in_other_letters(there, said, language)):
        return other
    if isinstance(heard, NotAMove):
        return Lost("not-a-move", heard.sentence, at=heard.at)
    if isinstance(heard, Illegal) and alone and (turn := _out_of_turn(there, said, language)):
        return Lost("illegal-move", turn, at=heard.at)
    if isinstance(heard, Illegal):
        return Lost("illegal-move", f"{heard.sentence}{_of_that_kind(there, said, language)}", at=heard.at)
    names = [lettered(there.san(move), language) for move in heard.moves]
    if len(names) == 2:
        message = f"Two moves fit here: {names[0]} and {names[1]}."
    else:
        message = f"More than one move fits here: {', '.join(names)}."
    return Lost("ambiguous-move", message, _exact(names[0], said) if names else "", heard.at)


def _in_other_letters(board: chess.Board, said: str, language: str) -> Lost | None:
    """What is said of notation with the letters of another language: Sf3 for Nf3."""
    written = _LETTERED.fullmatch(said.strip())
    if not written or written["man"].lower() in language_of(language).by_letter:
        return None
    for code in codes():
        heard = hear(board, said, language=code, script=True) if code != language else None
        if isinstance(heard, MoveHeard):
            san = lettered(board.san(heard.move), language)
            return Lost(
                "not-a-move",
                f"{short(said)} is written with other letters than this lesson's; here it is {san}. "
                f"Write it so, or language: {code} at the top if all of the lesson is.",
                f"{{{san}}}",
            )
    return None


def _out_of_turn(board: chess.Board, said: str, language: str) -> str:
    """Why a move does not fit, where it is the other side's by its number or by the rules; else ""."""
    us, them = ("White", "Black") if board.turn else ("Black", "White")
    found = _NUMBERED.match(said)
    if found and (found["dots"] == ".") == board.turn:
        return ""
    if found:
        return (
            f"It is {us}'s move here, and this one is numbered as {them}'s. "
            "Is a move before it missing, told twice, or outside the braces?"
        )
    other = board.copy(stack=False)
    other.turn, other.ep_square = not board.turn, None
    if other.is_valid() and isinstance(hear(other, said, language=language, script=True), MoveHeard):
        return f"It is {us}'s move here, and only {them} can do that. Is a move before it outside the braces?"
    return ""


def _two_in_words(board: chess.Board, deed: str, language: str) -> Lost | None:
    """Two moves told in words in one pair of braces, where each would be understood in its own."""
    for parting in _PARTING.finditer(deed):
        first, second = deed[: parting.start()].strip(), deed[parting.end() :].strip()
        move = move_of(board, first, language) if first and second else None
        if not isinstance(move, chess.Move):
            continue
        after = board.copy(stack=False)
        after.push(move)
        if isinstance(move_of(after, second, language), chess.Move):
            return Lost(
                "two-moves",
                "These words mean two moves. Give each its own braces, or write both in notation.",
                f"{{{first}}}{parting[0]}{{{second}}}",
            )
    return _many_in_words(board, deed, language)


def _many_in_words(board: chess.Board, deed: str, language: str) -> Lost | None:
    """Three moves or more, parted by commas, some of them in words."""
    parts = [part.strip() for part in deed.split(",")]
    if len(parts) < 3:
        return None
    after = board.copy(stack=False)
    for part in parts:
        move = move_of(after, part, language) if part else None
        if not isinstance(move, chess.Move):
            return None
        after.push(move)
    return Lost(
        "two-moves",
        f"These words mean {len(parts)} moves. Give each its own braces, or write all in notation.",
        short(", ".join(f"{{{part}}}" for part in parts), 200),
    )


def _exact(san: str, said: str) -> str:
    """The brace with the move in exact notation, and with the words where words were said."""
    return f"{{{san}: {short(said)}}}" if " " in said.strip() else f"{{{san}}}"


def _of_that_kind(board: chess.Board, said: str, language: str) -> str:
    """The legal moves of the kind of man that was named, to choose from."""
    kind = _kind_named(said)
    if kind is None:
        return ""
    moves = [move for move in board.legal_moves if board.piece_type_at(move.from_square) == kind]
    legal = [lettered(board.san(move), language) for move in moves]
    name = chess.PIECE_NAMES[kind] or ""
    if not legal:
        return f" No {name} can move here."
    listed = ", ".join(legal[:8]) + (" and others" if len(legal) > 8 else "")
    return f" Legal {name} moves: {listed}."


def _kind_named(said: str) -> chess.PieceType | None:
    words = _LOOSE_END.sub("", said)
    lower = words.lower()
    for kind in range(1, 7):
        if re.search(rf"\b{chess.PIECE_NAMES[kind]}\b", lower):
            return kind
    found = re.match(r"(?:\d+\.+\s*)?([KQRBN])?[a-h]?[1-8]?x?[a-h][1-8]", words)
    if found:
        return chess.PIECE_SYMBOLS.index(found[1].lower()) if found[1] else chess.PAWN
    return None
