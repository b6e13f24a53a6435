"""The ears of a hands-free lesson: microphone, worker and recogniser behind one door."""

from __future__ import annotations

from typing import Protocol

from player.voice.ears.ear import Ear, Onset
from player.voice.ears.ears import open_ears
from player.voice.ears.heard import Listening
from player.voice.ears.microphone import Microphone
from player.voice.ears.recogniser import NoEars
from player.voice.ears.speech import speech_detector
from player.voice.ears.worker import Report, Worker

SERVES = "Taps serve, and the lesson goes on."


class Ears(Protocol):
    """What the skin needs of a microphone and what understands it."""

    def report(self) -> Report | None:
        """The next thing heard, or None."""

    def listen_for(self, listen: Listening) -> None:
        """Listen for these phrases from now on."""

    def narrates(self, now: bool) -> None:
        """The program begins or ends speaking."""

    def mode(self, mode: str) -> None:
        """Be "open", "shut" or "held"."""

    @property
    def in_speech(self) -> bool:
        """Whether somebody speaks now, or has just spoken and is still being understood."""

    def trouble(self) -> str | None:
        """Why nothing can be heard any more, in a sentence; None where something can."""

    def close(self) -> None:
        """Listen no more."""


class RealEars:
    """The ears of this machine. NoEars, with a sentence, where the recogniser is not installed."""

    def __init__(self, *, headphones: bool, microphone: Microphone | None = None) -> None:
        self._ear = Ear(speech_detector(), headphones=headphones)
        self._microphone = microphone or Microphone()
        self._worker = Worker(self._microphone, self._ear, open_ears, Listening(()))
        self._pending = False
        self._microphone.start()

    def report(self) -> Report | None:
        found = self._worker.poll()
        if found is not None and not isinstance(found, Onset):
            self._pending = False
        return found

    def listen_for(self, listen: Listening) -> None:
        self._worker.listen_for(listen)

    def narrates(self, now: bool) -> None:
        self._worker.tell(lambda ear: ear.narrates(now))

    def mode(self, mode: str) -> None:
        change = {"open": Ear.open, "shut": Ear.shut, "held": Ear.hold}[mode]
        self._worker.tell(change)
        self._pending = False

    @property
    def in_speech(self) -> bool:
        self._pending |= self._ear.in_speech
        return self._pending

    def trouble(self) -> str | None:
        notice = self._microphone.notice()
        if notice is not None:
            return f"{notice.partition(',')[0].rstrip('.')}. {SERVES}"
        return f"{self._worker.trouble} {SERVES}" if self._worker.trouble else None

    def close(self) -> None:
        self._worker.close()
        self._microphone.stop()


__all__ = ["SERVES", "Ears", "NoEars", "RealEars"]
