"""Good scripts spoilt at random: bytes and lines changed, doubled, moved, cut and glued."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

SCRAPS = (
    *(
        "{",
        "}",
        "*",
        ":",
        "\\",
        "[",
        "]",
        "@",
        "#",
        "\t",
        " ",
        "\n",
        "\r\n",
        "\r",
        "  ",
        "\ufeff",
        "\xa0",
        "\0",
    ),
    *(
        "[0:75]",
        "[1:00",
        "[0:01]",
        "{Nf3}",
        "{",
        "}:",
        "{:",
        "@0:16.4",
        "{e4 @}",
        "{castles}",
        "* *",
        "\u2028",
    ),
    *(
        "question: ",
        "aside: x\n  ",
        "instead: ",
        "imagine: remove e1\n  ",
        "board: start\n",
        "board: back 9 moves\n",
    ),
    *(
        "retell: x\n",
        "mark: x\n",
        "claim: ",
        "show: ",
        "answer: e4\n",
        "ask: count\n",
        "reply e4: {e5}\n",
        "also ",
    ),
    *(
        "\ud800",
        "\u202e",
        "\u2014",
        "\u2026",
        "\u201c",
        "\x1b[31m",
        "é",
        "\U0001f600",
        "9" * 400,
        "script: 2\n",
    ),
    *("board: 8/8/8/8/8/8/8/8 w - - 0 1\n", "board: k7/8/8/8/8/8/8/K7 w KQkq e3 5 99999999999999999999\n"),
    *(
        "board: White Ka1; White Ka2\n",
        "game: a - b\n",
        "board: after 1.e4\n",
        "pause: 9e9s\n",
        "think: .s\n",
    ),
)


def mutant(random: Random, scripts: Sequence[str]) -> str:
    """One of the scripts with one to six changes."""
    text = random.choice(scripts)
    for _ in range(random.randint(1, 6)):
        text = random.choice(_CHANGES)(random, text, scripts)
    return text


def _insert(random: Random, text: str, scripts: Sequence[str]) -> str:
    at = random.randint(0, len(text))
    return text[:at] + random.choice(SCRAPS) + text[at:]


def _cut(random: Random, text: str, scripts: Sequence[str]) -> str:
    at = random.randint(0, len(text))
    return text[:at] + text[at + random.randint(1, 30) :]


def _byte(random: Random, text: str, scripts: Sequence[str]) -> str:
    raw = bytearray(text.encode("utf-8", "surrogatepass")) or bytearray(b" ")
    raw[random.randrange(len(raw))] = random.randrange(256)
    return raw.decode("utf-8", "replace")


def _line(random: Random, text: str, scripts: Sequence[str]) -> str:
    """A line dropped, doubled, moved, indented, or taken from another script."""
    lines = text.split("\n")
    at, to = random.randrange(len(lines)), random.randrange(len(lines))
    change = random.randrange(5)
    if change == 0:
        del lines[at]
    elif change == 1:
        lines.insert(to, lines[at])
    elif change == 2:
        lines.insert(to, lines.pop(at))
    elif change == 3:
        lines[at] = random.choice(["  ", "\t", "      ", ""]) + lines[at].lstrip()
    else:
        lines.insert(to, random.choice(random.choice(scripts).split("\n")))
    return "\n".join(lines)


def _tail(random: Random, text: str, scripts: Sequence[str]) -> str:
    return text[: random.randint(0, len(text))]


_CHANGES = (_insert, _insert, _cut, _byte, _line, _line, _line, _tail)
