"""Pronunciations that the recogniser's dictionary lacks, as ARPABET of the CMU dictionary (common practice).

The first of a word is how it is usually said; further ones are taken as the same word. Letters are the weak
point of spoken squares, so they have the variants that bring synthetic and quick speech nearer.
"""

from __future__ import annotations

SOUNDS: dict[str, tuple[str, ...]] = {
    "ay": ("EY", "EH Y"),
    "b": ("B IY",),
    "c": ("S IY",),
    "d": ("D IY",),
    "e": ("IY", "W IY", "Y IY"),
    "f": ("EH F",),
    "g": ("JH IY",),
    "h": ("EY CH", "HH EY CH"),
    "alfa": ("AE L F AH",),
    "cesar": ("S IY Z ER", "S EY Z AA R", "S EH Z ER"),
    "eva": ("IY V AH", "EY V AH"),
    "gustav": ("G UH S T AA F", "G AH S T AA V", "G UH S T AA V"),
    "hector": ("HH EH K T ER",),
    "kingside": ("K IH NG S AY D",),
    "queenside": ("K W IY N S AY D",),
    "passant": ("P AA S AO N", "P AE S AH N T", "P AH S AO N"),
    "en": ("AA N", "EH N"),
    "castling": ("K AE S AH L IH NG",),
    "recaptures": ("R IY K AE P CH ER Z",),
    "asides": ("AH S AY D Z",),
}


def letters_to_sounds(word: str) -> str:
    """A rough pronunciation of an unknown word by its letters, good enough for a name in a title."""
    out: list[str] = []
    rest = word.casefold()
    while rest:
        for length in (2, 1):
            sound = _PAIRS.get(rest[:length])
            if sound is not None and len(rest) >= length:
                out += sound.split()
                rest = rest[length:]
                break
        else:
            rest = rest[1:]
    return " ".join(out) or "AH"


_PAIRS = {
    "ch": "CH", "sh": "SH", "th": "TH", "ph": "F", "ck": "K", "qu": "K W", "ee": "IY", "oo": "UW", "ea": "IY",
    "ai": "EY", "ay": "EY", "ou": "AW", "ow": "OW", "oa": "OW", "ng": "NG", "a": "AE", "b": "B", "c": "K",
    "d": "D", "e": "EH", "f": "F", "g": "G", "h": "HH", "i": "IH", "j": "JH", "k": "K", "l": "L", "m": "M",
    "n": "N", "o": "AA", "p": "P", "q": "K", "r": "R", "s": "S", "t": "T", "u": "AH", "v": "V", "w": "W",
    "x": "K S", "y": "Y", "z": "Z",
}  # fmt: skip
