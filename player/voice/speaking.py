"""The speaker that is heard: sounds made ahead, played by ourselves, and a silent telling wherever they are
missing.
"""

from __future__ import annotations

import math
import threading
from collections.abc import Sequence
from dataclasses import dataclass

from player.stage.inputs import Heard
from player.voice.output import Output
from player.voice.preparing import Failed, Preparer, Ready, Wanted
from player.voice.progress import Progress
from player.voice.sound import Sound
from player.voice.speaker import Notice, SpeakerEvent
from player.voice.voice import Voice
from player.wording.pace import word_times
from player.wording.utterance import Utterance
from player.world.clock import Clock

PATIENCE_MS = 1_500
"""How long an utterance waits for its sound, or a sound for the device, before the telling goes on in
silence.
"""

LATE = "The voice is late."
STUCK = "The sound device takes no sound."
GOES_ON = "The lesson goes on in text, and the sound comes back when it can."

_MENDED_AFTER = 3
_LONGEST_LOOK_MS = 100
_ONE_GAP_MS = 1_000


@dataclass(slots=True)
class _Paused:
    """Where the last saying was hushed: enough to go on there, on whatever time line there is then."""

    wanted: Wanted
    ms: int
    frame: int | None
    word_ms: Sequence[int]
    begun: int
    word: int


@dataclass(slots=True)
class _Saying:
    number: int
    wanted: Wanted
    from_word: int
    from_ms: int | None
    paused: _Paused | None
    looked_ms: int
    waited_ms: int = 0
    progress: Progress | None = None
    sound: Sound | None = None
    start_ms: int = 0
    heard: float = -1.0
    """Frames of the sound heard so far; below 0 while it has not begun."""

    origin_ms: int | None = None
    """The moment at which a silent telling would have begun; None while there is sound."""


