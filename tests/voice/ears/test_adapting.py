"""Adapting the recogniser's means: what moves, what stays, and that the model that came along still loads."""

from __future__ import annotations

import importlib
from importlib import resources
from pathlib import Path
from typing import Any

import pytest

np: Any = pytest.importorskip("numpy")
sphinx = pytest.importorskip("pocketsphinx")

from player.voice.ears.recogniser import MEANS  # noqa: E402
from scripts.hearing.adapting import FIRMNESS, Aligned, adapt, with_slopes  # noqa: E402

MODEL = Path(importlib.import_module("pocketsphinx").get_model_path("en-us/en-us"))
SIZE = 42 * 3 * 128 * 13


def means(path: Path) -> Any:
    content = path.read_bytes()
    start = content.index(b"endhdr\n") + 7 + 32
    return np.frombuffer(content[start : start + 4 * SIZE], dtype="<f4").reshape(42, 3, 128, 13)


def test_a_slope_is_the_difference_of_the_frames_two_off() -> None:
    cepstra = np.arange(130, dtype=float).reshape(10, 13)
    found = with_slopes(cepstra)
    assert found.shape == (10, 39)
    assert np.allclose(found[:, :13].mean(0), 0)
    assert np.allclose(found[5, 13:26], cepstra[7] - cepstra[3])
    assert np.allclose(found[5, 26:], (cepstra[8] - cepstra[4]) - (cepstra[6] - cepstra[2]))


def test_only_the_sound_that_was_heard_moves_and_towards_what_was_heard(tmp_path: Path) -> None:
    before, sound, own = means(MODEL / "means"), 7, 20
    heard = np.hstack([before[sound, stream, own] + 0.5 for stream in range(3)])
    clip = Aligned(np.tile(heard, (50, 1)), np.full(50, 1000), np.full(50, sound))
    adapt([clip], MODEL, tmp_path / MEANS)
    after = means(tmp_path / MEANS)
    others = [number for number in range(42) if number != sound]
    assert np.array_equal(after[others], before[others])
    moved = after[sound] - before[sound]
    assert np.abs(moved).max() > 0.01
    # A mean never goes farther than the frames' share of the way: 50 frames against the model's own.
    for stream in range(3):
        frame = heard[13 * stream : 13 * stream + 13]
        way = np.abs(frame - before[sound, stream])
        assert (np.abs(moved[stream]) <= way * 50 / (50 + FIRMNESS) + 1e-4).all()


def test_the_means_that_came_along_fit_the_model() -> None:
    with resources.as_file(resources.files("player.voice.ears") / MEANS) as path:
        ours, theirs = means(path), means(MODEL / "means")
    assert np.isfinite(ours).all()
    assert not np.array_equal(ours, theirs)
    assert 0.85 < np.corrcoef(ours.ravel(), theirs.ravel())[0, 1] < 1
