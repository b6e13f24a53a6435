"""Verbs of chess prose by what they mean, and the men that are said to do it, as patterns."""

from __future__ import annotations

import re

from player.check.prose.words import KIND, SQUARE

GOES = (
    r"(?:goes|comes|steps|jumps|hops|walks|runs|travels|slides|drops|swings|marches|rushes|flees|retreats"
    r"|returns|advances|arrives|lands|leaves|joins|sidesteps|strolls|escapes|settles|storms|climbs|creeps"
    r"|shuffles|hurries|rises|dives|wanders|races|sneaks|leaps|charges|trots|clears (?:the|out|off)"
    r"|gives way|makes (?:room|way)|gets (?:out|away)|lines up|lifts (?:itself|herself|himself)"
    r"|backs (?:off|away|up)|offers (?:itself|herself|himself)|pushes (?:on|forward|up|through|past)"
    r"|heads (?:for|to|towards|home|back))"
)
GONE = (
    r"(?:gone|come|stepped|jumped|hopped|walked|run|travelled|slid|dropped|swung|marched|retreated|returned"
    r"|advanced|arrived|landed|left|joined|moved|escaped|climbed|leapt|given way|made (?:room|way))"
)
TAKES = r"(?:takes|captures|recaptures|grabs|eats|snatches|pockets|swallows)"
TAKE = r"(?:take|taking|took|taken|capture|capturing|captured|recapture|grab|grabbed|eat|snatch)"
HITS = r"(?:hits?|attacks?|strikes at|bites|forks?|kicks|chases|bothers|annoys|harasses|attacking|hitting)"
AIMS = r"(?:eyes|targets|aims at|aiming at|looks (?:straight |right |down |across )?at|stares at|glares at)"


def man(tail: str = "") -> str:
    """The pattern of one man, its groups named with a tail: whose, of which kind, whether many, and where."""
    return (
        rf"(?P<owner{tail}>the|his|her|its|our|my|your|their|that|this|White's|Black's|white|black|an?)"
        rf" (?:(?!and|or|in|on|of|to)[a-z-]+ )??(?P<kind{tail}>{KIND})(?P<many{tail}>s?)(?![-\w'])"
        rf"(?: (?:on|from) (?P<on{tail}>{SQUARE}))?"
    )


GOING = re.compile(
    rf"\b{man()}(?: (?:now|then|just|also|simply|itself|herself|himself|calmly|quietly))? (?P<verb>{GOES})\b"
    r"(?! (?:in (?:straight|a)|along|diagonally|on (?:watching|looking|guarding)|on the \w+|forwards?|first"
    rf"|last|together|with|nowhere|without|the (?:table|room)))(?!(?: \w+){{0,2}} (?:to|on|from) {SQUARE})",
    re.IGNORECASE,
)
HAS_GONE = re.compile(
    rf"\b{man()}(?P<that> (?:that|which|who))? has(?P<just> (?:only )?just)?(?: (?:now|already|at last))?"
    rf" (?P<verb>{GONE})\b",
    re.IGNORECASE,
)
THERE_GOES = re.compile(
    rf"\b(?:there|up|down|out|in|back|away|over|off) (?P<verb>goes|comes) {man()}", re.IGNORECASE
)
PREY = re.compile(
    rf"(?<!the )(?<!both )(?<!of )(?<!two )(?<!these )\b(?P<verb>{TAKES}|{TAKE})(?: back)? {man()}",
    re.IGNORECASE,
)
TAKER = re.compile(
    rf"(?:^|(?<=[.,;:!] )|\b(?:and|then|but|here|so|the|his|her|our|your) )(?P<kind>{KIND})"
    r" (?:takes|recaptures|captures)(?= back|[,.;!]| and\b| with check)",
    re.IGNORECASE,
)
TAKES_WITH = re.compile(
    rf"\b(?:take|takes|took|taken|taking|recapture\w*)(?P<back> back)? with {man()}", re.I
)
HITTING = re.compile(rf"\b(?:(?P<near>{HITS})|{AIMS}) {man('2')}", re.IGNORECASE)
HITTER = re.compile(rf"{man('1')}(?:,? (?:that|which|who|and|also|now|then|still|just|simply))*,? $", re.I)
PINNED = re.compile(
    rf"\b{man('1')} (?:(?:is|was|stays|still|now|also) )*(?:pinned|nailed)(?: down)? to {man('2')}", re.I
)
ASKED = re.compile(
    rf"\b(?:which|what|where|how)(?: square| move| way| file)? (?:does|should|can|will|would|must) {man()}"
    r" (?:now )?(?:go|do|move|take|jump|step|come|escape|run|belong|choose|play|capture|leave|head|want)\b",
    re.IGNORECASE,
)
IF_ONE = re.compile(
    rf"^(?:And |But )?(?:If|When|Suppose|What if) {man()} (?:does |simply |just |then )?"
    r"(?!(?:is|are|were|was|has|had|stands|stood|stays?|waits?|sits?|could|does|never|not)\b)[a-z]+",
    re.IGNORECASE,
)
