"""Hearing an answer: typed or spoken words, and the move they mean on a board."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

import chess

from player.wording.corrections import Said, part
from player.wording.grammar import meanings, runs
from player.wording.hearing import Ambiguous, Hearing, Illegal, MoveHeard, NotAMove
from player.wording.languages import Language
from player.wording.languages import language as language_of
from player.wording.match import matching
from player.wording.meaning import Meaning
from player.wording.notation import FIGURINES
from player.wording.questions import which
from player.wording.san import in_letters
from player.wording.tokens import Run, Slot, plain, slots

__all__ = ["Ambiguous", "Hearing", "Illegal", "MoveHeard", "NotAMove", "hear"]

_MOST_WORDS, _MOST_QUOTED = 40, 60
_ONE_MOVE = "One move at a time, please. To try a row of them, say: what if, and the moves."
_CAPITAL = re.compile(r"[A-H]x?[a-h][1-8][+#!?]*")
_RIGHT_CAPITALS = re.compile(r"[^\W\d_][a-h]?[1-8]?[x:-]?[a-h][1-8](?:[=/(]?[A-Z]\)?)?(?:e\.?p\.?)?[+#!?]*")
_PLAIN_SAN = re.compile(
    r"(?:[NRQK][a-h]?[1-8]?x?[a-h][1-8]|B[a-h]?[1-8]?x?[a-h][1-8]|[ac-h]x[a-h][1-8]|[a-h][1-8])[+#]?|O-O(?:-O)?[+#]?"
)


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
    heard = _hear(board, said, words, script, verbs)
    if not script and isinstance(heard, Illegal):
        return _foreign_letter(board, said, words) or heard
    if script or not isinstance(heard, NotAMove):
        return heard
    return _second_thought(board, said, words, heard, freely)


def _foreign_letter(board: chess.Board, said: str, words: Language) -> NotAMove | None:
    """Notation whose first letter is a file here and a man elsewhere, where only the man could go: "Cf6"."""
    text = plain(said)
    if not _CAPITAL.fullmatch(text) or text[0].lower() in words.by_letter:
        return None
    from player.wording.around import foreign

    sentence = foreign(board, text, words)
    return NotAMove(sentence, points=True) if sentence else None


def _second_thought(board: chess.Board, said: str, words: Language, first: NotAMove, freely: bool) -> Hearing:
    """What is meant by words of which no move was made at first: one with its reason, a row of moves, a move
    that is only asked about, or another language's.
    """
    # Imported when it is needed: most answers are moves at once.
    from player.wording.around import (
        asked_move,
        foreign,
        is_several,
        known_words,
        man_alone,
        names_a_place,
        speaks_against,
        without_assurance,
        without_reason,
    )

    text = without_assurance(plain(said))
    if len(text.split()) > _MOST_WORDS:
        return replace(first, sentence=_ONE_MOVE, points=True) if is_several(said) else first
    if text != plain(said):
        again = _hear(board, text, words, False, ())
        if not isinstance(again, NotAMove):
            return again
    for shorter in without_reason(text, words.code):
        again = _hear(board, shorter, words, False, ())
        if not isinstance(again, NotAMove):
            return again
    asked = asked_move(text)
    if asked:
        again = _hear(board, asked, words, False, ())
        if isinstance(again, MoveHeard):
            asked = in_letters(board.san(again.move), words)
        if not isinstance(again, NotAMove):
            sentence = f"If {_quoted(asked)} is your answer, say it without the question."
            return replace(first, sentence=sentence, points=True)
    doubtful = speaks_against(text)
    told = None if doubtful else _in_talk(board, text, words)
    if told is not None:
        return told
    if is_several(said):
        return replace(first, sentence=_ONE_MOVE, points=True)
    sentence = foreign(board, text, words)
    if sentence:
        return replace(first, sentence=sentence, points=True)
    known = known_words(text, words) if freely and not doubtful else ""
    again = _hear(board, known, words, False, ())
    if not isinstance(again, NotAMove) and names_a_place(known, words):
        return again
    man = man_alone(known, words)
    crowned = [move for move in board.legal_moves if man is not None and move.promotion == man]
    if len(crowned) == 1:
        return MoveHeard(crowned[0])
    there = _hear(board, re.sub(r"\bon\b", "to", known), words, False, ())
    return there if isinstance(there, MoveHeard) and names_a_place(known, words) else first


def _in_talk(board: chess.Board, text: str, words: Language) -> Hearing | None:
    """The one move that is named in the midst of talk; None where there is none, several, or a doubt."""
    from player.wording.around import clauses, is_several, names_a_move, names_a_place

    if is_several(text, 2):
        return None
    found: list[Hearing] = []
    for clause in clauses(text):
        heard = _hear(board, clause, words, False, ())
        if not isinstance(heard, NotAMove) and names_a_place(clause, words):
            if heard not in found:
                found.append(heard)
        elif found and names_a_move(clause, words):
            return None
    if found:
        return found[0] if len(found) == 1 else None
    if is_several(text):
        return None
    said = text.split()
    for count in range(len(said) - 1, 0, -1):
        beginning = " ".join(said[:count])
        heard = _hear(board, beginning, words, False, ())
        if not isinstance(heard, NotAMove) and names_a_place(beginning, words):
            return heard
    return None


def _exactly(board: chess.Board, said: str) -> chess.Move | None:
    """The move of exact notation, where it is legal, single, and truly takes what it says it takes."""
    try:
        move = board.parse_san(said)
    except ValueError:
        return None
    return None if "x" in said and not board.is_capture(move) else move


def _hear(board: chess.Board, said: str, words: Language, script: bool, verbs: Sequence[str]) -> Hearing:
    text = plain(said)
    if not text:
        return NotAMove("Nothing was said.")
    if len(text.split()) > _MOST_WORDS:
        return NotAMove("That is too long for one move; name a man and a square, such as knight f3.")
    heard = part(slots(text, words))
    if heard.refused:
        return NotAMove(_refusal(heard, text), _near(text, verbs))
    found = _understood(heard, words)
    if not found:
        return NotAMove(_not_understood(heard.slots, text), _near(text, verbs))
    if heard.colour is not None and heard.colour != board.turn:
        return _why_not(found, board, colour=heard.colour)
    legal = list(board.legal_moves)
    if script:
        exact = _exact_script(text, found, board, legal, words)
        if exact is not None:
            return MoveHeard(exact)
    moves = matching(found, board, legal)
    if heard.choice:
        return _chosen(heard, found, moves, board, legal, words)
    if len(moves) == 1:
        return MoveHeard(moves[0])
    if moves:
        if script and len({(m.from_square, m.to_square) for m in moves}) == 1:
            return Illegal("must-promote", _must_promote(moves[0]), moves[0])
        return which(moves, board, words)
    return _why_not(found, board)


def _why_not(found: list[Meaning], board: chess.Board, colour: chess.Color | None = None) -> Illegal:
    # Imported when it is needed: nearly every move that is heard can be played.
    from player.wording.reasons import why_not

    return why_not(found, board, colour=colour)


def _must_promote(move: chess.Move) -> str:
    where = chess.square_name(move.to_square)
    return f"The pawn that reaches {where} must become something: name a queen, a rook, a bishop or a knight."


def _understood(heard: Said, words: Language) -> list[Meaning]:
    out: list[Meaning] = []
    for phrase in heard.phrases:
        for run in runs(phrase):
            out += [meaning for meaning in meanings(run) if meaning not in out]
    return out


def _chosen(
    heard: Said,
    found: list[Meaning],
    moves: list[chess.Move],
    board: chess.Board,
    legal: list[chess.Move],
    words: Language,
) -> Hearing:
    """ "A or B": a question between both, never one of them taken because the other will not do."""
    for phrase in heard.needed:
        meant = [meaning for run in runs(phrase) for meaning in meanings(run)]
        if meant and not matching(meant, board, legal):
            return _why_not(meant, board)
    if len(moves) == 1:
        return MoveHeard(moves[0])
    return which(moves, board, words) if moves else _why_not(found, board)


def _exact_script(
    text: str, found: list[Meaning], board: chess.Board, legal: list[chess.Move], words: Language
) -> chess.Move | None:
    """In a script: the move of exact notation, where a small letter is a file and a capital a man."""
    if " " in text or not _RIGHT_CAPITALS.fullmatch(text):
        return None
    first = text[0]
    if first.lower() not in words.by_letter or first.lower() not in "abcdefgh" or first in FIGURINES:
        return None
    if first.isupper():
        man = words.by_letter[first.lower()]
        exact = [m for m in found if m.man == man and (man != chess.PAWN or m.origin_file is None)]
    else:
        file = "abcdefgh".index(first)
        exact = [m for m in found if file in (m.origin_file, m.file if m.origin_file is None else None)]
    moves = matching(exact, board, legal)
    return moves[0] if len(moves) == 1 else None


def _refusal(heard: Said, text: str) -> str:
    if heard.refused == "?":
        if not text.rstrip().endswith("?") and _known(
            [slot[0] for slot in heard.slots[:1] if slot and slot[0]]
        ):
            return "Say the move by itself, such as knight f3."
        return "That is a question, not a move; say a move, such as knight f3."
    if heard.refused == "!":
        return "That says what not to play; say the move to play."
    return _ONE_MOVE


def _not_understood(heard: list[Slot], text: str) -> str:
    unknown = [run[0].text for slot in heard for run in slot if run and run[0].kind == "U"]
    known = _known([slot[0] for slot in heard if slot and slot[0]])
    if unknown:
        sentence = f'I do not know what "{_quoted(" ".join(unknown))}" means here.'
        return f"I understood {known}. {sentence}" if known else sentence
    if known:
        return (
            f"I understood {known}, but not which move is meant; name a man and a square, such as knight f3."
        )
    return f'"{_quoted(text)}" names no move; name a man and a square, such as knight f3.'


def _known(found: list[Run]) -> str:
    texts = [token.text for run in found for token in run if token.kind in "PFSTCsXpr"]
    return '"' + " ".join(texts) + '"' if texts else ""


def _near(text: str, verbs: Sequence[str]) -> str | None:
    """The nearest of the verbs, by the first words of the text; None where none is near."""
    from rapidfuzz.distance import OSA

    words = text.casefold().split()
    best: tuple[int, str] | None = None
    for verb in verbs:
        wanted = verb.casefold()
        key = " ".join(words[: wanted.count(" ") + 1]).strip(".,!?")
        allowed = 0 if len(wanted) < 3 else 1 if len(wanted) < 6 else 2
        distance = OSA.distance(key, wanted, score_cutoff=allowed)
        if distance <= allowed and (best is None or distance < best[0]):
            best = distance, verb
    return None if best is None else best[1]


def _quoted(text: str) -> str:
    """A text as it is said back: not too long of it."""
    return text if len(text) <= _MOST_QUOTED else text[:_MOST_QUOTED].rstrip() + "..."
