"""What an ear says it heard, and the questions it asks back.

How a hands-free skin uses the ears:

    ears = open_ears()                      None and a sentence where nothing can be heard here
    listen = Listening(phrases)             move_phrases + command_phrases of this state
    verdict = ears.judge(pcm, listen)       slow: call it from a worker
    Heard    act on it: say it back first (`in_words`), act after a moment in which "no" takes it back;
             never act on a verdict that is not `sure` without saying it back
    Doubt    ask `question()`, then judge the answer with `Listening(choice_phrases(board, first, second))`
    Nothing  speech that was not for us: say nothing, go on listening
    Silence  no words in it
    names = Names(); names.note(verdict)    after two mis-heard letters in a row it offers the FIDE names

`ear.Ear` turns frames of a microphone into clips to judge; `microphone.Microphone` gives the frames.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

import chess

from player.wording.heard_words import Phrase
from player.wording.say import Naming, say
from player.wording.spoken_grammar import meanings_of

_UCI = re.compile("[a-h][1-8][a-h][1-8][nbrq]?")


@dataclass(frozen=True, slots=True)
class Listening:
    """What is listened for now. `lenient` where the answer was asked for by name ("A or B?")."""

    phrases: tuple[Phrase, ...]
    lenient: bool = False

    @property
    def commands(self) -> tuple[Phrase, ...]:
        """The phrases that are no moves."""
        return tuple(phrase for phrase in self.phrases if not _UCI.fullmatch(phrase.meaning))

    def meanings(self, words: str) -> tuple[str, ...]:
        """What these words mean, were they heard."""
        return meanings_of(self.phrases, words)


@dataclass(frozen=True, slots=True)
class Heard:
    """A phrase of ours. `meanings` are UCI moves or commands; more than one where the words fit several.

    `sure` is how likely it is that this was said, 0 to 1; `other` is what else it may have been, "" for
    nothing.
    """

    phrase: str
    meanings: tuple[str, ...]
    sure: float
    other: str = ""


@dataclass(frozen=True, slots=True)
class Doubt:
    """One of two things, or perhaps only one: `second` is "" where nothing else is near."""

    phrase: str
    first: str
    second: str
    sure: float

    def question(self, board: chess.Board, naming: Naming = "fide") -> str:
        """The question back, in names of squares that cannot be confused."""
        names = [in_words(board, one, naming) for one in (self.first, self.second) if one]
        return f"Did you mean {' or '.join(names)}?"


@dataclass(frozen=True, slots=True)
class Nothing:
    """Speech that is not for us. `phrase` is what it was nearest to, for whoever looks into it."""

    phrase: str
    sure: float


@dataclass(frozen=True, slots=True)
class Silence:
    """No speech at all."""


Verdict = Heard | Doubt | Nothing | Silence


def in_words(board: chess.Board, meaning: str, naming: Naming = "letters") -> str:
    """A meaning for the voice: a move said short, a command by its name."""
    for move in board.legal_moves:
        if move.uci() == meaning:
            return say(board, move, depth="short", naming=naming).spoken
    return f'"{meaning}"'


OFFER = (
    "Letters are hard to tell apart. "
    "You can say the files as Anna, Bella, Cesar, David, Eva, Felix, Gustav, Hector."
)


@dataclass
class Names:
    """Counts mis-hearings of letters; offers the FIDE names (Laws of Chess, Appendix D) once, after two."""

    missed: int = 0
    offered: bool = field(default=False)

    def note(self, verdict: Verdict) -> str:
        """The offer, where this verdict is the second miss in a row, else ""."""
        if isinstance(verdict, Heard):
            self.missed = 0
        elif isinstance(verdict, Doubt):
            self.missed += 1
        return self._offer()

    def refused(self) -> str:
        """A move said back was refused with "no": a mis-hearing too."""
        self.missed += 1
        return self._offer()

    def _offer(self) -> str:
        if self.missed < 2 or self.offered:
            return ""
        self.offered = True
        return OFFER
