"""The many ways to word the same claim, brought to the one wording that the forms know."""

from __future__ import annotations

import re

from player.wording.claim_words import NUMBER

_SQUARE = "[a-h][1-8]"
_KIND = "pawn|knight|bishop|rook|queen|king|piece|man"
_SIDE = "white|black"

# Words that change nothing where a claim is about the board as it stands.
_IDLE = {"exactly", "precisely", "now", "here", "currently", "then"}
_OPENING = re.compile(
    r"^(?:(?:it|this|that|there|we have|in this position|on the board)\b,? ?)+(?=\S)", re.IGNORECASE
)


def _rules(*pairs: tuple[str, str]) -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(pattern, re.IGNORECASE), by) for pattern, by in pairs)


_REWRITTEN = _rules(
    # Whose: "Black's knight", "the knight of Black", "the side to move" said as a possessive.
    (rf"\b({_SIDE})(?:'s|s'|s)\b", r"\1"),
    (rf"\bsquare ({_SQUARE})\b", r"\1"),
    (rf"\b({_SQUARE})[- ]square\b", r"\1"),
    # A man by its square: "f6 knight", "f6-knight", "knight f6", "knight at f6", "knight standing on f6".
    (rf"(?<![-\w])({_SQUARE})[- ](?P<kind>{_KIND})(?:'s)?\b(?! on )", r"\g<kind> on \1"),
    (
        rf"\b({_KIND}) (?:at |(?:which |that )?(?:standing |stands |sitting |sits )?on )?({_SQUARE})\b",
        r"\1 on \2",
    ),
    (rf"\b({_KIND}) of ({_SIDE}) on ({_SQUARE})\b", r"\2 \1 on \3"),
    # Numbers and what is counted.
    (rf"\bonly (?=(?:{NUMBER})\b)", ""),
    (
        rf"(?<!ahead )(?<!behind )(?<!up )(?<!down )\b(?:by|with) ({NUMBER}) "
        rf"(?:(?:{_SIDE}) )?(?:men|man|pieces?|units?)\b",
        r"\1 times",
    ),
    (rf"\bby ({NUMBER})$", r"\1 times"),
    (r"\btimes? over\b", "times"),
    (r"\bwould(?: then)? be\b", ""),
    (r"^move (?=\S*[a-h][1-8]|[O0]-[O0])", ""),
    (r"\bfile ([a-h])\b", r"\1-file"),
    # One word for one thing.
    (r"\b(?:defended|protected|covered|supported)\b", "guarded"),
    (r"\b(?:undefended|unprotected|not (?:guarded|defended|protected)|without (?:a )?guard)\b", "unguarded"),
    (r"\bunder attack\b", "attacked"),
    (r"\bcolor", "colour"),
    (r"\b(king|queen)[- ]side\b", r"\1side"),
    (r"\bcheck[- ]mate", "checkmate"),
    (r"\bstale[- ]mate", "stalemate"),
    (r"\bsemi[- ]?open\b", "half-open"),
    (r"\bhalf open\b", "half-open"),
    (r"\ben[- ]passant\b", "en passant"),
    (r"\bcan\b(?!')", "may"),
    (r"\bagainst attack\b", "attack"),
)


def canonical(text: str) -> str:
    """Plain words (see `claim_plain`) in the wording of the forms; what fits no rule is left as it is."""
    text = " ".join(word for word in text.split() if word.casefold().strip(",") not in _IDLE)
    text = re.sub(r"\b(it|that|there|here)'s\b", r"\1", text, flags=re.IGNORECASE)
    for pattern, by in _REWRITTEN:
        text = pattern.sub(by, text)
    opened = _OPENING.sub("", text)
    return " ".join(opened.split())
