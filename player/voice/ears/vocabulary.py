"""What is listened for in each state: moves weighted by what is likely, and the verbs that make sense."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

import chess

from player.stage.registry import BY_NAME
from player.voice.ears.heard import Listening
from player.wording.heard_words import NAMINGS, Naming, Phrase, command_phrases, move_phrases
from player.wording.spoken_grammar import shown

State = Literal["asked", "telling", "held", "said back"]

# The names of verbs, as the registry has them, that are listened for; "yes" and "no" are the ear's own.
VERBS: Mapping[State, tuple[str, ...]] = {
    "asked": (
        "repeat", "hold", "nudge", "tell me", "why", "look", "help", "pause", "go on", "back", "home", "undo",
        "skip", "slower", "faster", "quit", "where", "again",
    ),
    "telling": (
        "repeat", "hold", "pause", "go on", "back", "skip", "why", "slower", "faster", "home", "where",
        "help", "quit", "ideas",
    ),
    "held": ("go on",),
    "said back": ("yes", "no", "hold"),
}  # fmt: skip

OWN_WORDS: Mapping[str, tuple[str, ...]] = {
    "yes": ("yes", "right", "that is right"),
    "no": ("no", "wrong", "not that", "take it back"),
}

_COMMAND_WEIGHT = 0.6
_CAPTURE, _CHECK, _REPLIED, _ANSWER = 1.3, 1.3, 1.6, 2.0


def verb_words(names: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """The ways to say each verb; ValueError for a name that is none."""
    out: dict[str, tuple[str, ...]] = {}
    for name in names:
        if name in OWN_WORDS:
            out[name] = OWN_WORDS[name]
        elif name in BY_NAME:
            out[name] = BY_NAME[name].words
        else:
            raise ValueError(f"There is no verb called {name!r}.")
    return out


def likely(board: chess.Board, answer: str = "", replies: Iterable[str] = ()) -> dict[str, float]:
    """Weights of the legal moves by UCI: the answer, the moves the coach replies to, captures and checks.

    They are gentle: a move that was plainly said is never drowned by one that is likelier.
    """
    replied = set(replies)
    out: dict[str, float] = {}
    for move in board.legal_moves:
        uci, weight = move.uci(), 1.0
        if board.is_capture(move):
            weight *= _CAPTURE
        if board.gives_check(move):
            weight *= _CHECK
        if uci in replied:
            weight *= _REPLIED
        if uci == answer:
            weight *= _ANSWER
        out[uci] = weight
    return out


def listening(
    board: chess.Board | None,
    verbs: Iterable[str],
    *,
    answer: str = "",
    replies: Iterable[str] = (),
    namings: Sequence[Naming] = NAMINGS,
) -> Listening:
    """What is listened for at a question on this board, or, without a board, for verbs alone."""
    phrases = command_phrases(verb_words(verbs), _COMMAND_WEIGHT)
    if board is not None:
        phrases = [*move_phrases(board, namings=namings, likely=likely(board, answer, replies)), *phrases]
    return Listening(tuple(phrases))


def what_can_be_said(listen: Listening, board: chess.Board | None, moves: int = 3) -> str:
    """The answer to "what can I say?": a few moves as examples, and every verb, from the very phrases."""
    legal = [] if board is None else [move.uci() for move in board.legal_moves]
    first: dict[str, Phrase] = {}
    for phrase in listen.phrases:
        first.setdefault(phrase.meaning, phrase)
    examples = [_said(first[uci]) for uci in legal[:: max(1, len(legal) // moves)][:moves] if uci in first]
    verbs = [_said(phrase) for name, phrase in first.items() if name not in legal]
    parts = [f"A move, such as {'; or '.join(examples)}."] if examples else []
    if verbs:
        parts.append(f"You can also say: {', '.join(verbs)}.")
    return " ".join(parts)


def _said(phrase: Phrase) -> str:
    return shown(" ".join(next(way for way in slot if way) for slot in phrase.slots if slot[0]))
