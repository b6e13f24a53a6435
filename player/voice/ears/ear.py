"""The ear as a pure state machine: frames of a microphone go in, and what they decide comes out.

It finds where speech begins and ends; it recognises nothing. A frame is `FRAME_MS` of 16-bit sound at 16 kHz
(`waves.py`). Times are counted in frames, so a test feeds it frames and needs no microphone and no clock.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from player.voice.ears.waves import FRAME_MS

ONSET_FRAMES = 4
"""Of these last frames all but one must be speech for an onset: 120 ms after the first of them."""

PAUSE_MS = 480
"""A pause this long ends a sentence: between two words of a move it is shorter (common practice)."""

LONGEST_MS = 12_000
"""A sentence never ends by itself in a fan's noise; after this long it is cut off and judged."""

_BEFORE_FRAMES = 18
"""A clip begins up to 540 ms back: soft beginnings ("rook", "knight") come well before the onset."""

IsSpeech = Callable[[bytes], bool]


@dataclass(frozen=True, slots=True)
class Onset:
    """Somebody seems to speak: hush the narration (with headphones), which a cough may cause too."""


@dataclass(frozen=True, slots=True)
class Clip:
    """A stretch of speech has ended; judge it. `pcm` begins a little before the speech."""

    pcm: bytes


@dataclass(frozen=True, slots=True)
class Healed:
    """What hushed the narration had no words for us: the sentence starts again."""


Decision = Onset | Clip | Healed
Mode = Literal["open", "shut", "held"]


class Ear:
    """One microphone's ear.

    With `headphones` it is open all the time, and speech over the narration hushes it. Without, our own voice
    would be heard: it is shut while anything is spoken (`spoke`) and opens at a question, after the tone
    (`open`). While held ("hold") it stays open and starts nothing: a noisy room is put up with without end,
    clips are still judged, and only "go on" ends it.
    """

    def __init__(self, is_speech: IsSpeech, *, headphones: bool = False) -> None:
        self._is_speech = is_speech
        self.headphones = headphones
        self.mode: Mode = "open" if headphones else "shut"
        self._recent: deque[tuple[bytes, bool]] = deque(maxlen=_BEFORE_FRAMES)
        self._clip: list[bytes] = []
        self._quiet = 0
        self._speaking = False
        self._narrating = False
        self._hushed = False

    @property
    def listening(self) -> bool:
        """Whether frames are looked at now."""
        return self.mode != "shut" and (self.headphones or not self._narrating)

    @property
    def in_speech(self) -> bool:
        """Whether somebody speaks now."""
        return self._speaking

    def narrates(self, now: bool) -> None:
        """The program begins or ends speaking. Without headphones what was half heard is forgotten."""
        self._narrating = now
        if now and not self.headphones:
            self._forget()

    def open(self) -> None:
        """A question stands and its tone has been heard: listen."""
        self._forget()
        self.mode = "open"

    def shut(self) -> None:
        """Stop listening: the question is over."""
        self._forget()
        self.mode = "open" if self.headphones else "shut"

    def hold(self) -> None:
        """Wait without end; only `go_on` ends it."""
        self._forget()
        self.mode = "held"

    def go_on(self) -> None:
        """The end of a hold."""
        self._forget()
        self.mode = "open" if self.headphones else "shut"

    def acts_on(self, command: str) -> bool:
        """Whether a command that was heard is to be obeyed: while held, "go on" alone."""
        return self.mode != "held" or command == "go on"

    def feed(self, frame: bytes) -> tuple[Decision, ...]:
        """One frame, and what it decides, mostly nothing."""
        if not self.listening:
            return ()
        speech = self._is_speech(frame)
        if not self._speaking:
            self._recent.append((frame, speech))
            last = list(self._recent)[-ONSET_FRAMES:]
            if len(last) < ONSET_FRAMES or sum(is_speech for _, is_speech in last) < ONSET_FRAMES - 1:
                return ()
            self._speaking, self._quiet = True, 0
            self._clip = [one for one, _ in self._recent]
            self._recent.clear()
            if self._narrating and self.mode == "open":
                self._hushed = True
                return (Onset(),)
            return ()
        self._clip.append(frame)
        self._quiet = 0 if speech else self._quiet + 1
        long = len(self._clip) * FRAME_MS >= LONGEST_MS
        if self._quiet * FRAME_MS < PAUSE_MS and not long:
            return ()
        pcm = b"".join(self._clip)
        self._forget()
        return (Clip(pcm),)

    def judged(self, for_us: bool) -> tuple[Decision, ...]:
        """The clip that was given has been judged: whether it was for us. Else a hushed sentence heals."""
        hushed, self._hushed = self._hushed, False
        return (Healed(),) if hushed and not for_us else ()

    def _forget(self) -> None:
        self._recent.clear()
        self._clip = []
        self._speaking = False
        self._quiet = 0
