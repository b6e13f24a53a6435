"""Every form a question to the board is asked in."""

from __future__ import annotations

import re
from dataclasses import dataclass

from player.wording.asked.words import Man, Plain, Thing, plain_question


@dataclass(frozen=True, slots=True)
class Query:
    """A question as data: its kind, a word that parts kinds further, what it names, and the words as said."""

    kind: str
    word: str
    things: tuple[tuple[str, Thing], ...]
    said: str

    def all(self, letter: str) -> list[Thing]:
        return [thing for tag, thing in self.things if tag == letter]

    @property
    def men(self) -> list[Man]:
        return [thing for _, thing in self.things if isinstance(thing, Man)]

    @property
    def side(self) -> str:
        """The first side named by itself, or ""."""
        return next((str(thing) for tag, thing in self.things if tag == "C"), "")

    @property
    def squares(self) -> list[int]:
        """Squares named, by themselves or as a man's, in order."""
        out: list[int] = []
        for tag, thing in self.things:
            if tag == "S" and isinstance(thing, int):
                out.append(thing)
            elif isinstance(thing, Man) and thing.square is not None:
                out.append(thing.square)
        return out

    @property
    def number(self) -> int | None:
        return next((thing for tag, thing in self.things if tag == "N" and isinstance(thing, int)), None)

    @property
    def same_as(self) -> tuple[str, str, tuple[tuple[str, Thing], ...]]:
        """What makes two questions one."""
        return self.kind, self.word, self.things


