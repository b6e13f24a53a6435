"""Prose against sums: lists behind their number, men left, moves made so far."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.guarding import pawns_against
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import COUNTS, HYPOTHETICAL, KIND, KINDS, SQUARE, sentence, supposed
from player.facts.place import Place
from player.wording.claim_words import number_of

_N = r"(?P<number>one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_ANY_N = r"(?P<number>[a-z]+(?:-[a-z]+)?|\d{1,3})"
_ITEM = (
    r"(?:(?:an?|the|one|two|three|four|five|six|both|his|her|its|our|your|another|White's|Black's) )?"
    rf"(?:(?:white|black|own|other|passed) )*(?:{KIND}s?(?: (?:on|from) {SQUARE})?|{SQUARE})"
)
_THINGS = r"pieces|men|guards|attackers|defenders|squares|pawns|targets|points|things|helpers|friends|holes"
_COLON = re.compile(
    rf"(?P<lead>\w+ )?\b{_N}(?: (?:white|black|minor|heavy|other|good|quiet))?"
    rf"(?P<noun> (?:{_THINGS})(?: (?!against\b|or\b)[a-z0-9]+){{0,4}})?: "
    rf"(?P<list>{_ITEM}(?:(?:, and then |, and |, then |, | and ){_ITEM})+)(?=[.;!?]|$)",
    re.IGNORECASE,
)
_NUMBERING = re.compile(
    r"^(?:move|card|part|round|rule|lesson|number|door|game|page|step|at|on|of|chapter|board|table) $",
    re.IGNORECASE,
)
_APPOSED = re.compile(
    rf"\b(?P<list>{SQUARE}(?:(?:, and|,| and| or)(?: also)?(?: at| on)? {SQUARE})+)"
    rf"(?:, {_N} (?:\w+ )?(?:squares|pawns|targets|men|pieces|points|holes)\b"
    rf"(?! (?:down|up|behind|ahead|against|away))|[.:;] {_N.replace('number', 'number2')} (?:\w+ )?"
    r"(?:squares|pawns|targets|men|pieces) (?:at once|in all|together)\b)",
    re.IGNORECASE,
)
_SQUARES = re.compile(
    rf"\b{_N} (?:\w+ )?squares,? (?P<list>{SQUARE}(?:(?:, and|,| and) {SQUARE})+)(?=[.;!?)]|, (?!and)|$)",
    re.IGNORECASE,
)
_ALL = re.compile(rf"\ball {_ANY_N} (?P<kind>{KIND}|men|pieces)s?\b(?! of\b)")
_EACH = re.compile(
    rf"\b(?P<number>an?|one|two|three|four|five|six|seven|eight) (?P<kind>{KIND})s? each\b", re.IGNORECASE
)
_OFF = re.compile(
    rf"\b{_N} (?P<kind>{KIND})s? (?:(?:have |has )?left the board|(?:have|has) (?:gone|come off)|"
    r"(?:have|has) been (?:taken|traded|swapped))",
    re.IGNORECASE,
)
_MADE = re.compile(
    r"\b(?P<who>[Ee]ach side|[Bb]oth sides|White|Black) (?:has|have) (?:now |only |just |already )*"
    rf"(?:made|played) {_ANY_N} moves?\b(?! (?:with|of|by|in|since|more|to)\b)"
)
_ON_MOVE = re.compile(
    r"\b(?:[Hh]ere|[Nn]ow|[Aa]lready|[Oo]nly)\b(?:(?!\b(?:as|like|back|that|had|was|were)\b)[^.;:!?]){0,25}"
    r" on move (?P<number>[a-z-]+|\d+)\b"
)
_SINCE = re.compile(
    r"\b(?:stood|moved|stirred|sat|lived|waited|budged|stands|guarding|watching)\b[^.;:!?]{0,30}"
    r" since move (?P<number>[a-z-]+|\d+)\b"
)
_BOTH = {"both": 2, "a single": 1, "another": 1}


def sum_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about numbers that do not fit the list, the men or the moves they count."""
    if passage.role in ("idea", "part"):
        return
    yield from _lists(passage)
    if passage.role in ("told", "because", "reply"):
        yield from _men(passage, boards)
    if passage.role not in ("question", "title", "back"):
        yield from _made(passage, boards)


def count_of(word: str) -> int:
    """The number that a word says, or 0."""
    word = word.lower()
    return _BOTH.get(word) or COUNTS.get(word) or number_of(word) or 0


def _doubt(found: re.Match[str], message: str, group: str = "number") -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-count", message)


def _sums(words: str) -> set[int]:
    """What a list may add up to: pawns and kings are no pieces to some. Empty where it cannot be told."""
    pieces, others = 0, {chess.PAWN: 0, chess.KING: 0}
    for one in re.finditer(_ITEM, words, re.IGNORECASE):
        named = re.search(rf"\b(?P<kind>{KIND})(?P<many>s?)\b", one[0], re.IGNORECASE)
        first = one[0].split()[0].lower()
        number = COUNTS.get(first, 1)
        if named and named["many"] and first not in COUNTS:
            return set()
        kind = KINDS[named["kind"].lower()] if named else 0
        if kind in others:
            others[kind] += number
        else:
            pieces += number
    pawns, kings = others[chess.PAWN], others[chess.KING]
    return {pieces + a + b for a in {0, pawns} for b in {0, kings}} if pieces else {pawns + kings, pawns}


