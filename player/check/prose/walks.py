"""Prose against ways: squares that are free or that men have come to, lines, corners and ends."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.standing import history
from player.check.prose.words import HYPOTHETICAL, KIND, KINDS, SQUARE, denied, sentence
from player.facts.place import Place

_FREE = re.compile(
    rf"\b(?P<square>{SQUARE})(?:,? which)? (?:is |stands |lies )?(?:now |still |also )?"
    r"(?:free|empty|vacant)\b(?! (?:of|from|to))",
    re.IGNORECASE,
)
_HAS_COME = re.compile(
    rf"\b(?:(?P<color>White|Black|white|black)(?:'s)? )?(?:(?P<kind>{KIND}) )?has (?:just |now |already )*"
    r"(?:jumped|hopped|gone|come|stepped|moved|landed|dropped|arrived|settled|retreated|walked|given way)"
    rf"(?: back| out| in| up| down| over)? (?:to|on|onto|at|in) (?P<square>{SQUARE})\b"
)
_BUT = re.compile(rf"\b(?P<square>{SQUARE}) has no (?:other )?guard (?:but|except) the (?P<kind>{KIND})\b")
_LEFT = re.compile(
    rf"\b[Tt]he {KIND} (?:has )?(?:just )?left (?P<square>{SQUARE}) (?:a moment ago|just now|a move ago)\b"
)
_CORNER = re.compile(rf"\b[Cc]orner,? (?:on|at|square|of) (?P<square>{SQUARE})\b")
_BACK = re.compile(rf"(?:^|[.,;:] )(?:and )?(?:[Ww]e (?:go|are) )?[Bb]ack to (?P<square>{SQUARE})\.?$")
_ROAD = re.compile(
    r"\b(?P<line>road|line|diagonal|rank|file|ray)(?: (?:runs|goes|leads|looks|stretches|is open|opens))?,?"
    rf" from (?P<a>{SQUARE}) (?:down |up |all the way |across |straight )*(?:to|towards) (?P<b>{SQUARE})\b",
    re.IGNORECASE,
)
_ENDS = re.compile(
    r"\b(?:after (?:both|the|these|those) (?:captures|trades?|exchanges?|recaptures?),? )"
    rf"(?:(?:White|Black|his|the|her)(?:'s)? )?(?P<kind>{KIND}) (?:is|stands|will be)"
    rf" (?:on|at) (?P<square>{SQUARE})\b|"
    rf"\b(?P<kind2>{KIND}) (?:ends up|winds up|will end up) (?:on|at) (?P<square2>{SQUARE})\b",
    re.IGNORECASE,
)
_MATES = re.compile(rf"\bmate on (?P<square>{SQUARE}) (?:follows|comes|is next|is threatened|would follow)\b")
_IT_IS = re.compile(
    rf"^(?:It is |It's |Take |Use |Try |Move )?[Tt]he (?P<kind>{KIND}) (?:from|on) (?P<square>{SQUARE})\.?$"
)


def walk_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about squares that do not fit what is said of them."""
    if passage.role in ("idea", "part"):
        return
    here = [boards.of(place) for place in tight_places(passage, 0)]
    here += [boards.of(turn.after) for turn in passage.ahead[:1]]
    yield from _come_to(passage, boards, here)
    yield from _lines(passage, here)
    yield from _ends(passage, boards)


def _doubt(found: re.Match[str], group: str, message: str, code: str = "prose-square") -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message)


def _come_to(passage: Passage, boards: Boards, here: list[chess.Board]) -> Iterator[Doubt]:
    """Squares said to be free, squares that men have come to."""
    text, asked = passage.text, passage.question
    for found in _FREE.finditer(text):
        square = chess.parse_square(found["square"].lower())
        board = boards.of(passage.at(found.start()))
        first, last = sentence(text, *found.span())
        if denied(text, found.start()) or HYPOTHETICAL.search(text[first:last]):
            continue
        boards_near = here if passage.role in ("nudge", "because", "reply", "also", "otherwise") else [board]
        if all(one.piece_at(square) for one in boards_near):
            yield _doubt(found, "square", f"{found['square']} is not empty here.")
    for found in _HAS_COME.finditer(text):
        kind = KINDS[found["kind"].lower()] if found["kind"] else None
        men = [one.piece_at(chess.parse_square(found["square"])) for one in here]
        men.append(boards.of(passage.at(found.start())).piece_at(chess.parse_square(found["square"])))
        white = None if not found["color"] else found["color"].lower() == "white"
        for place in history(passage)[:6]:
            men.append(boards.of(place).piece_at(chess.parse_square(found["square"])))
        if not any(man and kind in (None, man.piece_type) and white in (None, man.color) for man in men):
            yield _doubt(found, "square", f"No such man has come to {found['square']} here.", "prose-man")
    yield from _gone_from(passage, boards, here)
    found_it = _IT_IS.match(text)
    if found_it and passage.role == "nudge" and passage.answer and asked and asked.kind == "move":
        move = chess.Move.from_uci(passage.answer.uci)
        if chess.parse_square(found_it["square"]) != move.from_square:
            yield _doubt(found_it, "square", f"{passage.answer.san} starts from another square.")


