"""Prose against the squares it points at: each has to do with what is told, asked or shown right there."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.geometry import view
from player.check.prose.granted import granted, is_named, on_a_trip
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.standing import can_reach, history
from player.check.prose.words import HYPOTHETICAL, KIND, KINDS, SQUARE, clause, sentence
from player.facts.place import Place
from player.wording.claim_words import number_of

_SQUARE = re.compile(rf"(?<![\w{{=-]){SQUARE}\b(?!-)")
_OWN = re.compile(
    rf"\b(?:(?P<owner>our|my|white|black|white's|black's|your) )?(?:[a-h]-)?(?P<kind>{KIND})s?\b(?!"
    rf" (?:on|from|to) {SQUARE})",
    re.IGNORECASE,
)
_MAN = re.compile(
    rf"\b({KIND})s?(?:,(?= which)| which| that| who| now| still| stands| sits| beside it,)* "
    rf"(?P<how>on|from|at) (?:{SQUARE}(?:,| and|, and| or) (?:on )?)*$",
    re.IGNORECASE,
)
_LOOSE = re.compile(r"\b(?:from|left|was|were|had|with|without|gone|did|stopped|how many)\b", re.IGNORECASE)
_ROOM_FOR = re.compile(r"\bfor (?:his|her|its|our|my|your|the|their) $", re.IGNORECASE)
_THROUGH = re.compile(r"\b(?:through|behind|beyond|x-ray)\b", re.IGNORECASE)
_ONE_ON = re.compile(
    r"\b(?:one|colleague|friend|partner|twin|brother|sister|neighbour|pieces?|man|men|stands?|sits?) on $",
    re.IGNORECASE,
)
_PUT = re.compile(r"\b(?:plant|put|place|park|post|bring|get|want|like|love|dream)\b[^.;:]*$", re.IGNORECASE)
_EMPTY = re.compile(
    r"\b(?:[Nn]othing|[Nn]obody|[Nn]o (?:one|man|piece|pawn))\b(?! (?:but|except))[^.;:!?]{0,25}?"
    r" (?:stands?|stood|is|sits?|lives?|waits?) (?:(?:now|still|left|yet) )*on "
    rf"(?:{SQUARE},? (?:or|and) (?:on )?)*$"
)
_BORN = re.compile(r"\b(?:began|started|born|came|home|first stood|grew up)(?: life)? (?:on|from) $")
_NUMBERED = re.compile(r"\b(?P<number>[a-z-]+|\d{1,3}),? $", re.IGNORECASE)


def pointing_doubts(
    passage: Passage, boards: Boards, shown: dict[int, set[str]], side: str
) -> Iterator[Doubt]:
    """Doubts about squares without any tie to the moves, men, marks, claims and answers around them.

    `shown` has the squares that claims, marks, boards and answers name, by line.
    """
    if passage.role in ("idea", "part"):
        return
    text = passage.text
    said: set[str] = set()
    for found in _SQUARE.finditer(text):
        if found[0] in said:
            continue
        said.add(found[0])
        if any(at <= found.start() < at + len(turn.san) + 1 for at, turn in passage.turns):
            continue
        square = chess.parse_square(found[0])
        if not _tied(passage, boards, shown, found, square, side):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-square",
                f"Nothing told right here has to do with {found[0]}.",
            )


def _tied(
    passage: Passage, boards: Boards, shown: dict[int, set[str]], found: re.Match[str], square: int, side: str
) -> bool:
    text = passage.text
    places = tight_places(passage, found.start())
    first, last = sentence(text.replace(":", ","), *found.span())
    lead = text[first : found.start()]
    here = [boards.of(place) for place in places]
    if (
        not passage.before.moves
        and not passage.turns
        and boards.of(passage.before).fen() == chess.STARTING_FEN
    ):
        return True
    if re.match(r" has no (?:other )?guard (?:but|except)\b", text[found.end() :]):
        return True
    by = re.match(rf" by (?:the|his|her|our|a) ({KIND})\b", text[found.end() :])
    if by and any(_sees(board, KINDS[by[1].lower()], square) for board in here):
        return True
    if granted(text, found, here) or _EMPTY.search(lead):
        return True
    if re.search(r"\bcorners?\b", text) and square in (chess.A1, chess.A8, chess.H1, chess.H8):
        return True
    if _BORN.search(lead) and chess.Board().piece_type_at(square):
        return True
    if passage.question is not None and any(
        move.to_square == square
        for board in here
        if not board.is_game_over()
        for move in board.legal_moves
        if board.is_capture(move)
    ):
        return True
    if _next_step(passage, boards, text, found, square):
        return True
    if lead.endswith("from ") and any(
        can_reach(board, square, KINDS[one.lower()])
        for one in re.findall(rf"\b({KIND})s?\b", lead, re.IGNORECASE)
        for board in here
    ):
        return True
    man = _MAN.search(lead.replace("wedge on", "pawn on"))
    if man and man["how"] == "from" and chess.Board().piece_type_at(square) == KINDS[man[1].lower()]:
        return True
    if man:
        kind = KINDS[man[1].lower()]
        if any(board.piece_type_at(square) == kind for board in here):
            return True
        firm = re.match(r" (?:is|are|stands?|holds?|guards?|looks?|hits?|waits?) ", text[found.end() :])
        begin, finish = clause(text, *found.span())
        if firm and not HYPOTHETICAL.search(text[begin:finish]) and not _LOOSE.search(text[begin:finish]):
            return False
        room = _ROOM_FOR.search(lead[: man.start()])
        if not (room or HYPOTHETICAL.search(text[first:last]) or _LOOSE.search(text[first:last])):
            return False
        wider = () if passage.role in ("reply", "also") else passage.places()
        wide = [boards.of(place) for place in (*places, *wider, *history(passage))]
        return (
            any(board.piece_type_at(square) == kind for board in wide)
            or any(can_reach(board, square, kind) or _in_two(board, square, kind) for board in here)
            or (kind == chess.KNIGHT and bool(_PUT.search(lead[: man.start()])))
            or bool(re.search(r"\ban? $", lead[: man.start()], re.IGNORECASE))
        )
    inside = text[first:last]
    if any(is_named(board.piece_type_at(square), inside) for board in here):
        return True
    if _THROUGH.search(inside) and any(_beyond(board, square, inside) for board in here):
        return True
    if on_a_trip(here, text, found.start()):
        return True
    for place in places:
        if not place.moves:
            continue
        move = chess.Move.from_uci(place.moves[-1])
        if square in (move.from_square, move.to_square):
            return True
        row = chess.square_rank(move.from_square)
        if (
            boards.of(place).piece_type_at(move.to_square) == chess.KING
            and abs(move.from_square - move.to_square) == 2
        ) and (
            square
            in chess.SquareSet(
                chess.between(4 + 8 * row, (7 if move.to_square > move.from_square else 0) + 8 * row)
            )
            or square in (8 * row, 8 * row + 7)
        ):
            return True
        after = boards.of(place)
        if square in after.attacks(move.to_square) or square in after.attackers(after.turn, move.to_square):
            return True
        before = boards.of(Place(place.root, place.moves[:-1]))
        loose = passage.role in ("back", "because", "reply", "nudge") or after.piece_type_at(square)
        if loose and square in before.attacks(move.from_square):
            return True
        if (
            after.piece_type_at(move.to_square) == chess.PAWN
            and chess.square_file(square) == chess.square_file(move.to_square)
            and chess.square_distance(square, move.to_square) <= 2
        ):
            return True
    for _, mark in passage.marks:
        if any(found[0] in (one.square, one.to) for one in mark.marks):
            return True
    if _told_before(passage, boards, text, found, square):
        return True
    lines = range(passage.spot.line - 2, passage.spot.line + 5)
    if any(found[0] in shown.get(line, ()) for line in lines):
        return True
    if passage.question is not None and _asked(passage, boards, found, square):
        return True
    if re.search(
        r"\b(?:[Ff]rom|ours?|his|theirs|hers) (?:(?:stands?|is|are) )?(?:on )?(?:[a-h][1-8] and )?$", lead
    ):
        kinds = [KINDS[one.lower()] for one in re.findall(rf"\b({KIND})\b", text[found.end() : last])[:1]]
        return any(
            board.piece_type_at(square) or any(can_reach(board, square, kind) for kind in kinds)
            for board in here
        )
    for one in re.finditer(rf"\b({KIND})s? (?:on|from|at) ({SQUARE})", text[first:last], re.IGNORECASE):
        seer, kind = chess.parse_square(one[2].lower()), KINDS[one[1].lower()]
        if any(board.piece_type_at(seer) == kind and square in board.attacks(seer) for board in here):
            return True
    if re.search(r"\bwedge\b", text[first:last]) and any(
        square in board.attacks(seer)
        for board in here
        for color in chess.COLORS
        for seer in board.pieces(chess.PAWN, color)
    ):
        return True
    if re.search(r"\btak\w+ (?:back )?(?:on )?$", lead):
        return any(board.is_attacked_by(color, square) for board in here for color in chess.COLORS)
    subjects = list(_OWN.finditer(text, first, found.start()))
    kinds = [KINDS[one["kind"].lower()] for one in subjects[-1:]]
    kinds += [chess.QUEEN] * bool(re.search(r"\bshe\b", lead))
    if any(can_reach(board, square, kind) or _sees(board, kind, square) for board in here for kind in kinds):
        return True
    if re.search(r"\b[Ff]rom there\b", lead):
        empty = chess.Board(None)
        for name in re.findall(SQUARE, text[:first])[-1:]:
            empty.set_piece_at(
                chess.parse_square(name), chess.Piece(kinds[-1] if kinds else chess.QUEEN, True)
            )
        return any(
            square in empty.attacks(man) for man in empty.pieces(kinds[-1] if kinds else chess.QUEEN, True)
        )
    if re.match(r"If $", lead.lstrip()) and re.match(r" is\b", text[found.end() :]):
        return True
    return _at_home(passage, here, boards.of(passage.at(found.start())), text[first:last], lead, found)


def _at_home(
    passage: Passage,
    here: list[chess.Board],
    now: chess.Board,
    inside: str,
    lead: str,
    found: re.Match[str],
) -> bool:
    """Squares that a sentence may well name by themselves: of men that stand there, of lists, of legal
    moves, of a last rank, of one colour, or of what was.
    """
    square, rest = chess.parse_square(found[0]), passage.text[found.end() :]
    taken = any(board.piece_type_at(square) for board in here)
    if taken and (_ONE_ON.search(lead) or rest.startswith(":")):
        return True
    if re.search(r"\bcorners?\b", inside) and chess.BB_SQUARES[square] & chess.BB_CORNERS:
        return True
    names = re.findall(SQUARE, inside)
    men = [now.piece_type_at(chess.parse_square(name)) for name in names]
    if len(names) > 2 and (all(men) or not any(men)):
        return True
    came = re.search(rf"\b({SQUARE}) to $", lead)
    if came and now.piece_type_at(chess.parse_square(came[1])):
        return bool(chess.ray(chess.parse_square(came[1]), square))
    if re.search(r"\bto $", lead) and any(move.to_square == square for move in now.legal_moves):
        return True
    shades = {bool(chess.BB_SQUARES[chess.parse_square(name)] & chess.BB_LIGHT_SQUARES) for name in names}
    if len(names) > 2 and len(shades) == 1 and re.search(r"\b(?:light|dark|white|black) squares\b", inside):
        return True
    if chess.square_rank(square) in (0, 7) and re.search(
        r"\b(?:promot\w+|queens?|queening) (?:on|at) $", lead
    ):
        return True
    by = re.match(rf"(?: is)?(?: still| also| now)? (?:\w+ed )?by (?:the|his|her|our|a) ({KIND})\b", rest)
    if by:
        return any(_sees(board, KINDS[by[1].lower()], square) for board in here)
    if re.search(r"\b(?:no longer|not|never|nobody|than)\b[^.;:]*$", lead):
        return True
    if re.search(r"\b(?:once|was|were|born|went|came|stood|lived|began|started|earlier|before)\b", inside):
        return any(found[0] in (uci[:2], uci[2:4]) for uci in passage.before.moves)
    return bool(re.match(r" (?:comes|goes|follows|can|would|will)\b", rest)) and any(
        board.san(move) in (found[0], found[0] + "+", found[0] + "#")
        for board in here
        for move in board.legal_moves
        if move.to_square == square
    )


def _in_two(board: chess.Board, square: int, kind: int) -> bool:
    """Whether a piece of the kind could come to a square with two moves over an empty board."""
    empty = chess.Board(None)
    for color in chess.COLORS if kind in (chess.KNIGHT, chess.BISHOP, chess.KING) else ():
        empty.set_piece_at(square, chess.Piece(kind, color))
        if any(board.attacks(man) & empty.attacks(square) for man in board.pieces(kind, color)):
            return True
    return False


def _beyond(board: chess.Board, square: int, words: str) -> bool:
    """Whether a long-legged man that the words name would see the square, were the board empty."""
    empty = chess.Board(None)
    for kind in (chess.BISHOP, chess.ROOK, chess.QUEEN):
        for color in chess.COLORS if is_named(kind, words) else ():
            for man in board.pieces(kind, color):
                empty.set_piece_at(man, chess.Piece(kind, color))
                if square in empty.attacks(man):
                    return True
                empty.remove_piece_at(man)
    return False


def _next_step(passage: Passage, boards: Boards, text: str, found: re.Match[str], square: int) -> bool:
    """Whether the answer's man, or the learner's, could step to the square from one named just before it."""
    named = [chess.parse_square(one[0]) for one in _SQUARE.finditer(text, 0, found.start())][-2:]
    places = [
        place
        for place in (*passage.replied, *([passage.answer.after] if passage.answer else []))
        if place.moves
    ]
    kinds = {
        boards.of(place).piece_type_at(chess.Move.from_uci(place.moves[-1]).to_square) for place in places
    }
    return any(kind and square in view(kind, one) for kind in kinds for one in named)


def _told_before(passage: Passage, boards: Boards, text: str, found: re.Match[str], square: int) -> bool:
    """Squares of moves told earlier, where the words look back: a push, a move's number, what is gone."""
    moves = [chess.Move.from_uci(uci) for uci in passage.before.moves]
    lead, rest = text[: found.start()], text[found.end() :]
    pushed = re.search(r"\bpush\w*,? (?:\w+ )?to $", lead)
    if pushed or re.search(r"\b(?:left|from|since) $", lead) or re.match(r" (?:is|has) gone\b", rest):
        return any(square in (move.from_square, move.to_square) for move in moves)
    if re.search(r"\b(?:went down|went|fell|died) on $", lead):
        return True  # Where men fell is told of a whole game, of what is to come in it as well.
    numbered = _NUMBERED.search(lead)
    number = number_of(numbered["number"]) if numbered else None
    if number is not None:
        return any(move.to_square == square for move in moves[2 * number - 2 : 2 * number])
    if re.match(r" is (?:now )?free\b", rest):
        return not boards.of(passage.before).piece_type_at(square)
    if re.search(rf"\bon {SQUARE}, on {found[0]}", text) or re.match(rf", on {SQUARE}", rest):
        return True
    return any(square == move.to_square for move in moves[-4:])


