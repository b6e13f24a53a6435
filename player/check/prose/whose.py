"""Prose against colours in fixed turns of speech: whose fork, turn, opposition, whose men guard."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.words import KIND, SENTENCE_END, SQUARE, denied, supposed

_GUARDS = re.compile(
    rf"\b(?P<who>white|black) (?:men|pieces|pawns) (?:guard|defend|protect|support)s? the (?P<kind>{KIND}) on"
    rf" (?P<square>{SQUARE})\b",
    re.IGNORECASE,
)
_WHICH = re.compile(r"\b[Ww]hich (?:single |one |quiet )?(?P<who>white|black) (?:move|step|capture|check)\b")
_OF_OWN = re.compile(
    r"\b(?P<who>White|Black) (?:now |also |still )?has an? (?:\w+ )?(?:of (?:his|her) own|ready)[,:]? $"
)
_TITLE = re.compile(r"\b[Ii]f it is (?P<who>White|Black)'s (?:turn|move)\b")
_YOURS = re.compile(
    rf"\b[Tt]he (?P<who>white|black) (?P<kind>{KIND}) (?:looks? at|faces|eyes|attacks|hits) (?:yours|your)\b"
)
_OPPOSITION = re.compile(
    r"\b(?P<who>White|Black) (?:even |now |still |already )?(?:has|holds) the opposition\b"
)
_BACK = re.compile(
    rf"\b(?P<who>White|Black)'s (?P<kind>{KIND}) (?:recaptures|takes back|retakes) on (?P<square>{SQUARE})\b"
)
_STEPS = re.compile(
    r"\bhow many squares (?:can|may|could) the (?P<who>white|black) king (?:step|go|move|walk|flee)\b",
    re.IGNORECASE,
)

_INTRO = re.compile(
    r"(?:^|[.;:!?] )(?P<intro>If|When|Suppose|Once|Should|So|Then|Now|Here|But|And|Only now)"
    r" (?P<who>White|Black)"
    r" (?:(?!(?:and|so|but|while|because|as|for|our|he|she|they|the|wants?|threat\w*|has|is|hopes?)"
    r" )[a-z]+ )*"
    rf"(?:(?:in front of|behind|beside|next to) the {KIND}, $|[a-z]+(?P<close>, (?:say|for instance|"
    rf"perhaps)(?: with)?| with|,|:)? )?$"
)
_AFTER_ALL = re.compile(r"(?:^|[.;] )(?:And |But |So )?(?P<who>White|Black), [^,.;:]*, [a-z]+s [^.;:]*: $")
_IN_TURN = re.compile(
    r"\b(?P<who>White|Black) [a-z]+s [^.:;,]*, (?:and|then|while) (?P<who2>White|Black) [a-z]+s [^.:;,]*: $"
)
_THEIR_MAN = re.compile(
    rf"\b(?P<who>White|Black)'s (?:{KIND} )?(?:stands|steps|comes|goes|runs|walks|takes|jumps|"
    rf"drops)\b[^.;:]*: $"
)
_HANDLES = re.compile(
    r"(?:^|[.;!] )(?P<who>White|Black) (?:then |now |first )?(?:lets|brings|puts|sends|leads|develops|moves)"
    r" (?:it|him|her)\b"
)
_MUST = re.compile(
    r"[^.;:!?]*, (?:and|so|but) (?P<who>White|Black) (?:must|has to) (?:now |then )?(?:choose|decide|"
    r"take|recapture|"
    r"give|move|reply|answer|step|go|let|lose|run)\b"
)


def whose_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about a colour said to move, own, guard or suffer something."""
    if passage.role in ("idea", "part"):
        return
    yield from _asked(passage, boards)
    yield from _moving(passage, boards)
    yield from _standing(passage, boards)


def _white(found: re.Match[str]) -> bool:
    return found["who"].lower() == "white"


def _doubt(found: re.Match[str], message: str, group: str = "who", code: str = "prose-side") -> Doubt:
    return Doubt(found.start(group), found.end(group), code, message)


