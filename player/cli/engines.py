"""The engine that a run uses, if any."""

from __future__ import annotations

from player.cues.sheet import Sheet
from player.engine.choose import choose_engine
from player.engine.small import SmallSearch
from player.session.later import Later
from player.session.learn import Learn, Replying
from player.world.settings import Settings
from player.world.world import World


def replies_for(sheet: Sheet, world: World, settings: Settings, asked: str | None) -> Learn | Later:
    """What answers wrong moves: the board and a short search, or an engine too, and then in its own time."""
    replying = Replying(sheet, search=SmallSearch())
    path = choose_engine(asked, settings.engine, world.env)
    if path is None:
        return replying
    from player.engine.uci import Limits, UciEngine
    from player.session.later import Watched

    engine = UciEngine(path, Limits(start_s=4.0, think_s=1.0, grace_s=1.0))
    later = Later(replying, first=lambda: started(), close=engine.close)
    watched = Watched(engine, later.notice)
    replying.judge = watched

    def started() -> None:
        try:
            _ = engine.name
        except Exception as error:
            watched.trouble(error)

    return later