def _asked(passage: Passage, boards: Boards, found: re.Match[str], square: int) -> bool:
    """Squares that the question, its answers or its other words name, or squares close to them."""
    asked = passage.question
    if asked is None:
        return False
    texts = [asked.text, asked.because, asked.otherwise, *asked.nudges]
    texts += [reply.text for reply in (*asked.replies, *asked.also)]
    others = [one.shown for one in texts if one is not None and one.shown != passage.text]
    if found[0] in asked.answers or any(found[0] in re.findall(SQUARE, one) for one in others):
        return True
    board = boards.of(passage.before)
    named = [
        chess.parse_square(name)
        for name in {*re.findall(SQUARE, asked.text.shown), *asked.answers}
        if re.fullmatch(SQUARE, name)
    ]
    if asked.kind in ("square", "count"):
        near = 1 if asked.kind == "square" else 2
        if any(chess.square_distance(square, one) <= near for one in named):
            return True
        if any(square in board.attackers(color, one) for one in named for color in chess.COLORS):
            return True
    if passage.answer is not None:
        after = boards.of(passage.answer.after)
        target = chess.Move.from_uci(passage.answer.uci).to_square
        piece = after.piece_at(target)
        empty = chess.Board(None)
        empty.set_piece_at(target, piece or chess.Piece(chess.QUEEN, True))
        return bool(after.piece_type_at(square)) and square in empty.attacks(target)
    return False


def _sees(board: chess.Board, kind: int, square: int) -> bool:
    return any(square in board.attacks(man) for color in chess.COLORS for man in board.pieces(kind, color))


_NAMING = re.compile(r"\s*(?:claim|show|imagine|board|answer):")


def squares_shown(source: str) -> dict[int, set[str]]:
    """The squares that claims, marks, boards and answers name, by line."""
    out: dict[int, set[str]] = {}
    for number, line in enumerate(source.split("\n"), 1):
        words = line if _NAMING.match(line) else " ".join(re.findall(r"\{show[^}]*\}", line))
        out[number] = set(re.findall(SQUARE, words))
    return out
