"""A question with the keys of its block."""

from __future__ import annotations

import re
from typing import Any

from player.script.bits import bits_of
from player.script.blocks import Item
from player.script.examples import EXAMPLES
from player.script.found import Found, short
from player.script.header import key_spot, stamp_spot
from player.script.keys import NAMED_KEYS, QUESTION_KEYS
from player.script.model import Bits, Line, QuestionBlock, ReplyLine, Spot, Words

_SPOKEN_ONCE = frozenset(["otherwise", "because"])
_SPOKEN = _SPOKEN_ONCE | {"also", "reply", "nudge"}
_LINE_ONCE = frozenset(["ask", "think", "key"])
_BARE = "|".join(sorted(QUESTION_KEYS - set(NAMED_KEYS)))
_KEY_INSIDE = re.compile(rf"(?<=[.?!:;])\s+(?P<key>(?:{_BARE})|(?:also|reply) \S+):(?=\s)")
_MANY = {"answer": "answers", "choice": "choices", "about": "about"}


def question_of(item: Item, found: Found) -> tuple[QuestionBlock, list[Item]]:
    """The question, and the items of its block that do not belong in it."""
    text = bits_of(item.value(), found)
    given: dict[str, Any] = {
        name: [] for name in ("answers", "choices", "about", "also", "replies", "nudges")
    }
    strays: list[Item] = []
    for child in item.children:
        if child.key == "" and child is item.children[0] and not child.head.stamp_end:
            text = _with_more(text, child, item, found)
        elif child.key not in QUESTION_KEYS:
            _tell_stray(child, found)
            strays.append(child)
        else:
            _take(child, given, found)
    _doubt_keys_in(item, found)
    if not text:
        found.fault(key_spot(item), "empty-key", "question: says nothing.", EXAMPLES["question"])
    lists: dict[str, Any] = {
        name: tuple(value) if isinstance(value, list) else value for name, value in given.items()
    }
    start = item.first.column(0)
    width = max(1, item.first.column(item.head.value) - start)
    return QuestionBlock(text, item.head.stamp_ms, Spot(item.first.number, start, width), **lists), strays


def _doubt_keys_in(item: Item, found: Found) -> None:
    """A fault where a key of the block stands on the question's own line, behind the end of a sentence."""
    value = item.value()
    inside = _KEY_INSIDE.search(value.text)
    if inside:
        at, end = inside.span("key")
        found.fault(
            value.spot(at, end),
            "key-in-line",
            f"{inside['key']}: would be spoken here. Write it on a line of its own under the question, "
            "indented.",
            f"{item.head.key}: {short(value.text[: inside.start()])}\n      {short(value.text[at:])}",
        )


def _take(child: Item, given: dict[str, Any], found: Found) -> None:
    key, value = child.key, child.value()
    spot = key_spot(child)
    if child.head.stamp_ms is not None:
        found.fault(
            stamp_spot(child),
            "stamp-misplaced",
            f"{key}: takes no stamp, for it is told only when asked for.",
        )
    if not value.text and key != "also":
        found.fault(spot, "empty-key", f"{key}: says nothing.", EXAMPLES[key])
        return
    if key in _SPOKEN_ONCE | _LINE_ONCE and key in given:
        found.fault(spot, "key-twice", f"This question already has its {key}:.")
        return
    bits = bits_of(value, found) if key in _SPOKEN else ()
    if key in ("also", "reply"):
        if not child.head.name or (key == "reply" and not bits):
            return
        at = child.first.column(child.head.name_at)
        moves = " ".join(child.head.name.split())
        line = ReplyLine(moves, bits, Spot(child.first.number, at, len(child.head.name)))
        given["also" if key == "also" else "replies"].append(line)
    elif key in _SPOKEN and not bits:
        return
    elif key == "nudge":
        given["nudges"].append(bits)
    elif key in _SPOKEN_ONCE:
        given[key] = bits
    else:
        line_value = Line(key, " ".join(value.text.split()), value.spot(0, len(value.text)))
        if key in _LINE_ONCE:
            given[key] = line_value
        else:
            given[_MANY[key]].append(line_value)


def _with_more(text: Bits, child: Item, item: Item, found: Found) -> Bits:
    """The question's words with a second line of them that was indented as if it were the block."""
    value = child.value()
    if item.head.slip != "capital":
        found.fault(
            value.spot(0, len(value.text)),
            "question-wraps",
            "The words of a question stand in one line, for the deeper lines are its block.",
            short(f"{item.first.text} {value.text}", 200),
        )
    more = bits_of(value, found)
    return (*text, Words(" ", value.spot(0)), *more) if text and more else text + more


def _tell_stray(child: Item, found: Found) -> None:
    if child.key:
        message = f"{child.key}: does not belong in the block of a question. Take the indent away."
    else:
        message = (
            "The block of a question holds only its keys. Take the indent away if this is told after it."
        )
    found.fault(key_spot(child), "not-in-question", message, short(child.first.text))