_WHO = "W (?:is )?(?:(?:of )?C )?(?:man )?(?:is |can |has )?"
_TABLE: tuple[tuple[str, str, str], ...] = (
    # who hits and guards what
    ("attackers", "", f"{_WHO}(?:attack|check) [SMK](?: (?:for|of) C)?|W (?:do|can) C attack [SMK] with|(?:by )?W is [SMK] attacked(?: by)?|[SMK] is attacked by W|W K (?:do |is )?attack [SM]|W is attackers of [SMK]|list attackers of [SMK]|W attackers [SM] has"),
    ("guards", "", f"{_WHO}guard [SMK](?: (?:for|of) C)?|W (?:do|can) C guard [SMK] with|W is [SMK] guarded(?: by)?|W K (?:do |is )?guard [SM]|W is guardians of [SMK]|list guardians of [SMK]"),
    ("attack count", "", "how many times is [SMK] attacked(?: by C)?|how many times (?:do|can) C attack [SMK]|how many attackers (?:is )?(?:on|of) [SMK]|how many (?:C )?man attack [SMK]|how many attackers (?:do )?[SMK] has|how many attackers has [SMK]|how many C attackers (?:on|of) [SMK]"),
    ("guard count", "", "how many times is [SMK] guarded(?: by C)?|how many times (?:do|can) C guard [SMK]|how many (?:guardians|guard) (?:is )?(?:on|of) [SMK]|how many (?:C )?man guard [SMK]|how many (?:guardians|guard) (?:do |has )?[SMK](?: has)?"),
    ("is attacked", "", "is [SMK] attacked(?: by (?:C|anything|man))?|do (?:anything|C|man) attack [SMK]|can (?:anything|C) attack [SMK]"),
    ("is guarded", "", "is [SMK] guarded(?: by (?:C|anything))?|do (?:anything|C) guard [SMK]|has [MK] guardians"),
    ("is guarded", "not", "is [SMK] unguarded"),
    ("hits", "attack", "do [MK] attack [SMK]|is [MK] attack(?:ing)? [SMK]|can [MK] attack [SMK]"),
    ("hits", "guard", "do [MK] guard [SMK]|is [MK] guard(?:ing)? [SMK]|can [MK] guard [SMK]"),
    ("sees", "", "W (?:square |man )?(?:do|can|is) [MK] attack|W (?:do|can) [MK] attack(?: that is C| C man| man| that is)?|where (?:do|can|is) [MK] attack|W (?:square )?is attacked by [MK]|W is [MK] attack|W (?:square )?(?:do|can) [MK] (?:guard|attack)"),
    ("unguarded", "", f"(?:W|{_WHO}|list|is|has C|do C has|W of C)? ?(?:is )?(?:W )?(?:of )?(?:C )?(?:man )?(?:is )?(?:anything |C )*unguarded(?: man)?|list unguarded man|W man has no guardians|is anything unguarded|unguarded man|W is unguarded of C|has C unguarded man|W (?:man )?of C is unguarded"),
    ("attacked men", "", "W (?:of )?(?:C )?(?:man )?(?:of C )?is attacked|is anything (?:of C )?attacked|W (?:C )?man is attacked(?: by C)?|is C man attacked|W (?:man )?(?:do|can) C attack|W (?:man )?is C attack|is C attack anything"),
    ("hanging", "", "(?:is )?(?:W )?(?:is )?(?:of )?(?:C )?(?:anything )?(?:man )?(?:of )?(?:C )?(?:is )?hanging(?: man)?(?: (?:for|of) C(?: s)?)?|(?:do|has) C (?:has )?(?:anything|man)? ?hanging(?: man| anything)?|is C hanging anything|W is C hanging|W (?:man )?can (?:be|is) (?:taken|take) for (?:free|nothing)|what hanging"),
    ("is hanging", "", "(?:is|do) [SMK] hanging|can [SMK] (?:be|is) (?:take|won)(?: for (?:free|anything))?|is [SMK] free"),
    ("pins", "", "(?:W|is|has) (?:is )?(?:C )?(?:anything|man)? ?(?:is )?(?:C )?pinned(?: man)?|(?:is )?(?:a )?pin|W pin (?:is|do C has)?|W is pinned|(?:list )?pinned man|W is pin|has C pin(?:ned man)?|W (?:of )?C (?:man )?is pinned|is C man pinned|W man is pinned"),
    ("is pinned", "", "is [SMK] pinned(?: to [SMK])?|is K of C pinned|do anything pin [SMK]|can [SMK] move or is it pinned"),
    ("pinned to", "", "(?:to )?W is [SMK] pinned(?: to)?(?: by)?|W (?:man )?(?:is )?pin [SMK](?: to [SMK])?|why is [SMK] pinned|W K is pin [SMK]|W K (?:is )?pinned(?: to [SMK])?"),
    ("what on", "", "W (?:man |K )?(?:is )?on S|W (?:man )?is S|(?:is )?(?:anything|man|anyone) on S|is S (?:empty|free|occupied)|W (?:man )?occupies S|W do S has|is M|is [MK] on S"),
    ("shade", "", "W colour (?:is|has) (?:square )?S(?: has)?|is S (?:on )?(?:L )+?(?:square)?(?: ?or L)?(?: square)?|W colour S is|is S (?:L|white|black|C)(?: square)?(?: or (?:L|C))?(?: square)?|(?:W )?colour of S|W is colour of S"),
    ("where", "", "where is K(?: now)?|where (?:do|has|did) C (?:has|put|keep|place) K|on W square is K|W square is K on|where K is|find K|where is all K|where can find K|W file is K on|where is [M]"),
    ("how many men", "", "how many K(?: (?:do|has|is) ?(?:C)?(?: has)?)?(?: left)?(?: on)?|how many (?:C )?man(?: (?:do|has|is) ?(?:C)?(?: has)?)?(?: left)?(?: on)?|(?:list|number of) (?:C )?(?:K|man)|how many (?:K|man) (?:is|has) (?:C )?(?:left|has)|number of K"),
    ("worth", "", "how (?:many|many points|many square) is [KM] worth|W is [KM] worth|worth of [KM]|how many (?:points|square) (?:is|do) [KM] (?:worth|count)?|W is worth of [KM]|how many points is [KM] worth"),
    # where men can go
    ("moves", "", "where (?:can|do) [MK] (?:go|move)(?: to)?|(?:W|list) (?:legal )?(?:moves?|square) (?:do|can|has|of|for|is)(?: open)? ?(?:for |to |of )?[MK](?: (?:has|go|move|reach|make))?(?: to)?(?: in N move)?|(?:W|list) is [MK] (?:legal )?move|(?:list )?(?:legal )?move (?:of|for) [MK]|W (?:square )?can [MK] (?:go|move|reach)(?: to)?(?: in N move)?|W is (?:legal )?move (?:of|for) [MK]|can [MK] move|has [MK] move|list K move|W (?:move|square) has [MK]|is [MK] (?:stuck|trapped|free to move|can to move)"),
    ("move count", "", "how many (?:legal )?(?:move|square) (?:do |has |can |of |is )?(?:for )?[MK](?: (?:has|make|go|reach|move))?(?: to)?(?: has)?|number of move (?:of|for) [MK]"),
    ("safe", "", "W square is safe for [MK]|where is [MK] safe|where can [MK] (?:go|move) safe|W safe square (?:do |has |is |for )+[MK](?: has)?|how many safe (?:square|move) (?:do |has |is |for )+[MK](?: has)?|how many square is safe for [MK]|safe square (?:for|of) [MK]|can [MK] (?:go|move) anywhere safe|has [MK] safe (?:square|move)|W is safe (?:for|square of|square for) [MK]|where can [MK] safe (?:go|move)|is safe square for [MK]|do [MK] has safe (?:square|move)|can [MK] (?:escape|get away)"),
    ("is safe", "", "is S safe for [MK]|is [MK] safe on S|can [MK] (?:go|move) safe to S|is [MK] safe|is it safe to move [MK] to S"),
    ("side moves", "", "how many (?:legal )?move (?:is|do C has|has C|can C make|for C|has)?|how many move has C|number of (?:legal )?move|how many legal move(?: is)?(?: do)?(?: C)?(?: has)?|how many move can C make"),
    ("reach", "", "can [MK] (?:reach|go to|move to|go|attack to|move|come to|land on|get to|to) S(?: in N move)?(?: if empty)?|can [MK] (?:reach|go to|get to) S in how many move|how many move (?:do|is|for|can|would) [MK] (?:need|take|require|has|to reach|go to)* ?(?:to )?(?:reach|go to|go|move to|get to)? ?S?(?: if empty)?|how (?:fast|soon|quickly|far) (?:can|is) [MK] (?:reach|from|go to|to) S|how many move (?:to|until|from) [MK] (?:to|reach|reach) S|how long (?:do|is|for) [MK] (?:to|need|take)* ?(?:reach|go to) S|W is shortest way (?:for|of) [MK] to S|how can [MK] (?:reach|go to) S"),
    ("takes", "", "can [MK] take (?:on )?[SM]|can (?:anything|C|man) take (?:on )?[SMK]|(?:W|W man|W K) (?:can |is )?(?:take|capture) (?:on )?[SM]|W can capture on S|can C capture (?:on )?[SMK]|can [SM] be (?:take|capture)|can anything capture [SM]|(?:W )?capture on S"),
    ("captures of", "", "W (?:man )?(?:can|could) [MK] (?:take|capture)|can [MK] (?:take|capture) (?:anything|man)|W capture has [MK]"),
    ("captures", "", "(?:W|list|is|can)? ?(?:is )?(?:C )?(?:can )?(?:capture|take)(?: is| do C has| has C| legal| can C make| has)?(?: C)?(?: has)?(?: legal)?(?: can make)?|can C (?:take|capture) (?:anything|man)|W (?:man )?can C (?:capture|take)|(?:W|anything) can (?:be|is) (?:take|capture)|can anything be (?:take|capture)|W (?:move )?is capture|W legal capture (?:is|has C)|has C capture|is legal capture|do C has capture|is capture|W capture is legal"),
    ("checks", "", "(?:W|list|is|has C|do C has) ?(?:is )?(?:legal )?check(?: is| do C has| has C| legal)?(?: C)?(?: has)?|can C (?:give |list )?check|W (?:move )?(?:is |can )?(?:list |give )?check|W move (?:list|give) check|is check|can (?:C )?(?:list )?check|has C check|check|W check (?:can C list|can C give)|how can C (?:list |give )?check"),
    ("mates", "", "is mate(?: in N)?(?: for C)?|can C mate(?: in N(?: move)?)?(?: C)?|W (?:move )?(?:is )?mate(?: in N)?|W is C mate|do C has mate(?: in N)?|has C mate(?: in N)?|is mate in N move|can C (?:force|list) mate(?: in N)?|is forced mate(?: in N)?|can mate be forced|mate in N|how can C mate|can C mate now|W move mate|is (?:this )?mate here"),
    ("forks", "", "is fork|can C fork(?: anything)?|W (?:move )?fork|has C fork|W fork (?:is|has C)|(?:list )?fork|W is fork"),
    ("threats", "", "W (?:do|is|can) C threat(?: to do| with)?|do C threat (?:anything|man|mate|V)|W is C (?:s )?threat|is threat(?: of C| by C| from C)?|W is threat(?: of C)?|threat|W (?:do|is) C (?:want|trying|going|planning|intend)(?: to)?(?: do| play)?|has C threat|do C has threat|W threat (?:is|do C has|has C)|is C threat anything|list threat|is anything threat|W is threat here|should C (?:be|is) (?:afraid|worried) of anything"),
    ("last move", "", "W (?:do|is) last move(?: do)?|W (?:is|happened|happen) (?:last|move last)|W do C (?:just |last )?(?:play|do|move)(?: last)?|W is previous move|last move|W was last move|W happened last|W (?:do|has) C (?:just )?(?:played|do|play)|W is last C move|W do C last move do|W move is (?:last|played last)|W is C last move|W is played last"),
    ("changed", "", "W (?:has )?(?:is )?(?:change|changed|new|different)(?: (?:since|with|after|in|by) (?:last|C|previous|question)*(?: ?move| ?question)?)?|W do (?:C )?(?:last )?move (?:change|changed)|W do C last move (?:change|changed)|is anything (?:change|changed|new)|W (?:has )?changed since (?:question|C last move|last move|before)"),
    ("legal", "legal", "(?:is|can) V (?:is )?(?:legal)(?: move)?(?: here)?|can C play V|is it legal to play V|is V legal|may C play V|is V allowed|can V be played|is V move"),
    ("legal", "check", "is V check|do V (?:list |give |is )?check|W if V check|is V with check"),
    ("legal", "mate", "is V mate|do V (?:list )?mate"),
    ("legal", "capture", "is V (?:a )?(?:capture|take)|do V (?:capture|take) anything"),
    # castling, en passant
    ("castle", "", "can C (?:castle|O-O)(?: (?:kingside|queenside))?|is castle (?:legal|can)?(?: for C)?|is castle legal|can C castle|has C (?:lost )?right(?:s)? to castle(?: (?:kingside|queenside))?|do C has right(?:s)? to castle|has C castle|has C castle right(?:s)?|W (?:side )?can castle|who can castle|castle right(?:s)?|is C can to castle|W castle rights|can castle|is C allowed to castle(?: (?:kingside|queenside))?"),
    ("why not castle", "", "why (?:cannot|can C not|can not|is C not can to|do C not|is it not can to) (?:C )?castle(?: (?:kingside|queenside))?|why (?:can C )?(?:cannot )?C (?:cannot|not) castle(?: (?:kingside|queenside))?|why is castle not (?:legal|can)|W (?:stops|prevents|blocks) C from castle|why can C not castle(?: (?:kingside|queenside))?|why is (?:not )?castle (?:not )?(?:legal|can)|why castle (?:is )?not legal"),
    ("en passant", "", "W is enpassant square|is enpassant (?:legal|can|capture)?|can (?:anything|C|man|[MK]) (?:be |is )?(?:take|capture)(?: anything| [MKS])? enpassant|is enpassant capture|W (?:square )?is (?:enpassant square|enpassant)|enpassant square|can C (?:enpassant|take enpassant)|W square is enpassant square|is enpassant|W can (?:be )?take enpassant"),
    # files, lines, pawns
    ("file", "", "is F open(?: for C)?|F open|is F (?:closed|blocked)"),
    ("file", "half", "is F halfopen(?: for C)?"),
    ("files", "", "W file is open|W is open|is (?:open )?file(?: open)?|list open file|(?:W )?open file(?: is)?|is open file|W open file is|how many (?:open file|file is open|open file is)|has C open file|file is open"),
    ("files", "half", "W file is halfopen(?: for C)?|is halfopen file(?: for C)?|list halfopen file|W halfopen file (?:is|has C)|has C halfopen file|how many halfopen file(?: is| has C)?"),
    ("line", "", "is (?:diagonal |line |way |path )?(?:from )?[SM] (?:to|and) [SM] (?:open|free|closed|blocked)|is (?:diagonal |line |way |path )(?:from |between )?[SM] (?:to|and) [SM] (?:open|free|closed|blocked)|is diagonal open(?: from)? S to S|can [MK] attack (?:through )?to S"),
    ("long diagonal", "", "is (?:long )?(?:L )?(?:square )?diagonal (?:open|free|closed|blocked)|is long L(?: square)? diagonal open"),
    ("between", "", "W (?:man )?(?:is )?between [SM] and [SM]|W (?:is )?in way (?:from|between|of) [SM] (?:to|and) [SM]|W (?:man )?block (?:diagonal |line |way )?(?:from |between )?[SM] (?:to|and) [SM]|how many man is between [SM] and [SM]|is anything between [SM] and [SM]|W is on (?:diagonal|line) (?:from )?[SM] to [SM]"),
    ("outpost", "", "is S (?:good )?(?:outpost|hole)(?: for (?:C|[MK]))?(?: (?:in|of) C(?: camp| position)?)?|has C outpost on S|is S weak(?: square)?|can S be attacked by (?:C )?K"),
    ("outposts", "", "(?:W|is|has C|list|do C has) ?(?:square is )?(?:is )?outpost(?: (?:is|do C has|has C|for C))?|where is outpost(?: for C)?|where has C outpost|W outpost (?:is|has C|do C has)"),
    ("pawns", "{pawns}", "W (?:of )?(?:K|C K) (?:is )?{pawns}(?: and where)?|W {pawns} K (?:do C has|is|has C|has)|is {pawns} K|{pawns} K|(?:do|has) (?:anyone|anything|C) (?:has )?{pawns} K|list {pawns} K|where is {pawns} K|how many {pawns} K (?:do|has|is)? ?(?:C)?(?: has)?|is K {pawns} K|W is {pawns} K|{pawns}"),
    ("pawn", "{pawns}", "is (?:[MK]|C {pawns} K) {pawns}(?: K)?|is [MK] {pawns} K|is S {pawns} K"),
    ("queens", "", "(?:do|can|will|is) [MK] (?:queen|K|promote|promotes|becomes? K|go through|run home)(?: in time)?|can K (?:catch|stop) [MK]|can [MK] (?:be|is) (?:catch|caught|stop|stopped)|is K (?:inside|in|in side) square of [MK]|is K inside square|do [MK] promote|will [MK] (?:promote|K)|(?:do|will|can) [MK] K|can C (?:catch|stop) [MK]"),
    ("run length", "", "how many move (?:do |is |for |until |till |can )?[MK] (?:need |take |is |to |before )*(?:to )?(?:K|promote|queen|last rank)|how (?:far|long|many move) is [MK] from (?:promotion|K|queen)"),
    # the game
    ("turn", "", "(?:W|who) (?:side )?(?:is )?(?:to )?(?:move|turn|turn is it|move is it)|W (?:move|turn) is it|W is to (?:move|play)|W turn|W side (?:is )?to move|is it C or C(?: to move| turn)?|W is it to move|who has move|W has move|W side has move|W do it is to move"),
    ("is turn", "", "is it C (?:s )?(?:to )?(?:move|turn)|is C (?:to )?(?:move|turn)|has C move|do C has move|is it C"),
    ("material", "", "(?:W|who|is|how) (?:side )?(?:is |do |has )?(?:anything |C )?(?:stand )?ahead(?: in| on| by)?(?: material| K| man| N)*|W is material(?: balance| count| situation)?|material(?: balance| count)?|how (?:do|is) material(?: stand| is| balance)?|W has (?:more|most) (?:material|man)|is material (?:equal|even|balanced)|is C (?:ahead|down|behind)(?: (?:in|by|on))? ?(?:material|K|man)?|is anything ahead(?: in material)?|how many is C (?:ahead|behind|down)|W (?:has|is) C lost|is C ahead K|who is ahead|do C has more (?:material|man)|W material balance|W is balance|is it equal material|W is man count|material count|W is C (?:ahead|down)|how many material (?:is|has|do) C (?:ahead|down|has|has lost)?|has C lost (?:anything|material|man|K)|is C K ahead|W has (?:extra|more) K"),
    ("in check", "", "is it check|is C (?:K )?(?:in )?check|is K in check|is K check|in check|is C in check|is (?:either|this|W|it|that)(?: side)? (?:in )?check|W is in check|is K attacked by check|W (?:side )?is in check|is that check"),
    ("is mate", "", "is (?:it|this|that|C|K) mate|is C mate|is game over|is over|has C (?:been )?mate"),
    ("stalemate", "", "is (?:it |this |that |C )?stalemate|stalemate"),
    ("draw", "", "is (?:it|this|game|position|that) draw|can C claim draw|is draw|is it draw now|draw"),
    ("best result", "", "(?:W|who) wins with bestplay|is (?:it|this|position) draw with bestplay|do C wins? with bestplay|can C (?:win|wins) with bestplay|is (?:it|this|position) (?:win|won|lost)(?: for C)?(?: with bestplay)?|W is result with bestplay|can C (?:win|draw)(?: this)?|do C win"),
    ("repetition", "", "(?:is|has) (?:it |this |that |position )?(?:draw by )?(?:been )?(?:a |position )?repetition|is it draw by repetition|how many times (?:has|is) (?:this )?position (?:is )?repetition|has (?:this )?position (?:occurred|stood|been here|is|been repeated|been on)?(?: repetition)?|(?:has|is) (?:this )?position (?:is )?repetition|has (?:this )?position (?:occurred|been|happened)(?: here)? (?:before|repetition)?|repetition"),
    ("fifty", "", "is fiftymove(?: rule)?(?: draw| close| near)?|(?:how many|W|how) (?:is |move )?(?:of )?(?:to |till |until |far |near )?(?:is )?fiftymove(?: rule)?|fiftymove rule|is it draw by fiftymove(?: rule)?|how many move (?:without|since) (?:last )?(?:capture|K move)(?: or K move)?|W is fiftymove count|how (?:close|near) is fiftymove rule|is fiftymove rule close"),
    ("opposition", "", "(?:W|who) (?:side )?(?:has|is) opposition|is opposition|(?:do|has) C (?:has )?opposition|opposition|W opposition"),
    ("bishop pair", "", "(?:has|do) C (?:has )?bishoppair|W (?:side )?has bishoppair|is bishoppair|bishoppair"),
    ("opposite bishops", "", "is K (?:of|on) opposite (?:colour|square)(?: square)?|is opposite[- ]?colour K|opposite colour K|is it opposite colour K"),
    ("rooks connected", "", "is (?:C )?K connected|is K of C connected|has C connected K"),
    ("move number", "", "W (?:move )?number is (?:it|this|move)|W move is (?:it|this|C on|on)|W move number (?:is it|is this|is)|W move is C on|how many move (?:has been|is|been) (?:played|made)|move number|W move number|W number is move"),
    ("prove", "", "is it (?:true|so|right) that .*|prove (?:that )?.*|is (?:this|it) claim true.*"),
    # what nobody can prove
    ("judgement", "best", "W is (?:C )?(?:best|right|strongest|correct)(?: move| play| plan)?(?: for C)?(?: here)?|W (?:should|would|must|shall|can) C (?:play|do|move|best)?(?: here| next)?|W (?:move )?(?:is )?best(?: move)?|W to (?:play|do|move)|how should C (?:play|go on|continue)|best move|W is best move for C|what to play|W should C|W is (?:C )?(?:good|best) plan|W is plan|W move is (?:best|good|right)|W is good move(?: for C)?|W is solution"),
    ("judgement", "answer", "W is answer|W (?:is )?right answer|list answer|answer"),
    ("judgement", "better", "(?:W|who) (?:side )?(?:is |has )?better(?: position)?|is C (?:better|worse|good|lost|losing|fine|ahead|okay)|W is evaluation|evaluation|how is C (?:doing|position)|is C position (?:good|bad|better|worse|strong|weak)|W has better (?:position|chances|game|side)|W (?:side )?is better|(?:W|who) wins|W will win|how good is (?:C )?position|is (?:it|position|this) (?:equal|balanced|even|good|bad|level)|evaluate|W do C think|who stand better|who is better|W is advantage|has C advantage|W has advantage|is better for C"),
    ("judgement", "man", "is [MK] (?:good|bad|strong|weak|active|passive|misplaced|better|useful|worse)(?: K| man| placed| than [MK])?|how (?:good|bad|strong) is [MK]|is K better than [MK]|W is (?:C )?(?:worst|best|weakest|strongest) (?:man|K)|is V (?:good|bad|better|best|strong|weak|mistake|blunder|risky|safe)(?: move)?(?: than V)?"),
    ("judgement", "opening", "W opening (?:is (?:it|this|C playing)?|do C play)?(?: called)?|W is (?:this )?opening(?: called)?|W is name of opening|list opening|opening|W is this (?:system|line|defence|defense|set-up|setup) called|W (?:system|defence|defense) is this"),
)  # fmt: skip

