"""The words round a question against its answer: nudges from rung to rung, and the reason."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.roles import movers
from player.check.prose.words import COUNTS, KIND, KINDS, SQUARE
from player.script.told import Turn

_MOVE = re.compile(
    rf"^(?P<kind>{KIND})(?: from (?P<origin>{SQUARE}))? (?:back )?(?P<how>to|takes|on|from|captures) "
    rf"(?:on )?(?P<square>{SQUARE})(?P<check>,? with check)?(?=\W)",
    re.IGNORECASE,
)
_GOES = re.compile(
    rf"\b(?P<kind>{KIND}) (?:goes|comes|steps|jumps|moves) to (?P<square>{SQUARE})\b", re.IGNORECASE
)
_CASTLES = re.compile(r"^(?:White|Black)?\s*castles?\b", re.IGNORECASE)
_SQUARE = re.compile(rf"\b{SQUARE}\b")
_FILE = re.compile(r"\b(?P<file>[a-h])-file\b")
_MEN = re.compile(rf"\b(?P<kind>{KIND})s?\b(?!'s (?:side|pawn|wing))", re.IGNORECASE)
_ANY_MAN = re.compile(
    rf"(?:An?|It is an?|One of the|The man to move is the|It is the) (?:\w+ )?{KIND}s?\b(?! on )"
)
_FIRST = re.compile(
    rf"^(?:The|An?|Your|Our|It is (?:the|an?)) (?P<kind>{KIND})(?:(?=[,.;!])| (?:itself )?(?:does|can do"
    r"|knocks|goes|comes|moves|steps|jumps|takes|walks|runs|leaves|returns|drops|retreats)\b)"
)
_COUNT = re.compile(r"^(?:It is |There are |Yes[:,] |Just |Only )?(?P<number>[A-Za-z]+|\d{1,2})\b")


def nudging_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about nudges and reasons that lead away from the answer."""
    question = passage.question
    if question is None:
        return
    if passage.role == "because":
        yield from _reason(passage)
    if passage.answer is not None and passage.role in ("because", "nudge"):
        move, board = chess.Move.from_uci(passage.answer.uci), boards.of(passage.answer.before)
        for found in _GOES.finditer(passage.text):
            goes = chess.parse_square(found["square"].lower()) == move.to_square
            if goes and KINDS[found["kind"].lower()] not in (
                board.piece_type_at(move.from_square),
                move.promotion,
            ):
                message = f"The answer is {passage.answer.san}, not a move of the {found['kind'].lower()}."
                yield Doubt(found.start("kind"), found.end("kind"), "prose-answer", message)
    if passage.role == "nudge" and question.kind == "square":
        answers = [chess.parse_square(name) for name in question.answers if _SQUARE.fullmatch(name)]
        for found in _SQUARE.finditer(passage.text):
            far = min(
                (chess.square_distance(chess.parse_square(found[0]), one) for one in answers), default=0
            )
            if far > 3:
                yield Doubt(found.start(), found.end(), "prose-nudge", f"{found[0]} is far from the answer.")
    if passage.role == "nudge" and question.kind == "square":
        yield from _between(passage, question.answers)
    if passage.role == "nudge":
        yield from _and_then(passage, boards)
    if passage.role != "nudge" or passage.answer is None:
        return
    if question.kind == "move":
        yield from _first_man(passage, boards, passage.answer)
    board = boards.of(passage.answer.before)
    move = chess.Move.from_uci(passage.answer.uci)
    if passage.rungs > 1 and passage.rung == passage.rungs:
        yield from _told_move(passage, board, move)
    elif passage.rung >= 2:
        yield from _area(passage, board, boards.of(passage.answer.after), move)
        if passage.rung == 2 and passage.rungs > 2:
            yield from _men(passage, board, boards.of(passage.answer.after), move)


def _first_man(passage: Passage, boards: Boards, answer: Turn) -> Iterator[Doubt]:
    """ "The bishop, not the knight": the man that a nudge names first, and by itself, is one that answers."""
    found = _FIRST.match(passage.text)
    kinds = movers(boards, answer.after)
    if found and KINDS[found["kind"].lower()] not in kinds:
        message = f"The answer, {answer.san}, is not a move of the {found['kind'].lower()}."
        yield Doubt(found.start("kind"), found.end("kind"), "prose-nudge", message)


