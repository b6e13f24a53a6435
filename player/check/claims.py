"""Claims judged: a false one is a fault, an unproved one a query."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping

import chess

from player.check.kept import Kept, key_of
from player.check.where import within
from player.facts.budgets import BUDGET
from player.facts.claim import Last
from player.facts.place import Place
from player.facts.prove import prove
from player.script.faults import Fault
from player.script.told import Told, ToldClaim, Turn
from player.wording.claim_words import claim_plain
from player.wording.claims import claim_of, nearest_forms

_Finding = tuple[bool, str, str, str] | None
_JUDGEMENT = re.compile(
    r"\b(?:better|worse|best|worst|good|bad|fine|strong\w*|weak\w*|well|pleasant\w*|comfortable|active|passive"
    r"|advantage|initiative|compensation|interesting|dangerous|safer?|sound|dubious)\b",
    re.IGNORECASE,
)


def faulty_claims(
    source: str,
    elements: Iterable[Told],
    marks: Mapping[str, Place],
    *,
    kept: Kept | None = None,
    budget: int = BUDGET,
    progress: Callable[[int, int], None] | None = None,
) -> Iterator[Fault]:
    """The faults and queries of all claims; what is `kept` of the very same claim is not proved again.

    `progress` is told how many elements have been passed, of how many.
    """
    labels: dict[str, chess.Board] = {}
    places = sorted((name, place.root, place.moves) for name, place in marks.items())
    elements = list(elements)
    for number, one in enumerate(elements):
        if not isinstance(one, ToldClaim):
            continue
        if progress is not None:
            progress(number, len(elements))
        if not labels and marks:
            labels = {claim_plain(name).casefold(): place.board() for name, place in marks.items()}
        found = _kept_or_judged(one, labels, places, kept, budget)
        if found is not None:
            severity, code, message, fix = found
            spot = within(source, one.spot, one.words)
            yield Fault(
                spot.line, spot.column, spot.width, "fault" if severity else "query", code, message, fix
            )


def _kept_or_judged(
    told: ToldClaim, labels: Mapping[str, chess.Board], places: object, kept: Kept | None, budget: int
) -> _Finding:
    if kept is None:
        return _judged(told, labels, budget)
    last = told.last and (told.last.before.root, told.last.before.moves, told.last.uci)
    key = key_of("claim", told.words, told.place.root, told.place.moves, last, places, budget)
    known = kept.get(key)
    if isinstance(known, list) and len(known) in (0, 4):
        return (bool(known[0]), str(known[1]), str(known[2]), str(known[3])) if known else None
    found = _judged(told, labels, budget)
    kept.put(key, list(found or ()))
    return found


def _judged(told: ToldClaim, labels: Mapping[str, chess.Board], budget: int) -> _Finding:
    """Whether it is a fault (else a query), its code, message and example; None where there is nothing."""
    claim = claim_of(told.words)
    if claim is None and _JUDGEMENT.search(told.words):
        message = (
            "This is a judgement, which no board can prove. Say it in your own words instead of a claim."
        )
        return True, "claim-unknown", message, ""
    if claim is None:
        forms = nearest_forms(told.words)
        message = "This is no claim of a known form, so nothing can prove it. The nearest forms: "
        return True, "claim-unknown", f"{message}{'; '.join(forms)}.", f"claim: {forms[0]}"
    found = prove(claim, told.place.board(), _last(told.last), labels=labels, budget=budget)
    if found.kind == "true":
        if not found.doubt:
            return None
        return False, "claim-less", f"True, but not all that is true. {found.doubt}", ""
    if found.kind == "false":
        return True, "claim-false", f"The board says otherwise. {found.because}", ""
    if found.kind == "unproved":
        message = f"This is not proved, and rests on the coach's word. {found.because}"
        return False, "claim-unproved", message, ""
    message = f"It cannot be made out what this claims. {found.because}"
    return True, "claim-unknown", message, f"claim: {nearest_forms(told.words)[0]}"


def _last(turn: Turn | None) -> Last | None:
    return None if turn is None else Last(turn.before.board(), chess.Move.from_uci(turn.uci))
