"""Prose against what is seen: "from e3 the knight looks at d5", "it hits f7", said of a move right here."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.geometry import view
from player.check.prose.passages import Boards, Passage, tight_places
from player.check.prose.standing import can_reach, history
from player.check.prose.words import HYPOTHETICAL, KIND, KINDS, SQUARE, clause, denied, sentence
from player.facts.place import Place

_KEEP = r"guards?|defends?|protects?|covers?|controls?|supports?|watch(?:es)?|holds"
_SEE = (
    rf"(?:{_KEEP}|attacks?|hits?|bites?|eyes|strikes? at|(?:points?|aims?|stares?|glances?) at|"
    r"looks? (?:(?:straight|right|down|over|across|also|all the way) )*(?:at|to|towards)|"
    r"keeps? an eye on|takes? aim at|bears? (?:down )?on)"
)
_LIST = rf"{SQUARE}(?:(?:,? (?:and|or)(?: also)?(?: at| on)?|,(?: at)?) {SQUARE})*"
_MAN = rf"the|his|her|our|your|that|this|white|black|White's|Black's|it|she|he|{KIND}"
_FROM = re.compile(
    rf"\b[Ff]rom (?P<origin>there|{SQUARE}),?"
    rf" (?:(?:{_MAN}|still|also|then|now|both|always|already|even|only|at once) )*"
    rf"(?P<verb>{_SEE}) (?P<list>{_LIST})\b(?!-)"
)
_ON = re.compile(
    rf"\b(?P<kind>{KIND}) (?:on|from) (?P<origin>{SQUARE})"
    r" (?:(?:may|can|could|would|will|now|also|still|then|already|always|only|even|does|has to) )*"
    rf"(?P<verb>{_SEE}) (?P<list>{_LIST})\b(?!-)",
    re.IGNORECASE,
)
_CONTACT = re.compile(
    rf"\b(?:{_SEE}|stands|sits|waits) (?:the|his|her|our|your|White's|Black's) (?:white |black )?"
    rf"(?P<kind>{KIND}) on (?P<square>{SQUARE})\b",
    re.IGNORECASE,
)
_FIRM = re.compile(
    rf"\b[Tt]he (?P<kind>{KIND}) on (?P<square>{SQUARE}) (?:already )?"
    r"(?:is|stands|sees|has|holds|looks|keeps|waits|bites|guards)\b(?! then)"
)
_IT = re.compile(
    r"(?:^|(?<=[.!?:;,] )|\b(?:and|because|for|but) )(?:[Ii]t|[Tt]his|(?P<she>[Ss]he))"
    rf"(?: also| even| now| at least| at once)? (?:(?P<verb>{_SEE}) (?P<list>{_LIST})\b(?!-)|"
    rf"(?P<takes>takes|steals) (?P<taken>{_LIST}) (?:away )?from\b)|"
    rf"\bit [^.;:,]{{3,30}} and takes (?P<too>{_LIST}) (?:away )?from\b"
)
_OTHER = re.compile(rf"\b(?:{KIND}|man|men|piece|wedge|one|side)s?\b", re.IGNORECASE)
_ANSWER = re.compile(rf"^(?:The )?{KIND} (?:takes |to |on )+{SQUARE}(?: with check)?, ", re.IGNORECASE)


def view_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about squares that cannot be seen from where the man spoken of stands, or is to stand."""
    if passage.role in ("idea", "part"):
        return
    yield from _seen(passage, boards)
    yield from _touched(passage, boards)
    yield from _spoken_of(passage, boards)


