"""Prose against whose it is: who asks and answers, who is to move, whose men are meant."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import COUNTS, DENIED, KIND, KINDS, denied, supposed
from player.facts.place import Place
from player.facts.results import result_known

_ASKED = re.compile(
    r"\b(?:does|should|can|may|must|will|would|could) (?P<who>White|Black)\b|"
    r"^(?P<who2>White|Black) (?:has|to|finds|plays|wins|needs)\b|"
    r"\b(?P<who3>White|Black)'s (?:\w+ ){0,2}(?:move|turn|plan|best|answer|reply)\b|\bfor"
    r" (?P<who4>White|Black)\?",
)
_ASKED_NAME = re.compile(
    r"\b(?:does|did|should|must|will|would|can|could) (?P<who>NAMES) (?:do|play|answer|reply|choose|find|"
    r"move|continue|go on|begin|start|finish|win|save|break|stop|defend|proceed|improve|get|reach|meet|"
    r"punish)\b"
)
_LEFT_ALONE = re.compile(
    r"(?:So |But |And |And so |No, )?(?P<who>White|Black|NAMES) (?:left it|declined|refused|preferred|"
    r"avoided|chose|"
    r"refrained|thought better|did not (?:play|take|try|care)|resisted)\b"
)
_WHICH_MAN = re.compile(rf"\b[Ww]hich (?P<color>white|black) (?P<kind>{KIND}|man)\b")
_SIDE_MEN = re.compile(
    r"\b(?P<number>\w+) (?P<color>white|black) (?P<kind>pawn)s? (?:\w+ )?(?:stand|are|is) in the"
    r" (?:middle|centre)\b",
    re.IGNORECASE,
)
_SHADES = re.compile(
    r"\b(?P<whose>[Oo]ur|[Hh]is|White's|Black's|my) bishop (?:\w+ )?on the (?P<shade>light|dark) squares\b"
    r"(?: and (?P<other>White's|Black's|his|ours) (?:\w+ )?on the (?P<shade2>light|dark))?",
)
_WINS = re.compile(
    r"\b(?P<who>White|Black) (?:(?:still|now|always|even) )?(?P<what>wins|draws)\b(?!"
    r" (?:a|the|it|back|two)\b)"
)
_HAS = re.compile(
    rf"\b(?P<who>White|Black|we|he|she) (?:still |now |even )?(?:has|have|owns?|keeps?) (?:an? |the |both"
    rf" |his |two )?(?P<kind>{KIND})(?P<plural>s)?\b(?!-|'| (?:move|pair|ending|side|for)\b)",
)
_BOTH = re.compile(r"\b(?P<who>White|Black) (?:owns|has|keeps) (?:both|two|the two) bishops\b")
_ADDS = re.compile(
    r"\b(?P<who>White|Black|NAMES) (?:puts|adds|brings|sends|trains) (?:a |the |one more )?"
    r"(?P<nth>first|second|third|fourth|fifth)? ?(?:attacker|guard|man|defender|piece)"
    r" (?:on|to|at|against) (?P<square>[a-h][1-8])\b"
)
_DOES = re.compile(
    r"(?:^|[,;:.] |\b(?:and|but|while) )(?P<who>White|Black) (?:simply |then |now |just |at once"
    r" )?(?:trades|uses|breaks|kicks|gains|"
    r"forks|eats|grabs|replies|answers|recaptures|takes|gets|picks up|collects|escapes|"
    r"may (?:still )?take|can take|is given)\b"
)
_SQUARE_SHADE = re.compile(
    r"\b(?P<square>[a-h][1-8]),? (?:which )?is a (?P<shade>light|dark|white|black) square\b"
)
_ARRIVED = re.compile(
    rf"\b(?P<who>White|Black)'s (?P<kind>{KIND})s? (?:has|have) (?:just |now"
    rf" )?(?:arrived|landed|reached|come|stepped|gone|moved)\b"
)
_PAIRS = (
    ("light", "dark"), ("white", "black"), ("kingside", "queenside"), ("left", "right"), ("yes", "no"),
    ("inside", "outside"), ("open", "closed"), ("first", "second"), ("short", "long"),
)  # fmt: skip
_NTH = {"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5}
_FROM_TITLE = re.compile(
    r"(?:^|\b(?:[Ii]f|[Ww]hen|[Ss]uppose|[Aa]fter|[Hh]ad|[Ll]et|[Ww]hat) )(?P<who>White|Black|NAMES)\b(?!')"
)
_WERE = re.compile(r"\b(?:Suppose|Imagine|Say)\b[^.;!?]*\bit were (?P<who>White|Black)'s (?:move|turn)\b")
_MUST = re.compile(r"\bbecause (?P<who>White|Black) must (?:now |then )?[a-z]+")
_HOW_MANY = re.compile(
    r"\b[Hh]ow many (?P<color>white|black) men "
    r"(?:attack|guard|defend|look at|stand ready to take on|can take on) "
    r"(?:the [a-z]+ on )?(?P<square>[a-h][1-8])\b"
)
_LINE_DRAW = re.compile(
    r"\b(?:a |the )?(?P<what>draw|win|loss) (?:with|if it is|when it is) (?P<who>White|Black)(?:'s turn|"
    r" to move)\b",
    re.I,
)


def side_doubts(passage: Passage, boards: Boards, side: str, players: Mapping[str, bool]) -> Iterator[Doubt]:
    """Doubts about colours and players that are said to move, ask, own or win."""
    if passage.role in ("idea", "part"):
        return
    yield from _questions(passage, boards, players)
    yield from _left_alone(passage, boards, players)
    yield from _asked_sides(passage, boards)
    yield from _own(passage, boards, side)
    yield from _results(passage, boards)
    yield from _adding(passage, boards, players)
    yield from _titles(passage, boards, players)
    yield from _braces(passage, boards, players)
    if passage.role in ("reply", "also") and passage.replied and not passage.turns:
        for found in _DOES.finditer(passage.text):
            white = found["who"] == "White"
            standing = re.sub(r"\bbefore(?= (?:the|his|a) )", "facing", passage.text)
            if supposed(standing, found.start("who"), found.end()):
                continue
            if all(boards.of(place).turn != white for place in passage.replied):
                yield _side(found, "who", f"After this move it is {_name(not white)} who answers.")


def _name(white: bool) -> str:
    return "White" if white else "Black"


def _side(found: re.Match[str], group: str, message: str) -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-side", message)


def _left_alone(passage: Passage, boards: Boards, players: Mapping[str, bool]) -> Iterator[Doubt]:
    """ "So Orlo left it alone": the one whose moves an aside tells first."""
    found = _with_names(_LEFT_ALONE, players).match(passage.text) if passage.role == "back" else None
    first = next((place for place in passage.near if len(place.moves) > len(passage.before.moves)), None)
    if found is None or first is None or first.root != passage.before.root:
        return
    white = _white(found["who"], players)
    mover = boards.of(Place(first.root, first.moves[: len(passage.before.moves)])).turn
    if (
        white is not None
        and white != mover
        and first.moves[: len(passage.before.moves)] == passage.before.moves
    ):
        yield _side(found, "who", f"The first move told there is one of {_name(mover)}.")


def _questions(passage: Passage, boards: Boards, players: Mapping[str, bool]) -> Iterator[Doubt]:
    """Who is asked for a move, and whose man is asked for."""
    asked, text = passage.question, passage.text
    if asked is None:
        return
    if passage.role == "question" and asked.kind == "move":
        turn = boards.of(passage.before).turn
        for found in _with_names(_ASKED_NAME, players).finditer(text):
            if _white(found["who"], players) == (not turn):
                yield _side(found, "who", f"It is {_name(turn)} who is asked for a move here.")
        for found in _ASKED.finditer(text):
            group = next(name for name in ("who", "who2", "who3", "who4") if found[name])
            if (found[group] == "White") != turn:
                yield _side(found, group, f"It is {_name(turn)} who is asked for a move here.")
    squares = [name for name in asked.answers if re.fullmatch(r"[a-h][1-8]", name)]
    if passage.role == "question" and asked.kind == "square" and squares:
        for found in _WHICH_MAN.finditer(text):
            pieces = [boards.of(passage.before).piece_at(chess.parse_square(name)) for name in squares]
            kind = KINDS.get(found["kind"])
            white = found["color"] == "white"
            if not any(
                piece and piece.color == white and kind in (None, piece.piece_type) for piece in pieces
            ):
                message = f"On {', '.join(squares)} stands no such man."
                yield Doubt(found.start("color"), found.end("kind"), "prose-side", message)
    if passage.role == "because" and asked.kind in ("choice", "words"):
        yield from _contrary(text, asked.answers)
    if passage.role == "because" and asked.kind == "choice":
        options = {name for name in ("White", "Black") if name in asked.answers}
        first = re.match(r"(?:\w+[.:,] )?(White|Black) has\b|[^.]*\. (White|Black) has it\b", text)
        if options and first:
            number = 1 if first[1] else 2
            if first[number] not in options:
                yield Doubt(
                    first.start(number),
                    first.end(number),
                    "prose-side",
                    f"The answer is {' or '.join(options)}.",
                )


def _contrary(text: str, answers: tuple[str, ...]) -> Iterator[Doubt]:
    """The reason for an answer that is one of two words, where it begins with the other one."""
    given = {word.lower() for one in answers for word in re.findall(r"[\w-]+", one)}
    first = re.match(r"[^.,;:!?]*", text)
    words = re.findall(r"[\w-]+", first[0].lower()) if first else []
    for pair in _PAIRS:
        for one, other in (pair, pair[::-1]):
            if one in given and other not in given and other in words and one not in words and first:
                at = re.search(rf"(?i)\b{other}\b", text)
                if at and not DENIED.search(first[0], 3):
                    yield Doubt(*at.span(), "prose-side", f"The answer is {one}.")


def _asked_sides(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Who has to answer the move asked for, whose men are counted, and whose move is imagined."""
    text, asked = passage.text, passage.question
    for found in _WERE.finditer(text):
        if boards.of(passage.at(found.start())).turn != (found["who"] == "White"):
            yield _side(found, "who", "In this position the other side is to move.")
    if asked is None:
        return
    if passage.role == "nudge" and passage.answer is not None:
        for found in _MUST.finditer(text):
            if boards.of(passage.answer.after).turn != (found["who"] == "White"):
                yield _side(found, "who", f"After {passage.answer.san} it is the other side who must.")
    if passage.role == "question" and asked.kind == "count":
        for found in _HOW_MANY.finditer(text):
            square = chess.parse_square(found["square"])
            number = len(boards.of(passage.before).attackers(found["color"] == "white", square))
            if str(number) not in asked.answers:
                message = f"{number} {found['color']} men look at {found['square']}."
                yield _side(found, "color", message)


