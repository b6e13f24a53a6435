"""The English words of chess prose, as patterns, and how far a clause commits itself."""

from __future__ import annotations

import re

import chess

SQUARE = r"[a-h][1-8]"
KINDS = {name: kind for kind, name in enumerate(chess.PIECE_NAMES) if name}
KIND = "(?:pawn|knight|bishop|rook|queen|king)"
COUNTS = {
    word: number
    for number, word in enumerate(
        [
            "no",
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
            "twenty",
        ]
    )
} | {"nobody": 0, "nothing": 0, "none": 0, "a": 1, "an": 1, "single": 1, "both": 2, "once": 1, "twice": 2}
COUNT = r"(?:no|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d{1,2})"

MAN_ON = re.compile(
    rf"\b(?P<owner>(?:white|black)(?:'s)?|our|my|your|his|her|their|its|the|that|this|a|an|only|other)?"
    rf"\s?(?:own |light-squared |dark-squared |wedge |single |lone )*(?:(?P<color>white|black)(?:'s)? )?"
    rf"(?:(?P<file>[a-h])-)?(?P<kind>{KIND})s? "
    rf"(?:which |that |who )?(?:now )?(?P<link>(?:is |are |was |were |stands? |sits? |stood |sat |waits?"
    rf" |lives? )?(?:asleep |alone |safe |at home |it has left alone |it left )?(?:on|at|of|from)|left on) "
    rf"(?P<square>{SQUARE})\b(?P<also>(?:,? (?:and|or) (?:on )?{SQUARE}\b)*)",
    re.IGNORECASE,
)
MAN_TO = re.compile(
    rf"\b(?:(?P<color>white|black)(?:'s)? )?(?P<kind>{KIND})(?: from (?P<origin>{SQUARE}))? "
    rf"(?P<verb>(?:steps |jumps |goes |comes |moves |drops |back |hops |returns |had gone |steps back |drops"
    rf" back |retreats )*to|takes(?: on)?|captures(?: on)?) "
    rf"(?P<square>{SQUARE})\b",
    re.IGNORECASE,
)
HYPOTHETICAL = re.compile(
    r"\b(?:if|would|could|should|might|may|can|cannot|imagine|suppose|picture|wants?|wanted|dreams?|wish\w*|"
    r"hop(?:e|es|ed|ing)|later|next|when|once|unless|until|till|will|shall|instead|ever|plans?|planned|ideas?|towards?|"
    r"threat\w*|about|ready|prepar\w*|soon|else|without|before|after|never|not|no longer|like|almost|"
    r"one day|some day|let|wherever|whoever|whenever|ought|must|had|were|rather|than|nobody|another|going|"
    r"once more)\b|n't\b|'ll\b|'d\b|\?",
    re.IGNORECASE,
)
DENIED = re.compile(
    r"\b(?:not|no|never|nothing|without|nobody|none|neither|nor|cannot|stops?|stopped|hardly|avoid\w*|"
    r"instead of|rather than|refus\w*|prevent\w*|before|until|unless|out of)\b|n't\b",
    re.IGNORECASE,
)
CLAUSE_END = re.compile(r"[.,;:!?()—–](?=\s|$)")
SENTENCE_END = re.compile(r"[.;:!?](?=\s|$|['\"”)])")


def clause(text: str, start: int, end: int, ends: re.Pattern[str] = CLAUSE_END) -> tuple[int, int]:
    """Where the clause around some characters begins and ends."""
    first = 0
    for found in ends.finditer(text, 0, start):
        first = found.end()
    close = ends.search(text, end)
    return first, close.end() if close else len(text)


def sentence(text: str, start: int, end: int) -> tuple[int, int]:
    """Where the sentence around some characters begins and ends."""
    return clause(text, start, end, SENTENCE_END)


def supposed(text: str, start: int, end: int, wide: bool = False) -> bool:
    """Whether the clause (or, if wide, the sentence) of these characters only supposes what it says."""
    first, last = sentence(text, start, end) if wide else clause(text, start, end)
    return bool(HYPOTHETICAL.search(text[first:start]) or HYPOTHETICAL.search(text[end:last]))


def denied(text: str, start: int) -> bool:
    """Whether the clause before this character takes it back."""
    first, _ = clause(text, start, start)
    return bool(DENIED.search(text[first:start]))
