"""How long utterances really take, by making their sound without playing it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from player.voice.sound import NoSound
from player.voice.voice import Voice
from player.wording.pace import word_times
from player.wording.utterance import Utterance


@dataclass(frozen=True, slots=True)
class Measured:
    """The length of one utterance and the beginning of each word of `spoken.split()`, in ms.

    `sounded` says that the length is that of a real sound, `measured` that the voice gave the beginnings
    too. Where there is no sound both are estimated and `why` has a plain sentence.
    """

    ms: int
    word_ms: tuple[int, ...]
    sounded: bool
    measured: bool
    why: str = ""


def measure(utterances: Iterable[Utterance], voice: Voice, *, speed: float = 1.0) -> Iterator[Measured]:
    """One after the other, each as soon as it is known, so that whoever asks may show progress or stop.

    Never raises for want of a voice. The voice stays open.
    """
    for utterance in utterances:
        yield _measure(utterance, voice, speed)


def _measure(utterance: Utterance, voice: Voice, speed: float) -> Measured:
    why = ""
    if any(c.isalnum() for c in utterance.spoken):
        try:
            sound = voice.make(utterance.spoken, speed, utterance.language)
            return Measured(sound.ms, sound.word_ms, sound.audible, sound.measured)
        except NoSound as fault:
            why = str(fault)
    onsets, ms = word_times(utterance.spoken, speed)
    return Measured(ms, onsets, sounded=False, measured=False, why=why)
