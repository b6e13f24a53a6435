"""The indent pre-pass: physical lines to logical lines, and logical lines to blocks."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from player.script.heads import Head, head_of, is_block, without_colon
from player.script.keys import HEADER_KEYS, QUESTION_KEYS
from player.script.physical import PhysicalLine
from player.script.slips import Slips
from player.script.stretch import Stretch, joined

DEEPEST = 30
"""How many blocks may stand in one another."""
_UNFINISHED = re.compile(r"(?:[\w,;(]|[-–—])$")
_BRACE = re.compile(r"\\.|[{}]")


@dataclass(slots=True)
class Item:
    """A logical line: speech (`key` is "") or a key line, with the items of its block under it."""

    head: Head
    lines: list[tuple[PhysicalLine, int]]
    depth: int
    children: list[Item] = field(default_factory=list)
    open_brace: bool = False

    @property
    def key(self) -> str:
        return self.head.key

    @property
    def first(self) -> PhysicalLine:
        return self.lines[0][0]

    def value(self) -> Stretch:
        """The text after stamp, key and colon, from all its lines."""
        return joined(self.lines).cut(0)

    def add(self, line: PhysicalLine, index: int) -> None:
        self.lines.append((line, index))
        self.open_brace = _stays_open(line.text, index, self.open_brace)


def blocks_of(lines: Sequence[PhysicalLine], slips: Slips) -> list[Item]:
    """The items of a script, nested as their indents say; miswritten keys and indents go to `slips`."""
    top: list[Item] = []
    open_blocks: list[Item] = []
    now: Item | None = None
    for number, line in enumerate(lines):
        if not line.text:
            now = None
            continue
        if line.text.startswith("#"):
            continue
        head = head_of(line.text)
        goes_on = now is not None and _goes_on(now, line, open_blocks, lines, number)
        depth = line.depth
        meant = without_colon(line.text, head)
        begun = now is None or not goes_on or not (now.open_brace or now.key or _is_unfinished(now))
        if meant is not None and begun:
            head = _colon_missing(head, meant, line, lines, number, now, open_blocks, slips)
        if head.key in QUESTION_KEYS and now is not None and _is_under(now, line, open_blocks):
            slips.unindented(line, head, open_blocks[-1].first)
        elif head.begins or not goes_on:
            while open_blocks and depth <= open_blocks[-1].depth:
                open_blocks.pop()
        if head.begins or head.slip or head.bad_stamp:
            unfinished = now if now is not None and goes_on and _is_unfinished(now) else None
            head = _settle(head, line, lines, number, unfinished, open_blocks, slips)
        if open_blocks and depth > open_blocks[-1].depth:
            first = open_blocks[-1].children[0].first if open_blocks[-1].children else None
            slips.indent(line, open_blocks[-1].first, first)
        siblings = open_blocks[-1].children if open_blocks else top
        if now is not None and goes_on and not head.begins:
            if depth < now.depth and not now.open_brace:
                slips.uneven(line, now.first)
            now.add(line, head.value)
            continue
        if siblings and depth != siblings[0].depth and not _is_level(siblings[0], open_blocks):
            slips.uneven(line, siblings[0].first)
        now = Item(head, [], depth)
        now.add(line, head.value)
        siblings.append(now)
        if is_block(head):
            if len(open_blocks) == DEEPEST:
                slips.too_deep(line)
            else:
                open_blocks.append(now)
    return top


def _is_under(now: Item, line: PhysicalLine, open_blocks: Sequence[Item]) -> bool:
    """Whether a line as deep as the open question follows it or a line of its block at once."""
    if not _in_question(open_blocks) or line.depth != open_blocks[-1].depth:
        return False
    block = open_blocks[-1]
    return now is block or (bool(block.children) and now is block.children[-1])


def _is_level(first: Item, open_blocks: Sequence[Item]) -> bool:
    """Whether the first line of the open block is not indented, which has been said of it."""
    return bool(open_blocks) and first.depth <= open_blocks[-1].depth


def _colon_missing(
    head: Head,
    meant: Head,
    line: PhysicalLine,
    lines: Sequence[PhysicalLine],
    number: int,
    now: Item | None,
    open_blocks: Sequence[Item],
    slips: Slips,
) -> Head:
    """The key that is meant, where the lines around leave no doubt; else the line is speech, and queried."""
    inside = (
        meant.key in QUESTION_KEYS
        and _in_question(open_blocks)
        and (line.depth > open_blocks[-1].depth or (now is not None and _is_under(now, line, open_blocks)))
    )
    surely = inside or (is_block(meant) and _has_block(lines, number, past_blanks=False))
    if not surely and meant.key in QUESTION_KEYS:
        return head
    slips.no_colon(line, meant, surely)
    return meant if surely else head


def _goes_on(
    now: Item, line: PhysicalLine, open_blocks: Sequence[Item], lines: Sequence[PhysicalLine], number: int
) -> bool:
    """Whether a line without stamp or key belongs to the logical line before it."""
    if now.open_brace and _closes_soon(lines, number):
        return True
    if is_block(now.head):
        return False
    if now.key:
        return line.depth > now.depth
    return not open_blocks or line.depth > _block_depth(now, open_blocks)


def _block_depth(now: Item, open_blocks: Sequence[Item]) -> int:
    holders = [block for block in open_blocks if block.depth < now.depth]
    return holders[-1].depth if holders else -1


def _stays_open(text: str, index: int, was_open: bool) -> bool:
    """Whether a brace is open at the end of this line."""
    for found in _BRACE.finditer(text, index):
        if found[0] == "{":
            was_open = True
        elif found[0] == "}":
            was_open = False
    return was_open


def _closes_soon(lines: Sequence[PhysicalLine], number: int) -> bool:
    """Whether an open brace is closed before another opens and before the beat must end."""
    for line in lines[number : number + 40]:
        if not line.text or head_of(line.text).begins:
            return False
        for found in _BRACE.finditer(line.text):
            if found[0] in "{}":
                return found[0] == "}"
    return False


def _is_unfinished(now: Item) -> bool:
    """Whether speech stops in the middle of a sentence."""
    if now.key:
        return False
    line, index = now.lines[-1]
    return bool(_UNFINISHED.search(line.text[index:]))


def _settle(
    head: Head,
    line: PhysicalLine,
    lines: Sequence[PhysicalLine],
    number: int,
    unfinished: Item | None,
    open_blocks: Sequence[Item],
    slips: Slips,
) -> Head:
    """The head as it is taken once the lines around it are known; slips are reported here."""
    if head.bad_stamp:
        slips.bad_stamp(line, head)
    if head.slip == "capital":
        sure = _is_in_block(head, line, open_blocks) or _is_in_header(head, lines, number)
        if sure or _has_block(lines, number, is_block(head)):
            slips.capital(line, head)
            return head
        slips.capital_speech(line, head)
        return _as_speech(head)
    if head.slip == "near" and (unfinished is not None or _is_speech_like(head, lines, number)):
        if unfinished is None:
            slips.unknown(line, head)
        return _as_speech(head)
    if not head.key:
        if unfinished is None and head.slip:
            slips.unknown(line, head)
        return head
    if head.name and head.key in QUESTION_KEYS and not _in_question(open_blocks) and unfinished is not None:
        slips.in_sentence(line, head, unfinished.lines[-1][0], spoken=True)
        return _as_speech(head)
    if unfinished is not None and not head.stamp_end and not slips.was_capital(unfinished.lines[-1][0]):
        slips.in_sentence(line, head, unfinished.lines[-1][0], spoken=False)
    elif head.slip:
        slips.miswritten(line, head)
    return head


def _in_question(open_blocks: Sequence[Item]) -> bool:
    return bool(open_blocks) and open_blocks[-1].key == "question"


def _is_in_block(head: Head, line: PhysicalLine, open_blocks: Sequence[Item]) -> bool:
    """Whether a question's key stands inside a question's block, where nothing is told."""
    return head.key in QUESTION_KEYS and _in_question(open_blocks) and line.depth > open_blocks[-1].depth


def _is_in_header(head: Head, lines: Sequence[PhysicalLine], number: int) -> bool:
    """Whether a key of the header stands with nothing but such keys and comments above it."""
    return head.key in HEADER_KEYS and all(
        not above.text or above.text.startswith("#") or head_of(above.text).key in HEADER_KEYS
        for above in lines[:number]
    )


def _as_speech(head: Head) -> Head:
    return Head(head.stamp_ms, head.stamp_end, head.bad_stamp, "", "", 0, head.stamp_end, "", head.word)


def _is_speech_like(head: Head, lines: Sequence[PhysicalLine], number: int) -> bool:
    return head.word[0].isupper() and not _has_block(lines, number, is_block(head))


def _has_block(lines: Sequence[PhysicalLine], number: int, past_blanks: bool) -> bool:
    """Whether the next line that says something is indented deeper than this one."""
    for index in range(number + 1, len(lines)):
        line = lines[index]
        if line.text and not line.text.startswith("#"):
            return line.depth > lines[number].depth
        if not past_blanks and not line.text:
            return False
    return False
