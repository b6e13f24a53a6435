"""Hearing an answer: typed or spoken words, and the move they mean on a board."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import chess

from player.wording.heard import MOST_WORDS, ONE_MOVE, heard, quoted
from player.wording.hearing import Ambiguous, Hearing, Illegal, MoveHeard, NotAMove
from player.wording.languages import Language, codes
from player.wording.languages import language as language_of
from player.wording.san import in_letters
from player.wording.tokens import plain

__all__ = ["Ambiguous", "Hearing", "Illegal", "MoveHeard", "NotAMove", "hear"]

_PLAIN_SAN = re.compile(
    r"(?:[NRQK][a-h]?[1-8]?x?[a-h][1-8]|B[a-h]?[1-8]?x?[a-h][1-8]|[ac-h]x[a-h][1-8]|[a-h][1-8])[+#]?|O-O(?:-O)?[+#]?"
)
_CAPITAL = re.compile(r"[A-H]x?[a-h][1-8][+#!?]*")
_SAN = re.compile(r"([A-ZÄÖÜ])[a-h]?[1-8]?x?[a-h][1-8](?:=?[A-Z])?[+#!?]*")
_NAMES = {"de": "German", "en": "English", "es": "Spanish", "fr": "French"}


def hear(
    board: chess.Board,
    said: str,
    *,
    language: str = "en",
    script: bool = False,
    freely: bool = False,
    verbs: Sequence[str] = (),
) -> Hearing:
    """What `said` means on this board (with its move stack, for "recapture").

    One legal move is `MoveHeard`; several `Ambiguous`; a move the rules forbid `Illegal`; anything else
    `NotAMove`, with the nearest of `verbs` where one is near. With `script` exact notation with the right
    capitals always wins, and a promotion without its piece is illegal; at a prompt both are asked about.
    Where a move is asked for words may be taken `freely`: those that mean nothing here are passed over.
    ValueError for an unknown language.
    """
    words = language_of(language)
    if language == "en" and _PLAIN_SAN.fullmatch(said):
        move = _exactly(board, said)
        if move is not None:
            return MoveHeard(move)
    found = heard(board, said, words, script, verbs)
    if not script and isinstance(found, Illegal):
        return _foreign_letter(board, said, words) or found
    if script or not isinstance(found, NotAMove):
        return found
    return _second_thought(board, said, words, found, freely)


def _foreign_letter(board: chess.Board, said: str, words: Language) -> NotAMove | None:
    """Notation whose first letter is a file here and a man elsewhere, where only the man could go: "Cf6"."""
    text = plain(said)
    if not _CAPITAL.fullmatch(text) or text[0].lower() in words.by_letter:
        return None
    sentence = _foreign(board, text, words)
    return NotAMove(sentence, points=True) if sentence else None


def _second_thought(board: chess.Board, said: str, words: Language, first: NotAMove, freely: bool) -> Hearing:
    """What is meant by words of which no move was made at first: one with its reason, a row of moves, a move
    that is only asked about, or another language's.
    """
    # Imported when it is needed: most answers are moves at once.
    from player.wording.around import (
        asked_move,
        is_several,
        known_words,
        man_alone,
        names_a_place,
        speaks_against,
        without_assurance,
        without_reason,
    )

    text = without_assurance(plain(said))
    if len(text.split()) > MOST_WORDS:
        return replace(first, sentence=ONE_MOVE, points=True) if is_several(said) else first
    if text != plain(said):
        again = heard(board, text, words, False, ())
        if not isinstance(again, NotAMove):
            return again
    for shorter in without_reason(text, words.code):
        again = heard(board, shorter, words, False, ())
        if not isinstance(again, NotAMove):
            return again
    asked = asked_move(text)
    if asked:
        again = heard(board, asked, words, False, ())
        if isinstance(again, MoveHeard):
            asked = in_letters(board.san(again.move), words)
        if not isinstance(again, NotAMove):
            sentence = f"If {quoted(asked)} is your answer, say it without the question."
            return replace(first, sentence=sentence, points=True)
    doubtful = speaks_against(text)
    told = None if doubtful else _in_talk(board, text, words)
    if told is not None:
        return told
    if is_several(said):
        return replace(first, sentence=ONE_MOVE, points=True)
    sentence = _foreign(board, text, words)
    if sentence:
        return replace(first, sentence=sentence, points=True)
    known = known_words(text, words) if freely and not doubtful else ""
    again = heard(board, known, words, False, ())
    if not isinstance(again, NotAMove) and names_a_place(known, words):
        return again
    man = man_alone(known, words)
    crowned = [move for move in board.legal_moves if man is not None and move.promotion == man]
    if len(crowned) == 1:
        return MoveHeard(crowned[0])
    there = heard(board, re.sub(r"\bon\b", "to", known), words, False, ())
    return there if isinstance(there, MoveHeard) and names_a_place(known, words) else first


def _in_talk(board: chess.Board, text: str, words: Language) -> Hearing | None:
    """The one move that is named in the midst of talk; None where there is none, several, or a doubt."""
    from player.wording.around import clauses, is_several, names_a_move, names_a_place

    if is_several(text, 2):
        return None
    found: list[Hearing] = []
    for clause in clauses(text):
        one = heard(board, clause, words, False, ())
        if not isinstance(one, NotAMove) and names_a_place(clause, words):
            if one not in found:
                found.append(one)
        elif found and names_a_move(clause, words):
            return None
    if found:
        return found[0] if len(found) == 1 else None
    if is_several(text):
        return None
    said = text.split()
    for count in range(len(said) - 1, 0, -1):
        beginning = " ".join(said[:count])
        one = heard(board, beginning, words, False, ())
        if not isinstance(one, NotAMove) and names_a_place(beginning, words):
            return one
    return None


def _foreign(board: chess.Board, said: str, words: Language) -> str:
    """A sentence that says which move this is in another language's letters or words; "" where it is none."""
    bare = said.strip(" .!?")
    if len(bare) > 40:
        return ""
    for code in codes():
        other = language_of(code)
        if other.name == words.name:
            continue
        meant = heard(board, bare, other, True, ())
        if isinstance(meant, MoveHeard):
            san = in_letters(board.san(meant.move), words)
            return f'In {_NAMES.get(code, other.name)} "{bare}" is {san}. Say it so, if you mean it.'
    if _SAN.fullmatch(bare) and bare[0].lower() not in words.by_letter:
        letters = ", ".join(f"{words.letters[kind]} the {words.pieces[kind]}" for kind in range(2, 7))
        return f'"{bare[0]}" is no letter of a man here; they are {letters}.'
    return ""


def _exactly(board: chess.Board, said: str) -> chess.Move | None:
    """The move of exact notation, where it is legal, single, and truly takes what it says it takes."""
    try:
        move = board.parse_san(said)
    except ValueError:
        return None
    return None if "x" in said and not board.is_capture(move) else move