def _lists(passage: Passage) -> Iterator[Doubt]:
    """ "Four pieces: a queen, a bishop and both knights", "g7, h6 and d6, three pawns in all"."""
    text = passage.text
    for found in _COLON.finditer(text):
        sums = _sums(found["list"])
        noun = (found["noun"] or "").strip().lower()
        if not noun.startswith(("piece", "men")) and sums:
            sums = {max(sums)}
        if _NUMBERING.match(found["lead"] or "") or count_of(found["number"]) < 2 or not sums:
            continue
        if count_of(found["number"]) not in sums and not any(
            found.start("list") <= at < found.end() for at, _ in passage.turns
        ):
            yield _doubt(found, f"{max(sums)} are named here.")
    for pattern in (_APPOSED, _SQUARES):
        for found in pattern.finditer(text):
            group = "number" if found["number"] else "number2"
            squares = set(re.findall(SQUARE, found["list"], re.IGNORECASE))
            if count_of(found[group]) != len(squares):
                yield _doubt(found, f"{len(squares)} are named here.", group)


def _men(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "All four rooks", "eight pawns each", "four minor pieces are left", "three rooks"."""
    text = passage.text

    def wrong(pattern: re.Pattern[str]) -> Iterator[tuple[re.Match[str], list[chess.Board]]]:
        for found in pattern.finditer(text):
            first, last = sentence(text, *found.span())
            if not HYPOTHETICAL.search(text[first:last]):
                places = [passage.at(found.start()), passage.at(len(text)), passage.before]
                yield found, [boards.of(place) for place in dict.fromkeys(places)]

    for found, around in wrong(_ALL):
        if found["kind"] in KINDS and found["kind"] != "pawn" and count_of(found["number"]):
            kind = KINDS[found["kind"]]
            totals = {n for one in around for n in (_side(one, kind, True), _side(one, kind, False))}
            totals |= {_side(one, kind, True) + _side(one, kind, False) for one in around}
            if count_of(found["number"]) not in totals:
                yield _doubt(found, f"There are {max(totals)}.")
    for found, around in wrong(_EACH):
        kind = KINDS[found["kind"].lower()]
        number = COUNTS[found["number"].lower()]
        if (kind == chess.PAWN and number < 2) or re.match(
            r"[,;]? (?:has|have|left|gone|off)\b", text[found.end() :]
        ):
            continue
        near = [*around, *(boards.of(place) for place in passage.places())]
        if kind == chess.PAWN and any(pawns_against(one, [number, number]) for one in near):
            continue
        if not any(_side(one, kind, True) == _side(one, kind, False) == number for one in near):
            yield _doubt(found, "The sides have other numbers of them here.")
    for found, around in wrong(_OFF):
        kind, root = KINDS[found["kind"].lower()], boards.of(Place(passage.before.root))
        gone = {_both(root, kind) - _both(one, kind) for one in around}
        if count_of(found["number"]) > max(gone):
            yield _doubt(found, f"So far {max(gone)} of them have left the board.")


def _both(board: chess.Board, kind: int) -> int:
    return _side(board, kind, True) + _side(board, kind, False)


def _side(board: chess.Board, kind: int, white: bool) -> int:
    return len(board.pieces(kind, white))


def _made(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Moves made so far, the number of the move just told, and since when a man has stood still."""
    text, root = passage.text, boards.of(Place(passage.before.root))
    if root.fullmove_number != 1 or not root.turn:
        return
    for found in _MADE.finditer(text):
        plies, number = len(passage.at(found.start()).moves), count_of(found["number"])
        own = {"White": {(plies + 1) // 2}, "Black": {plies // 2}}.get(
            found["who"], {plies // 2, (plies + 1) // 2}
        )
        if number and number not in own and not supposed(text, *found.span()):
            yield _doubt(found, f"{max(own)} are made.")
    for found in _ON_MOVE.finditer(text):
        plies = len(passage.at(found.start()).moves)
        now = {(plies + 1) // 2, plies // 2 + 1} if passage.turns else set()
        if now and count_of(found["number"]) not in (0, *now) and not supposed(text, *found.span()):
            yield _doubt(found, f"This is move {min(now)}.")
    for found in _SINCE.finditer(text):
        first, last = sentence(text, *found.span())
        kinds = {KINDS[one.lower()] for one in re.findall(rf"\b({KIND})\b", text[first:last], re.IGNORECASE)}
        number, moves = count_of(found["number"]), passage.at(found.start()).moves
        told = [ply for ply in (2 * number - 2, 2 * number - 1) if 0 <= ply < len(moves)]
        moved = {
            boards.of(Place(passage.before.root, moves[: ply + 1])).piece_type_at(
                chess.parse_square(moves[ply][2:4])
            )
            for ply in told
        }
        moved |= {chess.ROOK} if chess.KING in moved else set()
        named = re.search(rf"\b{KIND} on ({SQUARE})\b", text[first : found.start()], re.IGNORECASE)
        if named and number and told and not supposed(text, *found.span()):
            own, at = set(), named[1].lower()
            for ply in range(len(moves) - 1, -1, -1):
                if moves[ply][2:4] == at:
                    own.add(ply)
                    at = moves[ply][:2]
            if own and not own & {*told}:
                yield _doubt(found, f"The man on {named[1]} did not move on that move.")
                continue
        if kinds and number and moves and not moved & kinds:
            yield _doubt(found, "No such man moved on that move.")
