"""Sentences that claim what the board can prove, without a `claim:` line: proved quietly, or doubted."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

import chess

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import COUNT, COUNTS, KIND, KINDS, SQUARE, denied, sentence, supposed
from player.facts.claim import Claim, Last, Verdict
from player.facts.place import Place, is_playable
from player.facts.prove import prove
from player.wording.claims import claim_of

_IF = re.compile(r"\b(?:if|suppose|unless)\b", re.IGNORECASE)
_BUDGET = 1_500
_TIMES = r"(?:once|twice|three times|four times|\d times)"

Candidates = Callable[[re.Match[str], chess.Board], Iterable[str]]


@dataclass(frozen=True, slots=True)
class Sentence:
    """A pattern of prose, and the claims any one of which would make it true on a board.

    `moves` says that the claim is about moves; `now` that the last told move is meant.
    """

    pattern: re.Pattern[str]
    claims: Candidates
    moved: bool = False


def _men(found: re.Match[str], board: chess.Board) -> list[str]:
    kind = KINDS[found["kind"].lower()]
    color = (found["color"] or "").lower()
    colors = chess.COLORS if color not in ("white", "black") else (color == "white",)
    squares = (
        [found["square"]]
        if found["square"]
        else [chess.SQUARE_NAMES[man] for one in colors for man in board.pieces(kind, one)]
    )
    state = (
        " ".join(found["state"].lower().split())
        .replace("unguarded", "undefended")
        .replace("unprotected", "undefended")
    )
    return [
        f"the {color + ' ' if color in ('white', 'black') else ''}{found['kind'].lower()} on {square} is"
        f" {state}"
        for square in squares
    ]


def _times(word: str) -> str:
    return {"once": "1 time", "twice": "2 times"}.get(word, word.replace("three", "3").replace("four", "4"))


def _file(found: re.Match[str], board: chess.Board) -> list[str]:
    state = found["state"].lower().replace(" ", "-")
    sides = [found["side"]] if found["side"] else ["White", "Black"]
    if state != "half-open":
        return [f"the {found['file']}-file is {state}"]
    return [f"the {found['file']}-file is half-open for {side}" for side in sides]


def _passed(found: re.Match[str], board: chess.Board) -> list[str]:
    side = found["side"] == "White"
    return [f"the pawn on {chess.SQUARE_NAMES[man]} is passed" for man in board.pieces(chess.PAWN, side)] or [
        "the pawn on a2 is passed"
    ]


def _number(word: str) -> int:
    return int(word) if word.isdigit() else COUNTS.get(word.lower(), 0)


def _say(pattern: str, claims: Candidates, moved: bool = False, flags: int = re.IGNORECASE) -> Sentence:
    return Sentence(re.compile(pattern, flags), claims, moved)


SENTENCES: tuple[Sentence, ...] = (
    _say(
        rf"\b(?:the |his |her |our |that )(?:(?P<color>white|black) )?(?P<kind>{KIND})(?: on"
        rf" (?P<square>{SQUARE}))? (?:is|stands) (?:now |still |also )?"
        r"(?P<state>pinned to"
        rf" {SQUARE}|pinned|undefended|unguarded|unprotected|attacked|passed|isolated|doubled|backward)\b(?!"
        r" (?:by|from|in|on|for|only))",
        _men,
    ),
    _say(
        rf"\bthe (?:(?P<color>white|black) )?(?P<kind>{KIND}) on (?P<square>{SQUARE}) is (?:only |now |still"
        r" )?(?P<state>guarded (?:once|twice|three times|four times))",
        lambda f, b: [
            f"the {f['kind'].lower()} on {f['square']} is guarded"
            f" {_times(f['state'].lower().removeprefix('guarded '))}"
        ],
    ),
    _say(
        rf"\b(?P<side>White|Black) attacks (?P<square>{SQUARE}) (?P<times>{_TIMES})",
        lambda f, b: [f"{f['side']} attacks {f['square']} {_times(f['times'].lower())}"],
    ),
    _say(
        r"\bthe (?P<file>[a-h])-file is (?:now |still |wide )?(?P<state>open|closed|half[- ]open)\b(?: for"
        r" (?P<side>White|Black))?",
        _file,
    ),
    _say(
        rf"\b(?:it is |that is |this is |there is |is )(?:a )?mate in (?P<number>{COUNT})\b(?! later)",
        lambda f, b: [f"mate in {_number(f['number'])}"],
    ),
    _say(
        rf"\b(?P<side>White|Black) has (?:only |just |exactly )?(?P<number>{COUNT}) legal"
        r" (?:moves?|replies|reply)\b",
        lambda f, b: [f"{f['side']} has {_number(f['number'])} legal moves"],
    ),
    _say(
        r"\b(?:(?P<side>White|Black) has |there is )(?:just |exactly )?(?:only one|one) legal"
        r" (?:move|reply)\b",
        lambda f, b: ["White has 1 legal move", "Black has 1 legal move"],
    ),
    _say(
        rf"\b(?P<square>{SQUARE}) is (?:now |already )?(?:an|our|his|a perfect|the) outpost(?: for"
        r" (?P<side>White|Black))?",
        lambda f, b: [
            f"{f['square']} is an outpost for {side}"
            for side in ([f["side"]] if f["side"] else ["White", "Black"])
        ],
    ),
    _say(r"\bmaterial is (?:equal|even|level)\b", lambda f, b: ["material is equal"]),
    _say(
        r"\b(?P<side>White|Black) (?:has|owns) the (?P<what>bishop pair|two bishops|opposition)\b",
        lambda f, b: [f"{f['side']} has the {f['what'].lower().replace('two bishops', 'bishop pair')}"],
    ),
    _say(r"\b(?P<side>White|Black) (?:\w+ \w+ \w+ and )?has a passed pawn\b", _passed, flags=0),
    _say(
        r"\bthe bishops (?:are|stand on|run on) (?:of )?opposite colou?rs\b",
        lambda f, b: ["the bishops are of opposite colours"],
    ),
    _say(
        rf"\b(?:the )?(?P<line>{SQUARE}-{SQUARE}) (?:diagonal|line|road|file|rank) is"
        r" (?P<state>open|closed)\b",
        lambda f, b: [f"{f['line']} is {f['state'].lower()}"],
    ),
    _say(r"\b(?:it is|this is|that is|and it is) stalemate\b", lambda f, b: ["stalemate"]),
    _say(
        r"\b(?:it is |a |with |is )(?P<what>double|discovered) check\b",
        lambda f, b: [f"is {f['what'].lower()} check"],
        True,
    ),
    _say(
        r"\b(?:it|this|which|that|and) (?:at once |simply )?wins (?P<what>the exchange|a piece|a pawn|the"
        r" queen|a rook|two pawns)\b",
        lambda f, b: [f"wins {f['what'].lower()}"],
        True,
    ),
    _say(
        r"\b(?P<side>White|Black) (?:has lost|no longer has) the right to castle\b",
        lambda f, b: [f"{f['side']} has lost the right to castle"],
    ),
)


def unclaimed_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about sentences whose claim is false wherever it may be meant, or not proved."""
    if passage.role in ("idea", "part", "title", "question", "otherwise", "choice"):
        return
    text = passage.text
    for form in SENTENCES:
        for found in form.pattern.finditer(text):
            if denied(text, found.start()) or supposed(text, *found.span(), wide=form.moved):
                continue
            first, _ = sentence(text.replace(":", ","), *found.span())
            if _IF.search(text[first : found.start()]):
                continue
            verdicts = list(_verdicts(form, found, passage, boards))
            if not verdicts or any(verdict.kind == "true" for _, verdict in verdicts):
                continue
            claim, verdict = verdicts[0]
            if verdict.kind == "false":
                yield Doubt(
                    found.start(), found.end(), "prose-claim", f"The board says otherwise. {verdict.because}"
                )
            elif all(one.kind == "unproved" for _, one in verdicts):
                yield Doubt(
                    found.start(),
                    found.end(),
                    "prose-unproved",
                    f"This could be proved, if a claim said it. {verdict.because}",
                    f"claim: {claim}",
                )


def _verdicts(
    form: Sentence, found: re.Match[str], passage: Passage, boards: Boards
) -> Iterator[tuple[str, Verdict]]:
    here = passage.at(found.start())
    places = [here, passage.at(len(passage.text)), *passage.places()]
    if form.moved:
        places = [
            place
            for place in (
                passage.last(found.start()),
                *passage.replied,
                *(turn.after for _, turn in passage.turns),
            )
            if place
        ]
        if passage.role == "nudge" and passage.answer:
            places.insert(0, passage.answer.after)
    for place in list(dict.fromkeys(places))[:6]:
        board = boards.of(place)
        for words in form.claims(found, board):
            claim = _understood(words)
            if claim is not None:
                verdict = prove(claim, board, _last(place, boards), budget=_BUDGET)
                yield words, verdict
                if verdict.kind == "true":
                    return


@lru_cache(maxsize=512)
def _understood(words: str) -> Claim | None:
    return claim_of(words)


def _last(place: Place, boards: Boards) -> Last | None:
    if not place.moves:
        return None
    before = boards.of(Place(place.root, place.moves[:-1]))
    return (
        Last(before.copy(stack=False), chess.Move.from_uci(place.moves[-1])) if is_playable(before) else None
    )
