"""Prose against the captures told, answered and looked back at: what is said to be taken or left alone."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import KIND, KINDS, SQUARE, sentence
from player.facts.place import Place

_MAN = (
    r"(?:[Tt]he|[Aa]|[Oo]ur|[Hh]is|[Hh]er|[Mm]y|[Yy]our) (?:white |black )?"
    rf"(?:[a-h]-)?{KIND}(?: on {SQUARE})?"
)
_LEFT_ALONE = re.compile(
    r"\b(?:(?:does not|doesn't|do not|don't|did not|didn't) (?:re)?(?:take|capture)\b|"
    r"(?:declines?|refuses?|declined|refused)\b(?! the)|"
    r"(?:leaves?|left) (?:it|him|her|(?:the|that|his|her) \w+) (?:alone|there|be|where it is|standing)|"
    r"(?:stays?|stayed) (?:where (?:it|he|she) (?:is|was)|put|at home)|(?:steps?|stepped) aside|"
    r"keeps? (?:his|her|the|its|our) \w+ at home|"
    r"(?:lets|let) (?:it|him|her|(?:the|that|his|her) \w+) (?:be|live|go|stay)\b|"
    r"(?:walks?|walked|goes?|pass|passes) past|(?:only|merely|just) looks (?:at|on)\b|"
    r"(?:avoids?|spares?) (?:it|him|her|(?:the )?\w+)\b)"
)
_QUIETLY = re.compile(
    r"\bwithout (?:taking|capturing|a capture|any capture)\b|\btaking nothing\b|"
    r"\bto (?:the|an) empty square\b"
    r"|\b[Nn]obody (?:takes|took|captures)\b|\bnot a capture\b|\bno capture\b|\bwhich takes nothing\b"
)
_CAPTURES = re.compile(r"\b(?:taking|capturing) (?:the|a|his|her|our|on|it|that)\b")
_SUBJECT = re.compile(
    r"(?:and |but |then |here |now |so |once again )*"
    rf"(?:(?P<side>White|Black)|[Hh]e|[Ss]he|[Ii]t|[Ww]e|[A-Z]\w+|{_MAN}"
    r"(?: behind| beside it)?)? ?(?:simply |just |quietly |politely )?"
)
_TAKES = re.compile(r"\b(?:takes?|took|captures?|recaptures?|taking|capturing)\b")
_NOT_NOW = re.compile(
    rf"\b(?:cannot|can't|may not|must not|will not|does not|did not) (?:take|capture|recapture)"
    rf"(?: it| him| her| back| this one| that one| on {SQUARE}| (?:the|a) {KIND})?[,:]? $"
)
_DID_NOT = re.compile(
    rf"\b(?P<who>White|Black|[Hh]e|[Ss]he|(?!It\b|That\b|This\b|No|Every|They\b)[A-Z]\w+) "
    rf"(?:(?P<not>did not|didn't|has not|never) (?:take|taken|took)|"
    r"(?P<left>declined|left it alone|let it be)|took)"
    rf"(?P<what> it| him| her| back| (?:the|that) (?P<kind>{KIND}))?(?: at once)?(?=[.,;!])"
)
_OPENING = re.compile(
    rf"^(?P<kind>{KIND})\b[^.;:,]*?\b(?P<square>{SQUARE})?[^.;:]*?(?=,? (?:because|for|since|as)\b|[.;:])",
    re.I,
)
_IF_NOT = re.compile(
    r"(?:And |But |What )?[Ii]f (?P<who>White|Black|he|she|[A-Z]\w+|the [\w-]+) "
    r"(?P<it>(?:does not|doesn't|will not|won't|refuses to|did not) (?:re)?(?:take|capture)|declines|"
    r"leaves it alone)"
)
_IF_TAKES = re.compile(
    r"(?:(?:(?:And |But |What )?[Ii]f|When|Suppose|After) (?:White|Black|he|she|it|[A-Z]\w+|the [\w-]+)|"
    r"The (?:move|pawn|man|one) that) (?P<it>takes|captures|recaptures)"
    r"(?: back| it| him| her| there| at once)?$"
)
_IF = re.compile(r"\b(?:[Ii]f|[Ww]hen|[Oo]nce|[Ww]hy|[Uu]nless|[Uu]ntil|[Hh]ad)\b")


def captured_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about captures that are said, denied, held possible or impossible."""
    if passage.role in ("idea", "part"):
        return
    yield from _told(passage, boards)
    yield from _opening(passage, boards)
    yield from _looked_back(passage, boards)
    found = _IF_NOT.match(passage.text) or _IF_TAKES.match(passage.text)
    if found is None or passage.role != "title" or not passage.ahead:
        return
    first = passage.ahead[0].san
    if found.re is _IF_TAKES:
        if not any("x" in turn.san for turn in passage.ahead[:2]):
            yield _doubt(found, "it", f"The first move told here, {first}, takes nothing.")
    elif "x" in first:
        other = "Black" if boards.of(passage.ahead[0].before).turn else "White"
        if found["who"] != other:
            yield _doubt(found, "it", f"The first move told here, {first}, does take something.")


def _doubt(found: re.Match[str], group: str | int, message: str) -> Doubt:
    return Doubt(found.start(group), found.end(group), "prose-capture", message)


def _took(place: Place, boards: Boards) -> bool:
    """Whether the last move of a place is a capture."""
    if not place.moves:
        return False
    before = boards.of(Place(place.root, place.moves[:-1]))
    return before.is_capture(chess.Move.from_uci(place.moves[-1]))


