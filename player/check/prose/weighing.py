"""Prose against the scales: how many guard and attack, and how many men stand, are short, or lie between."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import chess

from player.check.prose.book import Book, N, count_doubt, counted
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import COUNTS, KIND, KINDS, SQUARE, denied, sentence, supposed
from player.facts.place import Place

_GUARDS = re.compile(
    rf"\b(?P<our>our side |[Ww]e |his side )?(?:(?:has|have|with) )?{N}"
    rf" (?P<what>guards?|attackers?|defenders?)\b(?! (?:against|but))",
    re.IGNORECASE,
)
_TIMES = re.compile(r"\b(?:guarded|defended|covered) (?P<times>once|twice|(?:three|four|five) times)\b")
_SHORT = re.compile(rf"\b(?P<who>White|Black) (?:is|was) an? (?P<kind>{KIND}) short\b")
_RETURN = re.compile(rf"\b{N} pawns? in return\b", re.IGNORECASE)
_ON_BOARD = re.compile(rf"\b{N} (?P<color>white|black) m[ae]n (?:left )?on the board\b", re.IGNORECASE)
_YOUR_SIDE = re.compile(rf"\b{N} m[ae]n on your side\b", re.IGNORECASE)
_FEW = re.compile(
    rf"\b(?P<kings>[Oo]ne|[Tt]wo|[Tt]hree) kings? and (?:an? (?P<kind>{KIND})|{N} (?P<kind2>{KIND})s)\b"
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
_GUARD_ON = re.compile(rf"\b{KIND} on $")
_MEN_BEHIND = re.compile(rf"\b{N} men (?:stand ready )?behind it\b", re.IGNORECASE)
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


def guard_doubts(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of guards and attackers of the square that is meant."""
    text, asked = passage.text, passage.question
    if passage.role in ("back", "title"):
        return
    for found in _GUARDS.finditer(text):
        if (supposed(text, *found.span()) and not passage.replied) or denied(text, found.start("number")):
            continue
        first, last = sentence(text.replace(":", ","), *found.span())
        names = [
            one[0]
            for one in re.finditer(rf"\b{SQUARE}\b", text[first:last])
            if not any(at <= first + one.start() < at + len(turn.san) for at, turn in passage.turns)
            and not (
                first + one.start() > found.end() and _GUARD_ON.search(text[first : first + one.start()])
            )
        ]
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
        if counted(found) not in counts:
            yield count_doubt(found, f"{names[0]} has not so many {what.removesuffix('s')}s here.")
    for found in _AGAINST.finditer(text):
        near = {
            name
            for at in range(passage.spot.line - 5, passage.spot.line + 7)
            for name in book.claims.get(at, ())
        }
        wanted = (counted(found), counted(found, "other"))
        if near and not supposed(text, *found.span()) and passage.role in ("told", "question"):
            squares = {chess.parse_square(name) for name in near}
            at = [boards.of(passage.at(found.start()))]
            if not any(
                _pair(board, square, color) in (wanted, wanted[::-1])
                for board in at
                for square in squares
                for color in chess.COLORS
            ):
                yield count_doubt(
                    found, "On no square claimed near here do they stand so many against so many."
                )
    for found in _TIMES.finditer(text):
        if passage.role != "nudge" or passage.answer is None:
            continue
        number = {"once": 1, "twice": 2}.get(found["times"]) or COUNTS[found["times"].split()[0]]
        move, board = chess.Move.from_uci(passage.answer.uci), boards.of(passage.before)
        ends = (move.from_square, move.to_square)
        if not any(len(board.attackers(board.turn, square)) == number for square in ends) and not re.search(
            SQUARE, text
        ):
            yield count_doubt(found, f"Neither end of {passage.answer.san} is guarded so often.")
    for found in _OURS.finditer(text):
        first, last = sentence(text, *found.span())
        names = re.findall(rf"\b{SQUARE}\b", text[found.start() if found["square"] else first : last])
        if not names or passage.role != "told" or supposed(text, *found.span()):
            continue
        own = (book.side != "black") == (found["whose"].lower() == "ours")
        number = len(boards.of(passage.at(found.start())).attackers(own, chess.parse_square(names[0])))
        if re.search(r"\blooks?\b", text[first:last]) and counted(found) != number:
            yield count_doubt(found, f"{number} of them look at {names[0]} here.")
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
                if number != counted(found):
                    yield count_doubt(found, f"{number} stand behind it.")


def _pair(board: chess.Board, square: int, color: chess.Color) -> tuple[int, int]:
    return len(board.attackers(color, square)), len(board.attackers(not color, square))


def _here(passage: Passage, offset: int) -> list[Place]:
    """The places that a number of guards is counted at."""
    if passage.role == "told":
        return [passage.at(offset), passage.at(len(passage.text))]
    answered = [passage.answer.after] if passage.answer else []
    return [passage.before, *passage.replied, *answered, *(turn.after for _, turn in passage.turns)]


def men_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Numbers of men: on the board, short, in return, behind the king, between the queens."""
    text = passage.text
    board = boards.of(passage.before)
    for found in _ON_BOARD.finditer(text):
        number = chess.popcount(board.occupied_co[found["color"].lower() == "white"])
        if number != counted(found):
            yield count_doubt(found, f"There are {number}.")
    for found in _YOUR_SIDE.finditer(text):
        number = chess.popcount(board.occupied_co[board.turn])
        if number != counted(found):
            yield count_doubt(found, f"There are {number}.")
    for found in _FEW.finditer(text):
        kind = KINDS[(found["kind"] or found["kind2"]).lower()]
        men = len(board.pieces(kind, True)) + len(board.pieces(kind, False))
        right = found["kings"].lower() == "two" and (1 if found["kind"] else counted(found)) == men
        if chess.popcount(board.occupied) <= 5 and not right:
            yield count_doubt(found, "Other men stand on the board here.")
    for found in _SHORT.finditer(text):
        white, kind = found["who"] == "White", KINDS[found["kind"].lower()]
        if not any(_gap(boards.of(place), white, kind) == -1 for place in _past(passage)):
            yield count_doubt(found, f"{found['who']} was never a {found['kind']} short here.")
            continue
        for pawns in _RETURN.finditer(text, found.end()):
            short = [
                boards.of(place) for place in _past(passage) if _gap(boards.of(place), white, kind) == -1
            ]
            if not any(_gap(one, white, chess.PAWN) == counted(pawns) for one in short):
                yield count_doubt(pawns, "The pawns never added up to that.")
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
    for found in _BETWEEN_THEM.finditer(text):
        yield from _between_queens(passage, boards, found)
    for found in _LISTS.finditer(text):
        kind, number = KINDS[found["kind"].lower()], counted(found)
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
            yield count_doubt(found, "The men on the board are otherwise.")


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
        if not any(row == [kind] * counted(found) for row in men):
            yield count_doubt(found, "Other men stand between them.")
