"""Seeded mismatches: one wrong word put into a script, in many kinds, for the checker to find on its line."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

KINDS = ("pawn", "knight", "bishop", "rook", "queen", "king")
NUMBERS = ("one", "two", "three", "four", "five", "six")
_SPOKEN = re.compile(
    r"^\s*(?:\[[\d:.]+\] ?)?(?!#|script:|title:|series:|coach:|side:|level:|language:|pronounce"
    r" |board:|mark:|"
    r"retell:|view:|think:|key:|about:|fine:|pause:|imagine:|show:|ask:|script:|choice:|claim:|answer:)"
)
_KEY = re.compile(r"^\s*(?:\[[\d:.]+\] ?)?((?:also|reply)\b[^:]*|[a-z]+(?: [a-z ]+)?):(?= )")
_BRACE = re.compile(r"\{(?P<deed>[^{}:]*?)(?::(?P<words>[^{}]*))?\}")
_COUNTED = (
    r"(?= (?:\w+"
    r" )?(?:guards?|attackers?|men|man|squares?|pawns?|knights?|bishops?|rooks?|queens?|kings?|moves|"
    r"replies|files?|ranks?|steps?|checks?)\b)"
)


@dataclass(frozen=True, slots=True)
class Mismatch:
    """One edit of a script: its kind, the line from 1, what stood there and what stands there now."""

    kind: str
    where: str
    line: int
    old: str
    new: str
    text: str

    @property
    def source(self) -> str:
        """The script with the wrong word in it."""
        return self.text


def mismatches(source: str, seed: int, per_kind: int = 3) -> list[Mismatch]:
    """Some edits of each kind, by seed."""
    chance = random.Random(seed)
    by_kind: dict[str, list[tuple[str, int, int, int, str, str]]] = {}
    for edit in _edits(source, chance):
        by_kind.setdefault(edit[0], []).append(edit)
    lines = source.split("\n")
    out = []
    for kind in sorted(by_kind):
        for _, number, start, end, new, where in chance.sample(
            by_kind[kind], min(per_kind, len(by_kind[kind]))
        ):
            line = lines[number]
            changed = [*lines[:number], line[:start] + new + line[end:], *lines[number + 1 :]]
            out.append(Mismatch(kind, where, number + 1, line[start:end], new, "\n".join(changed)))
    return out


def _edits(source: str, chance: random.Random) -> Iterator[tuple[str, int, int, int, str, str]]:
    names, year = _game(source)
    for number, line in enumerate(source.split("\n")):
        if not _SPOKEN.match(line):
            continue
        key = _KEY.match(line)
        first = key.end() if key else 0
        role = key[1].split()[0] if key else "told"
        if role == "game":
            for found in re.finditer(r"\d{4}", line):
                yield "year", number, found.start(), found.end(), str(int(found[0]) - 3), role
            continue
        deeds = [(found.start("deed"), found.end("deed")) for found in _BRACE.finditer(line)]
        spoken = [found.span("words") for found in _BRACE.finditer(line) if found["words"]]

        def free(start: int, end: int, deeds: list[tuple[int, int]] = deeds, first: int = first) -> bool:
            return start >= first and not any(a - 1 <= start < b + 1 for a, b in deeds)

        def where(start: int, role: str = role, spoken: list[tuple[int, int]] = spoken) -> str:
            return f"{role} brace" if any(a <= start < b for a, b in spoken) else role

        for kind, start, end, new in _word_edits(line, names, year, chance):
            if free(start, end):
                yield kind, number, start, end, new, where(start)
        for found in _BRACE.finditer(line):
            yield from _brace_edits(found, number, role)


def _word_edits(
    line: str, names: Sequence[str], year: str, chance: random.Random
) -> Iterator[tuple[str, int, int, str]]:
    for found in re.finditer(r"\b[a-h][1-8]\b", line):
        other = found[0]
        while other == found[0]:
            other = chance.choice("abcdefgh") + chance.choice("12345678")
        of_a_man = re.search(rf"\b(?:{'|'.join(KINDS)}) (?:on|to) $", line[: found.start()], re.IGNORECASE)
        yield ("man's square" if of_a_man else "square"), found.start(), found.end(), other
    for found in re.finditer(rf"\b({'|'.join(KINDS)})(?=s?\b)", line, re.IGNORECASE):
        other = chance.choice([kind for kind in KINDS if kind != found[0].lower()])
        other = other.capitalize() if found[0][0].isupper() else other
        on_square = re.match(r"s? (?:on|from) [a-h][1-8]", line[found.end() :])
        yield ("piece on square" if on_square else "piece"), found.start(), found.end(), other
    swap = {"White": "Black", "Black": "White", "white": "black", "black": "white"}
    for found in re.finditer(r"\b(?:[Ww]hite|[Bb]lack)\b", line):
        yield "colour", found.start(), found.end(), swap[found[0]]
    for found in re.finditer(r"\b(king|queen)(?='?s? ?side\b)|\b(?:kingside|queenside)\b", line):
        new = found[0].replace("king", "@").replace("queen", "king").replace("@", "queen")
        yield "wing", found.start(), found.end(), new
    for found in re.finditer(rf"\b({'|'.join(NUMBERS)})\b{_COUNTED}", line, re.IGNORECASE):
        other = chance.choice([word for word in NUMBERS if word != found[0].lower()])
        yield "count", found.start(), found.end(), other.capitalize() if found[0][0].isupper() else other
    for found in re.finditer(r"\b(?:with|is|gives|gives no|without|not|[Nn]o) check\b", line):
        new = {"with": "without check", "without": "with check", "no": "Check", "not": "check"}.get(
            found[0].split()[0].lower(), "is not check"
        )
        yield "check", found.start(), found.end(), new
    for name in names:
        for found in re.finditer(rf"\b{name}\b", line):
            yield (
                "name",
                found.start(),
                found.end(),
                chance.choice(
                    [
                        name[:-1],
                        name[:2] + "r" + name[2:],
                        *(other for other in names if other != name),
                        "Whitlock",
                    ]
                ),
            )
    for found in re.finditer(rf"\b{year}\b", line) if year else ():
        yield "year", found.start(), found.end(), str(int(year) + 1)


def _brace_edits(
    found: re.Match[str], number: int, role: str
) -> Iterator[tuple[str, int, int, int, str, str]]:
    deed, end = found["deed"].strip(), found.end() - 1
    if " " in deed or not deed or deed.startswith("show") or "@" in (found[0]):
        return
    bare = found["words"] is None
    at = found.start()
    capture, check = "x" in deed, "+" in deed or "#" in deed
    lead = ": " if bare else " "
    if not capture:
        words = f"{lead}taking a pawn" if bare else f"{lead}with a capture"
        words = f"{lead}and takes a pawn" if not bare else words
        yield "takes", number, end, end, words, f"{role} brace"
        if bare:
            yield "takes", number, at, at, "takes on c3 with ", role
    if not check:
        yield "check", number, end, end, f"{lead}with check", f"{role} brace"
        yield "check", number, found.end(), found.end(), ", with check", role
    if deed in ("castles", "O-O"):
        yield "wing", number, end, end, f"{lead}castles queenside", f"{role} brace"


def _game(source: str) -> tuple[list[str], str]:
    found = re.search(r"^game: (.+?) - (.+?)(?:, .*?(\d{4}))?(?:,|$)", source, re.MULTILINE)
    if not found:
        return [], ""
    return [*found[1].split(), *found[2].split()], found[3] or ""