def _san(place: Place, boards: Boards) -> str:
    return boards.of(Place(place.root, place.moves[:-1])).san(chess.Move.from_uci(place.moves[-1]))


def _told(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Words told for a capture, or right before it, that say nothing is taken; the other way round too."""
    text = passage.text
    for number, (at, turn) in enumerate(passage.turns):
        stop = passage.turns[number + 1][0] if number + 1 < len(passage.turns) else len(text)
        close = re.compile(r"[.;:!?](?=\s|$)").search(text, at)
        stop = min(stop, close.start() if close else len(text))
        written = text.startswith(turn.san.rstrip("+#"), at)
        takes = "x" in turn.san
        for pattern in (_LEFT_ALONE, _QUIETLY) if takes else ():
            for found in pattern.finditer(text, at, stop):
                lead = text[at : found.start()]
                mover = boards.of(turn.before).turn
                said = _SUBJECT.fullmatch(lead)
                if pattern is _LEFT_ALONE and (
                    written
                    or not said
                    or (said["side"] and (said["side"] == "White") != mover)
                    or not _spares(text[found.start() : stop], found[0], turn.after, boards)
                ):
                    continue
                if pattern is _QUIETLY and len(lead) > 60:
                    continue
                yield _doubt(found, 0, f"{turn.san} does take something.")
        lead_at = passage.turns[number - 1][0] if number else 0
        off = _NOT_NOW.search(text, lead_at, at) if takes else None
        if off is None and takes and not written and text[max(0, at - 1)] != " ":
            off = re.compile(_LEFT_ALONE.pattern + r"(?: back| it)?[,.;:]? ?$").search(text, lead_at, at)
        if off is not None:
            yield _doubt(off, 0, f"{turn.san} does take something.")


def _spares(rest: str, words: str, place: Place, boards: Boards) -> bool:
    """Whether words to the end of a sentence leave the man alone that the last move of a place takes."""
    named = re.search(KIND, words)
    if named and KINDS[named[0]] != _kind_taken(place, boards):
        return False
    return not _TAKES.search(rest[len(words) :])


def _opening(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """The beginning of a nudge that tells the answer: "Pawn steps to f6 without taking, because"."""
    if passage.role != "nudge" or passage.answer is None:
        return
    head = _OPENING.match(passage.text)
    answer = chess.Move.from_uci(passage.answer.uci)
    before = boards.of(passage.answer.before)
    if head is None or before.piece_type_at(answer.from_square) != KINDS[head["kind"].lower()]:
        return
    takes = before.is_capture(answer)
    named = re.search(SQUARE, head[0])
    if (named and chess.parse_square(named[0]) != answer.to_square) or (
        not named and passage.rung < passage.rungs
    ):
        return
    wrong = re.compile(_QUIETLY.pattern + "|" + _LEFT_ALONE.pattern) if takes else _CAPTURES
    found = wrong.search(passage.text, 0, head.end())
    if found:
        takes_it = "does take something" if takes else "takes nothing"
        yield _doubt(found, 0, f"The answer, {passage.answer.san}, {takes_it}.")


def _looked_back(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "He did not take" or "He took", of the move just told or the one that a side line stood beside."""
    text = passage.text
    for found in _DID_NOT.finditer(text):
        if _IF.search(text[sentence(text, *found.span())[0] : found.start()]):
            continue
        played, other = _played(passage, boards, found.start())
        if played is None:
            continue
        takes = _took(played, boards)
        if (found["not"] or found["left"]) and takes and not (other and _took(other, boards)):
            kind = _kind_taken(played, boards)
            if found["kind"] and KINDS[found["kind"]] != kind:
                continue
            yield _doubt(found, 0, f"{_san(played, boards)} does take something.")
        elif (
            not found["not"] and passage.role == "back" and not takes and not (other and _took(other, boards))
        ):
            coming = [turn.san for turn in passage.ahead[:2]]
            if not any("x" in san for san in coming) and found["who"] not in ("White", "Black"):
                yield _doubt(found, 0, f"{_san(played, boards)} takes nothing.")


def _kind_taken(place: Place, boards: Boards) -> int:
    before = boards.of(Place(place.root, place.moves[:-1]))
    return before.piece_type_at(chess.Move.from_uci(place.moves[-1]).to_square) or chess.PAWN


def _played(passage: Passage, boards: Boards, offset: int) -> tuple[Place | None, Place | None]:
    """The move that words look back at, and the one it was told beside."""
    before = passage.before
    if passage.role == "back":
        beside = [
            one for one in passage.near if one.moves[:-1] == before.moves[:-1] and one.root == before.root
        ]
        beside = [one for one in beside if one.moves and one != before]
        if beside and before.moves:
            return before, beside[0]
        ahead = passage.ahead[0].after if passage.ahead else None
        inside = [
            one for one in passage.near if one.moves[:-1] == before.moves and one.moves and one != ahead
        ]
        return ahead, inside[0] if inside else None
    told = [(at, turn) for at, turn in passage.turns if at < offset]
    if passage.role != "told" or not told:
        return None, None
    last = told[-1][1]
    coming = [turn for at, turn in passage.turns if at > offset][:1] or list(passage.ahead[:1])
    who = re.match(r"White|Black", passage.text[offset:])
    if who and (who[0] == "White") != boards.of(last.before).turn:
        return None, None
    if not who and coming and "x" not in coming[0].san:
        return None, None
    return last.after, None
