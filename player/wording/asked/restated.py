"""The same question in other words, where the words as said have no known form."""

from __future__ import annotations

import re
from collections.abc import Callable

_KIND = r"(?:king|queen|rook|bishop|knight|pawn)s?"
_SQUARE = r"[a-h][1-8]"
_WHOSE = r"(?:(?:the|my|his|her|their|your|white'?s?|black'?s?) )*"
_NAMED = rf"(?:{_WHOSE}(?:{_SQUARE}(?: {_KIND})?|{_KIND}(?: (?:on|at) {_SQUARE})?))"
_WHO = r"i|we|he|she|white|black"
_TAG = r"(?:right|correct|yes|no|or not|isn'?t it)"
_SAN = r"(?:[KQRBN]?[a-h]?[1-8]?x?[a-h][1-8](?:=?[QRBN])?|[Oo0]-[Oo0](?:-[Oo0])?)[+#!]*"
_WILL = rf"(?:will|would|do|does|can) (?:{_WHO})"
_PUT = r"(?:put|place|move|play|bring)"
_BE = r"is|are|was|were|do|does|did|can|could|has|have|had|will|would"

_Instead = str | Callable[[re.Match[str]], str]
_RULES: tuple[tuple[str, _Instead], ...] = (
        # "isn't the knight guarded", "is the knight not pinned": asked the plain way.
        (rf"^(?:({_BE})n'?t|can'?t)\b", lambda found: found[1] or "can"),
        (r"^(is|are|does|do|has|have) any of ", r"\1 any "),
        (rf"^(is|are|does|do|has|can) ({_NAMED}) not\b", r"\1 \2"),
        # "the knight is pinned, right?"
        (
            rf"^({_NAMED}|{_WHO}|it|this|that) ({_BE}) (.+?),? {_TAG}$",
            r"\2 \1 \3",
        ),
        (r",? (?:right|correct|yes|or not|or what|isn'?t it|aren'?t they)$", ""),
        (r"^what(?:'?s| is) (.+) (?:do|doing)$", r"what does \1 do"),
        (r"^any (.+)$", r"is there any \1"),
        (r"^(?:please )?(?:show me|tell me|list|give me) (?:all )?(?:the |my )", "what are the "),
        (rf"\b(?:can|could|may) ({_WHO}) safely {_PUT} ({_NAMED}) (?:on|to|at) ({_SQUARE})",
         r"is \2 to \3 safe"),
        (rf"^{_WILL} (win|lose) (.+) (?:after|with|by) ({_SAN})$", r"does \3 \1 \2"),
        (rf"^(?:after|with|by) ({_SAN}),? {_WILL} (win|lose) (.+)$", r"does \1 \2 \3"),
        (r" (?:this|next) (?:move|turn)$", ""),
        (r" (?:soon|anywhere|in this|any ?more|by and by|instead|useful|in the end|for sure)$", ""),
        (r" (?:and|&|n) (?:by )?how much$", ""),
        (r"\b(?:dead|simply|clearly|completely|totally|easily|somehow|by any chance)\b ?", ""),
        (r"\b(?:do i have|have i got|i have got|i've got|can i find)$", "are there"),
        (r"\b(?:guys|chaps|troops|stuff)\b", "men"),
)  # fmt: skip
_SAME = tuple((re.compile(pattern, re.IGNORECASE), instead) for pattern, instead in _RULES)
_AND = re.compile(r",? (?:and|n|&|vs|versus|or|,) (?:also )?", re.IGNORECASE)
_OPENS = re.compile(
    r"(?:what|which|who|whose|where|how|why|is|are|am|can|could|do|does|did|has|have|will|would|if|guarded|"
    r"defended|attacked|protected|guard|defend|attack|protect|mate|checkmate|stalemate|check|a draw|"
    r"from what|where to)\b",
    re.IGNORECASE,
)


def bare(said: str) -> str:
    """The words with single spaces and no mark at their end."""
    return " ".join(said.replace("’", "'").split()).strip(" ?.!,;:")


def restated(said: str) -> list[str]:
    """The question in other words, likeliest first: every rule that applies, one after another."""
    text, out = bare(said), []
    for pattern, instead in _SAME:
        other = bare(pattern.sub(instead, text))
        if other != text:
            text = other
            out.append(text)
    return out[::-1]


def halves(said: str, move_of: Callable[[str], str]) -> list[tuple[str, list[str]]]:
    """Where the words may be two questions: the first, and the ways to read the second.

    `move_of` has the move that the first names; "it" is that move then."""
    text = bare(said)
    out = []
    for found in _AND.finditer(text):
        first, second = text[: found.start()], text[found.end() :]
        if not _OPENS.match(second):
            continue
        move = move_of(first)
        if move:
            out.append((first, _of_the_move(second, move)))
            continue
        ways = [second, f"is it {second}"]
        named = re.findall(rf"\b(?:{_NAMED})", first, re.IGNORECASE)
        if named:
            ways.insert(1, f"{second} on {named[-1]}")
            ways.insert(0, re.sub(r"\b(?:it|that)\b", named[-1], second))
            ways.append(first.replace("attacked", second) if "attacked" in first else second)
            if first.casefold().startswith("how many"):
                ways += [f"how many {second} {named[-1]}", f"how many {ways[0]}"]
        if second.casefold() == "from what":
            ways = ["what gives check"]
        out.append((first, [way for way in dict.fromkeys(ways) if way]))
    return out


def _of_the_move(second: str, move: str) -> list[str]:
    bare_ = re.sub(r"\b(?:it|that|this)\b", move, second)
    if bare_ != second or re.match(r"(?:what|which|who|where|how|why|is|are|can|does|do)\b", second, re.I):
        return [bare_]
    return [f"is {move} {second}"]
