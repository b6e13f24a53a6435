"""Performing a sheet in the skin that this terminal and the wishes call for."""

from __future__ import annotations

import json
import secrets
from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, TextIO

from player.cues.sheet import Sheet
from player.cues.starts import THINK_MS
from player.session.session import Keeper, Listener, Session, Told
from player.stage.inputs import Did
from player.stage.state import Telling
from player.voice.speaker import Notice, Speaker
from player.world.settings import Settings, load_settings, settings_path
from player.world.trouble import Trouble
from player.world.world import World

if TYPE_CHECKING:
    from player.lines.typing import Typing
    from player.voice.take import Recording


@dataclass(frozen=True)
class Wishes:
    """What was asked for on the command line; None where nothing was said about it."""

    lines: bool = False
    hands_free: bool = False
    mute: bool = False
    at: str = ""
    speed: float | None = None
    voice: str | None = None
    questions_only: bool = False
    at_once: bool = False
    ear: bool = False
    width: int | None = None
    fresh: bool = False
    journal: Path | None = None
    record: Path | None = None
    minutes: float | None = None
    fade: str | None = None
    effort: bool = False
    engine: str | None = None
    listen: bool = False
    headphones: bool = False
    warned: bool = False


@dataclass(frozen=True)
class Piece:
    """What is performed: a sheet, the text that its journal knows it by, where that lies, and who keeps it.

    `voice` is the one that the script asks for, "" for none; `recording` is the coach's own.
    """

    sheet: Sheet
    source: str
    journal: Path
    voice: str = ""
    keeper: Keeper | None = None
    recording: Recording | None = None


def perform(
    world: World,
    piece: Piece,
    wishes: Wishes,
    listener: Listener | None = None,
    typing: Typing | None = None,
) -> int:
    """Perform it, and return the exit code.

    `listener` is told all of it too; `typing` reads what is typed, where more than one piece is performed.
    """
    settings = load_settings(settings_path(world.folders.config))
    for note in settings.notes:
        print(note, file=world.stderr)
    aloud = wishes.hands_free and not wishes.lines
    lines = not aloud and wants_lines(world, wishes)
    telling = chosen(settings.settings, wishes, lines=lines)
    if aloud:
        from player.aloud.length import timed

        piece = replace(piece, sheet=timed(piece.sheet, telling))
    with ExitStack() as files:
        opening = _opening(world, piece, telling, settings.settings, wishes, lines, files, listener)
        if aloud:
            return _aloud(world, piece.sheet, opening, settings.settings, wishes)
        if lines:
            from player.lines.play import play_lines

            width = wishes.width if wishes.width is not None else settings.settings.line_width
            return play_lines(piece.sheet, world, opening, width=width, typing=typing)
        from player.screen.app import play_lesson

        return play_lesson(piece.sheet, telling, world, opening)


def _aloud(
    world: World,
    sheet: Sheet,
    opening: Callable[[Listener], Session],
    settings: Settings,
    wishes: Wishes,
) -> int:
    """The hands-free skin, with ears where they are wanted and there are any."""
    from player.aloud.ears import SERVES, Ears, NoEars, RealEars
    from player.aloud.keys import open_keys
    from player.aloud.play import play_aloud
    from player.lines.page import Page

    width = wishes.width if wishes.width is not None else settings.line_width
    headphones = wishes.headphones or settings.headphones
    ears: Ears | None = None
    notes: tuple[str, ...] = ()
    if (wishes.listen or settings.listen) and not wishes.at_once:
        try:
            ears = RealEars(headphones=headphones)
        except NoEars as fault:
            notes = (f"{fault} {SERVES}",)
    with ExitStack() as open_things:
        if ears is not None:
            open_things.callback(ears.close)
        keys = open_things.enter_context(open_keys(world))
        page = Page(world, width)
        return play_aloud(
            sheet,
            world.clock,
            page,
            opening,
            keys,
            ears,
            headphones=headphones,
            notes=() if wishes.warned else notes,
            warned=wishes.warned,
        )


def wants_lines(world: World, wishes: Wishes) -> bool:
    """Whether the line skin plays: asked for, or all that this terminal can do."""
    terminal = world.stdin_is_terminal and world.stdout_is_terminal and not world.terminal_is_plain
    return wishes.lines or wishes.at_once or not terminal or not world.can_show("█▚╭░")


