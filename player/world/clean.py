"""Foreign text made safe to print: nothing in it can steer the terminal or turn the reading order."""

from __future__ import annotations

import re

# Escape sequences as ECMA-48 builds them: control sequences (5.4), command strings (5.6) up to their end on
# the same line, and the short ones (5.3 and ISO 2022), each in its 7-bit and 8-bit form. What is no whole
# sequence loses its control character alone, and the rest is harmless text.
_SEQUENCE = (
    r"(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]"
    r"|(?:\x1b[PX\]^_]|[\x90\x98\x9d\x9e\x9f])[^\x07\x1b\x9c\n]*(?:\x07|\x1b\\|\x9c)"
    r"|\x1b[ -/]*[0-~]"
)
# C0 but tab and line feed, delete, C1; then what turns or hides the order of reading (Unicode's bidirectional
# embeddings, overrides, isolates and marks), the byte order mark, and the annotation characters.
_SINGLE = "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff\ufff9-\ufffb]"
_UNWANTED = re.compile(f"{_SEQUENCE}|{_SINGLE}")
_LINE_ENDS = re.compile("\r\n?|\u2028|\u2029")
_LONE_SURROGATES = re.compile("[\ud800-\udfff]")


def clean(text: str) -> str:
    """The text without control characters, escape sequences and bidirectional controls.

    Tabs and line ends stay, every line end as LF. Halves of surrogate pairs, which no stream can write,
    become the replacement character. Cleaning twice changes nothing more.
    """
    text = _LINE_ENDS.sub("\n", text)
    text = _UNWANTED.sub("", text)
    return _LONE_SURROGATES.sub("\ufffd", text)


def clean_line(text: str) -> str:
    """The cleaned text on one line: runs of blanks, tabs and line ends become one blank, none at the ends."""
    return " ".join(clean(text).split())
