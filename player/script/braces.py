"""The words of a beat or another text, and what the braces in them do."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from player.script.bits import plain
from player.script.found import Found, short
from player.script.hearing import Lost, turns_of
from player.script.here import Here, why_impossible
from player.script.marks import Unshown, no_hit, said_of, shown_of, shown_value
from player.script.model import Bits, Brace, Spot, Words
from player.script.movefacts import MoveFacts, move_facts
from player.script.notation_against import checks_against, notation_against, written_moves
from player.script.prose import OutsideMoves
from player.script.textmaker import Landing, TextMaker
from player.script.told import Shown, Text, Turn
from player.script.words_against import words_against

_NOTATION = re.compile(r"[a-h][1-8]|[oO0]-[oO0]")
_SEGMENT = re.compile(r"\\.|\\|\*|[^\\*]+")


@dataclass(frozen=True, slots=True)
class Said:
    """A text, and the moves in it with where their words begin and end."""

    text: Text
    landings: tuple[Landing, ...]


class Braces:
    """Makes the texts of one lesson, attaching moves and marks on the way."""

    def __init__(self, found: Found, language: str) -> None:
        self._found = found
        self._language = language
        self._outside = OutsideMoves(found, language)

    def told(self, bits: Bits, here: Here) -> Said:
        """A text that may move: the board of `here` goes on with it."""
        return self._made(bits, here, "")

    def still(self, bits: Bits, here: Here, what: str) -> Text:
        """A text that may show but not move; `what` is named where it does."""
        return self._made(bits, here, what).text

    def _made(self, bits: Bits, here: Here, still: str) -> Said:
        if len(bits) == 1 and isinstance(bits[0], Words):
            words = bits[0].text.strip()
            if not still:
                self._outside.look(bits[0], here)
                self._outside.settle(())
            return Said(Text(words), ())
        maker = TextMaker()
        for bit in bits:
            if isinstance(bit, Words):
                if not still:
                    self._outside.look(bit, here)
                maker.say(bit.text)
            elif (value := shown_value(bit.deed)) is not None:
                self._show(bit, value, here, maker)
            elif still:
                self._refuse(bit, still, maker)
            else:
                self._move(bit, here, maker)
        self._outside.settle(maker.landings)
        return Said(maker.text(), tuple(maker.landings))

    def _show(self, brace: Brace, value: str, here: Here, maker: TextMaker) -> None:
        shown = shown_of(value)
        at = maker.at
        if isinstance(shown, Unshown):
            self._found.fault(brace.spot, "bad-show", shown.message, "{show e5: this square}")
        else:
            maker.do(at, shown, brace.spot, brace.stamp_ms)
            self.doubt_hits(shown, here, brace.spot)
        if brace.words is not None and len(_segments(brace.words)) > 1:
            self._star_fault(brace, 0)
        _say(said_of(value) if brace.words is None else _without_stars(brace.words), maker)

    def doubt_hits(self, shown: Shown, here: Here, spot: Spot) -> None:
        """A query where a man is shown to hit what it does not."""
        doubt = "" if here.lost else no_hit(shown, here.board)
        if doubt:
            self._found.query(spot, "no-hit", doubt)

    def _refuse(self, brace: Brace, what: str, maker: TextMaker) -> None:
        self._found.fault(
            brace.spot,
            "move-not-here",
            f"{what} may show, but not move.",
            _without_stars(brace.words or "") or brace.deed,
        )
        _say(brace.deed if brace.words is None else _without_stars(brace.words), maker)

    def _move(self, brace: Brace, here: Here, maker: TextMaker) -> None:
        facts: list[MoveFacts] = []
        turns = self._turns(brace, here, facts)
        spoken = brace.deed if brace.words is None else brace.words
        if turns is None:
            _say(_without_stars(spoken), maker)
            return
        maker.part(spoken)
        start = maker.at
        if brace.words is not None:
            segments = _segments(brace.words)
            if len(segments) > 1:
                self._starred(brace, segments, turns, facts, maker)
                return
            words_against(plain(brace.words), facts, brace.spot, self._found, self._language)
        _say(plain(spoken) if brace.words is not None else spoken, maker)
        offsets = _token_offsets(spoken, len(turns)) if brace.words is None else None
        starts = [start + offset for offset in offsets or _spread(maker.shown[start:], len(turns))]
        for number, (turn, at) in enumerate(zip(turns, starts, strict=True)):
            maker.do(at, turn, brace.spot, None if number else brace.stamp_ms)
        end = max(start, len(maker.shown))
        ends = [*starts[1:], end]
        maker.landings += [Landing(*three) for three in zip(turns, starts, ends, strict=True)]

    def _turns(self, brace: Brace, here: Here, facts: list[MoveFacts]) -> list[Turn] | None:
        """The moves of a brace, made on the board; None where lost. Fills `facts` if there are words."""
        if here.lost:
            return None
        if not here.playable:
            why = f"{why_impossible(here.board)} This can be looked at, but no move can be made in it."
            self._lose(here, brace.spot, Lost("impossible-board", why))
            return None
        moves = turns_of(here.board, brace.deed, self._language)
        if isinstance(moves, Lost):
            self._lose(here, self._lost_at(brace, moves), moves)
            return None
        turns = []
        for move in moves:
            if brace.words:
                facts.append(move_facts(here.board, move))
            turns.append(here.play(move))
        notation_against(brace.deed, turns, brace.spot, self._found, self._language)
        if len(turns) == 1:
            checks_against(brace.deed, turns[0], brace.spot, self._found, self._language)
        return turns

    def _lose(self, here: Here, spot: Spot, lost: Lost) -> None:
        """From here on the moves are only words; said once."""
        here.lost = True
        if not here.excused:
            self._found.fault(spot, lost.code, lost.message, lost.fix)

    def _lost_at(self, brace: Brace, lost: Lost) -> Spot:
        """The lost one of several moves in notation; else, as for "both sides castle", the whole brace."""
        written = written_moves(brace.deed)
        if not 0 < lost.at < len(written) or not _NOTATION.search(written[lost.at].text):
            return brace.spot
        spot = near = Spot(brace.spot.line, brace.spot.column)
        for move in written[: lost.at + 1]:
            spot = self._found.where(move.text, near)
            near = Spot(spot.line, spot.column + spot.width)
        return spot

    def _starred(
        self, brace: Brace, segments: list[str], turns: list[Turn], facts: list[MoveFacts], maker: TextMaker
    ) -> None:
        """Words with stars in them: each lands the next move, the last one all that are left."""
        stars = len(segments) - 1
        if stars != len(turns):
            self._star_fault(brace, len(turns))
        start = maker.at
        for number, segment in enumerate(segments):
            around = facts[max(0, number - 1) : number + 1] or facts[-1:]
            if stars != len(turns):
                around = facts
            words_against(plain(segment), around, brace.spot, self._found, self._language)
            maker.say(plain(segment))
            maker.hush()
            landing = turns[number : number + 1] if number < stars - 1 else turns[number:]
            for turn in landing if number < stars else ():
                stamp_ms = brace.stamp_ms if turn is turns[0] else None
                maker.do(maker.at, turn, brace.spot, stamp_ms, after_word=True)
                maker.landings.append(Landing(turn, start, maker.at))
                start = maker.at

    def _star_fault(self, brace: Brace, moves: int) -> None:
        count = {0: "No move stands here", 1: "One move stands here"}.get(moves, f"{moves} moves stand here")
        self._found.fault(
            brace.spot,
            "star-count",
            f"{count}; write as many stars as moves, or none.",
            short(f"{{{brace.deed}: {_without_stars(brace.words or '')}}}"),
        )


def _say(text: str, maker: TextMaker) -> None:
    if text:
        maker.say(text)
    else:
        maker.hush()


def _segments(words: str) -> list[str]:
    """The words between the stars that are not escaped."""
    segments = [""]
    for found in _SEGMENT.finditer(words):
        if found[0] == "*":
            segments.append("")
        else:
            segments[-1] += found[0]
    return segments


def _without_stars(words: str) -> str:
    maker = TextMaker()
    for segment in _segments(words):
        maker.say(plain(segment))
        maker.hush()
    return maker.shown


@lru_cache(maxsize=256)
def _token_offsets(deed: str, count: int) -> tuple[int, ...] | None:
    """Where each move of a deed in notation begins, if it has one word for each."""
    tokens = written_moves(deed)
    return tuple(token.at for token in tokens) if len(tokens) == count else None


def _spread(words: str, count: int) -> tuple[int, ...]:
    """Where several moves land one after another in words that do not say where."""
    starts = [found.start() for found in re.finditer(r"\S+", words)] or [0]
    return tuple(starts[number * len(starts) // count] for number in range(count))
