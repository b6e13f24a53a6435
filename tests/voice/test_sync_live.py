"""A lesson played for real: each move against the moment at which its word came out of the sound server."""

from __future__ import annotations

import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from player.stage.state import Telling
from player.voice.choose import ESPEAK
from player.voice.device import DeviceOutput
from player.voice.output import RATE_HZ
from player.voice.process import WorkerProcess
from player.voice.sound import Sound
from player.voice.speaking import SoundSpeaker
from player.voice.spoken import SpokenVoice
from player.world.clock import RealClock
from tests.voice.acoustics import Landing, Samples, figures, find, heard, heard_word, verdict
from tests.voice.server import IS_HERE, SKIP, Server, serve
from tests.voice.telling import TWENTY_MOVES, Landed, Remembering, sheet_of, tell

pytest.importorskip("espeakng_loader")
pytestmark = [
    pytest.mark.skipif(not IS_HERE, reason=SKIP),
    pytest.mark.skipif(not sys.platform.startswith("linux"), reason="PulseAudio and eSpeak NG are of Linux"),
]

_PIECES_MS = ((0, 250), (0, 120), (60, 180), (120, 240))
_HEARD_SHARE = 0.98
_ALIKE = 0.9
_SEARCH_S = 0.5


@pytest.fixture
def server(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Server]:
    yield from serve(tmp_path, monkeypatch, RATE_HZ)


def landing(one: Landed, sound: Sound, alone: Sound, server: Server, recording: Samples) -> Landing | None:
    """How late a move was, by the recording, in which the very sound of its word is looked for.

    A busy machine may drop a period of sound, so shorter pieces of the word are tried too; None where it was
    not heard at all.
    """
    rendered = heard(sound.frames())
    onset_ms = heard_word(rendered, RATE_HZ, sound.word_ms[one.word], heard(alone.frames()))
    first = max(0, round(onset_ms * RATE_HZ / 1000))
    board_s = one.at_ms / 1000
    around = round((board_s - server.at_s(0)) * RATE_HZ)
    reach = round(_SEARCH_S * RATE_HZ)
    for begin_ms, end_ms in _PIECES_MS:
        begin, end = (first + ms * RATE_HZ // 1000 for ms in (begin_ms, end_ms))
        at, alike = find(recording, rendered[begin:end], around - reach, around + reach)
        if alike >= _ALIKE:
            return Landing(one.rest[:20], (board_s - server.at_s(at)) * 1000 + begin_ms)
    return None


def played(server: Server, speed: float, times: int) -> list[Landing]:
    """Every move of the lesson, told so many times at this speed."""
    clock = RealClock()
    landings: list[Landing] = []
    for _ in range(times):
        voice = Remembering(SpokenVoice(WorkerProcess(ESPEAK), clock))
        speaker = SoundSpeaker(voice, DeviceOutput(), clock)
        landed, notices = tell(sheet_of(TWENTY_MOVES), speaker, clock, Telling(speed=speed, silence=0.3))
        time.sleep(0.3)
        assert notices == [] and len(landed) == 20
        recording = heard(server.heard)
        for one in landed:
            sound, alone = voice.made[one.what.spoken], voice.make(one.rest, speed)
            found = landing(one, sound, alone, server, recording)
            landings += [found] if found is not None else []
        speaker.close()
    print(f"at {speed}x:", figures(landings))
    assert len(landings) >= _HEARD_SHARE * 20 * times
    return landings


def test_twenty_moves_land_on_their_words(server: Server) -> None:
    assert verdict(played(server, 1.5, 1)) == ""


@pytest.mark.large
@pytest.mark.parametrize("speed", [0.75, 1.0, 1.5])
def test_a_hundred_moves_land_on_their_words(server: Server, speed: float) -> None:
    assert verdict(played(server, speed, 5)) == ""
