"""The ears as a whole: a clip and what is listened for go in, a verdict comes out."""

from __future__ import annotations

from collections.abc import Callable
from typing import Protocol

from player.voice.ears.confidence import Confidence, features, learnt
from player.voice.ears.heard import Doubt, Heard, Listening, Nothing, Silence, Verdict
from player.voice.ears.recogniser import WIDE, Decoded, NoEars, Pocketsphinx, Recogniser
from player.voice.ears.speech import trimmed
from player.voice.ears.waves import RATE_HZ
from player.wording.spoken_grammar import shown

__all__ = ["Ears", "Listener", "NoEars", "open_ears"]

_LONGEST_LOST_S = 3
"""A longer clip is no answer; it is not worth looking at twice."""

_NEAR = 3.5
"""A second meaning whose score is this near (in hundredths) is asked about beside the first."""


class Listener(Protocol):
    """What a skin needs of the ears."""

    def judge(self, pcm: bytes, listen: Listening) -> Verdict:
        """What was said in 16-bit frames at 16 kHz. Slow: some tenths of a second; ask it from a worker."""


class Ears:
    """A recogniser with a model of how sure it is."""

    def __init__(
        self,
        recogniser: Recogniser,
        confidence: Confidence | None = None,
        patient: Callable[[], Recogniser] | None = None,
    ) -> None:
        """`patient` makes a slower recogniser, which is asked where the first one has lost its way."""
        self._recogniser = recogniser
        self._confidence = confidence or learnt()
        self._patient = patient
        self._second: Recogniser | None = None

    def judge(self, pcm: bytes, listen: Listening) -> Verdict:
        spoken = trimmed(pcm)
        if not spoken:
            return Silence()
        best, second, known = self.decoded(spoken, listen)
        if best is None or not best.meanings:
            return Nothing("" if best is None else shown(best.phrase), 0.0)
        return self.verdict(best, second, known, lenient=listen.lenient)

    def decoded(
        self, spoken: bytes, listen: Listening
    ) -> tuple[Decoded | None, Decoded | None, tuple[float, ...]]:
        """The nearest phrase, the nearest of another meaning, and what confidence is made of."""
        best, second = _two(self._recogniser, spoken, listen)
        lost = best is None or not best.meanings or _is_better(second, best)
        if lost and self._patient is not None and len(spoken) <= _LONGEST_LOST_S * 2 * RATE_HZ:
            self._second = self._second or self._patient()
            best, second = _two(self._second, spoken, listen)
            if best is not None and second is not None and _is_better(second, best):
                best, second = second, best
        if best is None:
            return None, None, ()
        if not best.meanings:
            return best, None, ()
        free = self._recogniser.free(spoken)
        return best, second, features(best, second, free, len(spoken) // 320 + 60)

    def verdict(
        self, best: Decoded, second: Decoded | None, known: tuple[float, ...], *, lenient: bool = False
    ) -> Verdict:
        """What follows from what was decoded."""
        sure = round(self._confidence.sure(known), 4)
        phrase = shown(best.phrase)
        other = second.meanings[0] if second is not None and second.meanings else ""
        near = bool(other) and known[0] < _NEAR
        if lenient:
            if sure >= self._confidence.ask / 4:
                return Heard(phrase, best.meanings, sure, other)
            return Nothing(phrase, sure)
        if sure < self._confidence.ask:
            return Nothing(phrase, sure)
        if sure >= self._confidence.act and not near:
            return Heard(phrase, best.meanings, sure, other)
        return Doubt(phrase, best.meanings[0], other or next(iter(best.meanings[1:]), ""), sure)


def _two(recogniser: Recogniser, spoken: bytes, listen: Listening) -> tuple[Decoded | None, Decoded | None]:
    """The nearest phrase, and the nearest of another meaning."""
    phrases = listen.phrases
    best = recogniser.decode(spoken, phrases)
    if best is not None and not best.meanings and listen.commands:
        # A short command is easily lost among many moves: where no whole phrase is left, look there.
        phrases = listen.commands
        best = recogniser.decode(spoken, phrases) or best
    if best is None or not best.meanings:
        return best, None
    return best, recogniser.decode(spoken, phrases, best.meanings)


def _is_better(second: Decoded | None, best: Decoded) -> bool:
    """Whether the phrase that was found second fits better: the first search had given it up too early."""
    return second is not None and bool(second.meanings) and second.score > best.score


def open_ears() -> Ears:
    """The ears of this machine. NoEars, with a sentence, where nothing can be recognised on it."""
    return Ears(Pocketsphinx(), patient=lambda: Pocketsphinx(WIDE))
