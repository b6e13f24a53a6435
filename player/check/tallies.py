"""Prose against tallies: numbers of moves, parts, men, steps and guards that can be counted."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import chess

from player.check.doubt import Doubt
from player.check.passages import Boards, Passage
from player.check.pointing import tight_places
from player.check.prose_words import COUNTS, KIND, KINDS, SQUARE, denied, sentence, supposed
from player.facts.place import Place
from player.script.faults import lines_of
from player.script.told import Told, ToldBeat, ToldBlock, ToldLesson, ToldPart, Turn
from player.wording.claim_words import number_of

N = r"(?P<number>no|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen)"
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_PART = re.compile(
    rf"^(?:The )?(?P<nth>{'|'.join(_ORDINALS)}) (?P<noun>[a-z]+)\b|^(?P<noun2>[A-Z][a-z]+) {N}\b",
    re.IGNORECASE,
)
_LAST_PART = re.compile(r"^The last (?P<noun>[a-z]+)\b")
_NOUN = re.compile(rf"\b{N} (?P<noun>[a-z]+s)\b", re.IGNORECASE)
_THE_MOVES = re.compile(
    rf"\b(?:the|your|these|those|our|takes|always these|out of) {N}(?= moves\b| (?:are|were)\b|[:;,.])",
    re.IGNORECASE,
)
_PLAYED = re.compile(rf"\b{N} of the (?:\w+) (?:are|is|have been) played\b", re.IGNORECASE)
_LAST_MOVES = re.compile(rf"\blast {N} (?:moves|steps)\b", re.IGNORECASE)
_STEPS = re.compile(rf"\b{N} (?:steps|moves|half-moves)\b", re.IGNORECASE)
_TAKEN_OFF = re.compile(
    rf"\b(?:[Tt]ake|[Ll]ift|[Rr]emove|[Pp]icture|these) {N}(?: (?:men|pieces|pawns))?\b(?= off| gone| men)"
)
_OF_SIDE = re.compile(rf"\b{N} of (?P<who>White|Black)'s (?P<kind>{KIND})s\b", re.IGNORECASE)
_FOLLOW = re.compile(rf"\b{N} (?:steps|moves) (?:follow|go by|come)\b", re.IGNORECASE)
_GUARDS = re.compile(
    rf"\b(?P<our>our side |[Ww]e |his side )?(?:(?:has|have|with) )?{N}"
    rf" (?P<what>guards?|attackers?|defenders?)\b(?! (?:against|but))",
    re.IGNORECASE,
)
_PAIR = re.compile(
    rf"\b{N} (?:guards?|defenders?) against (?P<other>one|two|three|four|five) attackers?\b", re.IGNORECASE
)
_TIMES = re.compile(r"\b(?:guarded|defended|covered) (?P<times>once|twice|(?:three|four|five) times)\b")
_PUSHED = re.compile(
    rf"\b(?:(?P<file>[a-h])-)?pawn (?:can |may |to |now )?(?:go(?:es)? |moves? |steps? |jumps? )?{N}"
    rf" (?:squares|steps)\b(?! (?:from|of|in))",
    re.IGNORECASE,
)
_SIDES = re.compile(rf"\bcheck from {N} sides\b", re.IGNORECASE)
_TO_GO = re.compile(rf"\b{N} (?:more )?(?:squares?|steps?) to go\b", re.IGNORECASE)
_SHORT = re.compile(rf"\b(?P<who>White|Black) (?:is|was) an? (?P<kind>{KIND}) short\b")
_RETURN = re.compile(rf"\b{N} pawns? in return\b", re.IGNORECASE)
_ON_BOARD = re.compile(rf"\b{N} (?P<color>white|black) m[ae]n (?:left )?on the board\b", re.IGNORECASE)
_YOUR_SIDE = re.compile(rf"\b{N} m[ae]n on your side\b", re.IGNORECASE)
_QUEEN_IN = re.compile(rf"\b(?:queen in|needs) {N} (?:more )?moves?\b", re.IGNORECASE)
_MATERIAL = re.compile(rf"\bMaterial is (?:a|{N}) pawns?\b")
_FEW = re.compile(
    rf"\b(?P<kings>[Oo]ne|[Tt]wo|[Tt]hree) kings? and (?:an? (?P<kind>{KIND})|{N} (?P<kind2>{KIND})s)\b"
)
_BETWEEN = re.compile(rf"\b{N}(?: \w+)? squares? between (?:the kings|them)\b", re.IGNORECASE)
_FILE_FACING = re.compile(
    r"\bqueens (?:face each other|will meet|meet|stand|look at each other)(?: on| down) the"
    r" (?P<file>[a-h])-file\b"
)
_BETWEEN_THEM = re.compile(
    rf"\bqueens [^.]*,? with (?:(?:an?|{N}) (?P<kind>{KIND})s?) between them\b", re.IGNORECASE
)
_OURS = re.compile(
    rf"\b(?P<only>only )?{N} of (?P<whose>ours|his|hers|theirs)\b(?: (?:looks?|aims?) at"
    rf" (?P<square>{SQUARE}))?",
    re.IGNORECASE,
)
_BEHIND = re.compile(
    rf"\bking\b[^.;:]*\bbehind (?P<list>(?:(?:an?|{N.replace('number', 'n')}) {KIND}s?(?:, | and |, and"
    rf" )?){{2,}})"
)
_MEN_BEHIND = re.compile(rf"\b{N} men (?:stand ready )?behind it\b", re.IGNORECASE)
_LEAD = re.compile(rf"\b{N} squares lead from (?P<a>{SQUARE}) to (?P<b>{SQUARE})\b", re.IGNORECASE)
_MORE = re.compile(rf"\b{N} more (?:pawn )?steps\b", re.IGNORECASE)
_AGAINST = re.compile(
    rf"(?:^|(?<=[.!?:] )|(?<=\bis ))\b{N} against (?P<other>one|two|three|four|five)\b(?!"
    rf" (?:bishop|knight|rook|pawn|men))",
    re.IGNORECASE,
)
_LISTS = re.compile(
    rf"\b{N} (?P<kind>{KIND})s against (?P<list>(?:an?|one|two|three|four) {KIND}s?(?: and"
    rf" (?:an?|one|two|three|four) {KIND}s?)*)",
    re.IGNORECASE,
)
_MATE_IN = re.compile(rf"\bmate in {N}\b", re.IGNORECASE)
_LET_OUT = re.compile(
    rf"\b(?P<kind>{KIND}|man) (?:that|who|which) (?P<verb>was let out|\w+(?: back| out)?) on move"
    rf" (?P<word>[a-z-]+|\d+)\b",
    re.IGNORECASE,
)
_SAN_NUMBER = re.compile(
    r"\b(?P<word>[a-z]+(?:-[a-z]+)?|\d{1,3}), (?P<san>[a-h][1-8]|[KQRBN][a-h]?x?[a-h][1-8])\b"
)
_KIND_LIST = re.compile(rf"\b(?:{KIND}, ){{2,}}(?:and (?:then )?)?(?:{KIND}\b)?", re.IGNORECASE)


@dataclass(slots=True)
class Book:
    """What a lesson counts as a whole: its titles, its numbered parts, and what its script lines ask for."""

    lines: tuple[str, ...]
    titles: dict[str, int] = field(default_factory=dict)
    parts: dict[str, list[tuple[int, int]]] = field(default_factory=dict)
    last: set[str] = field(default_factory=set)
    retold: dict[int, int] = field(default_factory=dict)
    claims: dict[int, set[str]] = field(default_factory=dict)
    side: str = "white"

    def below(self, line: int, pattern: str, reach: int = 4) -> re.Match[str] | None:
        """The first of the next lines that this pattern matches."""
        for text in self.lines[line : line + reach]:
            found = re.match(pattern, text)
            if found:
                return found
        return None


def book_of(source: str, told: ToldLesson) -> Book:
    """Reads what can be counted of a lesson as a whole."""
    book = Book(tuple(lines_of(source)), side=told.header.side)
    for counted in _NOUN.finditer(told.header.title or ""):
        book.titles[counted["noun"].lower()] = COUNTS[counted["number"].lower()]
    for one in told.body:
        if isinstance(one, ToldPart):
            title = one.title.shown
            noun = _NOUN.match(title)
            if noun:
                book.titles.setdefault(noun["noun"].lower(), COUNTS[noun["number"].lower()])
            found = _PART.match(title)
            last = _LAST_PART.match(title)
            if found:
                name = (found["noun"] or found["noun2"]).lower()
                book.parts.setdefault(name, []).append((one.spot.line, _nth(found)))
            elif last:
                book.last.add(last["noun"])
        if isinstance(one, ToldBlock) and one.kind == "retell":
            book.retold[one.spot.line] = sum(_turns(inner) for inner in one.body)
    for number, line in enumerate(book.lines, 1):
        if re.match(r"\s*claim:", line):
            book.claims[number] = set(re.findall(rf"\b{SQUARE}\b", line))
    return book


def _turns(one: Told) -> int:
    return sum(isinstance(deed.do, Turn) for deed in one.text.deeds) if isinstance(one, ToldBeat) else 0


def _nth(found: re.Match[str]) -> int:
    if found["nth"]:
        return _ORDINALS.index(found["nth"].lower()) + 1
    return COUNTS[found["number"].lower()]


def tally_doubts(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Doubts about numbers that can be counted."""
    if passage.role == "part":
        yield from _part(passage, book)
        return
    if passage.role == "idea":
        return
    yield from _nouns(passage, boards, book)
    yield from _script(passage, boards, book)
    yield from _guards(passage, boards, book)
    yield from _men(passage, boards, book)
    yield from _steps(passage, boards, book)
    yield from _moves(passage, boards, book)


