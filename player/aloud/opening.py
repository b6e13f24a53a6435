"""What is said before a hands-free lesson, and at its end."""

from __future__ import annotations

from player.cues.sheet import Sheet
from player.session.session import Session
from player.stage.inputs import Did

CAUTIONS = (
    "Listening hands-free is not for driving or cycling, and not for operating machines. "
    "In headphones, keep the sound low enough to hear what goes on around you."
)
TAPS = (
    "Any key is a tap. One stops and goes on, two say it again, three say where we are, "
    "four open a menu of everything else. Without a tap the lesson runs by itself."
)
VOICE = "You can answer aloud. Say: what can I say? for the words."
RESUMED = "It goes on where you stopped."
TOLD = "The lesson is told."
NEXT = "One tap goes on with the next one, {title}. Without it this ends."
NEXT_MS = 6_000
"""How long the next lesson of a series is offered."""


def before(session: Session, *, listening: bool, warned: bool = False) -> tuple[str, ...]:
    """What is said first: cautions, what taps do, and the length where the telling does not begin with it.

    `warned` tells that another lesson went before, and the first of these with it.
    """
    said = [] if warned else [CAUTIONS, TAPS]
    if listening and not warned:
        said.append(VOICE)
    if session.first != (Did("start"),) or session.state.telling.questions_only:
        said += length_told(session.state.sheet)
    if Did("resume") in session.first:
        said.append(RESUMED)
    return tuple(said)


def length_told(sheet: Sheet) -> list[str]:
    """Title, length and number of questions."""
    first = sheet.steps[0] if sheet.steps else None
    return [first.say.shown] if first is not None and first.ear_only and first.say is not None else []


def at_the_end(sheet: Sheet) -> str:
    """What is said when the lesson is told."""
    if sheet.following is None:
        return TOLD
    return f"{TOLD} {NEXT.format(title=sheet.following[1].strip().rstrip('.'))}"
