"""What the clips say: moves of positions played at random, commands, and other speech."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import chess

from player.wording.say import Depth, Naming, say

ESPEAK_VOICES = ("en-us", "en-gb", "en-us+f2", "en-gb+m3", "en-us+m7", "en-gb-scotland", "en-gb+f4", "en-029")
"""eSpeak's voices and variants that clips are made with; piper's voice stands beside them as "piper"."""

Kind = Literal["move", "command", "other"]


@dataclass(frozen=True, slots=True)
class Line:
    """One clip to make: its words, what they mean (UCI or a command's name, "" for other speech)."""

    kind: Kind
    words: str
    meaning: str
    fen: str
    naming: str
    voice: str
    speed: float
    seed: int


COMMANDS = ("go on", "hold", "repeat", "nudge", "tell me", "why", "pause", "help", "back", "skip", "undo")

_DEPTHS: tuple[Depth, ...] = ("full", "short", "short", "full", "spelled")

# Sentences of ordinary talk are thrown together from these, so that no two runs of one seed need a text.
_WHO = (
    "my sister", "the man next door", "everybody here", "she", "they", "your brother", "the doctor", "I",
    "nobody", "the children", "our neighbour", "the teacher", "some people", "he", "the driver", "we",
)  # fmt: skip
_DID = (
    "went to the market", "forgot the keys again", "wants another cup of tea", "called about the tickets",
    "left the window open", "would rather stay at home", "has a meeting before lunch", "lost the umbrella",
    "painted the kitchen yellow", "knows the way to the station", "bought four apples and some bread",
    "never liked the rain", "is looking for the remote control", "put the dog in the garden",
    "takes the bus at eight", "can hear you perfectly well", "moved to another city",
    "made a cake for the party",
    "reads the paper every morning", "cleaned the bicycle", "thinks it will snow", "paid for the coffee",
    "turned the radio down", "found seven euros under the sofa", "needs to water the plants",
)  # fmt: skip
_WHEN = (
    "", "", "yesterday", "on Friday", "after dinner", "because it was late", "in the afternoon",
    "with a friend",
    "before anybody noticed", "last summer", "at the weekend", "this evening", "as usual",
)  # fmt: skip
_SHORT = (
    "what time is it", "dinner is ready", "close the door please", "I am on the phone", "excuse me",
    "where did you put it", "that is very funny", "good morning", "see you tomorrow", "thank you very much",
    "not now", "just a minute", "come here", "is anybody there", "the weather is nice today", "hello",
    "mind the step", "bless you", "look at that", "I have no idea", "turn off the light", "are you hungry",
    "maybe tomorrow", "all right then", "how was your day", "it is raining", "what a lovely surprise",
    "let me think about it", "the bell rang twice", "where are my glasses", "oh no", "never mind",
    "happy birthday",
)  # fmt: skip

# Talk of the game that is no answer: the nearest to one that a room has to offer.
_CHESS = (
    "the knight on {} is strong", "I like this opening", "he always trades queens too early",
    "my rook was asleep on {}", "what a funny looking pawn", "she plays chess every Sunday",
    "that bishop has nothing to do", "why did you not take the pawn on {}", "the king must stay safe",
    "I lost a knight here last week", "white is better I think", "is it my move or yours",
    "the board is set up the wrong way round", "two pawns are worth less than a bishop",
    "the square {} looks weak to me", "they offered a draw after ten moves", "we studied rook endings today",
    "give me back my queen", "somebody castled on the wrong side", "the clock has stopped again",
)  # fmt: skip


def plan(
    positions: Sequence[chess.Board],
    others: int,
    seed: int,
    *,
    voices: Sequence[str],
    namings: Sequence[Naming] = ("letters", "fide", "alphabet"),
    spread: bool = True,
) -> list[Line]:
    """The lines of one set of clips: every position with every voice and naming, commands, and other speech.

    With `spread` each line has one voice and one naming, drawn at random, instead of all of them.
    """
    source = random.Random(seed)
    out: list[Line] = []
    for board in positions:
        move = source.choice(list(board.legal_moves))
        depth = source.choice(_DEPTHS)
        pairs = [(voice, naming) for voice in voices for naming in namings]
        for voice, naming in [source.choice(pairs)] if spread else pairs:
            words = say(board, move, depth=depth, naming=naming).spoken
            out.append(_line("move", words, move.uci(), board.fen(), naming, voice, source))
    for number in range(others):
        fen = source.choice(positions).fen()
        voice = source.choice(voices) if spread else voices[number % len(voices)]
        out.append(_line("other", other_words(source), "", fen, "", voice, source))
        if number % 4 == 0:
            name = source.choice(COMMANDS)
            out.append(_line("command", name, name, fen, "", voice, source))
    return out


def other_words(source: random.Random) -> str:
    """A sentence of ordinary talk that is for somebody else."""
    kind = source.random()
    if kind < 0.3:
        return source.choice(_SHORT)
    if kind < 0.5:
        return source.choice(_CHESS).format(source.choice("abcdefgh") + source.choice("12345678"))
    return " ".join(part for part in (source.choice(_WHO), source.choice(_DID), source.choice(_WHEN)) if part)


def _line(
    kind: Kind, words: str, meaning: str, fen: str, naming: str, voice: str, source: random.Random
) -> Line:
    speed = round(source.uniform(0.75, 1.15), 2)
    return Line(kind, words, meaning, fen, naming, voice, speed, source.randrange(1 << 30))
