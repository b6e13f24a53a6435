"""Prose against what a move does: whether it takes, checks, mates, opens a line or shuts one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import KIND, KINDS, SENTENCE_END, SQUARE, clause, denied, sentence, supposed
from player.facts.place import Place

_IT = (
    r"(?:(?:^|(?<=[.!?:;] ))(?:And |But |Now |Here |Also )?(?:[Ii]t|[Tt]his|[Tt]hat|He|She)|"
    r"(?:, (?:and|because|since|as|for)|\band|\bbecause|\bsince|\bthat) it)"
    r"(?: (?:also|simply|even|just|at once|now|only))? "
)
_THE = r"(?:an?|the|his|her|our|my|your|that|this|White's|Black's|another)"
_LINE = r"(?:long |short |open |great |dark |light )?(?:line|diagonal|road|view)\b"
_WHOM = (
    rf"(?:somebody|someone|something|{_THE} (?:[a-z]+ )?(?:[a-h]-)?(?P<kind>{KIND}|man|piece))"
    r"\b(?!'|-| to\b)"
)
_LATER = re.compile(
    r"\b(?:then|next|later|soon|when|if|once|after|will|would|could|can|unless|until|first)\b|\?"
)
_NOT_THIS = re.compile(
    r"\b(?:after|without|instead of|before|for|not|no|than|avoids?|fears?|threatens?) (?:\w+ )?$", re.I
)


@dataclass(frozen=True, slots=True)
class Step:
    """A move, the board it is made on and the one it leaves."""

    before: chess.Board
    move: chess.Move
    after: chess.Board

    @property
    def san(self) -> str:
        return self.before.san(self.move)

    def kind(self) -> int:
        return self.before.piece_type_at(self.move.from_square) or chess.PAWN


_Fits = Callable[[Step, re.Match[str]], bool]


def _takes(step: Step, found: re.Match[str]) -> bool:
    return step.before.is_capture(step.move)


def _quiet(step: Step, found: re.Match[str]) -> bool:
    return not _takes(step, found)


def _checks(step: Step, found: re.Match[str]) -> bool:
    return step.after.is_check()


def _mates(step: Step, found: re.Match[str]) -> bool:
    return step.after.is_checkmate()


def _stalemates(step: Step, found: re.Match[str]) -> bool:
    return step.after.is_stalemate()


def _takes_one(step: Step, found: re.Match[str]) -> bool:
    kind = KINDS.get((found["kind"] or "").lower())
    prey = step.before.piece_type_at(step.move.to_square) or chess.PAWN
    return _takes(step, found) and kind in (None, prey)


def _sight(step: Step, wider: bool) -> bool:
    """Whether some man with long legs, the one that moves aside, sees more (or less) for the move."""
    sliders = chess.SquareSet(step.before.bishops | step.before.rooks | step.before.queens)
    for man in sliders - chess.SquareSet([step.move.from_square, step.move.to_square]):
        then, now = step.before.attacks(man), step.after.attacks(man)
        if now - then if wider else then - now:
            return True
    return False


def _opens(step: Step, found: re.Match[str]) -> bool:
    return _sight(step, True)


def _shuts(step: Step, found: re.Match[str]) -> bool:
    return _sight(step, False)


_CAPTURE, _CHECK, _MATE = "prose-capture", "prose-check", "prose-mate"
_LEADS: tuple[tuple[re.Pattern[str], _Fits, str, str], ...] = tuple(
    (re.compile(pattern), fits, code, message)
    for pattern, fits, code, message in (
        (r"\b(?P<it>(?:takes|captures|recaptures)(?: it| back| him| her| there)?)(?:: | )$", _takes,
         _CAPTURE, "{san} takes nothing."),
        (r"\b(?:one|an?|the|another|this|that|single|next) (?:[a-z]+ )?(?P<it>capture|recapture)(?:, |: | )$",
         _takes, _CAPTURE, "{san} takes nothing."),
        (r"\b(?P<it>quiet (?:little |pawn |king )?(?:move|step|push|advance|retreat))(?:, |: | )$", _quiet,
         _CAPTURE, "{san} does take something."),
        (r"\b(?P<it>(?:takes?|took|captures?|captured) nothing)[^.;:!?]{0,20}(?:: | )$", _quiet, _CAPTURE,
         "{san} does take something."),
        (r"\b(?P<it>checks (?:the|his|her|our|my|White's|Black's) king|gives (?:a )?check)"
         r"(?: (?!and|or|but|if|when|then)[a-z]+){0,3}(?:: | )$", _checks, _CHECK,
         "{san} does not give check."),
        (r"\b(?P<it>(?:check)?mates)(?: (?:him|her|the king))?(?: at once)?(?: with|:| by) $", _mates, _MATE,
         "{san} is no mate."),
    )
)  # fmt: skip
_AFTER = re.compile(
    r"(?:[.!?] |^)(?:And |Now |Ooh, )?(?P<it>(?P<what>Check|Mate|Checkmate|Stalemate))"
    r"(?=[.,;!—–]|: | (?:and|from|again|with|by)\b|$)"
)
_SAID: dict[str, tuple[_Fits, str]] = {
    "Check": (_checks, _CHECK),
    "Mate": (_mates, _MATE),
    "Checkmate": (_mates, _MATE),
    "Stalemate": (_stalemates, _MATE),
}
_OPENING = re.compile(
    r"^(?:A|An|The|Another|This|That is a|It is a) (?:[a-z]+ ){0,2}"
    r"(?P<it>(?P<what>capture|check))(?=[.,;!])"
)
_OF_IT: tuple[tuple[re.Pattern[str], _Fits, str, str], ...] = tuple(
    (re.compile(_IT + pattern), fits, code, message)
    for pattern, fits, code, message in (
        (rf"(?P<it>(?:takes|captures|eats|grabs) {_WHOM})", _takes_one, _CAPTURE,
         "{san} takes no such man."),
        (rf"(?P<it>(?:takes|captures) (?:on )?{SQUARE})(?! from| away|,? and {SQUARE})", _takes, _CAPTURE,
         "{san} takes nothing."),
        (rf"(?P<it>(?:opens|clears) (?:up )?{_THE} {_LINE})", _opens, "prose-formed",
         "No line is opened by {san}."),
        (rf"(?P<it>(?:closes|shuts|blocks|bars|interrupts|cuts) (?:off )?{_THE} {_LINE})", _shuts,
         "prose-formed", "No line is shut by {san}."),
        (r"(?P<it>gives (?:a )?check|checks the king|comes with check)\b", _checks, _CHECK,
         "{san} does not give check."),
    )
)  # fmt: skip
_STALE = re.compile(r"\b(?:is|be|been|was|were) (?P<it>stalemate)\b(?! (?:trap|trick|danger))")
_NOTHING = re.compile(
    r"\b(?P<it>(?:nothing|nobody|no one|no man) (?:is|was|has been) (?:taken|captured)|"
    r"(?:takes?|took|taking|captures?|captured) nothing)\b(?! for granted| away| from| yet)",
    re.IGNORECASE,
)


def deed_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about what is said of the move told right there, the learner's or the answer."""
    if passage.role in ("idea", "part", "title", "question", "choice"):
        return
    yield from _around_moves(passage, boards)
    text = passage.text
    for pattern, fits, code, message in _OF_IT:
        for found in pattern.finditer(text):
            first, last = sentence(text, *found.span())[0], clause(text, *found.span())[1]
            steps = [] if _LATER.search(text[first:last]) else _spoken(passage, boards, found.start("it"))
            named = re.findall(rf"\b{KIND}\b", text[: found.start("it")].lower())
            if not steps or (named and KINDS[named[-1]] not in {step.kind() for step in steps}):
                continue
            if not denied(text, found.start("it")) and not any(fits(step, found) for step in steps):
                yield _doubt(found, code, message.format(san=steps[0].san))
    for found in _NOTHING.finditer(text):
        steps = _spoken(passage, boards, found.start())[:1]
        told = found["it"][0].lower() in "tc" or passage.role in ("reply", "also")
        if told and any(_takes(step, found) for step in steps) and not supposed(text, *found.span()):
            yield _doubt(found, _CAPTURE, f"{steps[0].san} does take something.")
    if passage.role in ("reply", "also") and (opening := _OPENING.match(text) or _AFTER.match(text)):
        fits, code = _SAID.get(opening["what"], (_takes, _CAPTURE))
        fits = _checks if opening["what"] == "check" else fits
        code = _CHECK if fits is _checks else code
        steps = _spoken(passage, boards, 0)
        if steps and not any(fits(step, opening) for step in steps):
            yield _doubt(opening, code, f"{steps[0].san} is no {opening['what'].lower()}.")
    for found in _STALE.finditer(text):
        if not denied(text, found.start()) and not _can_stale(passage, boards):
            yield _doubt(found, _MATE, "No stalemate is near here.")