_PAWNS = ("passed", "isolated", "doubled", "backward")
_LEAD = re.compile(
    r"^(?:(?:and|but|so|now|also|tell|list|hey|i wonder|question|tell me|C wonder|list C)(?: |$))+(?=(?:W|is|do|can|has|how|where|why|who|will|would|could)\b)"
)
_KINDS: list[tuple[str, str, re.Pattern[str]]] = []
for _kind, _word, _pattern in _TABLE:
    for _state in _PAWNS if "{pawns}" in _pattern else ("",):
        _KINDS.append(
            (
                _kind,
                _word.replace("{pawns}", _state),
                re.compile(f"(?:{_pattern.replace('{pawns}', _state)})"),
            )
        )

KINDS = tuple(dict.fromkeys(kind for kind, _, _ in _KINDS))
"""Every kind of question there is an answer for."""

_ASKS = re.compile(
    r"(?:what|which|who|whose|whos|whats|wheres|where|how|why|is|are|was|were|am|can|could|may|might|do|does|did|"
    r"has|have|had|will|would|should|any|isn't|aren't|can't|doesn't|list|count|name|number|wat|wht)\b",
    re.IGNORECASE,
)
_WHY_NOT = re.compile(
    r"(?:and |but |so )?why\s+(?:not|can'?t\s+(?:i|we|he|she|white|black)(?:\s+play)?|didn'?t\s+(?:he|she|we|you|white|black)\s+play"
    r"|(?:did|do|does|can|could|would|should)\s+(?:he|she|we|you|i|white|black)\s+not\s+play|isn'?t\s+it|not\s+play)\s+(.+)",
    re.IGNORECASE,
)
_WHAT_ABOUT = re.compile(
    r"(?:and )?(?:what(?:'?s| is) wrong with|what about|how about|what speaks against)\s+(.+)", re.I
)


def looks_asked(said: str) -> bool:
    """Whether these words are a question by their first word or their mark."""
    text = said.strip()
    return text.endswith("?") or bool(_ASKS.match(text))


def query_of(said: str) -> Query | None:
    """The question these words ask of the board, or None where they have none of the known forms."""
    why = _WHY_NOT.fullmatch(said.strip()) or _WHAT_ABOUT.fullmatch(said.strip())
    plain = plain_question(said)
    text = _LEAD.sub("", plain.text)
    for kind, word, pattern in _KINDS:
        if pattern.fullmatch(text):
            return Query(kind, word, plain.things, said)
    if why is not None:
        return Query("why not", why[1].strip(" ?.!"), plain.things, said)
    return None


__all__ = ["KINDS", "Plain", "Query", "looks_asked", "query_of"]
