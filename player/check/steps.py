"""The moves that a followed script speaks of, for what is checked over a whole series."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import chess

from player.check.orders import Step
from player.facts.place import Place
from player.script.model import Spot
from player.script.told import (
    Told,
    ToldBeat,
    ToldBlock,
    ToldBoard,
    ToldGame,
    ToldLesson,
    ToldQuestion,
    ToldReply,
    ToldSides,
    Turn,
)


@dataclass(slots=True)
class _Here:
    """Whose lesson it is, whether a named game is told, a block was just opened, and what was asked."""

    side: str
    game: bool = False
    moved: bool = True
    opened: bool = False
    ask: int = 0


def steps_of(told: ToldLesson) -> tuple[Step, ...]:
    """In file order. Imagined positions, retellings and what a reply plays on are nobody's advice."""
    return tuple(_steps(told.body, _Here(told.header.side)))


def _steps(body: Sequence[Told], here: _Here) -> Iterator[Step]:
    for one in body:
        if isinstance(one, ToldSides):
            here.side = one.side or here.side
        elif isinstance(one, ToldGame):
            here.game, here.moved = True, False
        elif isinstance(one, ToldBoard):
            here.game = here.game and not here.moved
            here.ask = 0
        elif isinstance(one, ToldQuestion):
            here.ask = one.spot.line if one.kind == "move" else here.ask
            yield from _of_question(one, here.side)
        elif isinstance(one, ToldBlock):
            if one.kind in ("aside", "instead"):
                yield from _steps(one.body, _Here(here.side, here.game, opened=True))
        elif isinstance(one, ToldBeat):
            for deed in one.text.deeds:
                if isinstance(deed.do, Turn):
                    yield _of_turn(deed.do, deed.spot, here)


def _of_turn(turn: Turn, spot: Spot, here: _Here) -> Step:
    """A told move. The first of an aside or an instead is looked at; a named game's moves are as played."""
    ours = here.side == ("white" if turn.before.board().turn == chess.WHITE else "black")
    advice = ours and not here.opened and not here.game
    step = Step(
        _at(turn.before),
        "advice" if advice else "told",
        turn.uci,
        turn.san,
        *_spot(spot),
        here.ask,
        here.side,
    )
    here.opened, here.moved, here.ask = False, True, 0
    return step


def _of_question(asked: ToldQuestion, side: str) -> Iterator[Step]:
    if asked.kind != "move" or asked.answer is None or not asked.place.playable:
        return
    at, ask = _at(asked.place), asked.spot.line
    yield Step(at, "advice", asked.answer.uci, asked.answer.san, *_spot(asked.spot), ask, side)
    for kind, replies in (("also", asked.also), ("reply", asked.replies)):
        for reply in replies:
            yield from _of_reply(reply, kind, at, ask, asked.place, side)


def _of_reply(reply: ToldReply, kind: str, at: str, ask: int, place: Place, side: str) -> Iterator[Step]:
    board = place.board()
    for uci in reply.answers:
        san = board.san(chess.Move.from_uci(uci))
        yield Step(at, kind, uci, san, *_spot(reply.spot), ask, side)


def _at(place: Place) -> str:
    return " ".join(place.fen.split()[:4])


def _spot(spot: Spot) -> tuple[int, int, int]:
    return spot.line, spot.column, spot.width
