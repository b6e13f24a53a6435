"""Every form of a claim: its sentences, an example, and the data it makes."""

from __future__ import annotations

from player.facts.claim import Claim
from player.wording.claim_form import Filled, Form, Maker, form, plain
from player.wording.claim_words import surplus_of

_WING = (
    r"(?: (?:(?:to |on )?(?P<word>kingside|queenside|king's side|queen's side)"
    r"|(?P<short>short|long)))?"
)
_BEST = "with (?:best|perfect|correct|good) play(?: by both(?: sides)?)?"


def _file(filled: Filled) -> Claim:
    word = filled("word").casefold()
    return Claim("file", colour=filled.colour, number="abcdefgh".index(filled("file").casefold()), word=word)


def _diagonal(filled: Filled) -> Claim | None:
    """A line said to be a diagonal must be one, else the sentence is no claim."""
    claim = plain("line")(filled)
    if claim is None or len(claim.squares) != 2:
        return None
    first, second = claim.squares
    aslant = abs((first & 7) - (second & 7)) == abs((first >> 3) - (second >> 3)) > 0
    return claim if aslant else None


def _more(filled: Filled) -> Claim | None:
    """ "one extra pawn", "a pawn more": what one side has beyond the other."""
    things = " ".join(word for word in filled.things.split() if word.casefold() not in ("extra", "more"))
    counts = surplus_of(things)
    if counts is None or not any(counts):
        return None
    return Claim("material", colour=filled.colour, counts=counts)


def _up(filled: Filled) -> Claim | None:
    said = filled.things if not filled("less") else f"{filled.things} for {filled('less')}"
    counts = surplus_of(said)
    if counts is None or filled.colour is None or not any(counts):
        return None
    down = filled("word").casefold() in ("down", "behind", "short")
    return Claim("material", colour=filled.colour != down, counts=counts)


def _wins(filled: Filled) -> Claim | None:
    if filled.things.casefold() == "material":
        return Claim("wins", move=filled("move"), number=1)
    counts = surplus_of(filled.things)
    if counts is None:
        return None
    amount = sum(n * each for n, each in zip(counts, (1, 3, 5, 9), strict=True))
    return Claim("wins", move=filled("move"), number=amount) if amount > 0 else None


def _castles(kind: str) -> Maker:
    def make(filled: Filled) -> Claim:
        wing = filled("word").casefold().replace("'s ", "")
        wing = {"short": "kingside", "long": "queenside"}.get(filled("short").casefold(), wing)
        return Claim(kind, colour=filled.colour, word=wing)

    return make


def _label(filled: Filled) -> Claim:
    return Claim("same", word=" ".join(filled.things.casefold().split()))


SAME = form(
    "the position is the same as the first door",
    _label,
    "(?:it |this |position )*same(?: position)? as {things}",
)
"""The one form whose end is a name as it was written, and is matched before anything is reworded."""

