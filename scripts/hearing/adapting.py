"""Moving the means of the recogniser's model towards clips whose words are known.

Each clip is aligned with its words, state by state, by the recogniser itself; each frame then counts for the
Gaussians of its sound as far as they explain it; and a mean becomes the weighted middle of what it was and
of the frames that count for it (maximum a posteriori adaptation, Gauvain and Lee 1994). The model's files
are those of CMU Sphinx: `means`, `variances` and `sendump`.
"""

from __future__ import annotations

import os
import random
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import chess
import numpy as np

from player.voice.ears.recogniser import Pocketsphinx
from player.voice.ears.speech import trimmed
from player.voice.ears.vocabulary import verb_words
from player.wording.heard_words import NAMINGS, Phrase, command_phrases, move_phrases
from scripts.hearing.clips import read_clips
from scripts.hearing.noise import noisy
from scripts.hearing.plan import Line

FIRMNESS = 8.0
"""How many frames the model's own mean weighs: with fewer it follows the clips more closely."""

_SOUNDS, _STREAMS, _GAUSSIANS, _WIDTH, _SENONES = 42, 3, 128, 13, 5126
_SILENCE = 32
_HEAD = b"endhdr\n"
_INTEGERS = 4 * 8
_WEIGHT_STEP = 0.1024  # The quantised weights are in steps of 1024 in logarithms to the base 1.0001.
_SOUND_NAMES = (
    "+NSN+", "+SPN+", "AA", "AE", "AH", "AO", "AW", "AY", "B", "CH", "D", "DH", "EH", "ER",
    "EY", "F", "G", "HH", "IH", "IY", "JH", "K", "L", "M", "N", "NG", "OW", "OY",
    "P", "R", "S", "SH", "SIL", "T", "TH", "UH", "UW", "V", "W", "Y", "Z", "ZH",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Aligned:
    """The frames of a clip (39 numbers each), and the senone and the sound of each frame."""

    frames: Any
    senones: Any
    sounds: Any


def aligned(folder: Path, share: int = 0, shares: int = 1) -> Iterator[Aligned]:
    """Every move and command of one share of a folder, two fifths of them with noise, aligned with its words.

    Clips that cannot be aligned are left out.
    """
    with tempfile.TemporaryDirectory() as log:
        recogniser = Pocketsphinx({"mfclogdir": log, "beam": 1e-60, "pbeam": 1e-60, "wbeam": 1e-50})
        for number, (line, pcm) in enumerate(read_clips(folder)):
            if number % shares != share or line.kind == "other":
                continue
            source = random.Random(line.seed + 1)
            if source.random() < 0.4:
                pcm = noisy(pcm, source.uniform(12, 30), source)
            spoken = trimmed(pcm)
            found = recogniser.decode(spoken, _phrases(line)) if spoken else None
            if found is None or not found.meanings:
                continue
            try:
                states = recogniser.states(spoken, found.phrase)
            except RuntimeError:
                continue
            newest = max(Path(log).iterdir())
            frames = with_slopes(np.fromfile(newest, dtype=">f4", offset=4).reshape(-1, _WIDTH))
            for file in Path(log).iterdir():
                file.unlink()
            senones = np.zeros(len(frames), int)
            sounds = np.full(len(frames), _SILENCE)
            for name, senone, start, length in states:
                senones[start : start + length] = senone
                sounds[start : start + length] = _SOUND_NAMES.index(name)
            yield Aligned(frames, senones, sounds)


def _phrases(line: Line) -> Sequence[Phrase]:
    if line.kind == "command":
        return command_phrases(verb_words([line.meaning]))
    namings = [one for one in NAMINGS if one == line.naming]
    return move_phrases(chess.Board(line.fen), moves=[chess.Move.from_uci(line.meaning)], namings=namings)


def with_slopes(cepstra: Any) -> Any:
    """Cepstra less their mean over the clip, with their first and second differences, as the model has them
    (feature type 1s_c_d_dd of CMU Sphinx).
    """
    level = cepstra - cepstra.mean(0)
    count = len(level)
    wide = np.concatenate([level[:1]] * 3 + [level] + [level[-1:]] * 3)

    def at(shift: int) -> Any:
        return wide[3 + shift : 3 + shift + count]

    return np.hstack([level, at(2) - at(-2), (at(3) - at(-1)) - (at(1) - at(-3))])


def adapt(clips: Sequence[Aligned], model: Path, out: Path) -> None:
    """Write the means that the clips lead to, in the format of the model's own file, at one go."""
    head, means = _gaussians(model / "means")
    _, variances = _gaussians(model / "variances")
    variances = np.maximum(variances, 1e-4)
    packed = (model / "sendump").read_bytes()
    quantised = np.frombuffer(packed[-_STREAMS * _GAUSSIANS * _SENONES :], dtype="u1")
    weights = quantised.reshape(_STREAMS, _GAUSSIANS, _SENONES) * -_WEIGHT_STEP
    frames = np.vstack([clip.frames for clip in clips]).astype(float)
    senones = np.concatenate([clip.senones for clip in clips])
    sounds = np.concatenate([clip.sounds for clip in clips])
    moved = means.copy()
    for sound in range(_SOUNDS):
        ours = np.flatnonzero(sounds == sound)
        for stream in range(_STREAMS if len(ours) else 0):
            x = frames[ours][:, _WIDTH * stream : _WIDTH * (stream + 1)]
            mean, spread = means[sound, stream], variances[sound, stream]
            distance = (x * x) @ (1 / spread).T - 2 * x @ (mean / spread).T + (mean * mean / spread).sum(1)
            fit = -0.5 * (distance + np.log(spread).sum(1)) + weights[stream][:, senones[ours]].T
            share = np.exp(fit - fit.max(1, keepdims=True))
            share /= share.sum(1, keepdims=True)
            moved[sound, stream] = (FIRMNESS * mean + share.T @ x) / (FIRMNESS + share.sum(0)[:, None])
    fresh = out.with_suffix(".new")
    fresh.write_bytes(b"s3\nversion 1.0\n" + _HEAD + head + moved.astype("<f4").tobytes())
    os.replace(fresh, out)


def _gaussians(path: Path) -> tuple[bytes, Any]:
    """What stands between a file's header and its numbers; the numbers by sound, stream and Gaussian."""
    content = path.read_bytes()
    start = content.index(_HEAD) + len(_HEAD)
    size = 4 * _SOUNDS * _STREAMS * _GAUSSIANS * _WIDTH
    numbers = np.frombuffer(content[start + _INTEGERS : start + _INTEGERS + size], dtype="<f4").astype(float)
    return content[start : start + _INTEGERS], numbers.reshape(_SOUNDS, _STREAMS, _GAUSSIANS, _WIDTH)
