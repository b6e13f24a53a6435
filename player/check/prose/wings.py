"""Prose against the wing: kingside and queenside, left and right, where what is told lies on the other."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.filed import file_doubts
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import KIND, KINDS, SENTENCE_END, SQUARE, denied, sentence
from player.wording.claim_words import number_of

_WING = r"(?P<wing>king|queen)(?:'s (?:side|wing|flank)|-?side)\b"
_HAND = re.compile(
    r"(?:\b(?:on|to|at|over on|towards?) the (?:far )?|(?:^|(?<=[.!?:] ))Look (?:to the )?)"
    r"(?P<hand>left|right)"
    r"(?= (?:side|wing|flank|edge|hand)\b|\s*(?:[.,;:!?]|$)| (?:and|but|on the board)\b)"
    r"|\b(?P<hand2>left|right)(?= (?:wing|flank)\b(?! and the wrong))"
)
_ANY = re.compile(rf"(?<!wards the )\b{_WING}")
_TOUCHED = re.compile(
    rf"\b(?:touch\w*|push\w*|play\w*|mov\w*|act\w*|go\w*|strik\w*|on) (?:on |to )?the {_WING}(?=[:,] )"
)
_RUNS = re.compile(
    rf"\b[Tt]he (?:(?P<who>white|black) )?(?P<kind>{KIND}) (?:runs|stands|is|walks|waits|sits) on the"
    r" (?P<hand>left|right|kingside|queenside)\b"
)
_ON_WING = re.compile(
    rf"\b(?P<square>{SQUARE})(?:,? (?:which )?(?:is |lies )?)?,? on the {_WING}", re.IGNORECASE
)
_MEN_OF = re.compile(r"\b(?P<wing>king|queen)side (?:pawns|majority|men)\b", re.IGNORECASE)
_ARRIVED = re.compile(
    r"\b(?P<who>White|Black)'s pawns (?:have |are )?(?:arrived|rolling|come|coming|march\w*|advanced?)\b"
    r"[^.;:]*?\bon the (?P<hand>left|right|kingside|queenside)\b"
)
_FILES_TO = re.compile(
    r"\bthe (?P<file>[a-h])-file, (?:one|two|three|four|five|six) files? to (?P<whose>his|her|its|the)"
    r" (?P<hand>left|right)\b"
)
_STEP_TO = re.compile(r"\b(?:step|file|square)s? to the (?:left|right)", re.IGNORECASE)
_OF_MOVE = re.compile(
    rf"^(?:\w+(?: \w+)?[.!,;:] )?(?:[Aa]|[Tt]he|[Aa]nother) {_WING} (?:again|pawn|move|step|push|"
    rf"business|first)\b"
)
_THAT_MAN = re.compile(rf"\b[Tt]h(?:at|is) {_WING} (?P<kind>{KIND})\b")
_GOES_ON = re.compile(
    rf"(?:^|[.;] )(?:[Tt]he (?P<kind>{KIND})|It) (?:steps|goes|comes|jumps|hops|lands|moves|stands|sits|"
    r"slides|walks|drops|settles|hides|arrives|stays) "
    rf"(?:\w+ )?(?:on|to|into|in) (?:the|a|his|her|its|our) {_WING}(?!')"
)
_WON_ON = re.compile(
    rf"\b(?:won|taken|lost|gained|picked up) (?:one|two|a pawn|a man|a piece|something) on the {_WING}"
)
_STIRS = re.compile(
    rf"\b(?:his|her|our|the) (?:own )?{_WING} (?:moves|stirs|wakes|comes to life|gets going|rolls|opens)\b|"
    rf"\bfirst the {_WING.replace('wing>', 'wing2>')} is [a-z]+ed\b"
)
_OPENS = re.compile(rf"\bopens? (?:lines|files|a file|a line|the position) on the {_WING}")
_LOOK_AT = re.compile(rf"\bLook (?:at|to|along|towards) the {_WING}")
_POINTS = re.compile(rf"\bpoints? (?:straight )?(?:at|to|towards) the {_WING}")
_HEADS = re.compile(
    r"\b(?:look|head|aim|point|turn|steer|lean|go)(?:s|ing)?[:,]? (?:over )?(?:to|towards) the"
    r" (?P<hand>left|right)\b"
)
_LOOK_LEFT = re.compile(r"\b[Ll]ook (?P<hand>left)(?: at| towards| along|[,.])")
_NUMBER = "(?:one|two|three|four|five)"
_FACING = re.compile(
    rf"\b(?P<one>{_NUMBER})(?: [a-z]+)? pawns? (?:against|to|facing|face|faces|versus)"
    rf" (?P<two>{_NUMBER})(?: pawns?)?"
    rf" on the {_WING}|\bon the {_WING.replace('wing>', 'wing2>')},? (?:White's |Black's"
    rf" )?(?P<one2>{_NUMBER}) pawns"
    rf" (?:face|against|meet) (?P<two2>{_NUMBER})\b",
    re.IGNORECASE,
)
_MIDDLE = (3, 4)


def wing_doubts(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Doubts about wings, and about left and right as the learner's `side` of the board sees them."""
    if passage.role in ("idea", "part"):
        return
    yield from _named(passage, boards)
    yield from _stirring(passage, boards)
    yield from _hands(passage, boards, side)
    yield from _heading(passage, boards, side == "black")
    yield from file_doubts(passage, boards)


