"""The words questions are asked in: which mean the same, and which mean nothing."""

from __future__ import annotations

import re
from functools import cache
from importlib import resources

SIDES = {
    "white": "white", "whites": "white", "black": "black", "blacks": "black",
    "i": "me", "me": "me", "my": "me", "mine": "me", "we": "me", "our": "me", "us": "me",
    "you": "you", "your": "you", "he": "you", "his": "you", "him": "you", "she": "you", "her": "you",
    "they": "you", "their": "you", "them": "you", "enemy": "you", "opponent": "you",
}  # fmt: skip
"""Words for a side; "me" is the one who asks, "you" the other."""

ALPHABET = dict(
    zip(["alpha", "bravo", "charlie", "delta", "echo", "foxtrot", "golf", "hotel"], "abcdefgh", strict=True)
) | dict(
    zip(["anna", "bella", "cesar", "david", "eva", "felix", "gustav", "hector"], "abcdefgh", strict=True)
)

SHORT = {
    "whats": "what is", "what's": "what is", "wats": "what is", "wat": "what", "wht": "what", "hwo": "how",
    "whos": "who is", "who's": "who is", "wheres": "where is", "where's": "where is", "theres": "there is",
    "there's": "there is", "it's": "it is", "its": "it is", "isn't": "is not", "isnt": "is not",
    "aren't": "are not", "arent": "are not", "can't": "cannot", "cant": "cannot", "couldn't": "cannot",
    "doesn't": "does not", "doesnt": "does not", "don't": "do not", "dont": "do not", "won't": "will not",
    "i'm": "am i", "im": "am i", "i've": "i have", "he's": "he is", "they're": "they are", "teh": "the",
    "u": "you", "r": "are", "ep": "enpassant", "e.p": "enpassant", "colour's": "colour is",
    "let's": "", "which's": "which is", "wich": "which", "whcih": "which", "waht": "what", "hwat": "what",
    "wher": "where", "whre": "where", "hte": "the", "cna": "can", "cn": "can", "adn": "and", "si": "is",
    "wer": "where", "whats'": "what is", "whose's": "who is", "that's": "that is", "thats": "that is",
    "this's": "this is", "haven't": "has not", "hasn't": "has not", "hasnt": "has not", "dose": "does",
    "isit": "is it", "gaurd": "guard", "gaurded": "guarded", "gaurds": "guards", "nite": "knight",
    "nights": "knights", "kinght": "knight", "knigth": "knight", "queeen": "queen", "bishup": "bishop",
    "night": "knight", "night's": "knight s", "thier": "their", "yuo": "you", "materiel": "material",
}  # fmt: skip

DROPPED = {
    "the",
    "a",
    "an",
    "please",
    "now",
    "here",
    "currently",
    "just",
    "so",
    "really",
    "actually",
    "ever",
    "then",
    "anyway",
    "still",
    "exactly",
    "precisely",
    "today",
    "already",
    "there",
    "ok",
    "okay",
    "hey",
    "um",
    "uh",
    "er",
    "well",
    "maybe",
    "possibly",
    "legally",
    "safely?",
    "also",
    "too",
    "got",
    "any",
    "some",
    "all",
    "of-the",
    "moment",
    "immediately",
    "sort",
    "kind",
    "quite",
    "very",
    "yet",
    "even",
    "again",
    "perhaps",
    "mind",
} - {"safely?"}

_SAME = {
    "W": "what which who whom whose",
    "is": "are was were be am been being stand stands standing sit sits sitting",
    "do": "does did doing",
    "has": "have had having own owns",
    "can": "could may might able allowed",
    "attack": "attacks attacking hit hits hitting strike strikes "
    "aim aims target targets targeting threatening bear "
    "bears see sees seeing eye eyes eyeing control controls controlling look looks looking",
    "attacked": "targeted controlled",
    "guard": "guards guarding defend defends defending protect protects protecting cover covers covering "
    "support supports supporting",
    "guarded": "defended protected covered supported",
    "guards": "",
    "unguarded": "undefended unprotected loose unsupported",
    "guardians": "defenders defender guardian protector protectors supporters",
    "attackers": "attacker",
    "hanging": "hang hangs enprise",
    "pinned": "",
    "pin": "pins pinning",
    "man": "men piece pieces unit units figure figures everything guys guy chaps",
    "move": "moves moving moved",
    "go": "goes going get jump travel land",
    "square": "squares spot spots place places field fields point",
    "capture": "captures capturing capturable",
    "take": "takes taking taken captured took",
    "check": "checks checking checked",
    "mate": "mates mating mated checkmate checkmates checkmated",
    "block": "blocks blocking blocked?",
    "threat": "threats threaten threatens threatened threatening",
    "many": "much",
    "times": "time often",
    "file": "files",
    "open": "opened clear unobstructed",
    "halfopen": "half-open semi-open semiopen",
    "colour": "color colours colors coloured colored shade",
    "anything": "something anyone anybody someone somebody nothing nobody",
    "castle": "castling castled castles",
    "kingside": "short king-side",
    "queenside": "long queen-side",
    "passed": "passer passers",
    "queen!": "",
    "draw": "drawn drawish",
    "stalemate": "stalemated",
    "repetition": "repeated repeat repetitions threefold",
    "ahead": "up leading",
    "outpost": "outposts",
    "hole": "holes",
    "between": "inbetween",
    "diagonal": "diagonals",
    "safe": "safely",
    "turn": "turns",
    "better": "winning",
    "fork": "forks forking",
    "legal": "possible legally allowed",
    "connected": "linked",
    "worth": "value",
    "list": "name show give gives giving gave tell count",
    "line": "lines",
    "reach": "reaches arrive",
}
ONE_WORD = {word: one for one, words in _SAME.items() for word in words.split() if one != "queen!"}

