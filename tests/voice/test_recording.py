"""A lesson in the coach's own voice: here a recording put together from known sentences with known gaps."""

from __future__ import annotations

import random
import sys
import wave
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from player.cues.sheet import Sheet
from player.stage.state import Telling
from player.voice.choose import ESPEAK
from player.voice.output import RATE_HZ, CaptureOutput
from player.voice.process import WorkerProcess
from player.voice.recording import RecordedVoice, decoded
from player.voice.sound import NoSound
from player.voice.speaking import SoundSpeaker
from player.voice.spoken import SpokenVoice
from player.voice.take import lines_of
from player.voice.wav import Wave, wav_bytes
from player.world.clock import RealClock, VirtualClock
from tests.voice.standins import NoiseVoice, noise
from tests.voice.telling import sheet_of, tell

pytest.importorskip("miniaudio")
pytest.importorskip("espeakng_loader")
if not sys.platform.startswith("linux"):
    pytest.skip("eSpeak NG reads the recordings here", allow_module_level=True)

SCRIPT = """script: 1
title: An evening on tape
coach: Ines Calder
recording: evening.wav

{A}Good evening, and welcome back to the reading room. The lamp is lit, and the tea is hot.

{B}White begins {{knight to f3{C}}}, Black takes space with {{d5}}, and now {{g3: a pawn}} moves.

{D}The knight comes out, {{Nf6{E}}}, and then {{bishop g2}} looks down the long road.
"""


@dataclass(frozen=True)
class Tape:
    """A recording, the lesson that it belongs to, and when each word of each sentence is really said."""

    folder: Path
    sheet: Sheet
    truth: dict[str, list[int]]

    def voice(self, name: str = "evening.wav") -> RecordedVoice:
        return RecordedVoice(self.folder / name, lines_of(self.sheet.steps), NoiseVoice())


def script(**stamps: str) -> str:
    return SCRIPT.format(**{name: stamps.get(name, "") for name in "ABCDE"})


def clock_of(ms: int) -> str:
    return f"{ms // 60_000}:{ms // 1_000 % 60:02d}.{ms % 1_000:03d}"


