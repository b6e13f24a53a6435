"""The known forms that are about what an unknown claim is about, with its own men in them."""

from __future__ import annotations

import re

from player.wording.claim_canon import canonical
from player.wording.claim_words import claim_plain

# Words that coaches use, and the form that can be proved of what they speak about.
_TOPICS = tuple(
    (re.compile(rf"\b(?:{words})", re.IGNORECASE), example)
    for words, example in (
        (r"(?:if|when|once) (?:white|black) (?:plays?|goes|takes|moves)", "after Ng5 Be7, g2-d5 is open"),
        (r"(?:two|three|four|more|\d) (?:men|pieces) attack", "White attacks e4 2 times"),
        (r"hang(?:s|ing)|loose|en prise|falls\b", "the knight on f6 is undefended"),
        (r"look(?:s|ing)? (?:at|down|to)|ey(?:es|e?ing)\b|aim|watch|bear(?:s|ing)? (?:down )?on|"
         r"press|point(?:s|ing)? at|block|control", "the bishop on b5 attacks c6"),
        (r"pin(?:s|ned|ning)\b", "the knight on f6 is pinned"),
        (r"guard|protect|defend|defence", "the knight on f6 is guarded 2 times"),
        (r"be stopped|is unstoppable|catch(?:es)?\b", "the king is inside the square of the pawn on a4"),
        (r"threat", "Bg5 threatens Bxf6"),
        (r"mating|threaten\w* (?:check)?mate", "Qh6 threatens mate"),
        (r"fork", "Nc7 forks e8 and a8"),
        (r"skewer|x-?ray", "Bg2 skewers d5 and b7"),
        (r"discover", "Nf6 discovers an attack on a8"),
        (r"(?:lose|losing|cost|win|gain|pick)\w* (?:up )?(?:material|(?:(?:one|two|a|the) )?"
         r"(?:pawn|piece|exchange|knight|bishop|rook|queen)s?)\b", "Nc7 wins the exchange"),
        (r"win(?:ning|s)?$|won$|los(?:t|ing|es)$", "White wins with best play"),
        (r"has won (?:a )?(?:pawn|piece|exchange)|material|ahead|behind|pawns? (?:up|down)",
         "White is up a pawn"),
        (r"doubled", "the pawn on d4 is doubled"),
        (r"isolated|isolani", "the pawn on d4 is isolated"),
        (r"passed|passer", "the pawn on d4 is passed"),
        (r"backward", "the pawn on d4 is backward"),
        (r"outpost|strong square|strongpoint|hole\b", "d5 is an outpost for White"),
        (r"diagonal", "g2-d5 is open"),
        (r"stuck|zugzwang|cannot move|can't move|no moves|trapped", "the king on e8 has 1 move"),
        (r"(?:has|have) castled", "Black has lost the right to castle"),
        (r"two bishops|pair", "White has the bishop pair"),
    )
)  # fmt: skip

_COLOUR = "white|black"
_MAN = rf"(?:(?:{_COLOUR}) )?(?:pawn|knight|bishop|rook|queen|king) on [a-h][1-8]"
_THINGS = {
    "man": re.compile(rf"\b(?:the )?({_MAN})\b", re.IGNORECASE),
    "pair": re.compile(r"(?<![\w-])([a-h][1-8]-[a-h][1-8])(?![\w-])"),
    "square": re.compile(r"(?<![\w-])(?<! on )([a-h][1-8])(?![\w-])"),
    "file": re.compile(r"(?<![\w-])([a-h]-file)\b"),
    "side": re.compile(rf"(?<![\w-])({_COLOUR})(?! (?:pawn|knight|bishop|rook|queen|king)\b)", re.IGNORECASE),
}


def topical(sentence: str) -> tuple[str, ...]:
    """The examples of the forms that speak about what a sentence speaks about, in the order of the help."""
    return tuple(dict.fromkeys(example for words, example in _TOPICS if words.search(claim_plain(sentence))))


def in_own_words(example: str, sentence: str) -> str:
    """An example about the sentence's own man, square, line, file and side, wherever each has just one."""
    said = canonical(claim_plain(sentence))
    for name, pattern in _THINGS.items():
        own = {found.casefold() for found in pattern.findall(said)}
        if len(own) == 1 and len(pattern.findall(example)) == 1:
            word = own.pop()
            word = {"man": f"the {word}", "side": word.capitalize()}.get(name, word)
            example = pattern.sub(word, example)
    return example
