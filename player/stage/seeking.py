"""Going to a time, part, question or sentence of the lesson; asides walked and skipped."""

from __future__ import annotations

import re

from player.cues.sheet import Sheet, Step
from player.stage import asking
from player.stage.act import Act
from player.stage.wandering import leave_what_if

_TIME = re.compile(r"(?:(\d+):)?(\d{1,3}):([0-5]\d)(?:\.\d+)?$")


def go_to(act: Act, words: str) -> None:
    """Go to `3:20`, `part 2`, `part TITLE`, `question 4`, `step KEY`, `start` or `end`."""
    sheet = act.state.sheet
    index = target(sheet, words.strip())
    ms = _ms(words.strip())
    if ms is not None and sheet.starts and ms > sheet.starts[-1]:
        seconds = round(sheet.starts[-1] / 1000)
        act.note(f"The lesson ends at {seconds // 60}:{seconds % 60:02d}.")
        return
    if index is None:
        act.note(f"There is no '{words}' here. Say a time such as 3:20, a part, or a question's number.")
        return
    seek(act, index)


def _ms(words: str) -> int | None:
    """The time that the words name; None where they name none."""
    time = _TIME.match(words)
    if time is None:
        return None
    hours, minutes, seconds = (int(part or 0) for part in time.groups())
    return ((hours * 60 + minutes) * 60 + seconds) * 1000


def target(sheet: Sheet, words: str) -> int | None:
    low = words.casefold().strip()
    last = len(sheet.steps) - 1
    ms = _ms(low)
    if ms is not None:
        return sheet.at(ms)
    if low in ("start", "the start", "beginning", "the beginning"):
        return 0
    if low in ("end", "the end"):
        return last
    kind, _, rest = low.partition(" ")
    if kind == "step":
        return sheet.index(rest)
    if kind == "question" and rest.isdigit():
        asks = sheet.questions
        return asks[int(rest) - 1] if 0 < int(rest) <= len(asks) else None
    name = rest if kind == "part" else low
    if name.isdigit():
        number = int(name)
        return sheet.parts[number - 1].first if 0 < number <= len(sheet.parts) else None
    titles = [part.title.casefold() for part in sheet.parts]
    if kind == "part" and rest in ("next", "previous"):
        return None
    from rapidfuzz import fuzz, process

    found = process.extractOne(name, titles, scorer=fuzz.WRatio, score_cutoff=80)
    return sheet.parts[titles.index(found[0])].first if found else None


def seek(act: Act, index: int) -> None:
    """Tell from this step on; what was opened above the lesson is left, a question that stood is dropped."""
    while len(act.state.frames) > 1:
        act.pop()
    act.hush()
    act.set(pending=None, which=None)
    act.edit(at=index, until=len(act.top.track), asked=None, ahead=None, ahead_till=-1)
    act.enter()


def repeat(act: Act) -> None:
    """This sentence once more, from its start; at a question, the question."""
    frame = act.top
    if frame.why == "what-if":
        act.note("You are trying moves. Say 'home' to go back to the lesson.")
        return
    if frame.doing == "over":
        act.note("The lesson is told. Say 'go to start' to hear it again.")
        return
    act.hush()
    if frame.doing == "paced" and frame.step is not None and frame.step.say is None:
        back(act)
        return
    step = frame.step
    if step is not None and frame.place != step.before and frame.ahead is None:
        act.board(step.before, "seek")
    act.enter()


def back(act: Act) -> None:
    """The sentence before this one."""
    frame = act.top
    if frame.why in ("what-if", "reply", "nudge", "note"):
        leave_what_if(act) if frame.why == "what-if" else leave(act)
        return
    ear = act.state.telling.ear
    first = frame.at if frame.doing != "over" else len(frame.track)
    for index in range(first - 1, -1, -1):
        if audible(frame.track[index], ear):
            seek_in(act, index)
            return
    seek_in(act, 0)


def seek_in(act: Act, index: int) -> None:
    act.hush()
    act.edit(at=index, asked=None, ahead=None, ahead_till=-1)
    act.enter()


def leave(act: Act) -> None:
    """Leave a reply or nudge before its end."""
    then = act.top.then
    act.pop()
    if then == "go on":
        act.edit(asked=None)
        act.next_step()
    else:
        act.take_up()


def audible(step: Step, ear: bool) -> bool:
    return step.say is not None and bool(step.say.spoken) and (ear or not step.ear_only)


def skip(act: Act) -> None:
    """Leave the innermost aside; its return is heard. Elsewhere, leave this question or this sentence."""
    frame = act.top
    if frame.why in ("reply", "nudge", "note"):
        leave(act)
        return
    if frame.why == "what-if":
        leave_what_if(act)
        return
    scopes = act.state.scopes
    if scopes:
        seek_in(act, act.state.sheet.scopes[scopes[-1]].last)
        return
    if frame.asked is not None:
        asking.reveal(act, "passed")
        return
    if frame.doing == "over":
        act.note("The lesson is told.")
        return
    act.hush()
    act.land(None)
    act.next_step()


def walk_aside(act: Act, words: str) -> None:
    """List the asides, or walk one by number, or by (the beginning of) its title, and come back."""
    sheet = act.state.sheet
    asides = [(i, s) for i, s in enumerate(sheet.scopes) if s.kind in ("aside", "instead")]
    if not asides:
        act.note("This lesson has no asides.")
        return
    if not words:
        named = (f"{n}. {scope.title} ({length(sheet, i)})" for n, (i, scope) in enumerate(asides, 1))
        act.note("\n".join(named))
        return
    found = None
    if words.isdigit() and 0 < int(words) <= len(asides):
        found = asides[int(words) - 1][0]
    else:
        from rapidfuzz import fuzz, process

        titles = [scope.title.casefold() for _, scope in asides]
        near = process.extractOne(words.casefold(), titles, scorer=fuzz.WRatio, score_cutoff=70)
        found = asides[titles.index(near[0])][0] if near else None
    if found is None:
        act.note(f"No aside is called '{words}'. Say 'asides' for their names.")
        return
    visit(act, found)


def visit(act: Act, index: int) -> None:
    """Walk this aside and come back to where you are."""
    scope = act.state.sheet.scopes[index]
    steps, left = act.state.sheet.steps, act.state.scopes
    end = scope.last + 1
    act.set(scopes=())
    act.push("aside", steps, scope.outer, at=scope.first, until=end, board_why="aside", left=left)


def length(sheet: Sheet, index: int) -> str:
    """How long an aside takes, in words."""
    scope = sheet.scopes[index]
    seconds = max(1, round((sheet.starts[scope.last] - sheet.starts[scope.first]) / 1000))
    return f"{seconds} s" if seconds < 60 else f"{seconds // 60} min {seconds % 60:02d} s"