def _named(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Kingside and queenside of a square, of the move told in the same breath, of the man asked for."""
    text = passage.text
    for found in _ON_WING.finditer(text):
        if _is_right(chess.parse_square(found["square"].lower())) != (found["wing"].lower() == "king"):
            yield _doubt(found, "wing", f"{found['square']} is on the other wing.")
    yield from _answer(passage, boards)
    for found in _TOUCHED.finditer(text):
        next_one = next((turn for at, turn in passage.turns if found.end() <= at <= found.end() + 4), None)
        near = [chess.Move.from_uci(next_one.uci).to_square] if next_one else []
        if near and not denied(text, found.start()) and not _lies(near, found["wing"] == "king"):
            yield _doubt(found, "wing", "What is told here lies on the other wing.")


def _told(passage: Passage, offset: int) -> list[chess.Square]:
    """Where the moves go that words at a character are about: the last one told, or those replied to."""
    before = [turn for at, turn in passage.turns if at < offset]
    if before:
        return [chess.Move.from_uci(before[-1].uci).to_square]
    if passage.role in ("reply", "also"):
        return [chess.Move.from_uci(place.moves[-1]).to_square for place in passage.replied if place.moves]
    return []


def _stirring(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """A wing said of the move right before: what moves there, what is won, opened or pointed at there."""
    text = passage.text
    for found in _GOES_ON.finditer(text):
        told = [(at, turn) for at, turn in passage.turns if at < found.start() + 1]
        if not told or len(SENTENCE_END.findall(text[told[-1][0] : found.start() + 1])) > 1:
            continue
        move = chess.Move.from_uci(told[-1][1].uci)
        man = boards.of(told[-1][1].after).piece_type_at(move.to_square)
        coming = [turn for at, turn in passage.turns if at > found.start()][:1] or passage.ahead[:1]
        near = [move.to_square, *(chess.Move.from_uci(turn.uci).to_square for turn in coming)]
        if KINDS.get(found["kind"] or "", man) == man and not _lies(near, found["wing"] == "king"):
            yield _doubt(found, "wing", "What is told here lies on the other wing.")
    for pattern in (_OF_MOVE, _THAT_MAN, _WON_ON, _STIRS, _OPENS):
        for found in pattern.finditer(text):
            near, group = _told(passage, found.start()), "wing"
            if pattern is _STIRS and found["wing2"]:
                group = "wing2"
            if pattern is _WON_ON:
                turns = [turn for at, turn in passage.turns if at < found.start() and "x" in turn.san]
                near = [chess.Move.from_uci(turn.uci).to_square for turn in turns]
            if near and not denied(text, found.start()) and not _lies(near, found[group] == "king"):
                yield _doubt(found, group, "What is told here lies on the other wing.")
    for found in _FACING.finditer(text):
        late = "" if found["wing"] else "2"
        pair = {number_of(found["one" + late].lower()), number_of(found["two" + late].lower())}
        here = [boards.of(one) for one in (*passage.places(), *(turn.after for turn in passage.ahead))]
        right = found["wing" + late].lower() == "king"
        so = any(pair == set(_pawns(board, right)) for board in here)
        if passage.before.moves and not so and any(pair == set(_pawns(board, not right)) for board in here):
            yield _doubt(found, "wing" + late, "So many pawns face each other on the other wing.")
    for found in _POINTS.finditer(text):
        first, _ = sentence(text, *found.span())
        words = text[first : found.start()]
        named = [chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", words)]
        if len(named) >= 2 and not denied(text, found.start()):
            far = chess.square_file(named[-1]) - chess.square_file(named[0])
            if far and (far > 0) != (found["wing"] == "king"):
                yield _doubt(found, "wing", "It points to the other wing.")
    if passage.answer is None or passage.role not in ("nudge", "otherwise"):
        return
    move, before = chess.Move.from_uci(passage.answer.uci), boards.of(passage.answer.before)
    for found in _LOOK_AT.finditer(text) if before.is_castling(move) else ():
        if _is_right(move.to_square) != (found["wing"] == "king"):
            yield _doubt(found, "wing", "The answer castles on the other wing.")


def _pawns(board: chess.Board, right: bool) -> list[int]:
    """How many pawns either side has on a half of the board."""
    return [sum(_is_right(man) == right for man in board.pieces(chess.PAWN, white)) for white in chess.COLORS]


def _heading(passage: Passage, boards: Boards, turned: bool) -> Iterator[Doubt]:
    """Where the side that has just moved looks or goes: to the left or to the right."""
    text = passage.text
    for found in _HEADS.finditer(text):
        told = [(at, turn) for at, turn in passage.turns if at < found.start()]
        if not told or denied(text, found.start()) or _of_sentence(passage, found):
            continue
        between = text[told[-1][0] : found.start()]
        close = len(SENTENCE_END.findall(between)) <= 2 and not re.search(
            r"\b(?:but|while|[WwOo](?:e|ur))\b", between
        )
        if close and not _lies(_told(passage, found.start()), _half(found["hand"], turned)):
            yield _doubt(found, "hand", "The move told here goes to the other side of the board.")
    for found in _LOOK_LEFT.finditer(text):
        near = _spoken_of(passage)
        if near and not _lies(near, turned):
            yield _doubt(found, "hand", "The answer lies on the other side of the board.")


def _answer(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """A wing in a nudge is the one where the man asked for stands; pawns in a question, where they go."""
    if passage.answer is None:
        return
    move = chess.Move.from_uci(passage.answer.uci)
    if passage.role == "nudge" and not boards.of(passage.answer.before).is_castling(move):
        for found in _ANY.finditer(passage.text):
            if _is_right(move.from_square) != (found["wing"] == "king"):
                yield _doubt(found, "wing", "The man that moves stands on the other side.")
    if passage.role == "question" and passage.question is not None and passage.question.kind == "move":
        for found in _MEN_OF.finditer(passage.text):
            far = _is_right(move.to_square) != (found["wing"].lower() == "king")
            if far and not re.search(r"\bcastl", passage.text):
                yield _doubt(found, "wing", f"{passage.answer.san} is on the other wing.")


def _hands(passage: Passage, boards: Boards, side: str) -> Iterator[Doubt]:
    """Left and right, which are those of whoever sits at the board and looks at it."""
    text, turned = passage.text, side == "black"
    for found in _ARRIVED.finditer(text):
        white = found["who"] == "White"
        front = [
            man
            for man in boards.of(passage.at(found.start())).pieces(chess.PAWN, white)
            if (chess.square_rank(man) if white else 7 - chess.square_rank(man)) >= 3
            and chess.square_file(man) not in _MIDDLE
        ]
        if front and not _lies(front, _half(found["hand"], turned)):
            yield _doubt(found, "hand", "Those pawns are on the other side of the board.")
    for found in _RUNS.finditer(text):
        men = [
            man
            for place in passage.places()
            for white in ((found["who"] == "white",) if found["who"] else chess.COLORS)
            for man in boards.of(place).pieces(KINDS[found["kind"]], white)
        ]
        if men and not _lies(men, _half(found["hand"], turned)):
            yield _doubt(found, "hand", f"The {found['kind']} is on the other side of the board.")
    for found in _FILES_TO.finditer(text):
        for place in passage.replied[:1]:
            if place.moves and found["whose"] != "the":
                home = chess.Move.from_uci(place.moves[0 if not passage.turns else -1]).to_square
                file = "abcdefgh".index(found["file"])
                to_right = (file > chess.square_file(home)) != turned
                if file != chess.square_file(home) and to_right != (found["hand"] == "right"):
                    yield _doubt(found, "hand", f"The {found['file']}-file lies on the other side of it.")
    for found in _HAND.finditer(text):
        group = "hand" if found["hand"] else "hand2"
        told = (one for pattern in (_ARRIVED, _RUNS, _STEP_TO) for one in pattern.finditer(text))
        if denied(text, found.start()) or any(one.start() <= found.start() < one.end() for one in told):
            continue
        near = _of_sentence(passage, found) or _spoken_of(passage)
        if near and not _lies(near, (found[group] == "right") != turned):
            yield _doubt(found, group, "What is told here lies on the other side of the board.")


def _of_sentence(passage: Passage, found: re.Match[str]) -> list[chess.Square]:
    """The squares that the sentence names, and those its moves go to."""
    text = passage.text
    first, last = sentence(text.replace(":", ","), *found.span())
    squares = [chess.parse_square(name) for name in re.findall(rf"\b{SQUARE}\b", text[first:last])]
    return squares + [
        chess.Move.from_uci(turn.uci).to_square for at, turn in passage.turns if first <= at < last
    ]


def _spoken_of(passage: Passage) -> list[chess.Square]:
    """Where the answer goes, in a question's own words; elsewhere the other side may be meant as well."""
    if passage.answer is None or passage.role not in ("question", "nudge"):
        return []
    return [chess.Move.from_uci(passage.answer.uci).to_square]


def _half(word: str, turned: bool) -> bool:
    """Whether a word for a half of the board means the one with the higher files."""
    return word == "kingside" if word.endswith("side") else (word == "right") != turned


def _lies(squares: list[chess.Square], right: bool) -> bool:
    """Whether any of the squares may be said to lie on that half; the middle files are on both."""
    return any(chess.square_file(square) in _MIDDLE or _is_right(square) == right for square in squares)


def _is_right(square: chess.Square) -> bool:
    return chess.square_file(square) > 3


def _doubt(found: re.Match[str], group: str, message: str) -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-wing", message)