def _count(found: re.Match[str], group: str = "number") -> int:
    return COUNTS.get((found[group] or "a").lower(), 1)


def _doubt(found: re.Match[str], message: str) -> Doubt:
    return Doubt(found.start(), found.end(), "prose-count", message)


def _part(passage: Passage, book: Book) -> Iterator[Doubt]:
    """ "The second door" is the second of its kind, "Card four" the fourth."""
    found = _PART.match(passage.text)
    if found is None:
        return
    name = (found["noun"] or found["noun2"]).lower()
    row = [line for line, _ in book.parts.get(name, ())]
    if len(row) > 1 and passage.spot.line in row and row.index(passage.spot.line) + 1 != _nth(found):
        yield _doubt(found, f"This is number {row.index(passage.spot.line) + 1} of {len(row)}.")


def _nouns(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of what a title or the parts count."""
    text = passage.text
    for found in _NOUN.finditer(text):
        noun, number = found["noun"].lower(), _count(found)
        singular = noun.removesuffix("s")
        counted = {book.titles[noun]} if noun in book.titles and noun != "moves" else set()
        if len(book.parts.get(singular, ())) > 2:
            whole = max(nth for _, nth in book.parts[singular])
            counted |= {whole, whole + (singular in book.last)}
        if counted and number not in counted and number > 1:
            yield _doubt(found, f"By the titles there are {max(counted)}.")
    if "moves" in book.titles:
        for found in _THE_MOVES.finditer(text):
            sure = _count(found) > 2 or re.match(r"takes \w+ moves\b", text[found.start() :])
            if sure and _count(found) != book.titles["moves"] and passage.role == "told":
                yield _doubt(found, f"The title says {book.titles['moves']}.")
    for found in _PLAYED.finditer(text):
        moves, turn = passage.before.moves, boards.of(passage.before).turn
        first = boards.of(Place(passage.before.root)).turn
        own = (len(moves) + (turn == first)) // 2
        if own and _count(found) != own:
            yield _doubt(found, f"{own} are played here.")


def _script(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of moves or men that the next lines of the script take back, tell again or lift."""
    text, line = passage.text, passage.spot.line
    near = [number for at, number in book.retold.items() if line < at <= line + 5]
    for found in _LAST_MOVES.finditer(text):
        if near and _count(found) not in (near[0], (near[0] + 1) // 2):
            yield _doubt(found, f"{(near[0] + 1) // 2} are told again.")
    back = book.below(line, r"board: back (\d+) (?:half-)?moves?")
    if back:
        for found in _STEPS.finditer(text):
            if _count(found) != int(back[1]):
                yield _doubt(found, f"{back[1]} are taken back.")
    above = book.lines[line - 2] if 1 < line <= len(book.lines) else ""
    lifted = re.findall(rf"\bremove ({SQUARE})", above) if above.lstrip().startswith("imagine:") else []
    if lifted and passage.role == "told":
        for found in _TAKEN_OFF.finditer(text):
            if _count(found) != len(lifted):
                yield _doubt(found, f"{len(lifted)} are taken off.")
        for found in _OF_SIDE.finditer(text):
            white, kind = found["who"] == "White", KINDS[found["kind"].lower()]
            for place in passage.near:
                men = [boards.of(place).piece_at(chess.parse_square(name)) for name in lifted]
                if all(men):
                    number = sum(man == chess.Piece(kind, white) for man in men)
                    if number != _count(found):
                        yield _doubt(found, f"{number} of them are taken off.")
                    break
    for found in _FOLLOW.finditer(text):
        if passage.turns and _count(found) not in _told_in_a_row(passage):
            yield _doubt(found, f"{max(_told_in_a_row(passage))} are told here.")
    for found in _MATE_IN.finditer(text):
        said = {
            one[1]
            for near_by in book.lines[line - 1 : line + 6]
            if (one := re.search(r"claim:.*\bmate in (\d)", near_by))
        }
        if said and str(_count(found)) not in said and passage.role == "told":
            yield _doubt(found, f"The claim beside it says {', '.join(sorted(said))}.")


def _told_in_a_row(passage: Passage) -> set[int]:
    return {len(passage.turns), *range(max(1, len(passage.turns) - 1), len(passage.turns) + 1)}


def _guards(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of guards and attackers of the square that is meant."""
    text, asked = passage.text, passage.question
    if passage.role in ("back", "title"):
        return
    here = [boards.of(place) for place in _here(passage, 0)]
    for found in _GUARDS.finditer(text):
        if (supposed(text, *found.span()) and not passage.replied) or denied(text, found.start("number")):
            continue
        first, last = sentence(text.replace(":", ","), *found.span())
        names = re.findall(rf"\b{SQUARE}\b", text[first:last])
        if not names and asked is not None:
            names = re.findall(rf"\b{SQUARE}\b", asked.text.shown)
        if len(set(names)) != 1:
            continue
        square, what = chess.parse_square(names[0]), found["what"].lower()
        our = (found["our"] or "").strip().lower()
        colors: Sequence[chess.Color] = chess.COLORS
        if our in ("our side", "we"):
            colors = (book.side != "black",)
        at = [boards.of(place) for place in _here(passage, found.start())]
        counts = {len(board.attackers(color, square)) for board in at for color in colors}
        if _count(found) not in counts:
            yield _doubt(found, f"{names[0]} has not so many {what.removesuffix('s')}s here.")
    for found in _PAIR.finditer(text):
        squares = {chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", text)}
        for place in (*passage.replied, passage.before):
            if place.moves:
                squares.add(chess.Move.from_uci(place.moves[-1]).to_square)
        wanted = (_count(found), _count(found, "other"))
        if not supposed(text, *found.span()) and not any(
            _pair(board, square, color) == wanted
            for board in here
            for square in squares
            for color in chess.COLORS
        ):
            yield _doubt(found, "On no square meant here do they stand so many against so many.")
    for found in _AGAINST.finditer(text):
        near = {
            name
            for at in range(passage.spot.line - 5, passage.spot.line + 7)
            for name in book.claims.get(at, ())
        }
        wanted = (_count(found), _count(found, "other"))
        if near and not supposed(text, *found.span()) and passage.role in ("told", "question"):
            squares = {chess.parse_square(name) for name in near}
            at = [boards.of(passage.at(found.start()))]
            if not any(
                _pair(board, square, color) in (wanted, wanted[::-1])
                for board in at
                for square in squares
                for color in chess.COLORS
            ):
                yield _doubt(found, "On no square claimed near here do they stand so many against so many.")
    for found in _TIMES.finditer(text):
        if passage.role != "nudge" or passage.answer is None:
            continue
        number = {"once": 1, "twice": 2}.get(found["times"]) or COUNTS[found["times"].split()[0]]
        move, board = chess.Move.from_uci(passage.answer.uci), boards.of(passage.before)
        ends = (move.from_square, move.to_square)
        if not any(len(board.attackers(board.turn, square)) == number for square in ends) and not re.search(
            SQUARE, text
        ):
            yield _doubt(found, f"Neither end of {passage.answer.san} is guarded so often.")
    for found in _OURS.finditer(text):
        first, last = sentence(text, *found.span())
        names = re.findall(rf"\b{SQUARE}\b", text[found.start() if found["square"] else first : last])
        if not names or passage.role != "told" or supposed(text, *found.span()):
            continue
        own = (book.side != "black") == (found["whose"].lower() == "ours")
        number = len(boards.of(passage.at(found.start())).attackers(own, chess.parse_square(names[0])))
        if re.search(r"\blooks?\b", text[first:last]) and _count(found) != number:
            yield _doubt(found, f"{number} of them look at {names[0]} here.")
    for found in _MEN_BEHIND.finditer(text):
        first, _ = sentence(text, *found.span())
        pushed = re.findall(rf"\bpush,? (?:\w+ )?(?:to )?({SQUARE})\b", text[first : found.start()])
        places = [passage.at(found.start())]
        if pushed and not passage.turns:
            moves = passage.before.moves
            places = [
                Place(passage.before.root, moves[: ply + 1])
                for ply in range(len(moves))
                if moves[ply][2:4] == pushed[-1]
            ]
        for place in places[:1]:
            if place.moves:
                square, board = chess.parse_square(place.moves[-1][2:4]), boards.of(place)
                number = len(board.attackers(not board.turn, square))
                if number != _count(found):
                    yield _doubt(found, f"{number} stand behind it.")


def _pair(board: chess.Board, square: int, color: chess.Color) -> tuple[int, int]:
    return len(board.attackers(color, square)), len(board.attackers(not color, square))


def _here(passage: Passage, offset: int) -> list[Place]:
    """The places that a number of guards is counted at."""
    if passage.role == "told":
        return [passage.at(offset), passage.at(len(passage.text))]
    answered = [passage.answer.after] if passage.answer else []
    return [passage.before, *passage.replied, *answered, *(turn.after for _, turn in passage.turns)]


def _men(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of men: on the board, short, in return, behind the king, between the queens."""
    text = passage.text
    board = boards.of(passage.before)
    for found in _ON_BOARD.finditer(text):
        number = chess.popcount(board.occupied_co[found["color"].lower() == "white"])
        if number != _count(found):
            yield _doubt(found, f"There are {number}.")
    for found in _YOUR_SIDE.finditer(text):
        number = chess.popcount(board.occupied_co[board.turn])
        if number != _count(found):
            yield _doubt(found, f"There are {number}.")
    for found in _MATERIAL.finditer(text):
        own = [boards.of(place) for place in (passage.at(found.start()), passage.at(len(text)))]
        gaps = {abs(len(one.pieces(chess.PAWN, True)) - len(one.pieces(chess.PAWN, False))) for one in own}
        if _count(found) not in gaps:
            yield _doubt(found, "The pawns do not add up to that here.")
    for found in _FEW.finditer(text):
        kind = KINDS[(found["kind"] or found["kind2"]).lower()]
        men = len(board.pieces(kind, True)) + len(board.pieces(kind, False))
        right = found["kings"].lower() == "two" and (1 if found["kind"] else _count(found)) == men
        if chess.popcount(board.occupied) <= 5 and not right:
            yield _doubt(found, "Other men stand on the board here.")
    for found in _SHORT.finditer(text):
        white, kind = found["who"] == "White", KINDS[found["kind"].lower()]
        if not any(_gap(boards.of(place), white, kind) == -1 for place in _past(passage)):
            yield _doubt(found, f"{found['who']} was never a {found['kind']} short here.")
            continue
        for pawns in _RETURN.finditer(text, found.end()):
            short = [
                boards.of(place) for place in _past(passage) if _gap(boards.of(place), white, kind) == -1
            ]
            if not any(_gap(one, white, chess.PAWN) == _count(pawns) for one in short):
                yield _doubt(pawns, "The pawns never added up to that.")
    for found in _BEHIND.finditer(text):
        last = passage.last(found.start())
        if last is None:
            continue
        after = boards.of(last)
        wanted = {
            KINDS[one[2].lower()]: COUNTS.get(one[1].lower(), 1)
            for one in re.finditer(rf"\b(\w+) ({KIND})s?\b", found["list"])
        }
        if not any(
            _shield(after, color, kind) == number
            for color in (not after.turn,)
            for kind, number in wanted.items()
        ) or any(_shield(after, not after.turn, kind) != number for kind, number in wanted.items()):
            yield Doubt(
                found.start("list"), found.end("list"), "prose-count", "Other men stand before the king."
            )
    for found in _FILE_FACING.finditer(text):
        queens = [
            boards.of(place).pieces(chess.QUEEN, color)
            for place in passage.places()
            for color in chess.COLORS
        ]
        if not any("abcdefgh"[chess.square_file(man)] == found["file"] for men in queens for man in men):
            yield _doubt(found, "No queen stands on that file.")
    for found in _BETWEEN_THEM.finditer(text):
        yield from _between_queens(passage, boards, found)
    for found in _LISTS.finditer(text):
        kind, number = KINDS[found["kind"].lower()], _count(found)
        others = {
            KINDS[one[2].lower()]: COUNTS.get(one[1].lower(), 1)
            for one in re.finditer(rf"\b(\w+) ({KIND})s?\b", found["list"], re.IGNORECASE)
        }
        said = {one: -others.get(one, 0) + number * (one == kind) for one in {kind, *others}}
        if not any(
            all(sign * _gap(one, True, other) == gap for other, gap in said.items())
            for one in (boards.of(place) for place in passage.places())
            for sign in (1, -1)
        ):
            yield _doubt(found, "The men on the board are otherwise.")


def _gap(board: chess.Board, white: bool, kind: int) -> int:
    return len(board.pieces(kind, white)) - len(board.pieces(kind, not white))


def _past(passage: Passage) -> list[Place]:
    moves = passage.before.moves
    return [Place(passage.before.root, moves[:ply]) for ply in range(len(moves), -1, -1)]


def _shield(board: chess.Board, color: chess.Color, kind: int) -> int:
    king = board.king(color)
    if king is None:
        return 0
    file, row, step = chess.square_file(king), chess.square_rank(king), 1 if color else -1
    return sum(
        board.piece_at(chess.square(one, row + step * far)) == chess.Piece(kind, color)
        for one in range(max(0, file - 1), min(7, file + 1) + 1)
        for far in (1, 2)
        if 0 <= row + step * far < 8
    )


def _between_queens(passage: Passage, boards: Boards, found: re.Match[str]) -> Iterator[Doubt]:
    kind = KINDS[found["kind"].lower()]
    for place in (passage.at(found.start()),):
        board = boards.of(place)
        pairs = [(a, b) for a in board.pieces(chess.QUEEN, True) for b in board.pieces(chess.QUEEN, False)]
        men = [
            [
                board.piece_type_at(one)
                for one in chess.SquareSet(chess.between(a, b))
                if board.piece_type_at(one)
            ]
            for a, b in pairs
        ]
        if not any(row == [kind] * _count(found) for row in men):
            yield _doubt(found, "Other men stand between them.")


def _steps(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of steps: a pawn's, to the last rank, between kings, from one square to another."""
    text = passage.text
    for found in _PUSHED.finditer(text):
        if _count(found) > 2:
            yield _doubt(found, "No pawn goes so far in one move.")
        elif passage.role == "nudge" and passage.answer is not None:
            move = chess.Move.from_uci(passage.answer.uci)
            if chess.square_distance(move.from_square, move.to_square) != _count(found) and not supposed(
                text, *found.span()
            ):
                yield _doubt(found, f"{passage.answer.san} goes otherwise.")
    for found in _SIDES.finditer(text):
        last = passage.last(found.start())
        if last is not None and chess.popcount(boards.of(last).checkers_mask()) != _count(found):
            yield _doubt(found, "The king is not in check from so many sides.")
    for found in _TO_GO.finditer(text):
        if passage.answer is not None and passage.role == "question":
            move, before = chess.Move.from_uci(passage.answer.uci), boards.of(passage.before)
            if before.piece_type_at(move.from_square) == chess.PAWN and _left(
                before, move.from_square
            ) != _count(found):
                yield _doubt(found, "The pawn that moves has another way to go.")
    for found in _QUEEN_IN.finditer(text):
        board = boards.of(passage.before)
        ways = {_left(board, man) for color in chess.COLORS for man in board.pieces(chess.PAWN, color)}
        if len(ways) == 1 and _count(found) not in ways:
            yield _doubt(found, f"The pawn needs {ways.pop()}.")
    for found in _MORE.finditer(text):
        boards_here = [boards.of(place) for place in tight_places(passage, found.start())]
        ways = {
            _left(board, man)
            for board in boards_here
            for color in chess.COLORS
            for man in board.pieces(chess.PAWN, color)
        }
        last = passage.last(found.start())
        if passage.role == "told" and last is not None and last.moves:
            square = chess.parse_square(last.moves[-1][2:4])
            if boards.of(last).piece_type_at(square) == chess.PAWN:
                ways = {_left(boards.of(last), square)}
        if ways and _count(found) not in ways:
            yield _doubt(found, "No pawn meant here has so far to go.")
    for found in _BETWEEN.finditer(text):
        if (
            passage.answer is not None
            and passage.role in ("otherwise", "nudge")
            and passage.question
            and passage.question.kind == "move"
        ):
            after = boards.of(passage.answer.after)
            white, black = after.king(True), after.king(False)
            if (
                white is not None
                and black is not None
                and chess.square_distance(white, black) - 1 != _count(found)
            ):
                yield _doubt(found, f"After {passage.answer.san} the kings stand otherwise.")
    for found in _LEAD.finditer(text):
        start, end = chess.parse_square(found["a"]), chess.parse_square(found["b"])
        board = boards.of(passage.before)
        piece = board.piece_at(start)
        if piece is None:
            yield _doubt(found, f"Nobody stands on {found['a']} here.")
            continue
        lone = chess.Board(None)
        leading = 0
        for step in board.attacks(start):
            if board.color_at(step) != piece.color:
                lone.set_piece_at(step, piece)
                leading += end in lone.attacks(step)
                lone.remove_piece_at(step)
        if leading != _count(found):
            yield _doubt(found, f"{leading} lead there.")


def _left(board: chess.Board, pawn: int) -> int:
    return 7 - chess.square_rank(pawn) if board.color_at(pawn) else chess.square_rank(pawn)


def _moves(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of moves of the game: what moved on move ten, "sixteen, a5", and lists of the men moved."""
    text, moves = passage.text, passage.before.moves
    root = boards.of(Place(passage.before.root))
    if root.fullmove_number != 1 or len(moves) < 4:
        return
    first = 0 if root.turn else 1
    for found in _LET_OUT.finditer(text):
        number = number_of(found["word"])
        kind = KINDS.get(found["kind"].lower())
        plies = [ply for ply in range(len(moves)) if number is not None and (ply + first) // 2 + 1 == number]
        if not plies or (kind is None and passage.answer is None):
            continue
        if kind is None and passage.answer is not None:
            square = chess.Move.from_uci(passage.answer.uci).from_square
            freed = any(_freed(boards, passage.before, ply, square) for ply in plies)
            if not freed:
                yield _doubt(found, f"No man that {passage.answer.san} moves was let out on that move.")
        elif kind is not None and not any(
            boards.of(Place(passage.before.root, moves[: ply + 1])).piece_type_at(
                chess.parse_square(moves[ply][2:4])
            )
            == kind
            for ply in plies
        ):
            yield _doubt(found, f"No {found['kind']} moved on that move.")
    for found in _SAN_NUMBER.finditer(text):
        number = number_of(found["word"])
        plies = [ply for ply in range(len(moves)) if number is not None and (ply + first) // 2 + 1 == number]
        told = any(found.start("san") <= at + 1 <= found.end() for at, _ in passage.turns)
        if (
            number != 1
            and plies
            and not told
            and not any(moves[ply][2:4] == found["san"][-2:] for ply in plies)
        ):
            yield _doubt(found, f"That is not what was played on move {found['word']}.")
    for found in _KIND_LIST.finditer(text):
        said = [KINDS[one.lower()] for one in re.findall(KIND, found[0], re.IGNORECASE)]
        rows: Mapping[bool, list[int]] = {True: [], False: []}
        for ply, uci in enumerate(moves):
            board = boards.of(Place(passage.before.root, moves[:ply]))
            rows[board.turn].append(board.piece_type_at(chess.parse_square(uci[:2])) or 0)
        starts = (row[at : at + len(said)] == said for row in rows.values() for at in range(len(row)))
        if len(said) > 2 and not any(starts) and passage.role in ("told", "nudge") and not passage.turns:
            yield _doubt(found, "The men were moved in another order.")


def _freed(boards: Boards, place: Place, ply: int, square: int) -> bool:
    """Whether a man can go to more squares after a move than before it."""
    before = boards.of(Place(place.root, place.moves[:ply]))
    after = boards.of(Place(place.root, place.moves[: ply + 1]))
    return len(after.attacks(square)) > len(before.attacks(square)) if before.piece_at(square) else False