def _asked(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Colours in a question: whose move is asked for, whose men are counted."""
    text, asked = passage.text, passage.question
    if asked is None or passage.role != "question":
        return
    board = boards.of(passage.before)
    for found in _GUARDS.finditer(text):
        piece = board.piece_at(chess.parse_square(found["square"]))
        if piece and piece.color != _white(found):
            yield _doubt(found, "Men guard those of their own colour; this one is of the other.")
    if passage.answer is not None:
        turn = boards.of(passage.answer.before).turn
        for found in _WHICH.finditer(text):
            if turn != _white(found):
                yield _doubt(found, "The answer is a move of the other side.")
    for found in _YOURS.finditer(text):
        if asked.kind == "move" and board.turn == _white(found):
            yield _doubt(found, "The one who is asked has these men.")
    for found in _STEPS.finditer(text):
        king = board.king(_white(found))
        numbers = [int(one) for one in asked.answers if one.isdigit()]
        if asked.kind == "count" and king is not None and numbers:
            free = _steps(board, king, _white(found))
            if free not in numbers:
                yield _doubt(found, f"That king has {free} squares to go to.")


def _steps(board: chess.Board, king: int, white: bool) -> int:
    copy = board.copy(stack=False)
    copy.turn = white
    return sum(move.from_square == king and not copy.is_castling(move) for move in copy.legal_moves)


def _moving(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Colours right before a move, and of the man that the last move hits."""
    text, end = passage.text, 0
    for at, turn in passage.turns:
        mover = boards.of(turn.before).turn
        found = _OF_OWN.search(text, end, at)
        if found and found.end() == at and mover != _white(found):
            yield _doubt(found, f"{turn.san} is the other side's move.")
        next_one = next((one for there, one in passage.turns if there > at), None)
        for pattern in (_INTRO, _THEIR_MAN, _AFTER_ALL, _IN_TURN):
            if pattern is _IN_TURN and next_one is None:
                continue
            found = pattern.search(text, end, at)
            iffy = (
                pattern is _INTRO and found and found["intro"] in ("If", "When", "Suppose", "Once", "Should")
            )
            if found is None or (iffy and found["close"] in (",", ":")):
                continue
            if re.search(r"^\W*(?:Now|Here|Then) \w+ (?:would|could|might)\b", found[0]):
                continue
            if mover != _white(found):
                yield _doubt(found, f"{turn.san} is the other side's move.")
            elif pattern is _IN_TURN and next_one and (found["who2"] == "White") == mover:
                yield _doubt(found, f"{next_one.san} is the other side's move.", "who2")
        found = _MUST.match(text, at)
        if found and boards.of(passage.at(found.start("who"))).turn != _white(found):
            yield _doubt(found, f"After {turn.san} it is the other side who must.")
        end = at
    for found in _HANDLES.finditer(text):
        told = [(at, turn) for at, turn in passage.turns if at < found.start("who")]
        close = told and len(SENTENCE_END.findall(text[told[-1][0] : found.start("who")])) <= 1
        if close and boards.of(told[-1][1].before).turn != _white(found):
            yield _doubt(found, f"{told[-1][1].san} is the other side's move.")
    if passage.role == "title":
        for found in _TITLE.finditer(text):
            start = passage.ahead[0].before if passage.ahead else passage.before
            if boards.of(start).turn != _white(found):
                yield _doubt(found, "In this position the other side is to move.", code="prose-turn")


def _standing(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Opposition, taking back, chasing from a square."""
    text = passage.text
    for found in _OPPOSITION.finditer(text):
        if denied(text, found.start()) or supposed(text, *found.span(), wide=True):
            continue
        here = [boards.of(place) for place in tight_places(passage, found.start())]
        if not any(board.turn != _white(found) and _opposed(board) for board in here):
            yield _doubt(found, "It is that side which has to move, or the kings do not face each other.")
    for found in _BACK.finditer(text):
        square = chess.parse_square(found["square"])
        here = [boards.of(place) for place in passage.places()]
        if not any(board.color_at(square) == _white(found) for board in here):
            yield _doubt(found, f"No man of that side is to be taken on {found['square']}.")


def _opposed(board: chess.Board) -> bool:
    white, black = board.king(True), board.king(False)
    if white is None or black is None:
        return False
    across = abs(chess.square_file(white) - chess.square_file(black))
    up = abs(chess.square_rank(white) - chess.square_rank(black))
    return across % 2 == 0 and up % 2 == 0
