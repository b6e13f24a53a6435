"""The learner's own reason, before or after the answer, and how sure the learner is. Enter skips each."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from player.stage.act import WANTED, Act
from player.stage.happenings import Reasoned, Weighed
from player.stage.state import Asked, Wants
from player.stage.taken import taken
from player.stage.understand import near_verb, understand
from player.wording.hear import NotAMove, hear

Sure = Literal["sure", "fairly", "a guess", ""]

_SURE: dict[str, Sure] = {
    "sure": "sure", "certain": "sure", "yes": "sure", "very": "sure", "very sure": "sure",
    "quite sure": "sure",
    "fairly": "fairly", "fairly sure": "fairly", "rather": "fairly", "quite": "fairly", "half": "fairly",
    "a guess": "a guess", "guess": "a guess", "guessing": "a guess", "not sure": "a guess", "no": "a guess",
}  # fmt: skip
_EFFORT = {
    "at once": "at once", "once": "at once", "easy": "at once", "easily": "at once", "quickly": "at once",
    "with effort": "with effort", "effort": "with effort", "hard": "with effort", "slowly": "with effort",
    "guess": "guess", "a guess": "guess", "guessed": "guess", "i guessed": "guess",
}  # fmt: skip
_AGREED = {"yes": "yes", "y": "yes", "partly": "partly", "part": "partly", "half": "partly", "no": "no"}


def held_back(act: Act, asked: Asked, text: str) -> bool:
    """Whether the answer waits until the learner has said how sure it is; asked once a question."""
    if "how sure" not in asked.ask.manner or asked.weighed or asked.tries or not act.state.telling.wait:
        return False
    act.edit(asked=replace(asked, wants="sure", held=text, weighed=True))
    act.note("How sure are you: sure, fairly, or a guess? Enter leaves it open.")
    return True


def heard(act: Act, text: str) -> str | None:
    """Take these words as a reason, as how sure, or as yes, partly or no, where one of them is wanted.

    None where they are something else; else the held answer to judge now, or "".
    """
    asked = act.top.asked
    if asked is None or not asked.wants or act.top.doing != "asked":
        return None
    deed = understand(act.state, text)
    words = " ".join(text.split())
    low = words.casefold().strip(".!")
    if asked.wants == "sure":
        return _weighed(act, asked, _SURE[low]) if low in _SURE else None
    if asked.wants == "effort":
        return _how_it_went(act, asked, low, deed.verb)
    if asked.wants == "agreed" and low in _AGREED:
        _end(act, replace(asked, agreed=_AGREED[low]))
        return ""
    if deed.verb in ("tell me", "nudge", "skip") and asked.wants in ("why", "agreed"):
        _end(act, asked)
        return ""
    if deed.verb != "say":
        return None
    if asked.wants == "agreed":
        act.note(WANTED["agreed"])
        return ""
    if asked.wants == "reason" and _answers(act, asked, words):
        act.edit(asked=replace(asked, wants=""))
        return None
    if " " not in words and near_verb(words) is not None:
        return None
    told = replace(asked, reason=words)
    if asked.wants == "why":
        _show_because(act, replace(told, wants="agreed"))
    else:
        act.edit(asked=replace(told, wants=""))
        act.note("Kept. Now the answer.")
    return ""


def skipped(act: Act) -> str | None:
    """Enter where a reason or a word on sureness is wanted; as `heard`."""
    asked = act.top.asked
    if asked is None or not asked.wants or act.top.doing != "asked":
        return None
    if asked.wants == "sure":
        return _weighed(act, asked, "")
    if asked.wants == "reason":
        act.edit(asked=replace(asked, wants=""))
        act.note("Now the answer.")
    elif asked.wants == "why":
        _show_because(act, replace(asked, wants=""))
    else:
        _end(act, asked)
    return ""


def wanted_after(act: Act, asked: Asked) -> Wants:
    """What the learner is asked once the answer is right: why, whether the coach's reason was theirs,
    nothing.
    """
    telling = act.state.telling
    if not telling.wait:
        return ""
    if asked.ask.because_given and asked.reason:
        return "agreed"
    if asked.ask.because_given and "reason after" in asked.ask.manner:
        return "why"
    first = not asked.tries and not asked.nudges
    return "effort" if telling.effort and first else ""


def _how_it_went(act: Act, asked: Asked, low: str, verb: str) -> str | None:
    """Take a word on the effort; None for another command, which is then done."""
    if low in _EFFORT:
        act.emit(Weighed(asked.ask.key, _EFFORT[low]))
        _end(act, replace(asked, reason=""))
        return ""
    if verb in ("tell me", "nudge", "skip"):
        _end(act, replace(asked, reason=""))
        return ""
    if verb != "say":
        return None
    act.note(WANTED["effort"])
    return ""


def _answers(act: Act, asked: Asked, words: str) -> bool:
    """Whether these words are an answer rather than a reason."""
    ask = asked.ask
    if ask.kind != "move":
        return ask.kind != "words" and bool(taken(ask, words, act.state.sheet.language).meant)
    return not isinstance(hear(ask.place.board(), words, language=act.state.sheet.language), NotAMove)


def _weighed(act: Act, asked: Asked, sure: Sure) -> str:
    act.edit(asked=replace(asked, wants="", held="", sure=sure))
    if sure:
        act.emit(Reasoned(asked.ask.key, asked.reason, "", sure))
    return asked.held


def _show_because(act: Act, asked: Asked) -> None:
    act.edit(asked=asked)
    act.push("reply", asked.ask.because, act.top.place, then="go on")


def _end(act: Act, asked: Asked) -> None:
    if asked.reason:
        act.emit(Reasoned(asked.ask.key, asked.reason, asked.agreed, asked.sure))
    act.edit(asked=None)
    act.next_step()


__all__ = ["heard", "held_back", "skipped", "wanted_after"]