def chosen(settings: Settings, wishes: Wishes, *, lines: bool, before: Telling | None = None) -> Telling:
    """How it is told: what was asked for now, over what was chosen once and for all.

    `before` is how the lesson was told when it stopped: its pace and its way of naming squares go on.
    """
    telling = Telling(
        speed=settings.speed,
        silence=settings.silence_scale,
        wait=settings.think == "wait",
        think=1.0 if settings.think == "wait" else settings.think * 1000 / THINK_MS["move"],
        ear=settings.ear or wishes.ear or wishes.hands_free,
        voice=not lines and not settings.mute,
        questions_only=wishes.questions_only,
        key_again=settings.key_again,
        effort=wishes.effort,
        view=settings.view,
        naming=settings.naming,
        depth=settings.depth,
    )
    if before is not None:
        telling = replace(telling, speed=before.speed, silence=before.silence, naming=before.naming)
    if wishes.speed is not None:
        telling = replace(telling, speed=wishes.speed)
    if wishes.voice is not None or wishes.hands_free:
        telling = replace(telling, voice=True)
    if wishes.mute:
        telling = replace(telling, voice=False)
    if wishes.hands_free:
        telling = replace(telling, wait=settings.hands_free_waits)
    elif lines:
        telling = replace(telling, wait=True)
    paced = lines and not wishes.at_once and not wishes.hands_free
    return replace(telling, by_beat=paced, at_once=wishes.at_once or paced)


def _opening(
    world: World,
    piece: Piece,
    telling: Telling,
    settings: Settings,
    wishes: Wishes,
    lines: bool,
    files: ExitStack,
    also: Listener | None,
) -> Callable[[Listener], Session]:
    from player.cli.engines import replies_for
    from player.cli.remember import remembering
    from player.session.as_json import as_json
    from player.session.opening import open_session
    from player.stage.seeking import target

    sheet = piece.sheet
    if wishes.at and target(sheet, wishes.at) is None:
        raise Trouble(
            f"There is no '{wishes.at}' in this lesson. Say a time such as 3:20, 'part 2' or 'question 4'."
        )
    record = files.enter_context(_written(world.here / wishes.record)) if wishes.record else None
    file = world.here / wishes.journal if wishes.journal else piece.journal

    def speaker() -> tuple[Speaker, str]:
        from player.voice.choose import open_speaker

        asked = wishes.voice not in (None, "on")
        name = wishes.voice if asked else piece.voice or settings.voice
        return open_speaker(
            world.clock,
            world.folders.cache / "sounds",
            voice=name or None,
            volume=settings.volume,
            platform=world.platform,
            recording=None if asked else piece.recording,
        )

    def open_it(listener: Listener) -> Session:
        def note(told: Told) -> None:
            if record is not None and not isinstance(told, Notice):
                record.write(json.dumps(as_json(told, sheet), ensure_ascii=False) + "\n")
                record.flush()
            listener(told)

        session = open_session(
            sheet,
            piece.source,
            telling,
            world.clock,
            journal_file=file,
            fresh=wishes.fresh,
            at=wishes.at,
            open_voice=speaker,
            learn=replies_for(sheet, world, settings, wishes.engine),
            listener=note,
            chosen=lambda before: chosen(settings, wishes, lines=lines, before=before),
            run=f"{world.now().isoformat()} {secrets.token_hex(4)}",
            keeper=piece.keeper,
        )
        files.callback(session.close)
        session.listen(remembering(world, session))
        if also is not None:
            session.listen(also)
        if wishes.minutes is not None:
            _end_after(session, world, wishes.minutes)
        return session

    return open_it


def _end_after(session: Session, world: World, minutes: float) -> None:
    """Have the session end after the question during which the minutes run out."""
    until = world.clock.now_ms() + round(minutes * 60_000)
    ended = False

    def look(_: Told) -> None:
        nonlocal ended
        if not ended and world.clock.now_ms() >= until:
            ended = True
            session.feed(Did("enough"))

    session.listen(look)


def _written(path: Path) -> TextIO:
    return open(path, "w", encoding="utf-8", newline="\n")
