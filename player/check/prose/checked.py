"""Prose against checks and mates that are said or denied of the move told, the answer or the learner's."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import suppress

import chess

from player.check.prose.check_near import after, turned
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import KINDS, clause, denied, sentence

_AFTER = r"(?=[.,;:!?]|$| (?:from|at|in it|was|and|but|as)\b)"
_NO_CHECK = re.compile(rf"\b(?P<it>(?:no|not(?: a)?|without(?: a)?|hardly a|isn't a) check){_AFTER}", re.I)
_NO_MATE = re.compile(
    r"\b(?P<it>(?:not|no|hardly|isn't|never) (?:yet |a |quite )?(?:check)?mate|(?:only|just) a check)\b"
    r"(?! in\b)",
    re.I,
)
_CHECKS = re.compile(
    r"(?:(?:^|(?<=[.!?:;] ))"
    r"(?:It|He|She|This|That)|(?:\b(?:because|since|and)|[:;]) (?:it|she|he))(?: also| now)? "
    r"(?P<it>checks the king|gives (?:a )?check|is (?:a )?check|comes with check)\b"
)
_IS = re.compile(r" is (?:a )?(?P<it>(?P<mate>mate)|check)\b(?! in\b)")
_WITH = re.compile(r"\b(?P<it>with (?:a )?check)\b")
_OTHERS = re.compile(
    r"\b(?:threat\w*|then|after|follow\w*|answer\w*|repl\w*|his|Black|White|he|hits? back|meets?)\b"
)
_IF = re.compile(
    r"\b(?:if|when|once|later|unless|next|soon|until|suppose|imagine|would|could|might|should|wants?|sooner)\b|\?",
    re.I,
)
_NEAR = re.compile(
    r"[^.;!?]{0,50}(?:[.!] (?:[A-Z]\w*,? ){0,2})?(?:and |but |with |it is |is |That is |There is )*"
)
_WORD_MOVE = re.compile(r"(?:[KQRBN][a-h1-8]|[a-h]x|[a-h][1-8]|O-O)", re.I)


def checked_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about checks and mates that are said or denied of a move."""
    if passage.role in ("idea", "part", "title"):
        return
    yield from _not_so(passage, boards)
    yield from _it_checks(passage, boards)


def _doubt(found: re.Match[str], message: str, code: str = "prose-check") -> Doubt:
    return Doubt(found.start("it"), found.end("it"), code, message)


def _learned(passage: Passage, boards: Boards) -> list[chess.Board]:
    """The boards after the learner's move, where a reply speaks of it; where words answer, too."""
    asked = passage.question
    if asked is None:
        return []
    if asked.kind == "move":
        return [boards.of(place) for place in passage.replied]
    replies = [one for one in (*asked.replies, *asked.also) if one.spot == passage.spot]
    return _in_words(passage, boards, [said for one in replies for said in one.answers])


def _in_words(passage: Passage, boards: Boards, answers: Iterable[str]) -> list[chess.Board]:
    """The boards after the moves among the words that answer a question."""
    asked = passage.question
    if asked is None or asked.kind != "words" or not asked.place.playable:
        return []
    said = [one[0].upper() + one[1:] if one[0] in "kqrn" else one for one in answers if _WORD_MOVE.match(one)]
    return [one for words in said for one in _parsed(boards.of(asked.place), words)]


def _parsed(board: chess.Board, san: str) -> Iterator[chess.Board]:
    """The board after a move in notation, whosever turn it is; nothing where it is none."""
    for one in (board, turned(board)):
        if one is not None:
            with suppress(ValueError):
                yield after(one, one.parse_san(san))
                return


def _spoken(passage: Passage, boards: Boards, offset: int) -> list[chess.Board]:
    """The boards after the move that words right there speak of: the one just told, else the learner's or
    the answer.
    """
    told = [(at, turn) for at, turn in passage.turns if at <= offset]
    if told:
        at, turn = told[-1]
        return [boards.of(turn.after)] if _NEAR.fullmatch(passage.text, at, offset) else []
    if passage.role in ("reply", "also"):
        return _learned(passage, boards)
    if passage.answer is not None and passage.role in ("nudge", "otherwise", "because"):
        return [boards.of(passage.answer.after)]
    if passage.question is not None and passage.role in ("nudge", "otherwise", "because"):
        return _in_words(passage, boards, passage.question.answers)
    return []


def _not_so(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "No check", "only a check": right after a check, a mate; in a reply, of the learner's move."""
    text = passage.text
    for pattern in (_NO_CHECK, _NO_MATE):
        for found in pattern.finditer(text):
            first, last = clause(text, *found.span())
            if _IF.search(text[first:last]):
                continue
            here = _spoken(passage, boards, found.start())
            if passage.role in ("nudge", "otherwise") and not re.match(
                r"(?:.*[.,;:!?] )?(?:It|That|This) (?:is|gives) $|.*\b\w+ to [a-h][1-8],? (?:with)?$",
                text[: found.start()],
            ):
                continue
            if pattern is _NO_CHECK and here and all(board.is_check() for board in here):
                yield _doubt(found, "The move spoken of does give check.")
            if pattern is _NO_MATE and here and all(board.is_checkmate() for board in here):
                yield _doubt(found, "The move spoken of is mate.", "prose-mate")


def _it_checks(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "It checks the king": of the move just told, or the learner's."""
    text = passage.text
    for found in _CHECKS.finditer(text):
        if _IF.search(text[found.start() : sentence(text, *found.span())[1]].partition(" and ")[0]):
            continue
        here = _spoken(passage, boards, found.start())
        coming = [boards.of(turn.after) for at, turn in passage.turns if at > found.start()][:1]
        if here and not any(board.is_check() for board in (*here, *coming)):
            yield _doubt(found, "The move spoken of does not give check.")
    for at, turn in passage.turns:
        is_so = _IS.match(text, at + len(turn.san)) if text.startswith(turn.san, at) else None
        board = boards.of(turn.after)
        if is_so and not (board.is_checkmate() if is_so["mate"] else board.is_check()):
            name = "mate" if is_so["mate"] else "check"
            yield _doubt(is_so, f"{turn.san} is no {name}.", f"prose-{name}")
    if passage.role in ("reply", "also"):
        yield from _learned_checks(passage, boards)


def _learned_checks(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """ "A strong jump with check", of the learner's move and nobody else's."""
    text = passage.text
    here = _learned(passage, boards)
    stop = passage.turns[0][0] if passage.turns else len(text)
    for found in _WITH.finditer(text, 0, stop):
        whole = text[slice(*sentence(text, *found.span()))]
        men = re.search("|".join(KINDS), whole) and not re.match(r"\s*(?:It|She|He|This|That)\b", whole)
        loose = _IF.search(whole) or _OTHERS.search(whole) or denied(text, found.start()) or men
        if here and not loose and not any(board.is_check() for board in here):
            yield _doubt(found, "The move spoken of does not give check.")