@pytest.fixture(scope="module")
def tape(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tape]:
    folder = tmp_path_factory.mktemp("tape")
    voice = SpokenVoice(WorkerProcess(ESPEAK), RealClock(), name="en-gb+f2")
    chance = random.Random(5)
    pcm = bytearray()
    truth: dict[str, list[int]] = {}
    for number, line in enumerate(lines_of(sheet_of(script()).steps)):
        pcm += bytes(2 * (RATE_HZ * chance.randint(400, 2_500) // 1_000))
        sound = voice.make(line.spoken, chance.uniform(0.8, 1.1))
        begun = len(pcm) // 2 * 1_000 // RATE_HZ
        truth[line.spoken] = [begun + ms for ms in sound.word_ms]
        pcm += sound.frames()
        (folder / "beats").mkdir(exist_ok=True)
        if number == 1:
            beat = folder / "beats" / "1 good evening.wav"
            beat.write_bytes(wav_bytes(Wave(RATE_HZ, bytes(pcm))))
    voice.close()
    (folder / "evening.wav").write_bytes(wav_bytes(Wave(RATE_HZ, bytes(pcm))))
    texts = list(truth)
    stamps = {
        "A": f"[{clock_of(truth[texts[0]][0])}] ",
        "B": f"[{clock_of(truth[texts[2]][0])}] ",
        "C": f" @{clock_of(truth[texts[2]][2])}",
        "D": f"[{clock_of(truth[texts[3]][0])}] ",
        "E": f" @{clock_of(truth[texts[3]][4])}",
    }
    yield Tape(folder, sheet_of(script(**stamps)), truth)


def begins(voice: RecordedVoice, text: str, speed: float = 1.0) -> list[int]:
    return list(voice.make(text, speed).word_ms)


def test_every_sentence_is_there_and_its_words_near_their_place(tape: Tape) -> None:
    voice = tape.voice()
    off = []
    for text, truth in tape.truth.items():
        found = begins(voice, text)
        assert len(found) == len(text.split())
        # Both counted from the first word, since where in the file a sentence lies is the voice's affair.
        off += [(a - found[0]) - (b - truth[0]) for a, b in zip(found, truth, strict=True)]
    print("words off by, ms:", sorted(off))
    assert sorted(map(abs, off))[len(off) * 9 // 10] <= 200


def test_a_move_with_its_own_stamp_lands_there(tape: Tape) -> None:
    texts = list(tape.truth)
    for text, word in ((texts[2], 2), (texts[3], 4)):
        found, truth = begins(tape.voice(), text), tape.truth[text]
        assert abs((found[word] - found[0]) - (truth[word] - truth[0])) <= 2


def test_at_another_speed_it_is_as_much_longer(tape: Tape) -> None:
    text = list(tape.truth)[2]
    plain = tape.voice().make(text, 1.0)
    for speed in (0.75, 1.5, 3.0):
        other = tape.voice().make(text, speed)
        assert abs(other.ms * speed - plain.ms) <= 4
        assert [round(ms * speed) for ms in other.word_ms] == pytest.approx(plain.word_ms, abs=3)


def test_a_lesson_is_told_from_it(tape: Tape) -> None:
    clock = VirtualClock()
    output = CaptureOutput(clock)
    speaker = SoundSpeaker(tape.voice(), output, clock, threaded=False)
    landed, notices = tell(tape.sheet, speaker, clock, Telling())
    speaker.close()
    assert notices == [] and len(landed) == 5
    assert [one.what.spoken.split()[one.word] for one in landed] == ["knight", "d5,", "a", "knight", "bishop"]


def test_what_was_not_recorded_is_said_by_the_other_voice(tape: Tape) -> None:
    sound = tape.voice().make("Not bad, but look again.", 1.0)
    assert sound.word_ms == NoiseVoice().make("Not bad, but look again.", 1.0).word_ms
    alone = RecordedVoice(tape.folder / "evening.wav", lines_of(tape.sheet.steps))
    with pytest.raises(NoSound, match="not this sentence"):
        alone.make("Not bad, but look again.", 1.0)
    alone.close()


def test_a_file_for_each_beat(tape: Tape) -> None:
    voice = tape.voice("beats")
    texts = list(tape.truth)
    truth, found = tape.truth[texts[1]], begins(voice, texts[1])
    assert abs((found[-1] - found[0]) - (truth[-1] - truth[0])) <= 250
    with pytest.raises(NoSound):
        voice.make(texts[3], 1.0)


def test_a_file_in_stereo_at_another_rate_is_as_long(tape: Tape, tmp_path: Path) -> None:
    with wave.open(str(tmp_path / "stereo.wav"), "wb") as file:
        file.setparams((2, 2, 44_100, 0, "NONE", ""))
        file.writeframes(noise(1_000, rate_hz=88_200))
    assert abs(len(decoded(tmp_path / "stereo.wav")) / 2 / RATE_HZ - 1.0) < 0.01


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (None, "is not there"),
        (b"", "cannot be read"),
        (b"RIFF\0\0\0\0WAVE", "cannot be read"),
        (b"no sound at all" * 100, "cannot be read"),
    ],
)
def test_a_missing_or_damaged_file_is_one_sentence_and_may_come_back(
    tape: Tape, tmp_path: Path, content: bytes | None, why: str
) -> None:
    path = tmp_path / "evening.wav"
    if content is not None:
        path.write_bytes(content)
    clock = VirtualClock()
    output = CaptureOutput(clock)
    voice = RecordedVoice(path, lines_of(tape.sheet.steps))
    speaker = SoundSpeaker(voice, output, clock, threaded=False)
    landed, notices = tell(tape.sheet, speaker, clock, Telling())
    assert len(landed) == 5
    assert len(notices) == 1 and why in notices[0], notices
    path.write_bytes((tape.folder / "evening.wav").read_bytes())
    assert voice.make(next(iter(tape.truth)), 1.0).audible
    speaker.close()


def test_a_recording_that_ends_too_soon_costs_one_notice(tape: Tape, tmp_path: Path) -> None:
    whole = (tape.folder / "evening.wav").read_bytes()
    texts = list(tape.truth)
    frames = tape.truth[texts[2]][-1] * RATE_HZ // 1_000
    start = whole.index(b"data") + 8
    (tmp_path / "evening.wav").write_bytes(wav_bytes(Wave(RATE_HZ, whole[start : start + 2 * frames])))
    clock = VirtualClock()
    voice = RecordedVoice(tmp_path / "evening.wav", lines_of(tape.sheet.steps))
    speaker = SoundSpeaker(voice, CaptureOutput(clock), clock, threaded=False)
    landed, notices = tell(tape.sheet, speaker, clock, Telling())
    speaker.close()
    assert len(landed) == 5
    assert [sentence for sentence in notices if "ends before this sentence" in sentence] == notices
    assert len(notices) == 1