def _gone_from(passage: Passage, boards: Boards, here: list[chess.Board]) -> Iterator[Doubt]:
    """Squares that a man has left, and squares that one kind alone guards."""
    text, moves = passage.text, passage.before.moves
    for found in _BUT.finditer(text):
        square, kind = chess.parse_square(found["square"]), KINDS[found["kind"]]
        guards = [
            {one.piece_type_at(man) for man in one.attackers(color, square)}
            for one in here
            for color in chess.COLORS
        ]
        if {kind} not in guards:
            yield _doubt(found, "square", f"The {found['kind']} is not the only guard of {found['square']}.")
    for found in _LEFT.finditer(text):
        if moves and not any(uci[:2] == found["square"] for uci in moves[-6:]):
            yield _doubt(found, "square", f"Nobody has left {found['square']} lately.")


def _lines(passage: Passage, here: list[chess.Board]) -> Iterator[Doubt]:
    """Lines and corners, which hold on an empty board."""
    text = passage.text
    for found in _CORNER.finditer(text):
        if found["square"] not in ("a1", "a8", "h1", "h8"):
            yield _doubt(found, "square", f"{found['square']} is no corner.")
    for found in _ROAD.finditer(text):
        a, b = (chess.parse_square(found[name].lower()) for name in "ab")
        same = {"rank": a // 8 == b // 8, "file": a % 8 == b % 8}.get(found["line"].lower(), True)
        first, last = sentence(text, *found.span())
        if re.search(r"\b(?:knights?|kings?|horse|moves|steps)\b", text[first:last], re.IGNORECASE):
            continue
        if not chess.ray(a, b) or not same:
            yield _doubt(found, "b", f"{found['a']} and {found['b']} do not lie on such a line.")


def _ends(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Ends of lines: "ends up on d7", "mate on g7 follows"."""
    text = passage.text
    for found in _BACK.finditer(text) if passage.role == "back" else ():
        outer = passage.before
        told = [
            place.moves[-1][2:4]
            for place in (outer, *(turn.after for turn in passage.ahead[:1]))
            if place.moves
        ]
        told += [uci[2:4] for uci in outer.moves[-2:]]
        if told and found["square"] not in told:
            yield _doubt(found, "square", f"The move told before this does not go to {found['square']}.")
    for found in _ENDS.finditer(text):
        group = "square" if found["square"] else "square2"
        kind = KINDS[(found["kind"] or found["kind2"]).lower()]
        later = [turn.after for at, turn in passage.turns if at >= found.start()]
        later = (
            later
            or [turn.after for turn in passage.ahead]
            or ([passage.answer.after] if passage.answer else [])
        )
        moved = [place for place in later if place.moves and _took(boards, place)][:2][-1:]
        square = chess.parse_square(found[group])
        if any(place.moves[-1][2:4] == found[group] for place in later if place.moves):
            continue
        if moved and not any(boards.of(place).piece_type_at(square) == kind for place in moved):
            yield _doubt(
                found, group, f"After the captures told here no {chess.piece_name(kind)} stands there."
            )
    for found in _MATES.finditer(text):
        after = passage.answer.after if passage.answer and passage.role in ("nudge", "because") else None
        first, _ = sentence(text, *found.span())
        if re.search(r"\b(?:after|then|end)\b", text[first : found.start()]):
            continue
        if after and not _mate_next(boards.of(after), chess.parse_square(found["square"])):
            yield _doubt(found, "square", f"No mate on {found['square']} can follow.", "prose-mate")


def _took(boards: Boards, place: Place) -> bool:
    before = boards.of(Place(place.root, place.moves[:-1]))
    return before.is_capture(chess.Move.from_uci(place.moves[-1]))


def _mate_next(board: chess.Board, square: int) -> bool:
    """Whether some reply, or none at all, lets the side that has just moved mate on a square."""
    replies = [*board.legal_moves, *([] if board.is_check() else [chess.Move.null()])]
    for reply in replies:
        one = board.copy(stack=False)
        one.push(reply)
        for move in list(one.legal_moves):
            if move.to_square == square:
                one.push(move)
                mate = one.is_checkmate()
                one.pop()
                if mate:
                    return True
    return False
