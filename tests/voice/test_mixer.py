from __future__ import annotations

import array
import math

from hypothesis import given
from hypothesis import strategies as st

from player.voice.mixer import FADE_MS, TONE_HZ, Mixer
from tests.voice.standins import noise, samples

RATE = 8_000
FADE = RATE * FADE_MS // 1000


class Time:
    now = 0.0

    def __call__(self) -> float:
        return self.now


def pull(mixer: Mixer, *frames: int) -> bytes:
    return b"".join(mixer.render(count) for count in frames)


@given(st.lists(st.integers(1, 700), max_size=12), st.integers(0, 300))
def test_a_sound_comes_out_whole_then_silence(periods: list[int], ms: int) -> None:
    mixer = Mixer(RATE, Time())
    sound = noise(ms, rate_hz=RATE)
    mixer.play(sound)
    out = pull(mixer, *periods)
    assert len(out) == 2 * sum(periods)
    assert out == sound[: len(out)].ljust(len(out), b"\0")


@given(st.integers(1, 1500), st.integers(1, 400))
def test_what_is_played_before_and_after_a_stop_is_the_whole_sound(first: int, period: int) -> None:
    mixer = Mixer(RATE, Time())
    sound = noise(250, rate_hz=RATE)
    mixer.play(sound)
    before = pull(mixer, first)
    stopped = mixer.stop()
    assert stopped == min(first, len(sound) // 2)
    faded = pull(mixer, FADE, 400)
    assert not any(faded[2 * FADE :]), "something is heard after the fade"
    mixer.play(sound, stopped)
    after = pull(mixer, *[period] * (2000 // period + 1))
    # Not a frame is lost or repeated: only the few milliseconds at the cut are softened, on both sides.
    assert before[: 2 * stopped] == sound[: 2 * stopped]
    rest = sound[2 * stopped :]
    assert after[2 * FADE : len(rest)] == rest[2 * FADE :]
    assert all(
        abs(soft) <= abs(full)
        for soft, full in zip(samples(after[: 2 * FADE]), samples(rest[: 2 * FADE]), strict=False)
    )


def test_nothing_played_cannot_be_stopped() -> None:
    mixer = Mixer(RATE, Time())
    assert mixer.stop() is None
    assert mixer.heard() is None
    assert pull(mixer, 100) == bytes(200)


def test_a_new_sound_takes_the_place_of_the_old() -> None:
    mixer = Mixer(RATE, Time())
    old, new = noise(500, seed=1, rate_hz=RATE), noise(500, seed=2, rate_hz=RATE)
    mixer.play(old)
    pull(mixer, 800)
    mixer.play(new)
    out = pull(mixer, 800)
    assert out[2 * FADE :] == new[2 * FADE : 1600]


def test_heard_runs_with_the_clock_within_one_period_and_no_further() -> None:
    time = Time()
    mixer = Mixer(RATE, time, delay_s=0.012)
    mixer.play(noise(400, rate_hz=RATE))
    assert mixer.heard() is None
    for period in range(5):
        time.now = period * 0.02
        mixer.render(160)
        for step in (0.001, 0.013, 0.019):
            time.now = period * 0.02 + step
            heard, true_frames = mixer.heard(), (time.now - 0.012) * RATE
            if true_frames < 0:
                assert heard is None
            else:
                assert heard is not None and math.isclose(heard, true_frames, abs_tol=1e-6)
    time.now = 60.0
    last = mixer.heard()
    assert last is not None and math.isclose(last, 5 * 160 - 0.012 * RATE)


def test_a_device_that_has_hardly_begun_is_given_silence_and_then_the_whole_sound() -> None:
    time = Time()
    mixer = Mixer(RATE, time, settling=2)
    sound = noise(400, rate_hz=RATE)
    mixer.play(sound)
    assert not any(mixer.render(160))
    time.now = 1.1
    assert mixer.heard() is None
    assert not any(mixer.render(160))
    assert mixer.heard() is None
    assert mixer.render(160) == sound[:320]
    assert mixer.heard() == 0
    mixer.forget_device()
    assert mixer.heard() is None


def test_heard_goes_on_past_the_end_so_that_the_end_is_known() -> None:
    time = Time()
    mixer = Mixer(RATE, time)
    mixer.play(noise(10, rate_hz=RATE))
    mixer.render(160)
    time.now = 0.02
    assert mixer.heard() == 160


def test_volume_is_obeyed_at_once() -> None:
    mixer = Mixer(RATE, Time())
    sound = array.array("h", [8000] * 1000)
    mixer.play(sound.tobytes())
    assert max(samples(pull(mixer, 100))) == 8000
    mixer.volume = 0.25
    assert max(samples(pull(mixer, 100))) == 2000
    mixer.volume = 0.0
    assert not any(pull(mixer, 100))
    mixer.volume = 7.0
    assert max(samples(pull(mixer, 100))) == 8000


def test_the_tone_is_soft_of_its_pitch_and_over_whatever_plays() -> None:
    mixer = Mixer(RATE, Time())
    mixer.tone()
    tone = samples(pull(mixer, 4000))
    assert 2000 < max(tone) < 8000
    # From common practice: the first sample of a sound that does not click is small.
    assert abs(tone[0]) < 50 and abs(tone[len(tone) - 1]) < 50
    rising = [at for at in range(1000, 2500) if tone[at - 1] < 0 <= tone[at]]
    per_turn = (rising[-1] - rising[0]) / (len(rising) - 1)
    assert math.isclose(RATE / per_turn, TONE_HZ, rel_tol=0.02)
    loud = array.array("h", [30_000, -30_000] * 2000).tobytes()
    mixer.play(loud)
    mixer.tone()
    assert max(samples(pull(mixer, 4000))) == 32_767


def test_silence_is_counted_from_the_last_thing_heard() -> None:
    time = Time()
    mixer = Mixer(RATE, time)
    assert mixer.silent_s() == 0
    time.now = 2.0
    assert mixer.silent_s() == 2
    mixer.tone()
    assert mixer.silent_s() == 0
    pull(mixer, 4000)
    assert mixer.silent_s() == 0
    time.now = 3.0
    assert mixer.silent_s() == 1
    mixer.play(noise(10, rate_hz=RATE))
    assert mixer.silent_s() == 0
    mixer.stop()
    time.now = 3.5
    assert mixer.silent_s() == 0.5
