"""Learning how sure the ears may be: features of clips, a logistic fit, thresholds on other clips."""

from __future__ import annotations

import json
import math
import os
import random
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import chess

from player.voice.ears.confidence import Confidence
from player.voice.ears.ears import Ears
from player.voice.ears.recogniser import WIDE, Pocketsphinx
from player.voice.ears.speech import trimmed
from player.voice.ears.vocabulary import VERBS, listening
from scripts.hearing.clips import read_clips
from scripts.hearing.noise import noisy
from scripts.hearing.plan import Line

Row = dict[str, Any]

_ASKED, _ACTED = 0.09, 0.005
_SPARE, _SUREST = 0.12, 0.95
_ROUNDS = 4000


def gather(folder: Path, share: int, shares: int) -> Iterator[Row]:
    """What the recogniser says of every clip of one share of a folder, half of them with noise."""
    ears = Ears(Pocketsphinx(), Confidence((0.0,), (), (), 0.0, 0.0), lambda: Pocketsphinx(WIDE))
    for number, (line, pcm) in enumerate(read_clips(folder)):
        if number % shares != share:
            continue
        source = random.Random(line.seed)
        if source.random() < 0.5:
            pcm = noisy(pcm, source.uniform(12, 30), source)
        yield _row(ears, line, trimmed(pcm))


def _row(ears: Ears, line: Line, spoken: bytes) -> Row:
    listen = listening(chess.Board(line.fen), VERBS["asked"])
    out: Row = {"kind": line.kind, "voice": line.voice, "naming": line.naming, "words": line.words}
    best, second, known = ears.decoded(spoken, listen) if spoken else (None, None, ())
    if best is None or not best.meanings:
        return {**out, "whole": False, "right": False}
    right = line.kind != "other" and line.meaning in best.meanings
    after = line.kind != "other" and second is not None and line.meaning in second.meanings
    return {**out, "whole": True, "right": right, "after": after, "heard": best.phrase, "features": known}


def fit(rows: Sequence[Row]) -> Confidence:
    """The logistic model, by plain gradient descent with a little shrinking; thresholds still open."""
    rows = [row for row in rows if row["whole"]]
    size = len(rows[0]["features"])
    columns = [[row["features"][at] for row in rows] for at in range(size)]
    means = [sum(column) / len(column) for column in columns]
    spreads = [
        math.sqrt(sum((value - mean) ** 2 for value in column) / len(column)) or 1.0
        for column, mean in zip(columns, means, strict=True)
    ]
    known = [
        [1.0]
        + [max(-4.0, min(4.0, (v - m) / s)) for v, m, s in zip(row["features"], means, spreads, strict=True)]
        for row in rows
    ]
    weights = [0.0] * (size + 1)
    for _ in range(_ROUNDS):
        slope = [0.003 * weight if at else 0.0 for at, weight in enumerate(weights)]
        for one, row in zip(known, rows, strict=True):
            wrong = _logistic(sum(map(float.__mul__, one, weights))) - row["right"]
            for at, value in enumerate(one):
                slope[at] += wrong * value / len(rows)
        weights = [weight - 0.8 * by for weight, by in zip(weights, slope, strict=True)]
    return Confidence(tuple(weights), tuple(means), tuple(spreads), 0.0, 1.0)


def _logistic(value: float) -> float:
    return 1 / (1 + math.exp(-max(-50.0, min(50.0, value))))


def with_thresholds(model: Confidence, rows: Sequence[Row]) -> Confidence:
    """`ask` and `act`, so that small shares of the other speech here are asked about or acted on."""
    talk = sum(row["kind"] == "other" for row in rows)
    sures = [model.sure(tuple(r["features"])) for r in rows if r["whole"] and r["kind"] == "other"]
    others = [0.0, *sorted(sures)]

    def above(share: float) -> float:
        return others[max(0, len(others) - 1 - int(share * talk))] + 0.0005

    ask, act = above(_ASKED), min(_SUREST, above(_ACTED) + _SPARE)
    return Confidence(model.weights, model.means, model.spreads, round(ask, 4), round(max(ask, act), 4))


def write(model: Confidence, path: Path) -> None:
    """The model as the data file that the program reads, replaced at one go."""

    def listed(values: Sequence[float]) -> str:
        return "[" + ", ".join(f"{value:.5g}" for value in values) + "]"

    lines = [
        "# How sure a phrase is, from what the recogniser says of it: see confidence.py.",
        "# Made by scripts/ears.py from clips of synthetic speech; thresholds chosen on other clips.",
        f"weights = {listed(model.weights)}",
        f"means = {listed(model.means)}",
        f"spreads = {listed(model.spreads)}",
        f"ask = {model.ask}",
        f"act = {model.act}",
    ]
    fresh = path.with_suffix(".new")
    fresh.write_text("\n".join(lines) + "\n", encoding="utf-8")
    os.replace(fresh, path)


def read_rows(paths: Sequence[Path]) -> list[Row]:
    """Rows gathered before."""
    return [json.loads(text) for path in paths for text in path.read_text(encoding="utf-8").splitlines()]
