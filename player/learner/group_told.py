"""What a group's answer sheets say, in sentences for the coach."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import chess

from player.cues.sheet import Ask, Sheet
from player.learner.group import LEAST, Compared, Group, compared
from player.learner.shares import in_words
from player.session.journal import script_hash
from player.session.learn import Replying
from player.wording.say import say
from player.world.clean import clean_line


@dataclass(frozen=True)
class Script:
    """The lesson that sheets are about: its questions by key, with their numbers and lines."""

    sheet: Sheet
    source: str
    asks: Mapping[str, tuple[int, int, Ask]]

    @staticmethod
    def of(sheet: Sheet, source: str) -> Script:
        """The script of this sheet and text."""
        steps = [sheet.steps[index] for index in sheet.questions]
        asks = {
            step.ask.key: (number, step.line, step.ask) for number, step in enumerate(steps, 1) if step.ask
        }
        return Script(sheet, source, asks)

    @property
    def hash(self) -> str:
        """The beginning of the hash of its text, as answer sheets have it."""
        return script_hash(self.source)[:12]


def told(groups: Sequence[Group], script: Script | None) -> Iterator[str]:
    """What the sheets of one lesson say: of the script as it is now last, and what changed since before."""
    ordered = sorted(groups, key=lambda one: script is not None and one.script == script.hash)
    now = ordered[-1]
    yield f"{now.lesson}: {_count(now.sheets, 'answer sheet')}."
    if script is None:
        yield "The script is not at hand, so questions have no words here; --lesson names it."
    elif now.script != script.hash:
        yield "The script has changed since these were written."
    if now.sheets < LEAST:
        yield f"Nothing is said from fewer than {LEAST}."
    else:
        yield from _about(now, script)
    for before in ordered[:-1]:
        yield from _changed(before, now, script)


def _about(group: Group, script: Script | None) -> Iterator[str]:
    hardest = group.hardest
    if hardest is None:
        yield f"No question has {LEAST} first tries yet."
    else:
        yield f"Hardest: {_named(hardest.question, script)}"
    for one in sorted(group.questions, key=lambda one: (one.firsts.hits / one.firsts.whole, one.question)):
        yield ("  " if one is hardest else f"{_named(one.question, script)} ") + (
            f"Right at the first try {in_words(one.firsts)}."
        )
        if one.helped.hits >= LEAST:
            yield f"  {one.helped.hits} took help."
        if one.sure_and_wrong:
            yield f"  {one.sure_and_wrong} felt sure and were wrong."
    yield from _wrong(group, script)
    if group.repeated:
        line, count = group.repeated[0]
        yield f"Heard again most: line {line}, by {count}{_quoted(line, script)}."
    for line, count in group.stopped:
        yield f"{count} stopped at line {line}{_quoted(line, script)}."
    if group.finished.whole >= LEAST:
        yield f"Told to the end: {in_words(group.finished)}."


def _wrong(group: Group, script: Script | None) -> Iterator[str]:
    found = group.commonest_wrong
    if found is None:
        return
    question, meant, count = found
    ask = script.asks[question.question][2] if script and question.question in script.asks else None
    shown = _shown(ask, meant)
    yield f"Commonest wrong answer: {shown}, by {count}, at {_named(question.question, script)}"
    if ask is None or script is None or ask.kind != "move":
        return
    if any(meant in reply.answers for reply in ask.replies):
        yield "  The script has a reply to it."
        return
    reply = _reply(script, ask, meant)
    if reply:
        yield f"  What is true of it: {reply}"
        yield "  Drafted for the script, below that question:"
        yield f"  reply {shown}: {reply}"


def _reply(script: Script, ask: Ask, meant: str) -> str:
    try:
        sentence, standing = Replying(script.sheet)(ask.place, meant)
    except ValueError:
        return ""
    return sentence if standing == "board" else ""


def _changed(before: Group, now: Group, script: Script | None) -> Iterator[str]:
    found = compared(before, now)
    yield f"Before the script changed: {_count(before.sheets, 'answer sheet')}."
    if not found:
        yield f"No question has {LEAST} first tries both before and after."
    for one in found:
        yield f"{_named(one.question, script)} {_difference(one)}"


def _difference(one: Compared) -> str:
    told = f"Before {in_words(one.before)}, after {in_words(one.after)}."
    if one.tells:
        better = one.after.low > one.before.high
        return f"{told} That is {'better' if better else 'worse'}, and more than chance."
    return f"{told} That may be chance."


def _named(key: str, script: Script | None) -> str:
    if script is None or key not in script.asks:
        return f"Question {key}."
    number, line, ask = script.asks[key]
    return f'Question {number} (line {line}), "{clean_line(ask.text)}"'


def _shown(ask: Ask | None, meant: str) -> str:
    if ask is not None and ask.kind == "move":
        try:
            return say(ask.place.board(), chess.Move.from_uci(meant)).shown
        except ValueError:
            pass
    return meant


def _quoted(line: int, script: Script | None) -> str:
    if script is None:
        return ""
    lines = script.source.splitlines()
    words = clean_line(lines[line - 1]).strip() if 0 < line <= len(lines) else ""
    return f' ("{words[:60]}{"..." if len(words) > 60 else ""}")' if words else ""


def _count(number: int, what: str) -> str:
    return f"one {what}" if number == 1 else f"{number} {what}s"
