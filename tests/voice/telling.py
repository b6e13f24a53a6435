"""Telling a lesson with a speaker, and which word each move landed at, and when."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet
from player.script.follow import follow
from player.script.read import read
from player.script.told import Turn
from player.session.session import Session, Told
from player.session.speakers import Voices
from player.stage.advance import begin
from player.stage.happenings import Board, Say
from player.stage.state import Telling
from player.voice.sound import Sound
from player.voice.speaker import Notice, Speaker
from player.voice.voice import Voice
from player.wording.utterance import Utterance
from player.world.clock import Clock

ROOT = Path(__file__).resolve().parents[2]
DEMO = sorted((ROOT / "demo_lessons").glob("*.lesson"))

TWENTY_MOVES = """script: 1
title: Twenty moves in a breath
coach: Ines Calder

{Nf3 d5 g3: knight to f3 *, d5 *, g3 *}, {knight f6}, {bishop g2}, and {e6}.
Both {castle} at once: {bishop e7}, {d3}, {castles}. The {knight from b1 goes to d2}, a {pawn comes to c5},
{e4: the push *} and {Nc6: another horse *} against it. Then {rook e1}, {b5}, {pawn to e5}, {knight d7},
{Nf1: back it steps *}, and {a5}, quick as a wink.
"""


@dataclass(frozen=True)
class Landed:
    """A told move that was on the board at a moment of the clock, with the word that it belongs to."""

    at_ms: int
    what: Utterance
    word: int

    @property
    def rest(self) -> str:
        """What is said from that word on."""
        return " ".join(self.what.spoken.split()[self.word :])


class Remembering:
    """A voice, asked at one speed, that says the same text with the same sound; its library does not."""

    def __init__(self, voice: Voice) -> None:
        self._voice = voice
        self.made: dict[str, Sound] = {}

    @property
    def identity(self) -> str:
        return self._voice.identity

    def make(self, spoken: str, speed: float, language: str = "en") -> Sound:
        if spoken not in self.made:
            self.made[spoken] = self._voice.make(spoken, speed, language)
        return self.made[spoken]

    def close(self) -> None:
        self._voice.close()


def sheet_of(source: str) -> Sheet:
    return compile_lesson(follow(read(source)[0])[0])


def tell(
    sheet: Sheet,
    speaker: Speaker,
    clock: Clock,
    telling: Telling,
    *,
    each: Callable[[Session], None] = lambda _: None,
) -> tuple[list[Landed], list[str]]:
    """Tell it all, nobody answering: the moves that landed at a word, and the notices there were.

    Moves that land only when all is said have no word of their own and are left out.
    """
    landed: list[Landed] = []
    told_notices: list[str] = []
    words: list[int] = []
    saying: list[Say] = []
    steps = {step.key: step for step in sheet.steps}

    def note(one: Told) -> None:
        if isinstance(one, Notice):
            told_notices.append(one.sentence)
        elif isinstance(one, Say):
            step = steps.get(one.step)
            cues = step.cues if step is not None and step.say == one.what else ()
            words[:] = [cue.word for cue in cues if isinstance(cue.do, Turn)]
            saying[:] = [one]
        elif isinstance(one, Board) and one.why == "told" and words:
            word = words.pop(0)
            if word < len(saying[0].what.words):
                landed.append(Landed(clock.now_ms(), saying[0].what, word))

    session = Session(begin(sheet, telling), Voices(clock, lambda: (speaker, "")), clock, listener=note)
    session.start()
    while (due := session.due_ms()) is not None:
        clock.sleep(due)
        session.tick()
        each(session)
    return landed, told_notices
