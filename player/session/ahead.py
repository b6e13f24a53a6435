"""What will probably be said next, so that its sound can be made in good time."""

from __future__ import annotations

from player.stage.state import State
from player.wording.utterance import Utterance

AHEAD = 4


def coming(state: State, count: int = AHEAD) -> list[Utterance]:
    """The next audible utterances after the one being said: of the top level, then of those below it."""
    found: list[Utterance] = []
    ear = state.telling.ear
    for frame in reversed(state.frames):
        first = frame.at + 1 if frame.why != "what-if" else frame.until
        if frame is not state.top and frame.doing == "saying":
            first = frame.at
        for step in frame.track[first : frame.until]:
            if len(found) >= count:
                return found
            if step.say is not None and step.say.spoken and (ear or not step.ear_only):
                found.append(step.say)
            if step.ask is not None and frame.why in ("lesson", "aside"):
                return found
    return found
