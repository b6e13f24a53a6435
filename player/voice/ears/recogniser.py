"""What turns a clip into a phrase of ours: pocketsphinx with the English model that it brings along.

Of that model only the means are ours (`means.bin`, in the format of the model's own file): scripts/ears.py
moved them towards how the words of moves sound in many synthetic voices, as far as there were clips to tell
(maximum a posteriori adaptation, Gauvain and Lee 1994). How much that helps or hurts a human voice has not
been measured. One decoder is kept, since loading the model takes a third of a second; grammars are swapped
in it.
"""

from __future__ import annotations

import importlib
import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from importlib import resources
from typing import Any, Protocol

from player.voice.ears.sounds import SOUNDS, letters_to_sounds
from player.voice.ears.waves import noised
from player.wording.heard_words import Phrase
from player.wording.spoken_grammar import jsgf, meanings_of, words_of

MEANS = "means.bin"
WIDE: Mapping[str, Any] = {"beam": 1e-64, "wbeam": 1e-44, "pbeam": 1e-64}
"""Options with which next to nothing is given up too early; a clip takes about twice as long."""

_LEAST = 1e-300
_PAD = bytes(9_600)
"""0.3 s of silence on both sides of a clip: the model wants to hear it."""


NO_PACKAGE = "The package pocketsphinx, which hears, is not installed for this machine."


class NoEars(Exception):
    """Nothing can be recognised on this machine; the message is one plain sentence."""


@dataclass(frozen=True, slots=True)
class Decoded:
    """The phrase nearest to a clip, and what confidence is made of.

    `meanings` are those of the whole phrase, none where it is no whole phrase of ours. `score` is the
    recogniser's own (log likelihood, the higher the likelier), `acoustic` its part that comes from the sound.
    `frames` counts the 10 ms frames of speech, silences left out; `words` the words.
    """

    phrase: str
    meanings: tuple[str, ...]
    score: float
    acoustic: float
    frames: int
    words: int


class Recogniser(Protocol):
    """Slow (some tenths of a second a clip): asked from a worker, never from the thread that draws."""

    def decode(self, pcm: bytes, phrases: Sequence[Phrase], without: Collection[str] = ()) -> Decoded | None:
        """The phrase nearest to 16-bit frames at 16 kHz, but for some meanings; None where none is left."""

    def free(self, pcm: bytes) -> float:
        """How well the clip fits any row of English sounds, on the scale of `Decoded.score`."""


class Pocketsphinx:
    """NoEars where the package is not installed for this machine. `options` are the decoder's own."""

    def __init__(self, options: Mapping[str, Any] | None = None) -> None:
        try:
            self._library: Any = importlib.import_module("pocketsphinx")
        except Exception as fault:
            raise NoEars(NO_PACKAGE) from fault
        with resources.as_file(resources.files("player.voice.ears") / MEANS) as means:
            usual = {"lm": None, "mean": str(means), "allphone_ci": True, "ds": 1, "topn": 8}
            self._decoder: Any = self._library.Decoder(**usual, loglevel="FATAL", **(options or {}))
        self._known: set[str] = set()
        self._grammars: dict[str, str] = {}
        self._phones = False
        for word, sounds in SOUNDS.items():
            self._teach(word, sounds)

    def decode(self, pcm: bytes, phrases: Sequence[Phrase], without: Collection[str] = ()) -> Decoded | None:
        grammar = jsgf(phrases, without=without)
        if grammar is None or not pcm:
            return None
        for word in words_of(phrases):
            self._teach(word, ())
        self._use(f"heard{bool(without):d}", grammar)
        self._run(pcm)
        found = self._decoder.hyp()
        if found is None:
            return Decoded("", (), 0.0, 0.0, 0, 0)
        acoustic, frames, words = self._acoustic()
        phrase = str(found.hypstr)
        score = math.log(max(found.best_score, _LEAST))
        meant = tuple(one for one in meanings_of(phrases, phrase) if one not in without)
        return Decoded(
            phrase,
            meant,
            score,
            acoustic,
            frames,
            words,
        )

    def free(self, pcm: bytes) -> float:
        if not self._phones:
            self._decoder.add_allphone_file(
                "phones", self._library.get_model_path("en-us/en-us-phone.lm.bin")
            )
            self._phones = True
        self._decoder.activate_search("phones")
        self._run(pcm)
        found = self._decoder.hyp()
        return 0.0 if found is None else math.log(max(found.best_score, _LEAST))

    def states(self, pcm: bytes, phrase: str) -> list[tuple[str, int, int, int]]:
        """Where each state of each sound of a phrase lies in a clip that says it.

        The sound's name, the state's number in the model, its first frame of 10 ms (0.3 s of silence come
        before the clip), and how many frames it lasts.

        RuntimeError where the clip cannot be aligned with the phrase.
        """
        self._decoder.set_align_text(phrase)
        self._run(pcm)
        self._decoder.set_alignment()
        self._run(pcm)
        words = self._decoder.get_alignment() or ()
        return [
            (sound.name, int(state.name), state.start, state.duration)
            for word in words
            for sound in word
            for state in sound
        ]

    def _use(self, name: str, grammar: str) -> None:
        if self._grammars.get(name) != grammar:
            self._decoder.add_jsgf_string(name, grammar)
            self._grammars[name] = grammar
        self._decoder.activate_search(name)

    def _run(self, pcm: bytes) -> None:
        self._decoder.start_utt()
        self._decoder.process_raw(noised(_PAD + pcm + _PAD), full_utt=True)
        self._decoder.end_utt()

    def _acoustic(self) -> tuple[float, int, int]:
        """The acoustic score, the frames and the words of what was just decoded, silences left out."""
        score, frames, words = 0.0, 0, 0
        for one in self._decoder.seg() or ():
            if one.word.startswith(("<", "[", "+", "(", "SIL")):
                continue
            score += math.log(max(one.ascore, _LEAST))
            frames += one.end_frame - one.start_frame + 1
            words += 1
        return score, frames, words

    def _teach(self, word: str, sounds: Sequence[str]) -> None:
        """Have the decoder know a word by these pronunciations, or by its letters where it knows none."""
        if word in self._known:
            return
        self._known.add(word)
        have: list[str] = []
        while (one := self._decoder.lookup_word(_variant(word, len(have)))) is not None:
            have.append(one)
        for sound in sounds or (() if have else (letters_to_sounds(word),)):
            if sound not in have:
                self._decoder.add_word(_variant(word, len(have)), sound, True)
                have.append(sound)


def _variant(word: str, number: int) -> str:
    return word if number == 0 else f"{word}({number + 1})"
