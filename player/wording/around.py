"""What people say around a move: that it is best, and why, what comes next, and whether they are sure."""

from __future__ import annotations

import re
from collections.abc import Iterator

from player.wording.languages import Language, Token, codes, language
from player.wording.tokens import slots

_BEST = re.compile(
    r"[,;]?\s+(?:is|looks|seems|feels|must be|has to be|should be|would be|might be)(?: like)?"
    r"(?: the| a| my| very| quite| probably| clearly)*\s+"
    r"(?:best|good|right|correct|strong(?:est)?|better|natural|move|answer|choice|idea|one|plan|nice|fine|logical"
    r"|obvious)(?: move| here| now| one| answer| choice| idea)*$",
    re.IGNORECASE,
)
_ASKS = re.compile(
    r"^(?:is it|is the answer|is it maybe|would it be|could it be|might it be|do (?:i|we) play|"
    r"does (?:he|white|black) play|should (?:i|we|he|white|black) play|may i play|can i play)\s+",
    re.IGNORECASE,
)
_TAG = re.compile(
    r",?\s+(?:right|correct|ok|okay|no|yes|maybe|perhaps|isn'?t it|or not|is that (?:it|right)|is it)$",
    re.IGNORECASE,
)
_REASONS = {
    "en": r"because|cause|'cause|since|so that|so i|in order to|as it|as this|as that|which|"
    r"to (?:attack|guard|protect|defend|stop|win|get|free|develop|open|make|prepare|hit|threaten|keep|prevent"
    r"|support|gain|fork|pin)",
    "de": r"weil|denn|da er|da sie|damit|um",
    "fr": r"parce que|parce qu'|car|pour|afin de|puisque",
    "es": r"porque|ya que|para|pues",
}
_SEVERAL = re.compile(
    r"(?:^|[\s.,])(?:[KQRBN][a-h]?[1-8]?x?[a-h][1-8]|[a-h](?:x[a-h])?[1-8]|[O0]-[O0](?:-[O0])?)[+#!?]*(?=$|[\s,.;])"
)


def without_reason(said: str, code: str) -> Iterator[str]:
    """The words without the praise or the reason that follows the move, where there is one."""
    shorter = _BEST.sub("", said.strip(" .!"))
    reason = re.search(rf"[,;:]?\s+(?:{_REASONS.get(code, '(?!)')})\b.*$", shorter, re.IGNORECASE | re.DOTALL)
    if reason:
        shorter = _BEST.sub("", shorter[: reason.start()])
    if shorter and shorter != said.strip(" .!"):
        yield shorter


def asked_move(said: str) -> str:
    """The move in a question such as "is it Nd2?" or "Nd2, right?"; "" where it is put in no such way."""
    bare = _ASKS.sub("", _TAG.sub("", said.strip(" .!?")))
    return bare if bare and bare != said.strip(" .!") else ""


_AGAINST = re.compile(
    r"\b(?:or|not|no|never|nothing|neither|nor|without|except|unless|if|instead|rather|bad|badly|wrong|weak|loses?"
    r"|losing|lost|terrible|awful|mistake|blunder\w*|illegal|impossible|but for|other than|apart from|besides"
    r"|(?:any|every)thing but|all but|cannot|dont|cant|wont|doesnt|isnt|hate|dislike|avoid|stops?|prevents?"
    r"|vs|versus|hangs?|drops?)\b|n't\b|\?|\b(?:what|why|how|where|which|who|when)$"
    r"|^(?:what|why|how|where|which|who|when|is|are|does|do|can|should|would|could)\b",
    re.IGNORECASE,
)
_JOINT = re.compile(
    r"\s*[,;:!.]+\s+(?:(?:and then|and|but|then|next|later|(?P<aside>before|after|so that|as|while)) )?"
    r"|\s+[-\u2013\u2014]+\s+"
    r"|\s+(?:and then|then|and|but|so|(?P<aside2>before|after|until|while|as|so that))\s+",
    re.IGNORECASE,
)
_SURELY = re.compile(
    r",?\s*\b(?:no doubt(?: about it)?|no question|of course|for sure|obviously|clearly|definitely|surely"
    r"|(?:doesn'?t|isn'?t|won'?t|can'?t) (?:it|he|she|that)|not bad)\b",
    re.IGNORECASE,
)
_AIM = re.compile(
    r"\b(?:for|on|at|to|towards?|from|of|hits?|hitting|guards?|guarding|attacks?|attacking|looks?|eyes?|eyeing"
    r"|bites?|watch(?:es|ing)?)\s$",
    re.IGNORECASE,
)


def speaks_against(said: str) -> bool:
    """Whether something in the words may take back, or put in doubt, what the rest of them says."""
    return bool(_AGAINST.search(said))


def without_assurance(said: str) -> str:
    """What was said without the words that only make it sure."""
    return " ".join(_SURELY.sub(" ", said).split())


def clauses(said: str) -> list[str]:
    """The clauses of what was said, without those that tell what comes before, after or meanwhile."""
    out: list[str] = []
    at, aside = 0, False
    for joint in _JOINT.finditer(said):
        out += [] if aside else [said[at : joint.start()].strip()]
        aside = bool(joint["aside"] or joint["aside2"])
        at = joint.end()
    out += [] if aside else [said[at:].strip()]
    return [clause for clause in out if clause]


def names_a_move(said: str, words: Language) -> bool:
    """Whether a word of the clause stands for taking, castling or a man, as in a second move half said."""
    return bool(set(_first_kinds(said, words)) & {"T", "C"})


def names_a_place(said: str, words: Language) -> bool:
    """Whether a square, or castling, is named: less than that is no answer in the midst of talk."""
    return bool(re.search("S|FR|C|pFP|FPp", _first_kinds(said, words)))


def man_alone(said: str, words: Language) -> int | None:
    """The kind of man, where that is all that is named."""
    named = [token for token in _first(said, words) if token.kind not in "_-"]
    return named[0].value if len(named) == 1 and named[0].kind == "P" else None


def _first_kinds(said: str, words: Language) -> str:
    return "".join(token.kind for token in _first(said, words))


def _first(said: str, words: Language) -> list[Token]:
    """What was said, each word in its likeliest reading."""
    return [token for slot in slots(said, words) for token in (slot[0] if slot else ())]


def known_words(said: str, words: Language) -> str:
    """What was said without the words that mean nothing here, nor name a man in another language."""
    others = [other for code in codes() if (other := language(code)).name != words.name]
    return " ".join(
        word
        for word in said.split()
        if _kinds(word, words) != {"U"} or any("P" in _kinds(word, other) for other in others)
    )


def _kinds(word: str, words: Language) -> set[str]:
    return {run[0].kind for slot in slots(word, words) for run in slot if run}


def is_several(said: str, many: int = 1) -> bool:
    """Whether the words are a row of more than so many moves in notation."""
    rows = [found for found in _SEVERAL.finditer(said) if not _AIM.search(said[: found.start() + 1])]
    return len(rows) > many