def squares_in(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """The squares named between two characters, and where."""
    for one in re.finditer(SQUARE, text[start:end], re.IGNORECASE):
        yield chess.parse_square(one[0].lower()), start + one.start()


def _seen(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "From e3 the knight looks at d5", "the bishop on h7 may look at e4"."""
    text = passage.text
    here = [boards.of(place) for place in tight_places(passage, 0)]
    here += [boards.of(turn.after) for turn in passage.ahead[:1]]
    for found in _FROM.finditer(text):
        first, _ = clause(text, *found.span())
        origin, lead = found["origin"], text[: found.start()]
        named = re.findall(SQUARE, lead)
        if denied(text, found.start("verb")) or (origin == "there" and not named):
            continue
        square = chess.parse_square(named[-1] if origin == "there" else origin)
        words = text[found.start() : found.start("verb")] + " " * (origin != "there")
        subjects = re.findall(rf"\b{KIND}\b", words, re.IGNORECASE)
        if not subjects and origin == "there":
            subjects = re.findall(
                rf"\b{KIND}\b", lead[sentence(text, max(0, first - 1), first)[0] :], re.IGNORECASE
            )[-1:]
        kinds = {KINDS[one.lower()] for one in subjects[:1]} or {
            kind for board in here if (kind := board.piece_type_at(square))
        }
        strict = passage.role in ("reply", "also") and not HYPOTHETICAL.search(text[first : found.end()])
        if strict and kinds and origin != "there" and not any(_may_stand(one, square, kinds) for one in here):
            message = f"No such man comes to {origin} here."
            yield Doubt(found.start("origin"), found.end("origin"), "prose-square", message)
        elif kinds:
            yield from _unseen(text, found, "list", square, kinds)
    for found in _ON.finditer(text):
        if not denied(text, found.start("verb")):
            square, kind = chess.parse_square(found["origin"].lower()), KINDS[found["kind"].lower()]
            later = HYPOTHETICAL.search(text[found.start("origin") : found.start("verb")])
            yield from _unseen(text, found, "list", square, {kind}, 2 if later else 1)


def _touched(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "It bites the pawn on d6": such a man stands there."""
    text = passage.text
    firm = passage.role in ("nudge", "because", "otherwise", "reply")
    for found in (*_CONTACT.finditer(text), *(_FIRM.finditer(text) if firm else ())):
        first, _ = clause(text, *found.span())
        words = text[first : found.end()] + " " + text[found.end() :][:12].replace("at once", "")
        if denied(text, found.start()) or HYPOTHETICAL.search(words):
            continue
        square, kind = chess.parse_square(found["square"].lower()), KINDS[found["kind"].lower()]
        around = [
            boards.of(place) for place in (*tight_places(passage, found.start()), *history(passage)[:2])
        ]
        if not any(board.piece_type_at(square) == kind for board in around):
            message = f"No {found['kind'].lower()} stands on {found['square']} here."
            yield Doubt(found.start("square"), found.end("square"), "prose-man", message)


def _may_stand(board: chess.Board, square: int, kinds: Iterable[int]) -> bool:
    return any(board.piece_type_at(square) == kind or can_reach(board, square, kind) for kind in kinds)


def _unseen(
    text: str, found: re.Match[str], group: str, square: int, kinds: Iterable[int], moves: int = 1
) -> Iterator[Doubt]:
    for one, at in squares_in(text, *found.span(group)):
        if not any(one in view(kind, square, moves) for kind in kinds):
            message = f"{chess.SQUARE_NAMES[one]} cannot be seen from {chess.SQUARE_NAMES[square]}."
            yield Doubt(at, at + 2, "prose-hit", message)


def _spoken_of(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "It hits d5", said of the learner's move, of the answer, or of the move just told."""
    text = passage.text
    for found in _IT.finditer(text):
        lead = _ANSWER.sub("", text[: found.start()])
        if (_OTHER.search(lead) and passage.role != "told") or "indirect" in text:
            continue
        if passage.role in ("reply", "also"):
            said = [turn.after for at, turn in passage.turns if at < found.start()][-1:]
            places = said or list(passage.replied)
        elif passage.role in ("nudge", "because") and passage.answer:
            places = [passage.answer.after]
        elif passage.role == "told":
            places = _just_told(passage, found.start())
        else:
            continue
        if any(_is_king(boards, place) for place in places):
            continue
        if found["she"] and not all(_moved(boards, place) == chess.QUEEN for place in places):
            continue
        keeps = bool(found["verb"] and re.fullmatch(_KEEP, found["verb"]))
        group = next(name for name in ("list", "taken", "too") if found[name])
        for one, at in squares_in(text, *found.span(group)):
            if places and not any(one in _newly_seen(boards, place, keeps) for place in places):
                message = f"The move spoken of does not look at {text[at : at + 2]}."
                yield Doubt(at, at + 2, "prose-hit", message)


def _just_told(passage: Passage, at: int) -> list[Place]:
    """The place of the only move that the sentence before this character tells or names by its square."""
    text = passage.text[:at].rstrip()
    if not text.endswith((".", "!", "?")):
        return []
    first, _ = sentence(text, len(text) - 1, len(text) - 1)
    turns = [turn.after for one, turn in passage.turns if first <= one]
    names = re.findall(rf"\b{SQUARE}\b", text[first:])
    if len(turns) > 1 or len(set(names)) != 1 or _OTHER.search(text[first:]):
        return []
    here = turns[0] if turns else passage.at(at)
    moves = here.moves
    for ply in range(len(moves), max(0, len(moves) - 5), -1):
        if moves[ply - 1][2:4] == names[0]:
            return [Place(here.root, moves[:ply])]
    return []


def _is_king(boards: Boards, place: Place) -> bool:
    return not place.moves or _moved(boards, place) in (None, chess.KING)


def _moved(boards: Boards, place: Place) -> int | None:
    return boards.of(place).piece_type_at(chess.parse_square(place.moves[-1][2:4])) if place.moves else None


def _newly_seen(boards: Boards, place: Place, keeps: bool) -> chess.SquareSet:
    """What the last man moved looks at, through others too, and what its move has opened to its friends."""
    after, before = boards.of(place), boards.of(Place(place.root, place.moves[:-1]))
    to = chess.parse_square(place.moves[-1][2:4])
    opened = chess.SquareSet()
    for man in chess.SquareSet(0 if keeps else after.occupied_co[not after.turn]):
        opened |= after.attacks(man) - before.attacks(man)
    return opened | view(after.piece_type_at(to) or chess.PAWN, to)
