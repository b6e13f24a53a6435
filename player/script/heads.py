"""What a line begins with: a stamp, a key, both, or neither; and what it nearly begins with."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from player.script.keys import BLOCK_KEYS, KEYS, NAMED_KEYS, near_key

Slip = Literal[
    "", "capital", "near", "no-blank", "blank-before", "no-name", "with-words", "unknown", "no-colon"
]

_STAMP = re.compile(r"\[(?P<time>[^\][]*)\] *")
_TIME = re.compile(
    r"(?:(?P<hours>\d{1,3}):(?=\d\d:))?(?P<minutes>\d{1,3}):(?P<seconds>[0-5]\d)(?:\.(?P<part>\d{1,3}))?"
)
_LIKE_TIME = re.compile(r"\[ *\d+ *[:.,;] *\d[\d:.,; ]*\]? *")
_KEY = re.compile(r"(?P<key>[A-Za-z]+)(?P<name> +[^ {}\[\]:\\][^{}\[\]:\\]*?)?(?P<gap> *):(?P<after> |$)?")

_BARE = re.compile(r"(?P<key>[a-z]+)(?: +|$)")
_BARE_NAME = re.compile(r"(?P<name>[^ {}\[\]:\\]+)(?: +|$)")


@dataclass(frozen=True, slots=True)
class Head:
    """The beginning of one line's text.

    `stamp_ms` is the time of its stamp, `stamp_end` where the text after it begins; `bad_stamp` is the end
    of something that was meant as a stamp. `key` is "" for speech; `value` is where the value begins.
    `slip` says how the key is miswritten: `word` is what stands there, and `key` what it is taken for.
    """

    stamp_ms: int | None
    stamp_end: int
    bad_stamp: int
    key: str
    name: str
    name_at: int
    value: int
    slip: Slip
    word: str

    @property
    def begins(self) -> bool:
        """Whether this line begins something of its own: a stamp or a key stands first."""
        return bool(self.key) or self.stamp_end > 0


def time_ms(text: str) -> int | None:
    """`m:ss`, `m:ss.mmm` or `h:mm:ss` as milliseconds; None where it is no such time."""
    found = _TIME.fullmatch(text.strip())
    if not found:
        return None
    minutes = int(found["minutes"])
    if found["hours"] is not None and minutes > 59:
        return None
    part = (found["part"] or "").ljust(3, "0")
    return ((int(found["hours"] or 0) * 60 + minutes) * 60 + int(found["seconds"])) * 1000 + int(part)


def time_text(ms: int) -> str:
    """Milliseconds as `m:ss.mmm`, from one hour on `h:mm:ss.mmm`."""
    seconds, part = divmod(ms, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    lead = f"{hours}:{minutes:02}" if hours else f"{minutes}"
    return f"{lead}:{seconds:02}.{part:03}"


def head_of(text: str) -> Head:
    """The beginning of a line, without looking at the lines around it."""
    stamp_ms, at, bad = None, 0, 0
    if text.startswith("["):
        found = _STAMP.match(text)
        stamp_ms = time_ms(found["time"]) if found else None
        if found and stamp_ms is not None:
            at = found.end()
        elif like := _LIKE_TIME.match(text):
            at = bad = like.end()
    found = _KEY.match(text, at)
    if not found:
        return Head(stamp_ms, at, bad, "", "", 0, at, "", "")
    word, name = found["key"], (found["name"] or "").strip()
    key, slip = _key(word, name, found["gap"], found["after"] is not None)
    name_at = found.start("name") + len(found["name"] or "") - len((found["name"] or "").lstrip())
    value = found.end() if key else at
    return Head(stamp_ms, at, bad, key, name, name_at, value, slip, word)


def without_colon(text: str, head: Head) -> Head | None:
    """The head as it would be with the colon that a key in small letters lacks; None where none is lacking.

    `value` is where the words begin that would stand after the colon.
    """
    found = _BARE.match(text, head.stamp_end)
    if head.key or head.slip or not found or found["key"] not in KEYS:
        return None
    key = found["key"]
    if key not in NAMED_KEYS:
        return Head(head.stamp_ms, head.stamp_end, 0, key, "", 0, found.end(), "no-colon", key)
    name = _BARE_NAME.match(text, found.end())
    if not name:
        return None
    return Head(head.stamp_ms, head.stamp_end, 0, key, name["name"], found.end(), name.end(), "no-colon", key)


def _key(word: str, name: str, gap: str, parted: bool) -> tuple[str, Slip]:
    """What key a word at the beginning of a line is, and how it is miswritten."""
    named = word in NAMED_KEYS
    if word in KEYS:
        if name and not named:
            return "", "with-words"
        if not parted:
            return word, "no-blank"
        if gap and not (named and name):
            return word, "blank-before"
        return word, "no-name" if named and not name else ""
    low = word.lower()
    if low in KEYS:
        return (low, "capital") if parted and (not name or low in NAMED_KEYS) else ("", "")
    near = near_key(low)
    if near and parted and bool(name) == (near in NAMED_KEYS):
        return near, "near"
    return ("", "unknown") if parted and not name else ("", "")


def is_block(head: Head) -> bool:
    """Whether deeper lines under this one are a block of their own."""
    return head.key in BLOCK_KEYS or head.key == "retell"
