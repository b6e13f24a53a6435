"""Speech as the model has it: words with their escapes resolved, and braces."""

from __future__ import annotations

import re

from player.script.found import Found, short
from player.script.heads import time_ms
from player.script.model import Bit, Bits, Brace, Words
from player.script.parse import Broken, Piece, RawBrace, parse
from player.script.stretch import Stretch

_ESCAPE = re.compile(r"\\([!-/:-@\[-`{-~])")
_MOST_TOLD = 3
_BLANKS = re.compile(r"  +")
_STAMP_INSIDE = re.compile(r"\[(?:\d+:)?\d{1,3}:\d\d(?:\.\d+)?\] ?")
_TIGHT_COLON = re.compile(
    r"(?P<deed>[A-Za-z0-9=+#x.-]+(?: [A-Za-z0-9=+#x.-]+)*):(?![a-h][1-8])(?P<words>[A-Za-z].*)"
)


def plain(text: str) -> str:
    """A text with its escapes resolved and its runs of blanks made one."""
    return _ESCAPE.sub(r"\1", _BLANKS.sub(" ", text))


def bits_of(stretch: Stretch, found: Found) -> Bits:
    """The words and braces of a spoken text; what is broken goes to `found`."""
    raws, broken = parse(stretch.text)
    for slip in broken[:_MOST_TOLD]:
        _tell(slip, stretch, found)
    bits: list[Bit] = []
    for raw in raws:
        if isinstance(raw, RawBrace):
            bit = _brace(raw, stretch, found)
            if bit is not None:
                bits.append(bit)
        else:
            _words(raw, stretch, bits, found)
    return _tidy(bits)


def _tidy(bits: list[Bit]) -> Bits:
    """The bits without blanks at the ends, and with words that a broken brace had parted as one."""
    made: list[Bit] = []
    for bit in bits:
        last = made[-1] if made else None
        if isinstance(bit, Words) and isinstance(last, Words):
            made[-1] = Words(_BLANKS.sub(" ", last.text + bit.text), last.spot)
        else:
            made.append(bit)
    for at, strip in ((0, str.lstrip), (-1, str.rstrip)):
        if made and isinstance(bit := made[at], Words):
            made[at] = Words(strip(bit.text, " "), bit.spot)
    return tuple(bit for bit in made if isinstance(bit, Brace) or bit.text)


def _words(piece: Piece, stretch: Stretch, bits: list[Bit], found: Found) -> None:
    text = piece.text
    for inside in _STAMP_INSIDE.finditer(text):
        if inside.start() and text[inside.start() - 1] == "\\":
            continue
        at = piece.at + inside.start()
        found.fault(
            stretch.spot(at, at + len(inside[0].rstrip())),
            "stamp-in-line",
            "A stamp stands at the beginning of a line, where a beat begins. Begin a new line before it.",
            short(inside[0] + text[inside.end() :]),
        )
        text = text[: inside.start()] + " " * len(inside[0]) + text[inside.end() :]
    lead = len(text) - len(text.lstrip())
    made = plain(text)
    if made:
        bits.append(Words(made, stretch.spot(piece.at + lead, piece.at + max(lead + 1, len(text.rstrip())))))


def _brace(raw: RawBrace, stretch: Stretch, found: Found) -> Bit | None:
    deed, say = raw.deed.text, raw.say.text if raw.say is not None else None
    spot = stretch.spot(raw.start, raw.end)
    if not deed.strip():
        if say and say.strip():
            found.fault(
                spot,
                "brace-without-move",
                "The colon in a brace follows a move or show. These words change nothing on the board.",
                say.strip(),
            )
            return Words(plain(say).strip(), spot)
        found.fault(spot, "empty-brace", "There is nothing in this brace.", "{Nf3}")
        return None
    tight = _TIGHT_COLON.fullmatch(deed.strip()) if say is None else None
    if tight:
        found.fault(
            spot,
            "brace-colon",
            "After the colon in a brace there must be a blank.",
            f"{{{tight['deed']}: {tight['words']}}}",
        )
        deed, say = tight["deed"], tight["words"]
    stamp_ms = None
    if raw.stamp is not None:
        stamp_ms = time_ms(raw.stamp.text)
        if stamp_ms is None:
            found.fault(
                stretch.spot(raw.stamp.at - 1, raw.stamp.end),
                "bad-stamp",
                "A stamp in a brace is written @m:ss or @m:ss.mmm, with seconds below 60.",
                f"{{{short(deed.strip())} @0:16.4}}",
            )
    words = None if say is None else _BLANKS.sub(" ", say).strip()
    return Brace(plain(deed).strip(), words, stamp_ms, spot)


def _opened(text: str, at: int) -> str:
    """The word before a brace that closes nothing, in a pair of braces, with what follows."""
    word = re.search(r"[^\s{}]+$", text[:at])
    return short(f"{{{word[0]}{text[at:]}") if word else ""


def _tell(slip: Broken, stretch: Stretch, found: Found) -> None:
    inside = stretch.text[slip.start : slip.end]
    if slip.kind == "stray":
        found.fault(
            stretch.spot(slip.start, slip.end),
            "stray-brace",
            "This brace closes nothing. Open one before the move, take it out, or put a backslash before it.",
            _opened(stretch.text, slip.start),
        )
    elif slip.kind == "unclosed":
        deed = re.split(r"[ :.,;]", inside[1:].strip(), maxsplit=1)[0]
        closed = f"{inside.strip()}}}" if ": " in inside else f"{{{deed}}}{inside[1:].strip()[len(deed) :]}"
        found.fault(
            stretch.spot(slip.start, slip.end), "unclosed-brace", "This brace is never closed.", short(closed)
        )
    else:
        found.fault(
            stretch.spot(slip.start, slip.end),
            "brace-order",
            "In a brace stands the move, then perhaps a stamp, then perhaps a colon and words.",
            "{Nf3 @0:16.4: the knight comes out}",
        )