def _own(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Whose men: pawns in the middle, both bishops, bishops of a shade, a man that a side has."""
    text = passage.text
    around = [boards.of(place) for place in (passage.before, *passage.places())]
    for found in _SIDE_MEN.finditer(text):
        white, number = found["color"].lower() == "white", COUNTS.get(found["number"].lower())
        middle = chess.SquareSet(
            chess.BB_FILES[2] | chess.BB_FILES[3] | chess.BB_FILES[4] | chess.BB_FILES[5]
        )
        middle &= chess.BB_RANK_4 | chess.BB_RANK_5
        counts = {len(board.pieces(chess.PAWN, white) & middle) for board in around}
        if number is not None and number not in counts:
            yield Doubt(
                found.start(), found.end(), "prose-count", f"In the middle stand {max(counts)} of them."
            )
    for found in _SQUARE_SHADE.finditer(text):
        light = bool(chess.BB_SQUARES[chess.parse_square(found["square"])] & chess.BB_LIGHT_SQUARES)
        if light != (found["shade"] in ("light", "white")):
            yield _side(found, "shade", f"{found['square']} is a {'light' if light else 'dark'} square.")
    for found in _ARRIVED.finditer(text):
        last = passage.last(found.start())
        if last is None or not last.moves:
            continue
        if boards.of(last).turn == (found["who"] == "White"):
            yield _side(found, "who", "The last move told is the other side's.")
        recent = {boards.of(last).piece_type_at(chess.parse_square(uci[2:4])) for uci in last.moves[-3::2]}
        if KINDS[found["kind"].lower()] not in recent:
            yield _side(found, "kind", f"No {found['kind']} has just moved.")
    for found in _BOTH.finditer(text):
        white = found["who"] == "White"
        if not supposed(text, *found.span()) and all(
            len(board.pieces(chess.BISHOP, white)) < 2 for board in around
        ):
            yield _side(found, "who", f"{found['who']} has not both bishops here.")
    for found in _SHADES.finditer(text):
        for whose, shade in (("whose", "shade"), ("other", "shade2")):
            if not found[whose]:
                continue
            word = found[whose].lower()
            white = (
                word.startswith("white")
                if word[0] in "wb"
                else (side != "black") == (word in ("our", "ours", "my"))
            )
            light = found[shade] == "light"
            wanted = chess.BB_LIGHT_SQUARES if light else chess.BB_DARK_SQUARES
            last = passage.last(found.start())
            men = [board.pieces(chess.BISHOP, white) & wanted for board in around]
            moved = last is not None and any(
                boards.of(last).piece_type_at(chess.parse_square(uci[2:4])) == chess.BISHOP
                for uci in last.moves[-8:]
            )
            fits = (
                [
                    chess.parse_square(uci[2:4])
                    for uci in (last.moves[-12:] if last else ())
                    if (piece := boards.of(last).piece_at(chess.parse_square(uci[2:4])))
                    and piece.piece_type == chess.BISHOP
                    and piece.color == white
                ]
                if last
                else []
            )
            if not any(men) or (
                moved and fits and not any(wanted & chess.BB_SQUARES[square] for square in fits)
            ):
                yield _side(found, shade, "That bishop stands on squares of the other colour.")
    for found in _HAS.finditer(text):
        if (
            found["who"] not in ("White", "Black")
            or denied(text, found.start())
            or supposed(text, *found.span())
        ):
            continue
        white, kind = found["who"] == "White", KINDS[found["kind"].lower()]
        left = re.match(r" left\b", text[found.end() :])
        there = [boards.of(passage.at(found.start()))] if left else around
        if not any(board.pieces_mask(kind, white) for board in there):
            yield _side(found, "who", f"{found['who']} has no {found['kind']} here.")


def _results(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "White wins", "a draw with White to move", where exact tables know it."""
    text = passage.text
    for found in _WINS.finditer(text):
        if supposed(text, *found.span()) or denied(text, found.start()):
            continue
        known = [
            value
            for place in {passage.at(found.start()), passage.before}
            if (value := _result(boards.of(place))) is not None
        ]
        wanted = 0 if found["what"] == "draws" else 1 if found["who"] == "White" else -1
        if known and wanted not in known:
            yield Doubt(found.start(), found.end(), "prose-result", "With best play it ends otherwise here.")
    for found in _LINE_DRAW.finditer(text):
        board = boards.of(passage.before).copy(stack=False)
        board.turn = found["who"].lower() == "white"
        known_one = _result(board) if board.is_valid() else None
        if known_one is None:
            continue
        if (known_one == 0) != (found["what"].lower() == "draw"):
            yield Doubt(found.start(), found.end(), "prose-result", "With best play it ends otherwise here.")


def _result(board: chess.Board) -> int | None:
    """1 for White, 0, -1, by the exact tables; None where they do not know it."""
    if chess.popcount(board.occupied) > 3 or not board.is_valid():
        return None
    return result_known(board)


def _adding(passage: Passage, boards: Boards, players: Mapping[str, bool]) -> Iterator[Doubt]:
    """ "Dov puts a third attacker on e5": he has so many there."""
    for found in _with_names(_ADDS, players).finditer(passage.text):
        white = _white(found["who"], players)
        square, place = chess.parse_square(found["square"]), passage.at(found.start())
        number = len(boards.of(place).attackers(bool(white), square))
        if (
            white is not None
            and found["nth"]
            and number != _NTH[found["nth"]]
            and not supposed(passage.text, *found.span())
        ):
            message = f"{_name(white)} has {number} men looking at {found['square']} here."
            yield Doubt(found.start("who"), found.end("nth"), "prose-side", message)


def _titles(passage: Passage, boards: Boards, players: Mapping[str, bool]) -> Iterator[Doubt]:
    if passage.role != "title" or not passage.ahead:
        return
    for found in list(_with_names(_FROM_TITLE, players).finditer(passage.text))[:1]:
        white, mover = _white(found["who"], players), boards.of(passage.ahead[0].before).turn
        if white is not None and white != mover:
            message = f"The first move told here is {passage.ahead[0].san}, a move of {_name(mover)}."
            yield _side(found, "who", message)


def _braces(passage: Passage, boards: Boards, players: Mapping[str, bool]) -> Iterator[Doubt]:
    """ "{gxh6: Dov takes}": the words of a brace begin with the one who moves."""
    pattern = _with_names(
        re.compile(
            r"(?:(?:[Aa]nd|[Tt]hen|[Nn]ow|[Ss]o|[Hh]ere) )?(?P<who>White|Black|NAMES)(?:'s| [a-z]+s)\b"
        ),
        players,
    )
    for at, turn in passage.turns:
        found = pattern.match(passage.text, at)
        white = _white(found["who"], players) if found else None
        if found and white is not None and white != boards.of(turn.before).turn:
            yield _side(found, "who", f"{turn.san} is a move of {_name(not white)}.")


def _with_names(pattern: re.Pattern[str], players: Mapping[str, bool]) -> re.Pattern[str]:
    names = "|".join(map(re.escape, players)) or "(?!)"
    return re.compile(pattern.pattern.replace("NAMES", names))


def _white(word: str, players: Mapping[str, bool]) -> bool | None:
    return word == "White" if word in ("White", "Black") else players.get(word)
