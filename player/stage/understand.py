"""From what the learner typed or said to what is to be done."""

from __future__ import annotations

import re

from player.cues.sheet import Sheet
from player.stage.everyday import everyday
from player.stage.inputs import Did
from player.stage.registry import ACTIONS, phrases
from player.stage.state import State

_LEAD = re.compile(r"^(please|could you|can you|i want to|let's|let us)\s+", re.I)

_BACK_TO = re.compile(r"(?:go |jump |let us go )?back to (?P<where>(?:question|part) \d+)")
_TAIL = re.compile(r"[,;]?\s+(?:(?:please|thanks|thank you|now|for me|then)[,.!]?\s*)+$", re.I)


def understand(state: State, text: str) -> Did:
    """What these words ask for: an action with its object, an answer or a move, or ("unknown", words).

    A verb wins where the whole text is one of its forms; a text that starts with a verb that takes an object
    is that verb; a part's or an aside's title walks it; anything else is an answer or a move.
    """
    words = " ".join(text.split())
    low = words.casefold().rstrip("!.")
    if not low.rstrip("?"):
        return Did("help") if low else Did("go on")
    plain = _LEAD.sub("", low) if low != "?" else low
    for candidate in (low.rstrip("?") or low, plain.rstrip("?"), _TAIL.sub("", plain.rstrip("? "))):
        for phrase, action in phrases():
            if candidate == phrase:
                return Did(action.name)
    again = _BACK_TO.fullmatch(_TAIL.sub("", plain))
    if again:
        return Did("go to", again["where"])
    title = titled(state.sheet, low)
    if title is not None:
        return title
    asked_for = None if _is_choice(state, low) else everyday(low)
    if asked_for is not None:
        return asked_for
    if plain in ("what changed", "what has changed"):
        return Did("look", "changed")
    # Imported when it is needed: the first frame must not wait for it.
    from player.wording.asked import looks_asked, query_of

    if looks_asked(words) and not _is_choice(state, low) and query_of(words) is not None:
        return Did("ask", words)
    for phrase, action in phrases():
        if action.object and len(phrase) > 1 and plain.startswith(phrase + " "):
            cut = len(words) - len(plain) + len(phrase)
            return with_object(action.name, words[cut:].strip().rstrip("?!."), phrase)
        if action.object and action.letter.isalpha() and plain.startswith(action.letter + " "):
            cut = len(words) - len(plain) + 1
            return with_object(action.name, words[cut:].strip().rstrip("?!."), phrase)
    if plain.startswith("skip "):
        return Did("skip")
    return Did("say", words)


def _is_choice(state: State, low: str) -> bool:
    """Whether these words are one of the choices of the question that stands."""
    asked = state.asked
    return asked is not None and low in [choice.casefold().rstrip("!.?") for choice in asked.ask.choices]


def with_object(name: str, words: str, phrase: str) -> Did:
    """An action with its object; "part X" is "go to part X", "speed up" is faster."""
    if name == "go to" and phrase == "part":
        return Did(name, f"part {words}")
    if name == "where" and phrase in ("where is", "where are"):
        return Did(name, words)
    if name == "speed" and words in ("up", "down"):
        return Did("faster" if words == "up" else "slower")
    return Did(name, words)


def titled(sheet: Sheet, low: str) -> Did | None:
    """A part or an aside called by its title."""
    bare = low.strip(" ?.!:")
    for scope in sheet.scopes:
        if scope.kind in ("aside", "instead") and scope.title.casefold().strip(" .:?!") == bare:
            return Did("aside", scope.title)
    for part in sheet.parts:
        if part.title.casefold().strip(" .:?!") == bare:
            return Did("go to", f"part {part.title}")
    return None


def near_verb(text: str) -> str | None:
    """The verb nearest to these words, if one is near."""
    from rapidfuzz import fuzz, process

    first = text.casefold().strip()
    names = [word for action in ACTIONS for word in action.words]
    found = process.extractOne(first, names, scorer=fuzz.ratio, score_cutoff=72)
    return found[0] if found else None
