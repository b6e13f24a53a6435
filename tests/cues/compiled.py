"""Scripts compiled for the tests of this folder."""

from __future__ import annotations

from player.cues.compile import compile_lesson
from player.cues.sheet import Sheet, Step, Track
from player.script.told import Turn
from player.wording.say import Naming
from tests.script.corpora import outcome_of

OPENING = "{Nf3} {d5} {g3} {Nf6} {Bg2} {e6} {castles} {Be7} {d3} {castles}.\n\n"


def sheet_of(body: str, head: str = "title: x\n\n", naming: Naming = "letters") -> Sheet:
    """The sheet of a script without faults."""
    said = outcome_of(head + body)
    assert said.faults == ()
    return compile_lesson(said.told, naming=naming)


def steps_of(body: str, head: str = "title: x\n\n") -> Track:
    """Its steps after the opening."""
    return sheet_of(body, head).steps[1:]


def words(steps: Track) -> list[str]:
    """What each step says; "" for nothing."""
    return [step.say.shown if step.say is not None else "" for step in steps]


def spoken(step: Step) -> str:
    assert step.say is not None
    return step.say.spoken


def landings(step: Step) -> list[tuple[str, str]]:
    """Each move of a step with the spoken word at which it lands; "" after the last word."""
    heard = [] if step.say is None else step.say.spoken.split()
    return [
        (cue.do.san, heard[cue.word] if cue.word < len(heard) else "")
        for cue in step.cues
        if isinstance(cue.do, Turn)
    ]


def turns(step: Step) -> list[Turn]:
    return [cue.do for cue in step.cues if isinstance(cue.do, Turn)]


def tracks_of(step: Step) -> list[Track]:
    """Every side track of a question."""
    ask = step.ask
    assert ask is not None
    replies = [reply.track for reply in (*ask.also, *ask.replies)]
    return [*replies, ask.otherwise, ask.because, *ask.nudges]
