"""What a phrase means on a board: one legal move, several, one that the rules forbid, or none."""

from __future__ import annotations

import re
from collections.abc import Sequence

import chess

from player.wording.corrections import Said, part
from player.wording.grammar import meanings, runs
from player.wording.hearing import Hearing, Illegal, MoveHeard, NotAMove
from player.wording.languages import Language
from player.wording.match import matching
from player.wording.meaning import Meaning
from player.wording.notation import FIGURINES
from player.wording.questions import which
from player.wording.tokens import Run, Slot, plain, slots

MOST_WORDS, _MOST_QUOTED = 40, 60
ONE_MOVE = "One move at a time, please. To try a row of them, say: what if, and the moves."
_RIGHT_CAPITALS = re.compile(r"[^\W\d_][a-h]?[1-8]?[x:-]?[a-h][1-8](?:[=/(]?[A-Z]\)?)?(?:e\.?p\.?)?[+#!?]*")


def heard(board: chess.Board, said: str, words: Language, script: bool, verbs: Sequence[str]) -> Hearing:
    """What the words mean, as one phrase; see `hear.hear` for what goes in and comes out."""
    text = plain(said)
    if not text:
        return NotAMove("Nothing was said.")
    if len(text.split()) > MOST_WORDS:
        return NotAMove("That is too long for one move; name a man and a square, such as knight f3.")
    told = part(slots(text, words))
    if told.refused:
        return NotAMove(_refusal(told, text), _near(text, verbs))
    found = _understood(told, words)
    if not found:
        return NotAMove(_not_understood(told.slots, text), _near(text, verbs))
    if told.colour is not None and told.colour != board.turn:
        return _why_not(found, board, colour=told.colour)
    legal = list(board.legal_moves)
    if script:
        exact = _exact_script(text, found, board, legal, words)
        if exact is not None:
            return MoveHeard(exact)
    moves = matching(found, board, legal)
    if told.choice:
        return _chosen(told, found, moves, board, legal, words)
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
    return ONE_MOVE


def _not_understood(heard: list[Slot], text: str) -> str:
    unknown = [run[0].text for slot in heard for run in slot if run and run[0].kind == "U"]
    known = _known([slot[0] for slot in heard if slot and slot[0]])
    if unknown:
        sentence = f'I do not know what "{quoted(" ".join(unknown))}" means here.'
        return f"I understood {known}. {sentence}" if known else sentence
    if known:
        return (
            f"I understood {known}, but not which move is meant; name a man and a square, such as knight f3."
        )
    return f'"{quoted(text)}" names no move; name a man and a square, such as knight f3.'


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


def quoted(text: str) -> str:
    """A text as it is said back: not too long of it."""
    return text if len(text) <= _MOST_QUOTED else text[:_MOST_QUOTED].rstrip() + "..."
