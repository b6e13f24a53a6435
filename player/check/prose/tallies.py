"""Prose against tallies: numbers of moves, parts and steps that can be counted."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import chess

from player.check.prose.book import NOUN, PART, Book, N, count_doubt, counted, nth_of
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.weighing import guard_doubts, men_doubts
from player.check.prose.words import KIND, KINDS, SQUARE, supposed
from player.facts.place import Place
from player.wording.claim_words import number_of

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
_PUSHED = re.compile(
    rf"\b(?:(?P<file>[a-h])-)?pawn (?:can |may |to |now )?(?:go(?:es)? |moves? |steps? |jumps? )?{N}"
    rf" (?:squares|steps)\b(?! (?:from|of|in))",
    re.IGNORECASE,
)
_SIDES = re.compile(rf"\bcheck from {N} sides\b", re.IGNORECASE)
_TO_GO = re.compile(rf"\b{N} (?:more )?(?:squares?|steps?) to go\b", re.IGNORECASE)
_QUEEN_IN = re.compile(rf"\b(?:queen in|needs) {N} (?:more )?moves?\b", re.IGNORECASE)
_BETWEEN = re.compile(rf"\b{N}(?: \w+)? squares? between (?:the kings|them)\b", re.IGNORECASE)
_LEAD = re.compile(rf"\b{N} squares lead from (?P<a>{SQUARE}) to (?P<b>{SQUARE})\b", re.IGNORECASE)
_MORE = re.compile(rf"\b{N} more (?:pawn )?steps\b", re.IGNORECASE)
_MATE_IN = re.compile(rf"\bmate in {N}\b", re.IGNORECASE)
_LET_OUT = re.compile(
    rf"\b(?P<kind>{KIND}|man) (?:that|who|which) (?P<verb>was let out|\w+(?: back| out)?) on move"
    rf" (?P<word>[a-z-]+|\d+)\b",
    re.IGNORECASE,
)
_SAN_NUMBER = re.compile(
    r"\b(?P<word>[a-z]+(?:-[a-z]+)?|\d{1,3}), (?P<san>[a-h][1-8]|[KQRBN][a-h]?x?[a-h][1-8])\b"
    r"(?!,? (?:and )?[a-h][1-8])"
)
_KIND_LIST = re.compile(rf"\b(?:{KIND}, ){{2,}}(?:and (?:then )?)?(?:{KIND}\b)?", re.IGNORECASE)


def tally_doubts(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Doubts about numbers that can be counted."""
    if passage.role == "part":
        yield from _part(passage, book)
        return
    if passage.role == "idea":
        return
    yield from _nouns(passage, boards, book)
    yield from _script(passage, boards, book)
    yield from guard_doubts(passage, boards, book)
    yield from men_doubts(passage, boards)
    yield from _steps(passage, boards, book)
    yield from _moves(passage, boards, book)


def _part(passage: Passage, book: Book) -> Iterator[Doubt]:
    """ "The second door" is the second of its kind, "Card four" the fourth."""
    found = PART.match(passage.text)
    if found is None:
        return
    name = (found["noun"] or found["noun2"]).lower()
    row = [line for line, _ in book.parts.get(name, ())]
    if len(row) > 1 and passage.spot.line in row and row.index(passage.spot.line) + 1 != nth_of(found):
        yield count_doubt(found, f"This is number {row.index(passage.spot.line) + 1} of {len(row)}.")


