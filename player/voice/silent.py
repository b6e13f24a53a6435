"""Speakers that make no sound: one that takes the time the words would take, and one that takes none."""

from __future__ import annotations

from collections.abc import Sequence

from player.stage.inputs import Heard
from player.voice.progress import Progress
from player.voice.speaker import SpeakerEvent
from player.wording.pace import word_times
from player.wording.utterance import Utterance
from player.world.clock import Clock


class SilentSpeaker:
    """Tells at the estimated pace, by the clock it is given. Never fails, and owns nothing to release."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._progress: Progress | None = None
        self._origin_ms = 0

    def say(
        self, saying: int, what: Utterance, *, speed: float, from_word: int = 0, from_ms: int | None = None
    ) -> None:
        onsets, ms = word_times(what.spoken, speed)
        if from_ms is None:
            self._progress = Progress.from_word(saying, onsets, ms, from_word)
            start = self._progress.begins_ms(from_word) if from_word > 0 else 0
        else:
            self._progress = Progress.from_ms(saying, onsets, ms, from_ms)
            start = from_ms
        self._origin_ms = self._clock.now_ms() - start

    def hush(self) -> Heard | None:
        progress, self._progress = self._progress, None
        return None if progress is None else progress.heard(self._at_ms())

    def ahead(self, coming: Sequence[Utterance], *, speed: float) -> None:
        return

    def tone(self) -> None:
        return

    def poll(self) -> Sequence[SpeakerEvent]:
        if self._progress is None:
            return ()
        events = self._progress.reach(self._at_ms())
        if self._progress.over:
            self._progress = None
        return events

    def due_ms(self) -> int | None:
        return None if self._progress is None else max(0, self._progress.next_ms() - self._at_ms())

    def close(self) -> None:
        self._progress = None

    def _at_ms(self) -> int:
        return self._clock.now_ms() - self._origin_ms


class InstantSpeaker:
    """Everything said is heard at the next poll: for telling without waiting, into a file or a pipe."""

    def __init__(self) -> None:
        self._progress: Progress | None = None

    def say(
        self, saying: int, what: Utterance, *, speed: float, from_word: int = 0, from_ms: int | None = None
    ) -> None:
        onsets, ms = word_times(what.spoken, speed)
        if from_ms is None:
            self._progress = Progress.from_word(saying, onsets, ms, from_word)
        else:
            self._progress = Progress.from_ms(saying, onsets, ms, from_ms)

    def hush(self) -> Heard | None:
        progress, self._progress = self._progress, None
        return None if progress is None else progress.heard(progress.begins_ms(progress.begun))

    def ahead(self, coming: Sequence[Utterance], *, speed: float) -> None:
        return

    def tone(self) -> None:
        return

    def poll(self) -> Sequence[SpeakerEvent]:
        progress, self._progress = self._progress, None
        return () if progress is None else progress.reach(progress.ms)

    def due_ms(self) -> int | None:
        return None if self._progress is None else 0

    def close(self) -> None:
        self._progress = None
