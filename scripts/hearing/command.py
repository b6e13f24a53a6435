"""The command line of scripts/ears.py."""

from __future__ import annotations

import argparse
import importlib
import json
from pathlib import Path

from player.voice.ears.recogniser import MEANS
from scripts.hearing.clips import Studio, make_clips
from scripts.hearing.learning import fit, gather, read_rows, with_thresholds, write
from scripts.hearing.measure import measure
from scripts.hearing.plan import ESPEAK_VOICES, plan
from tests.wording.positions import positions


def main(args: list[str], root: Path) -> None:
    """Do one of the chores."""
    parser = argparse.ArgumentParser(description="Teach the ears, and measure them.")
    chores = parser.add_subparsers(dest="chore", required=True)
    clips = chores.add_parser("clips")
    clips.add_argument("folder", type=Path)
    clips.add_argument("--seed", type=int, default=1)
    clips.add_argument("--positions", type=int, default=300)
    clips.add_argument("--others", type=int, default=300)
    clips.add_argument("--piper")
    for name in ("gather", "measure"):
        chore = chores.add_parser(name)
        chore.add_argument("folder", type=Path)
        if name == "gather":
            chore.add_argument("rows", type=Path)
        chore.add_argument("--share", default="0/1")
    moves = chores.add_parser("adapt")
    moves.add_argument("folders", type=Path, nargs="+")
    learn = chores.add_parser("learn")
    learn.add_argument("--fit", type=Path, nargs="+", required=True)
    learn.add_argument("--choose", type=Path, nargs="+", required=True)
    asked = parser.parse_args(args)
    if asked.chore == "clips":
        studio = Studio(asked.piper)
        voices = ESPEAK_VOICES + (("piper",) * 4 if asked.piper else ())
        lines = plan(positions(asked.positions, asked.seed), asked.others, asked.seed, voices=voices)
        print(make_clips(lines, asked.folder, studio), "clips")
        studio.close()
    elif asked.chore == "gather":
        share, shares = map(int, asked.share.split("/"))
        with asked.rows.open("w", encoding="utf-8") as out:
            for row in gather(asked.folder, share, shares):
                print(json.dumps(row), file=out, flush=True)
    elif asked.chore == "adapt":
        from scripts.hearing.adapting import adapt, aligned

        clips_of = [clip for folder in asked.folders for clip in aligned(folder)]
        model = importlib.import_module("pocketsphinx").get_model_path("en-us/en-us")
        adapt(clips_of, Path(model), root / "player" / "voice" / "ears" / MEANS)
        print(f"{len(clips_of)} clips")
    elif asked.chore == "learn":
        model = with_thresholds(fit(read_rows(asked.fit)), read_rows(asked.choose))
        write(model, root / "player" / "voice" / "ears" / "confidence.toml")
        print(f"ask {model.ask}, act {model.act}")
    else:
        share, shares = map(int, asked.share.split("/"))
        print(json.dumps(measure(asked.folder, share, shares), indent=1))
