"""How often the ears are right, with the learner simulated: one "did you mean", answered in FIDE names."""

from __future__ import annotations

import random
from collections import Counter
from pathlib import Path

import chess

from player.voice.ears.ears import open_ears
from player.voice.ears.heard import Doubt, Heard, Listening, Nothing, Silence
from player.voice.ears.vocabulary import VERBS, listening
from player.wording.heard_words import choice_phrases
from player.wording.say import say
from scripts.hearing.clips import Studio, read_clips
from scripts.hearing.noise import noisy

_NOISE_DB = 20.0


def measure(folder: Path, share: int = 0, shares: int = 1) -> dict[str, dict[str, int]]:
    """Counts of outcomes by voice, naming and noise.

    "right" at once; "asked right" after one question; "asked wrong"; "wrong" (it would have been said back);
    "missed" (taken for other speech). Of other speech: "acted", "asked", "left".
    """
    ears, studio = open_ears(), Studio()
    counts: dict[str, Counter[str]] = {}
    for number, (line, clean) in enumerate(read_clips(folder)):
        if number % shares != share:
            continue
        board = chess.Board(line.fen)
        listen = listening(board, VERBS["asked"])
        voice = "piper" if line.voice == "piper" else "espeak"
        for noise in ("clean", "20 dB"):
            source = random.Random(line.seed)
            pcm = clean if noise == "clean" else noisy(clean, _NOISE_DB, source)
            verdict = ears.judge(pcm, listen)
            key = f"{line.kind} {voice} {line.naming} {noise}".replace("  ", " ")
            if line.kind == "other":
                got = _of_other(verdict)
            elif isinstance(verdict, Heard):
                got = "right" if line.meaning in verdict.meanings else "wrong"
            elif isinstance(verdict, Doubt):
                choices = Listening(tuple(choice_phrases(board, verdict.first, verdict.second or "no")), True)
                got = "asked wrong"
                if line.meaning in (verdict.first, verdict.second) and line.kind == "move":
                    words = say(board, chess.Move.from_uci(line.meaning), naming="fide").spoken
                    after = ears.judge(studio.speak(words, "en-us", 1.0), choices)
                    if isinstance(after, Heard) and line.meaning in after.meanings:
                        got = "asked right"
                elif line.meaning in (verdict.first, verdict.second):
                    got = "asked right"
            else:
                got = "missed"
            counts.setdefault(key, Counter())[got] += 1
    studio.close()
    return {key: dict(found) for key, found in sorted(counts.items())}


def _of_other(verdict: Heard | Doubt | Nothing | Silence) -> str:
    if isinstance(verdict, Heard):
        return "acted"
    return "asked" if isinstance(verdict, Doubt) else "left"
