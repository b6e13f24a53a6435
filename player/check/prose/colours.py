"""Prose against colours: what a side, or a man of its, is said to do or hold, while only the other's can."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from player.check.prose import coloured
from player.check.prose.coloured import Holds, Seen
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import KIND, SQUARE, denied, sentence

_WHO = r"(?P<who>White|Black|NAMES|[Ww]e|[Ii]t is (?:White|Black) who)"
_OWN = r"(?P<who>White's|Black's|NAMES's|[Oo]ur|[Mm]y|(?:[Tt]he |[Tt]hat |[Aa]n? )?(?:white|black))"
_MAN = rf"(?:(?P<file>[a-h])-)?(?P<kind>{KIND})s?"
_LIGHT = (
    r"(?:(?!(?:and|but|or|while|when|if|so|because|that|which|who|not|no|never|before|with|"
    r"than)\b)[a-z]+ )"
)
_IT = (
    r"(?:[Ii]t|[Tt]his|[Tt]hat|which|and|so|SAN)(?: (?:also|only|simply|now|just|still|hits? [^.;:,]*?"
    r" and))?"
)
_HARMS = (
    r"(?:stops|prevents|chases|bothers|forces|hits|kicks|attacks|asks|questions|threatens|pins|greets|forks|"
    r"annoys|tempts|harasses|evicts|drives|challenges|worries|troubles|disturbs|cramps|robs|hurts|punishes|"
    rf"takes (?:{SQUARE}(?:,| and)? ?)+(?:away )?from|"
    r"makes (?=\w+ (?:choose|decide|work|pay|defend|wait|move|think)\b)|"
    r"keeps (?=[\w']+ (?:[a-h]-)?(?:\w+ )?(?:away|off|out of|from|back|modest|busy|tied|passive|quiet)\b)) ?"
)
_RULES: tuple[tuple[str, Holds, str], ...] = (
    (rf"\b{_OWN} (?:own |last |other |remaining |good |bad )*{_MAN} {_LIGHT}{{0,5}}(?:on |to |at )?"
     rf"(?P<square>{SQUARE})\b", coloured.related, "A {kind} of the other side has to do with {square}."),
    (rf"\b{_WHO} (?:now |still |also |already |even )?(?:attacks?|guards?|holds?|controls?|watch(?:es)?|"
     rf"looks? at|"
     rf"takes? hold of|fights? for|covers?|eyes?|aims? at) (?:the square )?(?P<square>{SQUARE})\b",
     coloured.controls, "It is the other side that looks at {square}."),
    (rf"\b{_WHO} (?:can|could|may|might|must|would|will|cannot)(?: no longer| still| now| then| always)?"
     rf" (?:take|trade|recapture|capture|exchange|win|pick up)(?: (?:her|him|it|the {KIND}))?(?: off| back)?"
     rf" on (?P<square>{SQUARE})\b", coloured.can_take, "Only men of that side itself stand on {square}."),
    (r"\b(?:near|beside|next to|close to|in front of|nearer to|round|around)"
     r" (?P<who>(?:the )?(?:white|black)|White's|Black's)"
     r" king\b", coloured.near_king, "It is far from that king."),
    (rf"\b[Nn]o (?P<who>white|black) (?P<kind>{KIND}|man|piece) (?:can |could )?"
     r"(?:watch|guard|attack|look at|reach|defend|see|cover|take|hit)(?:e?s)? "
     rf"(?:(?P<square>{SQUARE})|it|that square|that one|there)\b(?! in time)",
     coloured.none_looks, "Men of that side do look at it, those of the other do not."),
    (rf"\b(?:an? (?:undefended|unguarded|loose|hanging|unprotected) (?P<who>white|black) (?P<kind>{KIND})\b)",
     coloured.unguarded, "Every such man is guarded here."),
    (rf"\b[Aa] (?P<who>white|black) (?P<kind>{KIND}) (?:that |which )?(?:nobody|no one|nothing)"
     r" (?:guards|defends|protects)\b", coloured.unguarded, "Every such man is guarded here."),
    (rf"\b(?:gives?|leaves?|offers?|hands?) {_OWN} {_MAN} (?:something|a man|a pawn|a piece) to"
     r" (?:take|hit|bite|capture)\b", coloured.has_to_take, "That man has nothing to take here."),
    (rf"\b[Ww]hat (?:did|does|has|will) {_WHO} (?:get|got|gotten|receive|have|win) (?:in return )?for"
     rf" (?:that|the|his|her)"
     rf" (?P<kind>{KIND})\b", coloured.has_lost, "That side has given up no {kind}."),
    (rf"\b(?:so that|and now|and so) {_OWN} {_MAN} (?:cannot|can no longer|can't|may not|must not|dares?"
     rf" not|must)\b",
     coloured.suffers, "The move spoken of is that side's own."),
    (r"\b(?P<who>White|Black|NAMES) has just (?!been)\w+", coloured.moved_last,
     "The move told last is the other side's."),
    (rf"\b{_IT} {_HARMS}(?P<who>White|Black|NAMES|[Uu]s|White's|Black's|NAMES's|[Oo]ur|"
     rf"(?:the|that|an?) (?:white|black))\b", coloured.suffers, "The move spoken of is that side's own."),
    (rf"\b{_IT} (?:guards|protects|defends|supports) (?P<who>White's|Black's|NAMES's|[Oo]ur|the (?:white|"
     rf"black)) (?:[a-z]+ )?{_MAN}\b", coloured.moved_last, "The move spoken of is the other side's."),
    (rf"\b[Ii]t is (?P<who>White's|Black's|NAMES's|our) (?P<kind>{KIND}) (?:that|which|who)"
     r" (?:sits|stands|lands|arrives|comes|takes|goes|moves)\b", coloured.made_by,
     "The {kind} that has just moved is the other side's."),
    (r"\b(?P<who>Ours|Yours|His|Hers|White's|Black's) (?:stand|are|sit|wait)(?= *[a-h]?)", coloured.shown_men,
     "The men shown here are the other side's."),
    (r"\b(?:gives|leaves) (?P<who>White|Black|NAMES) (?:only |just )?(?:the one move|one way|one move|no"
     r" time|no"
     r" choice|one square|the time|no way|"
     r"nothing)\b", coloured.suffers, "The move spoken of is that side's own."),
    (r"\b(?:[Mm]ake sure|[Ss]ee to it) (?:that )?(?P<who>White|Black) has (?:no|not)\b", coloured.suffers,
     "The answer is that side's own move."),
    (rf"\b[Nn]o (?P<who>white|black) (?:{KIND}|man|piece) can (?:guard|stop|defend|prevent|cover|reach)"
     r" (?:it|that|that square|this) (?:in time|any ?more|now|at once)\b", coloured.suffers,
     "The answer is that side's own move."),
    (r"\bor so (?P<who>White|Black|NAMES) (?:hopes|thinks|believes|supposes|says)\b", coloured.moved_last,
     "The move told last is the other side's."),
    (rf"\b(?P<number>\w+) (?P<who>white|black) (?:men|pieces|guards?|attackers?|man) (?:stands? ready to"
     rf" take on|"
     rf"looks? at|guards?|attacks?|hits?|bears? on|on) (?P<square>{SQUARE})\b", coloured.counted,
     "The number is that of the other side's men."),
    (rf"\b[Oo]n (?P<square>{SQUARE}) (?:there )?(?:is|are|stands?) (?:only |just )?(?:a"
     rf" )?(?P<number>single|one|two|"
     r"three|four|no) (?P<who>white|black) (?:guards?|attackers?)\b", coloured.counted,
     "The number is that of the other side's men."),
    (rf"\b{_OWN} {_MAN} (?:faces|looks at|opposes|hits|attacks|eyes|meets|stares at) (?:ours|yours|our"
     rf" own)\b",
     coloured.theirs, "That man is one of yours."),
    (rf"\b{_WHO} (?:has|have|had)\b(?: (?:an?|the|two|three|four|five|his|her|{KIND}s?,?|and|both|still|"
     rf"only|in|centre|middle|now,?|side|by|together|next|doubled))* "
     rf"(?P<kind>{KIND})s?(?: (?:in the (?:centre|middle)|now|side by side|together),?){{0,3}} on"
     rf" (?P<square>{SQUARE})\b", coloured.owned, "That man is the other side's."),
    (r"\b(?P<who>White|Black|NAMES)'s only (?:legal )?(?:move|answer|reply)\b", coloured.one_move,
     "It is the other side that has one move."),
    (r"\b(?P<who>White|Black|NAMES) has (?:nothing (?:left |more )?to (?:play|move)|no (?:legal"
     r" )?moves?(?: left)?[.,])",
     coloured.no_move, "It is the other side that has no move."),
    (rf"\b{_OWN} (?:own )?{_MAN} (?:lives|stands|sits|is sitting|is standing) there\b", coloured.lives_there,
     "The other side's man stands there."),
    (rf"\b(?P<who>White|Black|NAMES) has (?:simply |just |already |now )?won (?:an?|the)"
     rf" (?P<kind>{KIND})\b", coloured.won,
     "The other side has won it."),
    (r"\b(?P<who>White|Black|NAMES) (?:prepares to )?(?:supports?|guards?|defends?|protects?|develops?|"
     r"brings?|"
     r"moves?|tucks?|finds?|saves?|hides?)(?: out)? (?:our|"
     r"my)\b", coloured.ours, "Those men are not that side's."),
    (rf"\b{_WHO} (?:has|have) an? (?P<kind>{KIND}) in the (?:middle|centre)\b", coloured.centred,
     "The {kind} in the middle is the other side's."),
    (r"\b[Bb]oth of (?P<who>White's|Black's|NAMES's|our|my) (?P<kind>knight|bishop|rook)s are (?:now"
     r" )?(?:out|developed)\b",
     coloured.both_out, "That side's are not both out."),
    (rf"\b(?:[Tt]he |[Aa] |his |her )?(?:last |other )?(?P<who>white|black|White's|Black's) (?P<kind>{KIND})"
     rf" (?:comes|goes|steps|jumps|drops|returns|arrives|moves|hops|slides)(?: back)? (?:to|on)"
     rf" (?P<square>{SQUARE})\b",
     coloured.arrived, "The move told last is the other side's."),
    (rf"\b(?P<who>white|black) (?P<kind>{KIND})s (?:there|now|here|side by side),? on"
     rf" (?P<square>{SQUARE})\b", coloured.owned,
     "That man is the other side's."),
    (r"\b[Nn]o [a-z]+ of (?P<who>White|Black)'s can (?:stop|prevent|catch|hold)\b", coloured.suffers,
     "The move spoken of is that side's own."),
    (r"\b(?P<who>White|Black|NAMES) (?:cannot|can no longer|can't|can do nothing to) (?:stop|prevent|"
     r"catch) (?:it|that|him)\b",
     coloured.suffers, "The move spoken of is that side's own."),
    (r"\bSAN, and (?P<who>White|Black) has (?:the square|what) (?:he|she) (?:wants|wanted|"
     r"needs)\b", coloured.moved_last,
     "The move told last is the other side's."),
    (r"(?:^|[.;,] )(?:and |so )?(?P<who>White|Black) wins\b(?! (?:a|the|it|back|two)\b)", coloured.armed,
     "That side has its king only."),
    (rf"\b{_OWN} (?:own |last |other |remaining )*{_MAN} on (?P<square>{SQUARE})\b", coloured.owned,
     "That man is the other side's."),
    (rf"\b(?:[Tt]he|[Aa]) (?P<who>white|black) (?P<kind>{KIND}) [a-z]+ing on"
     rf" (?P<square>{SQUARE})\b", coloured.owned,
     "That man is the other side's."),
    (r"\b(?P<who>White's|Black's|NAMES's|[Oo]ur) (?P<shade>light|dark)-squared bishop (?:is gone|has"
     r" gone|has left)\b",
     coloured.gone, "That bishop is still there."),
    (r"\b(?P<who>White|Black|NAMES) has (?:given up|lost|traded|parted with) (?:the|his|her)"
     r" (?P<shade>light|dark)"
     r"-squared bishop\b", coloured.gone, "That bishop is still there."),
    (r"\b[Nn]o (?P<who>white|black) pawn (?:can|could) (?:ever )?(?:chase|bother|drive|evict|kick|"
     r"trouble|harass)\b",
     coloured.suffers, "The move spoken of is that side's own."),
    (rf"\b[Nn]o (?P<who>white|black) pawn (?:can|could|will) (?:ever )?(?:guard|defend|protect)"
     rf" (?P<square>{SQUARE})\b",
     coloured.never_guards, "A pawn of that side can still come to guard it."),
    (rf"\b{_WHO} (?:attacks|guards|defends|protects) (?P<square>{SQUARE}) (?P<number>once|"
     rf"twice)\b", coloured.counted,
     "The number is that of the other side's men."),
    (rf"(?:^|[.;] )(?P<who>White|Black): (?P<men>[a-z]+ {KIND}s?\b[^.;:]*)", coloured.inventory,
     "Those are the other side's men."),
    (rf"\b(?P<who>White|Black)'s pawns: (?P<squares>{SQUARE}(?:(?:,| and|, and)"
     rf" {SQUARE})+)", coloured.pawns_on,
     "Those are the other side's pawns."),
    (rf"\bfor (?P<who>White|Black), (?P<from>{SQUARE}) to"
     rf" (?P<to>{SQUARE})\b", coloured.onward, "That side goes the other way."),
    (rf"\b[Ii]f I were (?P<who>White|Black|NAMES),? I(?:'d| would) [a-z]+ (?:that |the |my |a"
     rf" )?(?P<kind>{KIND})"
     rf" (?:on|to|at)"
     rf" (?P<square>{SQUARE})\b", coloured.related, "A {kind} of the other side has to do with {square}."),
    (rf"\b{_WHO} is (?:not |never )?in"
     rf" check\b", coloured.to_answer, "After this move it is the other side that answers."),
    (rf"\b[Ww]hich (?P<who>white|black) (?:{KIND}|man|piece) (?:has (?:made|not|never|had)|could (?:help|"
     rf"join|come)|"
     r"is (?:idle|doing nothing|standing idle|still at home|missing))\b", coloured.asked_side,
     "It is the other side that is asked for a move."),
    (r"\b(?:round|at|over|through|among|[Cc]ount|only) the (?P<who>white|black) (?:men|"
     r"pieces)\b", coloured.asked_men,
     "The question counts the other side's men."),
    (rf"\b(?P<number>[Tt]wo|[Tt]hree|[Ff]our) (?P<who>white|black) (?:men|pieces) (?:look at|attack|hit)"
     rf" (?:one|a|the same) (?P<kind>{KIND}) with (?P<guards>no|one|two|three)"
     rf" guards?\b", coloured.outnumbered,
     "No {kind} is attacked and guarded so."),
)  # fmt: skip


@lru_cache(maxsize=64)
def _patterns(names: tuple[str, ...]) -> tuple[tuple[re.Pattern[str], Holds, str], ...]:
    word = "|".join(map(re.escape, names)) or "(?!)"
    san = r"[KQRBN]?[a-h]?x?[a-h][1-8]\+?"
    return tuple(
        (re.compile(rule.replace("NAMES", f"(?:{word})").replace("SAN", san)), holds, message)
        for rule, holds, message in _RULES
    )


def colour_doubts(
    passage: Passage, boards: Boards, side: str, players: Mapping[str, bool]
) -> Iterator[Doubt]:
    """Doubts about a colour or an owner with a deed that is not so for this side and is so for the other."""
    if passage.role in ("idea", "part"):
        return
    text = passage.text
    seen = Seen(passage, boards, side)
    for pattern, holds, message in _patterns(tuple(players)):
        for found in pattern.finditer(text):
            white = _white(found["who"], side, players)
            start = found.start() + len(found[0]) - len(found[0].lstrip(".;:, "))
            if white is None or denied(text, start) or _given(passage, found):
                continue
            if not holds(seen, found, white) and holds(seen, found, not white):
                said = message.format(**{name: word or "" for name, word in found.groupdict().items()})
                yield Doubt(found.start("who"), found.end("who"), "prose-side", said)


def _given(passage: Passage, found: re.Match[str]) -> bool:
    """Whether the sentence puts a man on the board that is not there."""
    first, last = sentence(passage.text, *found.span())
    return bool(re.search(r"\b(?:[Ii]magine|[Ss]uppose|[Gg]ive|[Pp]icture)\b", passage.text[first:last]))


def _white(word: str, side: str, players: Mapping[str, bool]) -> bool | None:
    """The colour that a word for a side or its men means, where it is one."""
    last = word.split()[-1].removesuffix("'s")
    if last == "who":
        return "White" in word
    if last.lower() in ("white", "black"):
        return last.lower() == "white"
    if last.lower() in ("our", "my", "we", "us", "ours", "yours", "his", "hers"):
        owned = last.lower() not in ("his", "hers")
        return (side == "white") == owned if side in ("white", "black") else None
    return players.get(last)