_OTHER_WORDS = """
what which who whose where how why is are on at of in to for from by with and or not no yes white
black my your opponent opponents enemy knight bishop rook queen king pawn man men number many often
times attack attacked guard guarded unguarded hanging pinned pin capture take check mate threat
threaten file open half colour light dark empty square castle castling kingside queenside right
rights passed isolated doubled backward pawns material balance equal even ahead draw drawn stalemate
repetition fifty rule opposition inside catch caught promote promotes promotion passant opening
called evaluation position good bad best play should would last previous change changed happened
happen played since question legal possible reach moves move between blocks block way diagonal rank
safe safely turn better winning wins win worth points pair bishops fork true that claim anything
nothing cannot does have has there connected rooks lost strong weak undo long short lose stop will
could under please line stands stand standing moment currently first free
make made making double far yet won win winner wins gain trade trades traded swap exchange exchanged kick
chase drive challenge second third fourth fifth sixth seventh eighth ninth tenth each every both sides side
player sooner escape flee run interpose meet parry answer reply replies check checker only forced choice
castled recapture retake back promote promoting promoted queening underpromote becomes become turn into last
step steps islands island groups zugzwang space room initiative development compensation counterplay centre
center middle closed close behind front above below over ended finished done result enough sufficiently
adequately stuck trapped caught hemmed locked shut from holds hold owns own dominate dominates occupy
before after mind think know else ask asks asking idea point plan purpose aim tell until till when
weakness weaknesses exposed unsafe trouble danger must need needs forced materially colour same different
ways gone missing off developed active tempo exploit improve worry resign offer bring develop retreat"""
_ORDINARY = [
    "more",
    "most",
    "less",
    "least",
    "fewer",
    "worse",
    "close",
    "near",
    "wrong",
    "about",
    "name",
    "each",
    "both",
]
VOCABULARY = frozenset(
    word
    for word in (*ONE_WORD, *_SAME, *_OTHER_WORDS.split(), *_ORDINARY, *DROPPED, *SIDES, *ALPHABET, *SHORT)
    if word.isalpha()
)

FORM_LISTS = ("forms_first.toml", "forms.toml", "forms_last.toml")
"""The files of the forms, in the order in which they are tried."""


@cache
def known_words() -> frozenset[str]:
    """The vocabulary, and every word of the forms: none of them is a slip for another."""
    here = resources.files("player.wording.asked")
    texts = (here.joinpath(name).read_text(encoding="utf-8") for name in FORM_LISTS)
    return VOCABULARY | {word for text in texts for word in re.findall(r"[a-z]{4,}", text)}


PHRASES: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(rf"\b(?:{pattern})\b"), instead)
    for pattern, instead in (
        (r"(?:can|could|will|would) you (?:please )?(?:tell|show|say|explain) (?:to )?(?:me )?", ""),
        (
            r"(?:do you know|i wonder|i want to know|remind me|tell me|show "
            r"me|say)(?= (?:what|which|who|where|how|why|if|whether|is|are))",
            "",
        ),
        (r"^(?:if|whether)", ""),
        (
            r"at the moment|right now|at present|in this position|in the position|on the board|on this board",
            "",
        ),
        (r"(?:the )?(?:other side|opponents?|enemys?)", "opponent"),
        (r"en prise", "hanging"),
        (r"en passant", "enpassant"),
        (r"(?:not|is nt|never) (?:defended|guarded|protected|covered)", "unguarded"),
        (r"under attack|in danger|under fire|being attacked", "attacked"),
        (r"how (?:many|much) times|how often", "how many times"),
        (r"half[- ]open|semi[- ]open", "halfopen"),
        (r"so far|thus far|up to now|until now|up till now|to this point", "far"),
        (r"at all", ""),
        (r"coming between", "interpose"),
        (r"three ?-?fold|third repetition|three times repetition", "threefold"),
        (r"(?:get|come) in between", "interpose"),
        (r"get out|come out", "go out"),
        (r"king'?s? side", "kingside"),
        (r"queen'?s? side", "queenside"),
        (r"best play|perfect play", "bestplay"),
        (r"can not|cannot|is not able to|may not|is not allowed to", "cannot"),
        (r"fifty[- ]moves?|50[- ]moves?", "fiftymove"),
        (r"check ?mate", "mate"),
        (r"stale mate", "stalemate"),
        (r"bishop pair|pair of bishops|two bishops", "bishoppair"),
        (r"up next|next to move", "to move"),
        (r"look(?:s|ing)? at|aim(?:s|ing)? at|bear(?:s|ing)? on|eye(?:s|ing)?", "attack"),
    )
)
