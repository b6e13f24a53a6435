"""Prose against counts: men on the board, guards and attackers, steps, material, and what is shown."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import chess

from player.check.doubt import Doubt
from player.check.passages import Boards, Passage
from player.check.prose_words import (
    COUNT,
    COUNTS,
    HYPOTHETICAL,
    KIND,
    KINDS,
    SQUARE,
    clause,
    sentence,
    supposed,
)
from player.facts.material import VALUES
from player.facts.place import Place
from player.wording.claim_words import number_of

_MEN = re.compile(
    rf"\b(?P<number>two|three|four|five|six|seven|eight|nine|both|no|only one)(?: (?:more|of the|of his|of"
    rf" our|of black's|of white's))? "
    rf"(?:(?P<color>white|black) )?(?P<kind>{KIND})s?\b(?!['-])",
    re.IGNORECASE,
)
_HAS = re.compile(
    rf"\b(?P<side>White|Black|we|We) (?:still |now )?(?:has|have) (?P<list>(?:(?:just |only )?(?:an?|{COUNT})"
    rf" {KIND}s?\b(?: on {SQUARE})?(?:, (?:and )?| and )?)+)"
)
_EACH = re.compile(rf"\b(?P<number>an?|{COUNT}) (?P<kind>{KIND})s?\b", re.IGNORECASE)
_GUARDS = re.compile(
    rf"\b(?P<number>{COUNT}|single|nobody|nothing)(?: (?:white|black|single|more|other))?"
    rf" ?(?:(?P<what>guards?|defenders?|attackers?)\b|(?P<verb>guards|defends|attacks) (?=the|{SQUARE}))",
    re.IGNORECASE,
)
_COLOURED = re.compile(
    rf"\b(?:(?P<number>{COUNT}|single) )?(?P<color>white|black) (?:men|man|guards?|attackers?|pieces?)\b"
    rf"(?P<rest>[^.;:!?]*?\b(?:on|attacks?|guards?|hits?|takes?) (?:the {KIND} on )?(?P<square>{SQUARE}))?",
    re.IGNORECASE,
)
_BETWEEN = re.compile(
    rf"\b(?P<number>{COUNT})(?: single)?(?: empty)? squares? between (?:the kings|them)\b", re.IGNORECASE
)
_LEFT = re.compile(
    rf"\b(?:left (?P<square>{SQUARE}) on|(?:{KIND}) (?P<on>on) (?P<there>{SQUARE}),?(?: which| that)? "
    rf"(?:has not|never|has never) moved (?:since|after)) move (?P<number>[a-z-]+|\d+)",
    re.IGNORECASE,
)
_NTHS = {"second": 2, "third": 3, "fourth": 4, "fifth": 5}
_NTH = re.compile(
    rf"\b(?P<square>{SQUARE}) a (?P<nth>second|third|fourth|fifth) time\b|"
    r"\ba (?P<nth2>second|third|fourth|fifth) (?:man|guard|attacker|defender|piece) on"
    rf" (?P<square2>{SQUARE})\b",
    re.IGNORECASE,
)
_AGAINST = re.compile(
    r"(?:^|(?<=[.!?:] )|(?<=\bis )|(?<=\bit ))(?P<one>one|two|three|four|five) against"
    r" (?P<two>one|two|three|four|five)\b(?! (?:bishops?|knights?|rooks?|pawns?|men))",
    re.IGNORECASE,
)
_ROOM = re.compile(
    rf"\b(?:there (?:is|are)|(?:he|the king) has) (?:only |just )?(?P<number>{COUNT}) squares? left\b",
    re.IGNORECASE,
)
_TO_GO = re.compile(rf"\b(?P<number>{COUNT}) (?:more )?steps? to go\b", re.IGNORECASE)
_STEPS = re.compile(
    r"\b(?:goes|steps|moves|takes|took|went|jumps|with) (?:just |only"
    r" )?(?P<number>an?|one|two|three|four|five|six|single)(?: single| full)? (?:squares?|steps?)\b(?!"
    r" (?:from|between|on|to))",
    re.IGNORECASE,
)
_AHEAD = re.compile(
    r"\b(?P<side>White|Black|we|We)(?: is| are|'s)? (?:now |still |already )?(?:(?P<word>up|down)"
    r" )?(?P<thing>a pawn|two pawns|three pawns|a piece|a knight|a bishop|a rook|the exchange|a queen)(?:"
    r" (?P<word2>ahead|up|behind|down))?\b"
)
_THINGS = {
    "a pawn": 1,
    "two pawns": 2,
    "three pawns": 3,
    "a piece": 3,
    "a knight": 3,
    "a bishop": 3,
    "the exchange": 2,
    "a rook": 5,
    "a queen": 9,
}
_SHOWN = re.compile(r"\b(?P<number>one|two|three|four|five|six)\b(?: squares?)?", re.IGNORECASE)
_LISTED = re.compile(
    rf"^(?P<number>{COUNT}): (?P<list>(?:(?:, and |, | and )?(?:the {KIND} on )?{SQUARE})+)[.;]",
    re.IGNORECASE,
)
_MATE_IN = re.compile(rf"\bmate in (?P<number>{COUNT})\b", re.IGNORECASE)

Claimed = Mapping[int, set[tuple[str, int]]]
"""By line, the squares that claims speak of and the number of guards or attackers they state."""


def counting_doubts(passage: Passage, boards: Boards, side: str, claimed: Claimed) -> Iterator[Doubt]:
    """Doubts about numbers; `claimed` has the numbers of guards and attackers claimed near each line."""
    yield from _men(passage, boards)
    yield from _has(passage, boards, side)
    yield from _guards(passage, boards, claimed)
    yield from _coloured(passage, boards)
    yield from _weighed(passage, boards)
    yield from _steps(passage, boards)
    yield from _ahead(passage, boards, side)
    yield from _shown(passage)
    yield from _shown_in_sentence(passage)
    yield from _history(passage, boards)
    listed = _LISTED.match(passage.text)
    if listed:
        squares = re.findall(SQUARE, listed["list"])
        if len(set(squares)) != COUNTS.get(listed["number"].lower(), -1):
            yield Doubt(
                listed.start("number"), listed.end("number"), "prose-count", f"{len(set(squares))} are named."
            )


def _men(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    if passage.role in ("idea",):
        return
    around = [boards.of(place) for place in passage.places()]
    around += [boards.of(turn.after) for turn in passage.ahead]
    for found in _MEN.finditer(passage.text):
        word = found["number"].lower()
        kind = KINDS[found["kind"].lower()]
        color = None if not found["color"] else found["color"].lower() == "white"
        number = COUNTS.get(word)
        if number is None or number < 2:
            continue
        most = max(_number(board, kind, color) for board in around)
        if number > most and not supposed(passage.text, *found.span()):
            name = f"{found['color'] or ''} {found['kind'].lower()}s".strip()
            yield Doubt(
                found.start(), found.end(), "prose-count", f"There are not so many {name} here, but {most}."
            )


def _number(board: chess.Board, kind: int, color: bool | None) -> int:
    sides = chess.COLORS if color is None else (color,)
    return sum(len(board.pieces(kind, one)) for one in sides)


def _has(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    for found in _HAS.finditer(passage.text):
        color = found["side"] == "White" if found["side"] in ("White", "Black") else side == "white"
        if supposed(passage.text, *found.span()):
            continue
        around = [boards.of(place) for place in passage.places()]
        sums: dict[int, int] = {}
        for each in _EACH.finditer(passage.text, found.start("list"), found.end("list")):
            word = each["number"].lower()
            kind = KINDS[each["kind"].lower()]
            sums[kind] = sums.get(kind, 0) + (int(word) if word.isdigit() else COUNTS.get(word, 1))
            if sums[kind] > max(_number(board, kind, color) for board in around):
                name = "White" if color else "Black"
                yield Doubt(each.start(), each.end(), "prose-count", f"{name} has not so many here.")


def _guards(passage: Passage, boards: Boards, claimed: Claimed) -> Iterator[Doubt]:
    """Numbers of guards and attackers: of a square named in the sentence, of the last move's, or claimed."""
    text = passage.text
    if passage.role in ("idea", "part", "back"):
        return
    for found in _GUARDS.finditer(text):
        word = found["number"].lower()
        number = int(word) if word.isdigit() else COUNTS.get(word)
        what = (found["what"] or found["verb"]).lower()
        first, last = sentence(text, *found.span())
        if number is None or (supposed(text, *found.span()) and not passage.replied):
            continue
        squares = {chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", text[first:last])}
        if not squares:
            squares = {chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", text)}
        for place in (passage.last(found.start()), passage.answer.after if passage.answer else None):
            if place and place.moves:
                squares.add(chess.Move.from_uci(place.moves[-1]).to_square)
        if passage.question is not None:
            squares |= {
                chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", passage.question.text.shown)
            }
        beside = [
            one
            for line in range(passage.spot.line - 2, passage.spot.line + 6)
            for one in claimed.get(line, ())
        ]
        near = {count for _, count in beside}
        squares |= {chess.parse_square(name) for name, _ in beside}
        if found["what"] and text[found.end() : found.end() + 6].startswith((" now:", ":", " here:")):
            said = sorted(
                KINDS[one[1].lower()]
                for one in re.finditer(rf"\ban? ({KIND})\b", text[found.end() : last + 80])
            )
            if len(said) == number and not any(
                sorted(board.piece_type_at(man) or 0 for man in board.attackers(color, square)) == said
                for board in (boards.of(place) for place in passage.places())
                for square in squares
                for color in chess.COLORS
            ):
                yield Doubt(
                    found.start(), found.end(), "prose-count", "Other men than these stand behind it."
                )
                continue
        around = [boards.of(place) for place in passage.places()]
        counts = {
            len(board.attackers(color, square))
            for board in around
            for square in squares
            for color in chess.COLORS
        }
        if squares and number not in counts | near:
            yield Doubt(found.start(), found.end(), "prose-count", f"No square meant here has {word} {what}.")
        elif (
            near and number not in near and not re.search(SQUARE, text[first:last]) and passage.role == "told"
        ):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-count",
                f"The claim beside it says {', '.join(map(str, sorted(near)))}.",
            )


def _coloured(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Men of a colour at a square, and squares between the kings."""
    text = passage.text
    if passage.role in ("idea", "part"):
        return
    around = [boards.of(place) for place in passage.places()]
    for found in _COLOURED.finditer(text):
        square = (
            found["square"] or (re.search(rf"\b[Oo]n ({SQUARE})\b", text[: found.start()]) or ["", ""])[1]
        )
        if not square or HYPOTHETICAL.search(
            text[clause(text, *found.span())[0] : found.start()].replace("then", "")
        ):
            continue
        color, at = found["color"].lower() == "white", chess.parse_square(square.lower())
        most = max(len(board.attackers(color, at)) for board in around)
        number = COUNTS.get((found["number"] or "one").lower(), 1)
        if number > most and found["number"] != "no":
            yield Doubt(
                found.start("color"),
                found.end("color"),
                "prose-side",
                f"Not so many {found['color'].lower()} men look at {square}.",
            )
    for found in _ROOM.finditer(text):
        counts = {
            sum(board.piece_type_at(move.from_square) == chess.KING for move in board.legal_moves)
            for board in around
        }
        number = COUNTS.get(found["number"].lower(), -1)
        if number not in counts and not supposed(text, *found.span()):
            yield Doubt(
                found.start("number"),
                found.end(),
                "prose-count",
                "The king has another number of squares here.",
            )
    for found in _TO_GO.finditer(text):
        counts = {gone for board in around for gone in _to_go(passage, board)}
        if counts and COUNTS.get(found["number"].lower(), -1) not in counts:
            yield Doubt(found.start("number"), found.end(), "prose-count", "No pawn here has so far to go.")
    for found in _BETWEEN.finditer(text):
        counts = {
            chess.square_distance(white, black) - 1
            for board in around
            if (white := board.king(chess.WHITE)) is not None
            and (black := board.king(chess.BLACK)) is not None
        }
        if counts and COUNTS.get(found["number"].lower(), -1) not in counts:
            yield Doubt(found.start("number"), found.end(), "prose-count", "The kings stand otherwise here.")


def _weighed(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "Three against two" on some square that both sides look at, and "a third time" on the one named."""
    text = passage.text
    if passage.role in ("idea", "part"):
        return
    around = [boards.of(place) for place in passage.places()]
    for found in _AGAINST.finditer(text):
        wanted = sorted((COUNTS[found["one"].lower()], COUNTS[found["two"].lower()]))
        pairs = (
            sorted(len(board.attackers(color, square)) for color in chess.COLORS)
            for board in around
            for square in chess.SQUARES
            if board.attackers_mask(chess.WHITE, square) and board.attackers_mask(chess.BLACK, square)
        )
        if not supposed(text, *found.span()) and not any(pair == wanted for pair in pairs):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-count",
                "On no square do they stand so many against so many.",
            )
    for found in _NTH.finditer(text):
        number = _NTHS[(found["nth"] or found["nth2"]).lower()]
        square = chess.parse_square((found["square"] or found["square2"]).lower())
        most = max(len(board.attackers(color, square)) for board in around for color in chess.COLORS)
        if number > most and not supposed(text, *found.span()):
            message = f"Nobody has so many men looking at {chess.square_name(square)} here."
            yield Doubt(found.start(), found.end(), "prose-count", message)


def _to_go(passage: Passage, board: chess.Board) -> Iterator[int]:
    """How far the pawns have to go that stand past the middle."""
    for color in chess.COLORS:
        for pawn in board.pieces(chess.PAWN, color):
            left = 7 - chess.square_rank(pawn) if color else chess.square_rank(pawn)
            if left <= 4:
                yield left


def _steps(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    if passage.role not in ("nudge",) or passage.answer is None:
        return
    move = chess.Move.from_uci(passage.answer.uci)
    board = boards.of(passage.answer.before)
    if board.piece_type_at(move.from_square) == chess.KNIGHT or board.is_castling(move):
        return
    far = chess.square_distance(move.from_square, move.to_square)
    for found in _STEPS.finditer(passage.text):
        number = COUNTS.get(found["number"].lower())
        if number is not None and number != far and not supposed(passage.text, *found.span()):
            yield Doubt(
                found.start("number"), found.end(), "prose-count", f"{passage.answer.san} goes {far}."
            )


def _ahead(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    for found in _AHEAD.finditer(passage.text):
        word = found["word"] or found["word2"]
        if not word or supposed(passage.text, *found.span()):
            continue
        color = found["side"] == "White" if found["side"] in ("White", "Black") else side == "white"
        sign = (1 if color else -1) * (-1 if word in ("down", "behind") else 1)
        worth = _THINGS[found["thing"]]
        around = [boards.of(place) for place in passage.places()] + [
            boards.of(turn.after) for turn in passage.ahead[:1]
        ]
        balances = {sign * balance(board) for board in around}
        if not any(abs(one - worth) <= 1 and one > 0 for one in balances):
            yield Doubt(
                found.start(), found.end(), "prose-count", "The men on the board do not add up to that here."
            )


def balance(board: chess.Board) -> int:
    """White's men less Black's, in pawns."""
    return sum(
        value * (len(board.pieces(kind, chess.WHITE)) - len(board.pieces(kind, chess.BLACK)))
        for kind, value in VALUES.items()
        if kind != chess.KING
    )


def _shown_in_sentence(passage: Passage) -> Iterator[Doubt]:
    """ "Three squares" in a sentence that shows another number of them."""
    for found in re.finditer(rf"\b({COUNT}) squares?\b", passage.text, re.IGNORECASE):
        first, last = sentence(passage.text.replace(":", ","), *found.span())
        shown = [one for at, one in passage.marks if first <= at <= last]
        words = re.findall(rf"\b(?:{COUNT}) squares?\b", passage.text[first:last], re.IGNORECASE)
        if len(shown) != 1 or len(words) != 1 or len(shown[0].marks) < 2:
            continue
        marks = shown[0].marks
        number = int(found[1]) if found[1].isdigit() else COUNTS[found[1].lower()]
        if all(mark.kind == "square" for mark in marks) and number != len(marks):
            yield Doubt(found.start(), found.end(), "prose-count", f"{len(marks)} squares are shown here.")


def _history(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "It left h2 on move eleven", "has not moved since move three"."""
    moves = passage.before.moves
    if boards.of(Place(passage.before.root)).fullmove_number != 1 or not moves:
        return
    first = 0 if boards.of(Place(passage.before.root)).turn else 1
    for found in _LEFT.finditer(passage.text):
        number = number_of(found["number"])
        if number is None:
            continue
        told = [moves[ply] for ply in range(len(moves)) if (ply + first) // 2 + 1 == number]
        square = (found["square"] or found["there"]).lower()
        at = 2 if found["on"] else 0
        if told and not any(move[at : at + 2] == square for move in told):
            doubt = "came to" if found["on"] else "left"
            yield Doubt(
                found.start(),
                found.end(),
                "prose-count",
                f"No man {doubt} {square} on move {found['number']}.",
            )


def _shown(passage: Passage) -> Iterator[Doubt]:
    """Words right at marks: "two squares" for two of them, and squares that are among them."""
    text = passage.text
    for number, (at, shown) in enumerate(passage.marks):
        stop = passage.marks[number + 1][0] if number + 1 < len(passage.marks) else len(text)
        turns = [turn for turn, _ in passage.turns if turn > at]
        piece = text[at : min(stop, *turns) if turns else stop]
        piece = re.split(r"[,.;!?]", piece)[0]
        squares = [mark for mark in shown.marks if mark.kind == "square"]
        found = re.match(rf"(?:these |the |those )?{_SHOWN.pattern}", piece, re.IGNORECASE)
        if found and len(squares) == len(shown.marks) and COUNTS[found["number"].lower()] != len(squares):
            yield Doubt(
                at + found.start("number"),
                at + found.end("number"),
                "prose-count",
                f"{len(squares)} shown here.",
            )
        said = re.match(rf"(?:the |this |on |these )*(?:squares? )?(?P<square>{SQUARE})\b", piece)
        names = {name for mark in shown.marks for name in (mark.square, mark.to)}
        if said and said["square"] not in names:
            yield Doubt(
                at + said.start("square"),
                at + said.end("square"),
                "prose-square",
                "Another square is shown here.",
            )
