"""Writing scripts: stamps into a script that stays as it is, and a whole lesson as a script."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping

from player.script.heads import head_of, time_text
from player.script.model import (
    Beat,
    Bit,
    Bits,
    Block,
    Brace,
    Element,
    Header,
    IdeaLine,
    Lesson,
    Line,
    Part,
    QuestionBlock,
)
from player.script.physical import physical_lines

WIDTH = 100
INDENT = "  "
_LINE = re.compile(r"[^\r\n]*(?:\r\n|\n|\r|$)")
_UNESCAPED_BRACE = re.compile(r"(?<!\\)((?:\\\\)*)([{}])")


def stamped(source: str, stamps: Mapping[int, int]) -> str:
    """The script with `[m:ss.mmm]` at the beginning of these lines (from 1), all else untouched.

    `stamps` maps the line on which a beat, part, block or other told line begins to milliseconds. A stamp
    that is there is replaced. From one hour on it is `[h:mm:ss]`, with thousandths only where there are some.
    Raises ValueError for a line on which nothing begins.
    """
    lines, _ = physical_lines(source)
    pieces = _LINE.findall(source)
    for number, ms in stamps.items():
        line = lines[number - 1] if 0 < number <= len(lines) else None
        if line is None or not line.text or line.text.startswith("#"):
            raise ValueError(f"Nothing begins on line {number}, so it cannot be stamped.")
        raw = pieces[number - 1]
        start = line.column(0) - 1
        head = head_of(line.text)
        if head.stamp_end:
            end, gap = line.column(len(line.text[: head.stamp_end].rstrip())) - 1, ""
        else:
            end, gap = start, " "
        pieces[number - 1] = f"{raw[:start]}{_stamp(ms)}{gap}{raw[end:]}"
    return "".join(pieces)


def _stamp(ms: int) -> str:
    text = time_text(ms)
    return f"[{text.removesuffix('.000')}]" if ms >= 3_600_000 else f"[{text}]"


def script_text(lesson: Lesson) -> str:
    """The lesson as a script; reading it gives the same header and body."""
    parts = ["\n".join(_header(lesson.header))]
    parts += ["\n".join(_element(element)) for element in lesson.body]
    return "\n\n".join(part for part in parts if part) + "\n"


def _header(header: Header) -> Iterable[str]:
    yield f"script: {header.script}"
    series = "{}, {} of {}".format(*header.series) if header.series else ""
    for key, value in (
        ("title", header.title),
        ("series", series),
        ("coach", header.coach),
        ("side", "" if header.side == Header().side else header.side),
        ("level", header.level),
        ("language", "" if header.language == Header().language else header.language),
        ("recording", header.recording),
        ("voice", header.voice),
    ):
        if value:
            yield f"{key}: {value}"
    for word, sound in header.pronounce.items():
        yield f"pronounce {word}: {sound}"


def _element(element: Element) -> list[str]:
    """The lines of one element, not yet indented."""
    stamp = "" if element.stamp_ms is None else f"{_stamp(element.stamp_ms)} "
    if isinstance(element, Beat):
        return _speech(element.bits, stamp)
    if isinstance(element, Line):
        return [f"{stamp}{element.key}: {element.value}"]
    if isinstance(element, Part):
        return [_key_line(f"{stamp}part", element.title)]
    if isinstance(element, IdeaLine):
        return [_key_line(f"{stamp}idea {element.name}", element.words)]
    if isinstance(element, Block):
        return _block(element, stamp)
    return _question(element, stamp)


def _block(block: Block, stamp: str) -> list[str]:
    if block.kind in ("imagine", "retell"):
        lines = [f"{stamp}{block.kind}: {block.value}"]
    else:
        lines = [_key_line(f"{stamp}{block.kind}", block.title)]
    inside: list[str] = []
    for element in block.body:
        inside += ([""] if inside else []) + _element(element)
    if block.back is not None:
        inside += ([""] if inside else []) + [_key_line("back", block.back)]
    return lines + _indented(inside)


def _question(question: QuestionBlock, stamp: str) -> list[str]:
    inside: list[str] = []
    lines = (question.ask, *question.choices, *question.answers)
    inside += [f"{line.key}: {line.value}" for line in lines if line is not None]
    inside += [_key_line(f"also {reply.moves}", reply.words) for reply in question.also]
    inside += [_key_line(f"reply {reply.moves}", reply.words) for reply in question.replies]
    if question.otherwise is not None:
        inside.append(_key_line("otherwise", question.otherwise))
    if question.because is not None:
        inside.append(_key_line("because", question.because))
    inside += [_key_line("nudge", nudge) for nudge in question.nudges]
    inside += [
        f"{line.key}: {line.value}" for line in (*question.about, question.think, question.key) if line
    ]
    return [_key_line(f"{stamp}question", question.text), *_indented(inside)]


def _indented(lines: Iterable[str]) -> list[str]:
    return [INDENT + line if line else "" for line in lines]


def _key_line(key: str, bits: Bits) -> str:
    return f"{key}: {''.join(map(_bit, bits)).strip()}".rstrip()


def _speech(bits: Bits, stamp: str) -> list[str]:
    """The lines of a beat, broken between words but never inside a brace."""
    units: list[str] = []
    glued = False
    for bit in bits:
        text = _bit(bit)
        words = [text] if isinstance(bit, Brace) else text.split(" ")
        if glued and words:
            units[-1] += words.pop(0)
        units += words
        glued = True
    lines: list[str] = []
    line = stamp.rstrip()
    for unit in filter(None, units):
        if line and len(line) + 1 + len(unit) > WIDTH:
            lines.append(_safe(line))
            line = unit
        else:
            line = f"{line} {unit}" if line else unit
    lines.append(_safe(line))
    return lines


def _safe(line: str) -> str:
    """The line with a backslash where its beginning would be taken for a key or a comment."""
    if line.startswith("#"):
        return "\\" + line
    head = head_of(line)
    if head.key or head.slip:
        colon = line.index(":", head.stamp_end)
        return f"{line[:colon]}\\{line[colon:]}"
    return line


def _bit(bit: Bit) -> str:
    if not isinstance(bit, Brace):
        return re.sub(r"([\\{}\[\]])", r"\\\1", " ".join(f"|{bit.text}|".split())[1:-1])
    deed = re.sub(r"([\\{}@:])", r"\\\1", bit.deed)
    stamp = "" if bit.stamp_ms is None else f" @{time_text(bit.stamp_ms)}"
    if bit.words is None:
        return f"{{{deed}{stamp}}}"
    words = _UNESCAPED_BRACE.sub(r"\1\\\2", bit.words).strip()
    return f"{{{deed}{stamp}: {words}}}" if words else f"{{{deed}{stamp}:}}"