def _between(passage: Passage, answers: Sequence[str]) -> Iterator[Doubt]:
    """ "Look between c5 and e5": the answer's file or rank lies between."""
    for found in re.finditer(rf"\bbetween ({SQUARE}) and ({SQUARE})\b", passage.text):
        one, two = chess.parse_square(found[1]), chess.parse_square(found[2])
        for name in answers:
            if _SQUARE.fullmatch(name):
                answer = chess.parse_square(name)
                files = sorted(map(chess.square_file, (one, two)))
                ranks = sorted(map(chess.square_rank, (one, two)))
                if not (
                    files[0] < chess.square_file(answer) < files[1]
                    or ranks[0] < chess.square_rank(answer) < ranks[1]
                ):
                    yield Doubt(found.start(1), found.end(), "prose-nudge", "The answer does not lie there.")


def _and_then(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "On to e3, which looks at d5": the man that answers would look from the one at the other."""
    if passage.answer is None:
        return
    move = chess.Move.from_uci(passage.answer.uci)
    piece = boards.of(passage.answer.after).piece_at(move.to_square)
    pattern = (
        rf"\b({SQUARE}), (?:which|where it|and from there) (?:looks at|hits|guards|eyes|attacks) ({SQUARE})\b"
    )
    for found in re.finditer(pattern, passage.text):
        empty = chess.Board(None)
        empty.set_piece_at(chess.parse_square(found[1]), piece)
        if piece and chess.parse_square(found[2]) not in empty.attacks(chess.parse_square(found[1])):
            yield Doubt(
                found.start(2), found.end(2), "prose-hit", f"Nobody looks at {found[2]} from {found[1]} so."
            )


def _told_move(passage: Passage, board: chess.Board, move: chess.Move) -> Iterator[Doubt]:
    """The last nudge tells the move: it must be the one that answers."""
    san = passage.answer.san if passage.answer else ""
    found = _MOVE.match(passage.text)
    if found is None:
        if _CASTLES.match(passage.text) and not board.is_castling(move):
            yield Doubt(0, 7, "prose-answer", f"The answer is {san}, not castling.")
        side = re.match(r"White|Black", passage.text)
        if side and (side[0] == "White") != board.turn:
            yield Doubt(0, 5, "prose-side", f"{san} is a move of {'White' if board.turn else 'Black'}.")
        return
    kind = KINDS[found["kind"].lower()]
    kinds = {board.piece_type_at(move.from_square), move.promotion}
    if kind not in kinds:
        yield Doubt(
            found.start("kind"),
            found.end("kind"),
            "prose-answer",
            f"The answer is {san}, not a move of the {found['kind'].lower()}.",
        )
    squares = {move.from_square} if found["how"].lower() == "from" else {move.to_square}
    if chess.parse_square(found["square"].lower()) not in squares:
        yield Doubt(
            found.start("square"),
            found.end("square"),
            "prose-answer",
            f"The answer is {san}, which does not go to {found['square']}.",
        )
    if found["origin"] and chess.parse_square(found["origin"].lower()) != move.from_square:
        yield Doubt(
            found.start("origin"),
            found.end("origin"),
            "prose-answer",
            f"The answer is {san}, which does not begin on {found['origin']}.",
        )
    if found["how"].lower() in ("takes", "captures") and not board.is_capture(move):
        yield Doubt(found.start("how"), found.end("how"), "prose-capture", f"{san} takes nothing.")
    if found["check"] and not board.gives_check(move):
        yield Doubt(found.start("check"), found.end("check"), "prose-check", f"{san} does not give check.")


def _round(passage: Passage) -> set[str]:
    """The squares named in the other words round the same question."""
    asked = passage.question
    if asked is None:
        return set()
    texts = [asked.text, asked.because, asked.otherwise, *(one.text for one in (*asked.replies, *asked.also))]
    return {name for one in texts if one is not None for name in _SQUARE.findall(one.shown)}


def _area(passage: Passage, board: chess.Board, after: chess.Board, move: chess.Move) -> Iterator[Doubt]:
    """Squares and files that a nudge points to have to do with the answer."""
    squares = {
        move.from_square,
        move.to_square,
        *after.attacks(move.to_square),
        *board.attacks(move.from_square),
    }
    piece = after.piece_at(move.to_square)
    if piece is not None:
        empty = chess.Board(None)
        empty.set_piece_at(move.to_square, piece)
        squares |= set(empty.attacks(move.to_square))
    squares |= set(chess.SquareSet(chess.between(move.from_square, move.to_square)))
    if board.is_castling(move):
        row = chess.square_rank(move.from_square)
        squares |= {
            chess.square(file, row)
            for file in (range(4, 8) if chess.square_file(move.to_square) > 4 else range(5))
        }
    if not board.is_castling(move):
        squares |= set(chess.SquareSet(chess.ray(move.from_square, move.to_square)))
    squares |= {
        square
        for square in chess.SQUARES
        for end in (move.from_square, move.to_square)
        if chess.square_distance(square, end) <= 1
    }
    elsewhere = _round(passage)
    for found in _SQUARE.finditer(passage.text):
        if chess.parse_square(found[0]) not in squares and found[0] not in elsewhere:
            yield Doubt(
                found.start(),
                found.end(),
                "prose-nudge",
                f"{found[0]} has little to do with the answer,"
                f" {passage.answer.san if passage.answer else ''}.",
            )
    files = {chess.square_file(square) for square in (move.from_square, move.to_square)}
    wide = files | {file + step for file in files for step in (-1, 1)}
    for found in _FILE.finditer(passage.text):
        if "abcdefgh".index(found["file"]) not in (
            files
            if passage.text.startswith("Look")
            and "between" not in passage.text
            and "from the" not in passage.text
            else wide
        ):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-nudge",
                f"The answer, {passage.answer.san if passage.answer else ''}, is not on the {found[0]}.",
            )


def _touched(board: chess.Board, after: chess.Board, move: chess.Move) -> set[int | None]:
    """The kinds of men that a move takes, looks at from its new square, or is backed or met by there."""
    squares = set(after.attacks(move.to_square)) | {move.to_square}
    squares |= {one for white in chess.COLORS for one in after.attackers(white, move.to_square)}
    return {one.piece_type_at(square) for one in (board, after) for square in squares}


def _men(passage: Passage, board: chess.Board, after: chess.Board, move: chess.Move) -> Iterator[Doubt]:
    """A nudge that names men names one that the answer moves; "a rook does it best" names no other."""
    moved = {board.piece_type_at(move.from_square), move.promotion}
    if board.is_castling(move):
        moved.add(chess.ROOK)
    named = list(_MEN.finditer(passage.text))
    if not _ANY_MAN.match(passage.text):
        moved |= _touched(board, after, move)
    if named and not any(KINDS[found["kind"].lower()] in moved for found in named):
        first = named[0]
        yield Doubt(
            first.start("kind"),
            first.end("kind"),
            "prose-nudge",
            f"The answer, {passage.answer.san if passage.answer else ''}, moves no {first['kind'].lower()}.",
        )


def _reason(passage: Passage) -> Iterator[Doubt]:
    """The reason of a question for a number, a square or a choice names its answer first."""
    question = passage.question
    if question is None or not question.answers:
        return
    if question.kind == "count":
        found = _COUNT.match(passage.text)
        number = _number(found["number"]) if found else None
        terms = [_number(word) or 0 for word in re.findall(r"\b[a-z]+\b", passage.text.lower())]
        if found and number is not None and not {str(number), str(sum(terms))} & set(question.answers):
            yield Doubt(
                found.start("number"),
                found.end("number"),
                "prose-count",
                f"The answer is {question.answers[0]}.",
            )
    if question.kind == "square":
        squares = list(_SQUARE.finditer(passage.text))
        if squares and not {found[0] for found in squares} & set(question.answers):
            yield Doubt(
                squares[0].start(), squares[0].end(), "prose-answer", f"The answer is {question.answers[0]}."
            )


def _number(word: str) -> int | None:
    if word.isdigit():
        return int(word)
    word = word.lower()
    return None if word in ("a", "an", "both", "once", "twice", "single") else COUNTS.get(word)
