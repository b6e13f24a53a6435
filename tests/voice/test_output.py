from __future__ import annotations

from pathlib import Path

from player.voice.output import CaptureOutput, NullOutput
from player.voice.wav import read_wav
from player.world.clock import VirtualClock
from tests.voice.standins import last_loud_ms, noise, where


def test_captures_what_is_heard_at_the_time_it_is_heard(tmp_path: Path) -> None:
    clock = VirtualClock(12_345)
    output = CaptureOutput(clock)
    sound = noise(300)
    clock.sleep(1000)
    output.play(sound)
    clock.sleep(500)
    output.catch_up()
    begun = where(sound, output.captured)
    assert 0 <= begun / 22.05 - 1000 <= 20
    assert len(output.captured) == 2 * 441 * 76
    output.write(tmp_path / "heard.wav")
    assert read_wav(tmp_path / "heard.wav").pcm == bytes(output.captured)


def test_silence_follows_a_stop_within_a_period_and_a_fade() -> None:
    clock = VirtualClock()
    output = CaptureOutput(clock)
    output.play(noise(3000))
    clock.sleep(777)
    stopped = output.stop()
    assert stopped is not None and abs(stopped / 22.05 - 777) <= 20
    clock.sleep(3000)
    output.catch_up()
    assert 0 <= last_loud_ms(output) - 777 <= 26


def test_a_device_that_has_gone_takes_nothing_more() -> None:
    clock = VirtualClock()
    output = CaptureOutput(clock)
    output.play(noise(3000))
    clock.sleep(500)
    before = output.heard()
    output.gone = "The sound device went away."
    clock.sleep(500)
    assert output.trouble() == "The sound device went away."
    after = output.heard()
    assert before is not None and after is not None and after - before <= 441


def test_no_output_at_all() -> None:
    output = NullOutput()
    output.play(noise(10))
    output.tone()
    output.set_volume(0.3)
    assert output.heard() is None and output.stop() is None
    assert (output.trouble() or "").endswith(".")
    output.close()
