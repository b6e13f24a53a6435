"""A lesson told while the learner pauses, jumps about and changes the speed, heard on captured samples."""

from __future__ import annotations

import random
from dataclasses import dataclass, field

import pytest

from player.session.session import Session
from player.session.speakers import Voices
from player.stage.advance import begin
from player.stage.inputs import Did, Finished, Heard
from player.stage.state import Telling
from player.voice.output import RATE_HZ
from player.voice.sound import Sound
from player.voice.speaker import Notice
from player.voice.speaking import SoundSpeaker
from player.wording.utterance import Utterance
from tests.voice.stage import FADE, Stage
from tests.voice.standins import where
from tests.voice.telling import DEMO, sheet_of

_SLACK_MS = 100
_PIECE = 60

Told = tuple[int, str, float, int]
"""When, in which text, at what speed, and which word, from 1."""


@dataclass
class Watched(SoundSpeaker):
    """The speaker, with a note of every word that it reports and of where each saying was to begin."""

    stage: Stage
    words: list[Told] = field(default_factory=list)
    notices: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    told: dict[str, int] = field(default_factory=dict)
    hushed: tuple[str, float] | None = None
    text: str = ""
    speed: float = 1.0
    next_word: int | None = None

    def __post_init__(self) -> None:
        super().__init__(self.stage.voice, self.stage.output, self.stage.clock, threaded=False)

    def say(
        self, saying: int, what: Utterance, *, speed: float, from_word: int = 0, from_ms: int | None = None
    ) -> None:
        if from_ms is not None and self.hushed == (what.spoken, speed):
            self.next_word = self.told[what.spoken] + 1
        elif from_ms is None:
            self.next_word = from_word + 1
        self.text, self.speed = what.spoken, speed
        super().say(saying, what, speed=speed, from_word=from_word, from_ms=from_ms)

    def hush(self) -> Heard | None:
        heard = super().hush()
        if heard is not None:
            self.told[self.text] = heard.word
            self.hushed = (self.text, self.speed)
        return heard

    def poll(self) -> list[Heard | Finished | Notice]:
        events = list(super().poll())
        for event in events:
            if isinstance(event, Notice):
                self.notices.append(event.sentence)
            elif isinstance(event, Heard):
                self.words.append((self.stage.clock.now_ms(), self.text, self.speed, event.word))
                if self.next_word is not None and event.word != self.next_word:
                    self.faults.append(f"{self.text!r}: word {event.word} came, not {self.next_word}")
                self.next_word = event.word + 1
            elif self.next_word not in (None, len(self.text.split()) + 1):
                self.faults.append(f"{self.text!r}: it ended before word {self.next_word}")
        return events


def disturb(session: Session, stage: Stage, seed: int, acts: int) -> dict[str, int]:
    """Do this many things at random moments; how often each was done."""
    chance = random.Random(seed)
    done: dict[str, int] = {}
    while sum(done.values()) < acts and not session.state.over:
        until = stage.clock.now_ms() + chance.randint(0, 4_000)
        while stage.clock.now_ms() < until:
            due = session.due_ms()
            stage.clock.sleep(min(until - stage.clock.now_ms(), 1_000 if due is None else max(1, due)))
            session.tick()
        act = chance.choice(("pause", "pause", "go to", "faster", "slower", "speed"))
        words = {"go to": f"part {chance.randint(1, 6)}", "speed": f"{chance.choice((0.5, 1, 1.25, 3))}"}
        session.feed(Did(act, words.get(act, "")))
        if act == "pause":
            stage.clock.sleep(chance.randint(40, 3_000))
            session.tick()
            session.feed(Did("go on"))
        done[act] = done.get(act, 0) + 1
    return done


def off_by(stage: Stage, sounds: dict[tuple[str, float], Sound], told: Told) -> float | None:
    """How long after its sound a word was reported, in ms; None where a pause or a jump cut the sound off."""
    at_ms, text, speed, word = told
    sound = sounds.setdefault((text, speed), stage.voice.make(text, speed))
    frame = sound.word_ms[word - 1] * RATE_HZ // 1000 + 2
    piece = sound.pcm[2 * (frame + FADE) : 2 * (frame + FADE + _PIECE)]  # a word entered is faded in
    first = max(0, (at_ms - _SLACK_MS) * RATE_HZ // 1000)
    heard = bytes(stage.output.captured[2 * first : 2 * (first + 2 * _SLACK_MS * RATE_HZ // 1000)])
    off = []
    while (found := where(piece, heard)) >= 0:
        off.append(at_ms - (first + found - FADE - 2) * 1000 / RATE_HZ)
        first, heard = first + found + 1, heard[2 * (found + 1) :]
    return min(off, key=abs, default=None)


@pytest.mark.parametrize("seed", range(4))
def test_no_word_is_lost_or_said_twice_and_nothing_drifts(seed: int) -> None:
    stage = Stage()
    speaker = Watched(stage)
    sheet = sheet_of(DEMO[0].read_text(encoding="utf-8"))
    voices = Voices(stage.clock, lambda: (speaker, ""))
    session = Session(begin(sheet, Telling(wait=False, think=0.1)), voices, stage.clock)
    done = disturb(session, stage, seed, 50)
    assert sum(done.values()) == 50 and len(done) == 5
    assert speaker.faults == [] and speaker.notices == []
    stage.output.catch_up()
    sounds: dict[tuple[str, float], Sound] = {}
    off = [off_by(stage, sounds, told) for told in speaker.words]
    heard = [one for one in off if one is not None]
    assert len(heard) > 100 and len(heard) >= 0.9 * len(off)
    assert min(heard) >= -60 and max(heard) <= 40
    first, last = heard[: len(heard) // 3], heard[-len(heard) // 3 :]
    assert abs(sum(last) / len(last) - sum(first) / len(first)) <= 5, "it drifts"