_TABLE: tuple[tuple[Form, ...], ...] = (
    form(
        "the knight on f6 is attacked",
        plain("attacked"),
        "(?:{man}|{letter}) attacked(?: by {colour})?(?: {times})?",
        "(?:{man}|{letter}) attacked(?: {times})? by {colour}",
        "(?:{man}|{letter}) attacked by (?:(?:white|black) )?(?P<word>pawn|knight|bishop|rook|queen|king)",
        "(?:{man}|{letter}) attacked by {one}",
        "(?:{man}|{letter}) has {number} attackers?",
    ),
    form(
        "White attacks e4 2 times",
        plain("attacks"),
        "{colour} (?:attacks|hits|guards|controls|covers|guarded) (?:{man}|{square})(?: {times})?",
        "(?:{man}|{square}) attacked {times} by {colour}",
        "{square} attacked by {colour}(?: {times})?",
        "{number} (?:{colour} )(?:men|man|pieces?) attacks? (?:{man}|{square})",
    ),
    form(
        "White attacks e4 2 times",
        plain("attacks", number=0),
        "{colour} (?:does not|doesn't|do not) (?:attack|hit|guard|control) (?:{man}|{square})",
    ),
    form(
        "the bishop on b5 attacks c6",
        plain("man attacks"),
        "(?:{man}|{letter}) (?:attacks|hits|guards|guarded|controls|attacking|guarding) {one}",
    ),
    form("the knight on f6 is undefended", plain("guarded", number=0), "(?:{man}|{letter}) unguarded"),
    form(
        "the knight on f6 is guarded 2 times",
        plain("guarded"),
        "(?:{man}|{letter}) guarded(?: {times})?",
        "(?:{man}|{letter}) has {number} (?:guard|defender|protector)s?",
        "(?:{man}|{letter}) guarded by (?:(?:white|black) )?(?P<word>pawn|knight|bishop|rook|queen|king)",
        "(?:{man}|{letter}) guarded by {one}",
    ),
    form("the knight on f6 is pinned", plain("pinned"), "(?:{man}|{letter}) pinned"),
    form(
        "the knight on f6 is pinned to d8", plain("pinned"), "(?:{man}|{letter}) pinned (?:to|against) {one}"
    ),
    form(
        "the knight on f6 is pinned to d8",
        plain("pinned"),
        "(?:{man}|{letter}) pinned (?:to|against) (?:its (?:own )?|"
        "(?:white|black) )?(?P<word>queen|king|rook|bishop|knight)",
    ),
    form(
        "Nf3 is legal",
        plain("legal"),
        "{move} (?:legal|possible)(?: move)?",
        "{move} may be played",
        "{colour} may play {move}",
    ),
    form(
        "Kf8 is the only legal move",
        plain("only move"),
        "{move} (?:{colour} )?only(?: legal)? move(?: (?:for )?{colour})?",
        "(?:{colour} )?only(?: legal)? move(?: for {colour})? {move}",
    ),
    form(
        "Bb5 is check",
        plain("check"),
        "{move} (?:(?:gives|with) )?check",
        "{move} checks(?: (?:{colour} )?king)?",
    ),
    form(
        "Nf6 is double check",
        plain("check", "double"),
        "{move} (?:(?:gives|with) )?double[- ]check",
    ),
    form(
        "Nf6 is discovered check",
        plain("check", "discovered"),
        "{move} (?:(?:gives|with) )?discovered[- ]check",
        "{move} discovers check",
    ),
    form(
        "Qg7 is mate",
        plain("mate"),
        "{move} (?:(?:gives|delivers|with) )?(?:check)?mate",
        "{move} (?:check)?mates(?: {colour})?",
    ),
    form(
        "Qg6 forces mate in 2",
        plain("mate in"),
        "{move} (?:(?:check)?mates|(?:forces |leads to |gives )?"
        "(?:forced )?(?:check)?mate) in {number}(?: moves?)?",
    ),
    form("Nc7 forks e8 and a8", plain("forks"), "{moved}forks {squares}", "{move} fork of {squares}"),
    form(
        "Nf6 discovers an attack on a8",
        plain("discovers"),
        "{moved}(?:discovers|uncovers|unveils|reveals|opens)"
        "(?: an| a discovered)? attack (?:on|against) {one}",
        "{moved}(?:discovers|uncovers) (?:a discovered )?attack (?:on|against) {one}",
        "{move} (?:makes |gives )?discovered attack (?:on|against) {one}",
    ),
    form(
        "Bg2 skewers d5 and b7",
        plain("skewers"),
        "{moved}skewers {one}(?:,? and| to| against| with) {two}",
        "{move} skewer of {one} and {two}",
    ),
    form(
        "Qh6 threatens mate",
        plain("threatens", "mate"),
        "{moved}threatens (?:to (?:give )?)?(?:check)?mate(?: in (?:1|one))?(?: on {one})?",
    ),
    form(
        "Bg5 threatens Bxf6",
        plain("threatens"),
        "{moved}threatens (?:to play )?{reply}(?: (?:check)?mate)?",
    ),
    form("Nc7 wins the exchange", _wins, "{moved}wins (?:at least )?{things}"),
    form(
        "Black has 4 legal moves",
        plain("moves of side"),
        "{colour} has {number}(?: (?:legal|possible))? moves?",
        "{number} (?:legal|possible) moves?(?: for {colour})?",
    ),
    form(
        "Black has 4 legal moves", plain("moves of side", number=0), "{colour} (?:cannot|can't|may not) move"
    ),
    form(
        "the king on e8 has 1 move",
        plain("moves of man"),
        "(?:{man}|{letter}) has {number}(?: (?:legal|possible))? moves?",
    ),
    form("the king on e8 has 1 move", plain("moves of man", number=0), "{man} (?:cannot|can't|may not) move"),
    form(
        "White is in check",
        plain("in check"),
        "(?:position )?check",
        "{colour}(?: king)? in check",
        "king of {colour} in check",
    ),
    form("White is in check", plain("attacked"), "{man} in check"),
    form("Qg6 is stalemate", plain("stalemate"), "{move} (?:gives |leads to )?stalemate"),
    form("stalemate", plain("stalemate"), "(?:position |{colour} )?(?:in )?stalemate(?:d)?"),
    form("checkmate", plain("checkmate"), "(?:position |{colour} )?(?:in )?(?:check)?mate(?:d)?"),
    form(
        "mate in 2",
        plain("mate in"),
        "(?:forced )?(?:check)?mate in {number}(?: moves?)?(?: for {colour})?",
        "{colour} (?:has |may |forces |may force |to (?:move|play)(?: and)? |gives )?"
        "(?:forced )?(?:check)?mates? in {number}(?: moves?)?",
        "{colour} may give (?:check)?mate in {number}(?: moves?)?",
    ),
    form("the e-file is open", _file, "{file} (?P<word>open|closed|half-open)"),
    form("the e-file is closed", _file, "(?P<word>open|closed) {file}"),
    form(
        "the e-file is half-open for White",
        _file,
        "{file} (?P<word>half-open) (?:for|to) {colour}",
        "{colour} has (?P<word>half-open) {file}",
        "{file} {colour} half-open file",
    ),
    form(
        "g2-d5 is open",
        plain("line"),
        "(?:(?:line|path|way|road) )?(?:from )?{one}(?:-| to | and ){two}(?: line)? (?P<word>open|closed)",
        "(?:line|path|way) between {one} and {two} (?P<word>open|closed)",
    ),
    form(
        "g2-d5 is closed",
        _diagonal,
        "(?:(?:long )?diagonal )?(?:from )?{one}(?:-| to ){two}(?: diagonal)? (?P<word>open|closed)",
    ),
    form(
        "d5 is an outpost for White",
        plain("outpost"),
        "{square} (?:good )?outpost (?:for|of) {colour}",
        "{square} outpost square (?:for|of) {colour}",
        "{square} {colour}(?:'s)? outpost(?: square)?",
        "{colour} has outpost (?:on|at) {square}",
        "outpost for {colour} on {square}",
    ),
    form(
        "the pawn on d4 is passed",
        plain("pawn"),
        "{pawn} (?P<word>passed|isolated|doubled|backward)(?: (?:{colour} )?pawn)?",
        "{square} (?P<word>passed|isolated|doubled|backward) pawn",
        "{colour} has (?P<word>passed|isolated|doubled|backward) pawn on {square}",
        "(?P<word>passed|isolated|doubled|backward) pawn on {square}",
    ),
    form(
        "White is up a pawn",
        _up,
        "{colour} (?P<word>up|ahead|down|behind)(?: by)? {things}",
    ),
    form("White is up a pawn", _more, "{colour} has (?P<things>(?:.+ )?(?:extra|more)(?: .+)?)"),
    form(
        "Black is a piece up",
        _up,
        "{colour} (?:has )?(?P<things>.+) (?P<word>up|ahead|down|behind|short)(?: for (?P<less>.+))?",
    ),
    form(
        "material is equal",
        plain("material"),
        "material (?:count )?(?:equal|even|level|balanced|same)(?: (?:for|on) both sides)?",
        "material (?:equality|balance (?:equal|level|even))",
        "(?:(?:sides|white and black|both sides)(?: have)? )?(?:equal|even|level|same) (?:in )?material",
        "(?:sides |white and black |both sides )?materially (?:equal|level|even)",
        "(?:sides|white and black) (?:equal|level|even) (?:in|on) material",
    ),
    form(
        "White has the bishop pair",
        plain("bishop pair"),
        "{colour} (?:has|owns|holds) (?:bishop pair|pair of bishops|bishops' pair|both bishops)",
        "bishop pair (?:belongs to |with )?{colour}",
    ),
    form(
        "the bishops are of opposite colours",
        plain("opposite bishops"),
        "(?:opposite|different)[- ]coloured bishops",
        "(?:opposite|different)[- ]colour bishops",
        "bishops (?:of|on|stand on|run on)?(?: squares of)? ?"
        "(?:opposite|different)[- ]colour(?:s|ed)?(?: squares)?",
    ),
    form(
        "White may castle kingside",
        _castles("may castle"),
        f"{{colour}} (?:may|allowed to|able to) castle{_WING}",
        "castling (?P<word>kingside|queenside) (?:legal|possible) for {colour}",
    ),
    form(
        "Black has lost the right to castle",
        _castles("lost castling"),
        rf"{{colour}} (?:has )?(?:lost|forfeited|no)(?: (?:its|his|her))?"
        rf"(?: more)? rights? to castle{_WING}(?: any ?more)?",
        r"{colour} (?:has )?(?:lost|forfeited|no)(?: (?:its|his|her|all))? castling rights?",
        rf"{{colour}} (?:cannot|can't|may not) castle{_WING} (?:any ?more|again|any longer)",
        rf"{{colour}} (?:may|will) (?:no longer|never|never again) castle(?: again)?{_WING}(?: any ?more)?",
    ),
    form(
        "White has the right to castle",
        _castles("castling right"),
        rf"{{colour}} (?:still )?(?:has|keeps|holds)(?: still)?"
        rf"(?: (?:its|his|her))? rights? to castle{_WING}",
        rf"{{colour}} (?:still )?(?:has|keeps|holds)(?: still)? castling rights?{_WING}",
    ),
    form(
        "the rooks of White are connected",
        plain("rooks connected"),
        "rooks (?:of|for) {colour} connected",
        "rooks connected for {colour}",
        "{colour} rooks connected",
        "{colour} has connected(?: (?:its|his|her))? rooks",
    ),
    form(
        "Black has the opposition",
        plain("opposition"),
        "{colour} (?:has|holds|possesses|has taken|has gained)(?: direct)? opposition",
        "opposition (?:belongs to |with )?{colour}",
    ),
    form(
        "the king is inside the square of the pawn on a4",
        plain("in the square"),
        "(?:{colour} |enemy )?king(?: on (?P<one>[a-h][1-8]))? "
        "(?:stands )?(?:inside|in|within) square of {pawn}",
        "king of {colour} (?:stands )?(?:inside|in|within) square of {pawn}",
    ),
    form(
        "White wins with best play",
        plain("wins with best play"),
        f"{{colour}} (?:wins|winning|won) {_BEST}",
        f"{_BEST},? {{colour}} wins",
        f"(?:position |game )?(?:won|win) for {{colour}}(?: {_BEST})?",
    ),
    form(
        "the position is drawn",
        plain("drawn"),
        f"(?:(?:position|game|ending|endgame) )?(?:theoretically )?"
        f"(?:theoretical )?(?:drawn|draw)(?: {_BEST})?",
        f"{_BEST},? (?:position |game )?(?:drawn|draw)",
    ),
    form(
        "it is a threefold repetition",
        plain("repetition", number=3),
        "(?:position )?(?:third|threefold|three-fold|triple) repetition(?: of (?:the )?position)?",
        "(?:same )?position (?:has occurred|has appeared|has stood|stands|occurs)(?: on board)?(?: for)?"
        "(?: the)? (?:third time|3 times|three times|thrice)",
        "(?:position )?repeated (?:three|3) times",
    ),
    form(
        "it is a repetition",
        plain("repetition"),
        "(?:position )?repetition(?: of (?:the )?position| of moves)?",
        "(?:same )?position (?:repeated|repeats|has been repeated|has (?:occurred|appeared|stood) before)",
    ),
    form(
        "it is move 12 of fifty",
        plain("fifty"),
        "move (?:number )?{number} of (?:fifty|50)(?: moves?)?",
    ),
    form(
        "en passant is possible",
        plain("en passant"),
        "(?:capturing |taking |capture )?en passant(?: capture)? (?:possible|legal|allowed|available|on)",
        "{colour} may (?:capture|take) en passant",
    ),
    form(
        "White has the move",
        plain("has the move"),
        "{colour} (?:has|to|on) move",
        "{colour}(?:'s)? (?:move|turn)(?: to (?:move|play))?",
        "{colour} to play",
        "{colour} may move",
        "move (?:belongs to )?{colour}",
    ),
)
FORMS: tuple[Form, ...] = (*(one for forms in _TABLE for one in forms), *SAME)
EXAMPLES = (
    *dict.fromkeys(one.example for one in FORMS),
    "after Ng5 Be7, g2-d5 is open",
    "if White passes, Bd6 is legal",
)
"""One sentence for each way to claim a thing; a form may have other wordings too."""