class SoundSpeaker:
    """Says utterances with a voice through an output, and goes on in silence wherever either fails.

    One notice tells of a failure; another only after three utterances have been heard again. Without
    `threaded` sounds are made when they are needed, for a virtual clock.
    """

    def __init__(self, voice: Voice, output: Output, clock: Clock, *, threaded: bool = True) -> None:
        self._output = output
        self._clock = clock
        self._lock = threading.RLock()
        self._preparer = Preparer(voice, output.rate_hz, threaded=threaded)
        self._saying: _Saying | None = None
        self._paused: _Paused | None = None
        self._notices: list[Notice] = []
        self._told = False
        self._well = 0
        output.wake()

    def say(
        self, saying: int, what: Utterance, *, speed: float, from_word: int = 0, from_ms: int | None = None
    ) -> None:
        with self._lock:
            paused = self._paused
            self.hush()
            wanted = Wanted(what.spoken, speed, what.language)
            if paused is not None and (paused.wanted, paused.ms) != (wanted, from_ms):
                paused = None
            now = self._clock.now_ms()
            self._saying = _Saying(saying, wanted, max(0, from_word), from_ms, paused, now)
            if any(c.isalnum() for c in what.spoken):
                self._preparer.want(wanted)
                self._output.wake()
                self._try_to_begin(self._saying)
            else:
                self._go_silent(self._saying, None)

    def hush(self) -> Heard | None:
        with self._lock:
            saying, self._saying = self._saying, None
            if saying is None:
                return None
            frame = None
            if saying.progress is None:
                heard, word_ms, word = self._before_beginning(saying)
            else:
                at_ms = float(self._silent_ms(saying))
                if saying.origin_ms is None:
                    frame = self._output.stop()
                    at_ms = saying.start_ms if frame is None else frame * 1000 / self._output.rate_hz
                heard, word_ms = saying.progress.heard(at_ms), saying.progress.word_ms
                word = max(0, heard.word - 1)
                self._note_outcome(saying)
            self._paused = _Paused(saying.wanted, heard.ms, frame, tuple(word_ms), heard.word, word)
            return heard

    def ahead(self, coming: Sequence[Utterance], *, speed: float) -> None:
        coming = [one for one in coming if any(c.isalnum() for c in one.spoken)]
        self._preparer.ahead([Wanted(one.spoken, speed, one.language) for one in coming])

    def tone(self) -> None:
        self._output.tone()

    def poll(self) -> Sequence[SpeakerEvent]:
        with self._lock:
            events: list[SpeakerEvent] = []
            saying = self._saying
            if saying is not None:
                self._count_waiting(saying)
                if saying.progress is None:
                    self._try_to_begin(saying)
                if saying.progress is not None:
                    events += saying.progress.reach(self._at_ms(saying))
                    if saying.progress.over:
                        self._output.stop()
                        self._note_outcome(saying)
                        self._saying = None
            events[:0] = self._notices
            self._notices.clear()
            return events

    def due_ms(self) -> int | None:
        with self._lock:
            if self._notices:
                return 0
            saying = self._saying
            if saying is None:
                return None
            if saying.progress is None:
                return 5 if saying.waited_ms < 100 else 25
            if saying.origin_ms is None and saying.heard < 0:
                return 10
            left = saying.progress.next_ms() - self._at_ms(saying)
            return max(0, math.ceil(left if saying.origin_ms is not None else min(left, _LONGEST_LOOK_MS)))

    def set_volume(self, volume: float) -> None:
        """From 0.0 to 1.0, at once."""
        self._output.set_volume(volume)

    def close(self) -> None:
        with self._lock:
            self.hush()
        self._output.close()
        self._preparer.close()

    def _try_to_begin(self, saying: _Saying) -> None:
        """Begin with sound where there is one, in silence where there will be none, and else wait on."""
        made = self._preparer.get(saying.wanted)
        trouble = self._output.trouble()
        if isinstance(made, Ready):
            saying.sound = made.sound
        if trouble is not None or isinstance(made, Failed):
            self._go_silent(saying, trouble or (made.why if isinstance(made, Failed) else None))
        elif isinstance(made, Ready) and made.pcm:
            frame = self._enter(saying, made.sound)
            saying.waited_ms = 0
            self._output.play(made.pcm, frame)
        elif isinstance(made, Ready):
            self._go_silent(saying, None)
        elif saying.waited_ms >= PATIENCE_MS:
            self._go_silent(saying, LATE)

    def _enter(self, saying: _Saying, sound: Sound) -> int:
        """Set out on the time line of this sound; the frame to begin at."""
        self._set_out(saying, sound.word_ms, sound.ms)
        paused = saying.paused
        if paused is not None and paused.frame is not None and paused.word_ms == sound.word_ms:
            return paused.frame
        return round(saying.start_ms * self._output.rate_hz / 1000)

    def _set_out(self, saying: _Saying, word_ms: Sequence[int], ms: int) -> None:
        """Make the saying's progress on a time line, and find where on it to begin.

        A pause that was made on another line (measured times instead of estimated ones) goes on with the
        word that was being said.
        """
        paused = saying.paused
        if saying.from_ms is None:
            saying.progress = Progress.from_word(saying.number, word_ms, ms, saying.from_word)
            saying.start_ms = saying.progress.begins_ms(saying.from_word) if saying.from_word else 0
        elif paused is not None and paused.word_ms != tuple(word_ms):
            saying.progress = Progress(saying.number, word_ms, ms, begun=paused.begun)
            saying.start_ms = saying.progress.begins_ms(paused.word) if paused.word else 0
        else:
            saying.progress = Progress.from_ms(saying.number, word_ms, ms, saying.from_ms)
            saying.start_ms = min(saying.from_ms, ms)

    def _go_silent(self, saying: _Saying, why: str | None) -> None:
        """Tell the rest of this utterance without sound, from where it has been heard."""
        if saying.progress is None:
            line = (saying.sound.word_ms, saying.sound.ms) if saying.sound else self._estimate(saying)
            self._set_out(saying, *line)
        elif saying.heard >= 0:
            saying.start_ms = round(saying.heard * 1000 / self._output.rate_hz)
        self._output.stop()
        saying.origin_ms = self._clock.now_ms() - saying.start_ms
        if why is not None:
            self._well = 0
            if not self._told:
                self._told = True
                self._notices.append(Notice(f"{why} {GOES_ON}"))

    def _estimate(self, saying: _Saying) -> tuple[Sequence[int], int]:
        return word_times(saying.wanted.spoken, saying.wanted.speed)

    def _at_ms(self, saying: _Saying) -> float:
        """Where on its time line the saying is now; turns it silent when the device has failed."""
        if saying.origin_ms is None:
            heard = self._output.heard()
            if heard is not None and heard > saying.heard:
                saying.heard, saying.waited_ms = heard, 0
            trouble = self._output.trouble()
            if trouble is None and saying.waited_ms < PATIENCE_MS:
                return saying.heard * 1000 / self._output.rate_hz
            self._go_silent(saying, trouble or STUCK)
        return self._silent_ms(saying)

    def _silent_ms(self, saying: _Saying) -> int:
        return 0 if saying.origin_ms is None else self._clock.now_ms() - saying.origin_ms

    def _count_waiting(self, saying: _Saying) -> None:
        """Add up the time without progress; one long gap, as when the program was stopped, proves little."""
        now = self._clock.now_ms()
        saying.waited_ms += min(now - saying.looked_ms, _ONE_GAP_MS)
        saying.looked_ms = now

    def _before_beginning(self, saying: _Saying) -> tuple[Heard, Sequence[int], int]:
        """Where a saying stands that has not begun: where it was to begin."""
        if saying.paused is not None:
            old = saying.paused
            return Heard(saying.number, old.ms, old.begun), old.word_ms, old.word
        word_ms, ms = self._estimate(saying)
        if saying.from_ms is not None:
            heard = Progress.from_ms(saying.number, word_ms, ms, saying.from_ms).heard(saying.from_ms)
            return heard, word_ms, max(0, heard.word - 1)
        start = Progress.from_word(saying.number, word_ms, ms, saying.from_word)
        at_ms = start.begins_ms(saying.from_word) if saying.from_word else 0
        return start.heard(at_ms), word_ms, start.begun

    def _note_outcome(self, saying: _Saying) -> None:
        """Once three utterances have been heard, a new failure is worth a new notice."""
        if saying.origin_ms is None and saying.heard > 0:
            self._well += 1
            if self._well >= _MENDED_AFTER:
                self._told = False
