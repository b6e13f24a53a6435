"""Which speaker says the next sentence: the voice, one that only takes the time, or one that takes none."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from player.stage.inputs import Heard
from player.stage.state import Telling
from player.voice.silent import InstantSpeaker, SilentSpeaker
from player.voice.speaker import Notice, Speaker, SpeakerEvent
from player.wording.utterance import Utterance
from player.world.clock import Clock

OpenSpeaker = Callable[[], tuple[Speaker, str]]
"""Opens the voice of this machine, and says in a sentence which one it is."""


class Voices:
    """The speakers of one session. The voice is opened when a sentence first needs it.

    Without a voice, a lesson paced by the learner or told at once is there to be read, and takes no time.
    """

    def __init__(self, clock: Clock, open_voice: OpenSpeaker | None = None) -> None:
        self._open = open_voice
        self._voice: Speaker | None = None
        self._silent = SilentSpeaker(clock)
        self._instant = InstantSpeaker()
        self._now: Speaker = self._instant
        self._hushed: Speaker | None = None
        self._notices: list[Notice] = []

    def say(
        self,
        telling: Telling,
        saying: int,
        what: Utterance,
        *,
        from_word: int = 0,
        from_ms: int | None = None,
    ) -> None:
        """Begin this utterance with the speaker that the telling asks for."""
        chosen = self._choose(telling)
        if chosen is not self._now:
            self._now.hush()
            self._now = chosen
        if from_ms is not None and self._hushed is not chosen:
            # The position is one in another voice's sound: begin at the word before it instead.
            from_word, from_ms = max(0, from_word - 1), None
        chosen.say(saying, what, speed=telling.speed, from_word=from_word, from_ms=from_ms)

    def hush(self) -> Heard | None:
        self._hushed = self._now
        return self._now.hush()

    def ahead(self, coming: Sequence[Utterance], *, speed: float) -> None:
        self._now.ahead(coming, speed=speed)

    def tone(self) -> None:
        self._now.tone()

    def poll(self) -> Sequence[SpeakerEvent]:
        """What is new, the notices about the voice first."""
        notices, self._notices = self._notices, []
        return (*notices, *self._now.poll())

    def due_ms(self) -> int | None:
        return 0 if self._notices else self._now.due_ms()

    def close(self) -> None:
        for speaker in (self._voice, self._silent, self._instant):
            if speaker is not None:
                speaker.close()

    def _choose(self, telling: Telling) -> Speaker:
        if telling.at_once and not telling.by_beat:
            return self._instant
        if telling.voice and self._open is not None:
            if self._voice is None:
                self._voice, sentence = self._open()
                if isinstance(self._voice, SilentSpeaker):
                    self._notices.append(Notice(sentence))
            return self._voice
        return self._instant if telling.by_beat else self._silent