def _nouns(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of what a title or the parts count."""
    text = passage.text
    for found in NOUN.finditer(text):
        noun, number = found["noun"].lower(), counted(found)
        singular = noun.removesuffix("s")
        numbers = {book.titles[noun]} if noun in book.titles and noun != "moves" else set()
        if len(book.parts.get(singular, ())) > 2:
            whole = max(nth for _, nth in book.parts[singular])
            numbers |= {whole, whole + (singular in book.last)}
        if numbers and number not in numbers and number > 1:
            yield count_doubt(found, f"By the titles there are {max(numbers)}.")
    if "moves" in book.titles:
        for found in _THE_MOVES.finditer(text):
            sure = counted(found) > 2 or re.match(r"takes \w+ moves\b", text[found.start() :])
            if sure and counted(found) != book.titles["moves"] and passage.role == "told":
                yield count_doubt(found, f"The title says {book.titles['moves']}.")
    for found in _PLAYED.finditer(text):
        moves, turn = passage.before.moves, boards.of(passage.before).turn
        first = boards.of(Place(passage.before.root)).turn
        own = (len(moves) + (turn == first)) // 2
        if own and counted(found) != own:
            yield count_doubt(found, f"{own} are played here.")


def _script(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of moves or men that the next lines of the script take back, tell again or lift."""
    text, line = passage.text, passage.spot.line
    near = [number for at, number in book.retold.items() if line < at <= line + 5]
    for found in _LAST_MOVES.finditer(text):
        if near and counted(found) not in (near[0], (near[0] + 1) // 2):
            yield count_doubt(found, f"{(near[0] + 1) // 2} are told again.")
    back = book.below(line, r"board: back (\d+) (?:half-)?moves?")
    if back:
        for found in _STEPS.finditer(text):
            if counted(found) != int(back[1]):
                yield count_doubt(found, f"{back[1]} are taken back.")
    above = book.lines[line - 2] if 1 < line <= len(book.lines) else ""
    lifted = re.findall(rf"\bremove ({SQUARE})", above) if above.lstrip().startswith("imagine:") else []
    if lifted and passage.role == "told":
        for found in _TAKEN_OFF.finditer(text):
            if counted(found) != len(lifted):
                yield count_doubt(found, f"{len(lifted)} are taken off.")
        for found in _OF_SIDE.finditer(text):
            white, kind = found["who"] == "White", KINDS[found["kind"].lower()]
            for place in passage.near:
                men = [boards.of(place).piece_at(chess.parse_square(name)) for name in lifted]
                if all(men):
                    number = sum(man == chess.Piece(kind, white) for man in men)
                    if number != counted(found):
                        yield count_doubt(found, f"{number} of them are taken off.")
                    break
    for found in _FOLLOW.finditer(text):
        if passage.turns and counted(found) not in _told_in_a_row(passage):
            yield count_doubt(found, f"{max(_told_in_a_row(passage))} are told here.")
    for found in _MATE_IN.finditer(text):
        said = {
            one[1]
            for near_by in book.lines[line - 1 : line + 6]
            if (one := re.search(r"claim:.*\bmate in (\d)", near_by))
        }
        if said and str(counted(found)) not in said and passage.role == "told":
            yield count_doubt(found, f"The claim beside it says {', '.join(sorted(said))}.")


def _told_in_a_row(passage: Passage) -> set[int]:
    return {len(passage.turns), *range(max(1, len(passage.turns) - 1), len(passage.turns) + 1)}


def _steps(passage: Passage, boards: Boards, book: Book) -> Iterator[Doubt]:
    """Numbers of steps: a pawn's, to the last rank, between kings, from one square to another."""
    text = passage.text
    for found in _PUSHED.finditer(text):
        if counted(found) > 2:
            yield count_doubt(found, "No pawn goes so far in one move.")
        elif passage.role == "nudge" and passage.answer is not None:
            move = chess.Move.from_uci(passage.answer.uci)
            if chess.square_distance(move.from_square, move.to_square) != counted(found) and not supposed(
                text, *found.span()
            ):
                yield count_doubt(found, f"{passage.answer.san} goes otherwise.")
    for found in _SIDES.finditer(text):
        last = passage.last(found.start())
        if last is not None and chess.popcount(boards.of(last).checkers_mask()) != counted(found):
            yield count_doubt(found, "The king is not in check from so many sides.")
    for found in _TO_GO.finditer(text):
        if passage.answer is not None and passage.role == "question":
            move, before = chess.Move.from_uci(passage.answer.uci), boards.of(passage.before)
            if before.piece_type_at(move.from_square) == chess.PAWN and _left(
                before, move.from_square
            ) != counted(found):
                yield count_doubt(found, "The pawn that moves has another way to go.")
    for found in _QUEEN_IN.finditer(text):
        board = boards.of(passage.before)
        ways = {_left(board, man) for color in chess.COLORS for man in board.pieces(chess.PAWN, color)}
        if len(ways) == 1 and counted(found) not in ways:
            yield count_doubt(found, f"The pawn needs {ways.pop()}.")
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
        if ways and counted(found) not in ways:
            yield count_doubt(found, "No pawn meant here has so far to go.")
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
                and chess.square_distance(white, black) - 1 != counted(found)
            ):
                yield count_doubt(found, f"After {passage.answer.san} the kings stand otherwise.")
    for found in _LEAD.finditer(text):
        start, end = chess.parse_square(found["a"]), chess.parse_square(found["b"])
        board = boards.of(passage.before)
        piece = board.piece_at(start)
        if piece is None:
            yield count_doubt(found, f"Nobody stands on {found['a']} here.")
            continue
        lone = chess.Board(None)
        leading = 0
        for step in board.attacks(start):
            if board.color_at(step) != piece.color:
                lone.set_piece_at(step, piece)
                leading += end in lone.attacks(step)
                lone.remove_piece_at(step)
        if leading != counted(found):
            yield count_doubt(found, f"{leading} lead there.")


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
                yield count_doubt(found, f"No man that {passage.answer.san} moves was let out on that move.")
        elif kind is not None and not any(
            boards.of(Place(passage.before.root, moves[: ply + 1])).piece_type_at(
                chess.parse_square(moves[ply][2:4])
            )
            == kind
            for ply in plies
        ):
            yield count_doubt(found, f"No {found['kind']} moved on that move.")
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
            yield count_doubt(found, f"That is not what was played on move {found['word']}.")
    for found in _KIND_LIST.finditer(text):
        said = [KINDS[one.lower()] for one in re.findall(KIND, found[0], re.IGNORECASE)]
        rows: Mapping[bool, list[int]] = {True: [], False: []}
        for ply, uci in enumerate(moves):
            board = boards.of(Place(passage.before.root, moves[:ply]))
            rows[board.turn].append(board.piece_type_at(chess.parse_square(uci[:2])) or 0)
        starts = (row[at : at + len(said)] == said for row in rows.values() for at in range(len(row)))
        if len(said) > 2 and not any(starts) and passage.role in ("told", "nudge") and not passage.turns:
            yield count_doubt(found, "The men were moved in another order.")


def _freed(boards: Boards, place: Place, ply: int, square: int) -> bool:
    """Whether a man can go to more squares after a move than before it."""
    before = boards.of(Place(place.root, place.moves[:ply]))
    after = boards.of(Place(place.root, place.moves[: ply + 1]))
    return len(after.attacks(square)) > len(before.attacks(square)) if before.piece_at(square) else False