def _around_moves(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Words that lead to a move, or follow right after it."""
    text, end = passage.text, 0
    for number, (at, turn) in enumerate(passage.turns):
        step = _step(turn.after, boards)
        first = max(end, sentence(text.replace(":", ","), at, at)[0])
        for pattern, fits, code, message in _LEADS:
            found = pattern.search(text, first, at)
            if found is None or denied(text, found.start()) or _NOT_THIS.search(text, first, found.start()):
                continue
            if not fits(step, found):
                yield _doubt(found, code, message.format(san=turn.san))
        stop = passage.turns[number + 1][0] if number + 1 < len(passage.turns) else len(text)
        close = SENTENCE_END.search(text, at, stop)
        found = _AFTER.match(text, close.start()) if close else None
        back = number - 1  # "{Rxe8+} {Rxe8}. Check, and taken back": of moves told in one breath, either.
        one_breath = (
            number and not text[passage.turns[back][0] + len(passage.turns[back][1].san) : at].strip()
        )
        steps = [step, *([_step(passage.turns[back][1].after, boards)] if one_breath else [])]
        if found and found.end() <= stop and not any(_SAID[found["what"]][0](one, found) for one in steps):
            yield _doubt(found, _SAID[found["what"]][1], f"{turn.san} is no {found['what'].lower()}.")
        end = at + len(turn.san)


def _doubt(found: re.Match[str], code: str, message: str) -> Doubt:
    return Doubt(found.start("it"), found.end("it"), code, message)


def _step(place: Place, boards: Boards) -> Step:
    before = boards.of(Place(place.root, place.moves[:-1]))
    return Step(before, chess.Move.from_uci(place.moves[-1]), boards.of(place))


def _spoken(passage: Passage, boards: Boards, offset: int) -> list[Step]:
    """The move that words are about: the one told right before, with the next; the learner's, the answer."""
    told = [(at, turn.after) for at, turn in passage.turns if at < offset]
    if told:
        far = len(SENTENCE_END.findall(passage.text[told[-1][0] : offset])) > 1
        coming = [turn.after for at, turn in passage.turns if at >= offset][:1] or [
            turn.after for turn in passage.ahead[:1]
        ]
        return [] if far else [_step(one, boards) for one in (told[-1][1], *coming)]
    if passage.role in ("reply", "also") and passage.question and passage.question.kind == "move":
        return [_step(one, boards) for one in passage.replied if one.moves]
    if passage.role in ("nudge", "because", "otherwise") and passage.answer:
        return [_step(passage.answer.after, boards)]
    if passage.role in ("back", "told") and passage.moved:
        return [_step(one, boards) for one in (passage.moved, *(turn.after for turn in passage.ahead[:1]))]
    return []


def _can_stale(passage: Passage, boards: Boards) -> bool:
    """Whether some position near, or one move from there, is stalemate, or so few men are left."""
    for place in dict.fromkeys((*passage.places(), *(turn.after for turn in passage.ahead))):
        board = boards.of(place)
        if board.is_stalemate() or chess.popcount(board.occupied) <= 8:
            return True
        for move in board.legal_moves:
            after = board.copy(stack=False)
            after.push(move)
            if after.is_stalemate():
                return True
    return False
