"""Truths that take their time: the session goes on meanwhile, and a bad engine costs one sentence."""

from __future__ import annotations

import sys
import threading
import time
from pathlib import Path

import pytest

from player.cli.engines import replies_for
from player.cli.lessons import read_script
from player.engine.uci import Limits, UciEngine
from player.facts.place import Place
from player.session.later import Later, Watched
from player.session.learn import Replying
from player.session.opening import open_session
from player.session.session import Session, Told
from player.stage.happenings import Say
from player.stage.inputs import Did, Typed
from player.stage.state import Telling
from player.voice.speaker import Notice
from player.world.clock import VirtualClock
from player.world.settings import Settings
from tests.worlds import scratch_world

SCRIPT = """\
title: A door
coach: Ines Calder

White begins {Nf3}.

{d5}.

question: Which small step?

{g3}. There.
"""
FAKE = Path(__file__).parents[1] / "engine" / "fake_uci.py"


def opened(tmp_path: Path, learn: Later, heard: list[Told]) -> Session:
    path = tmp_path / "door.lesson"
    path.write_text(SCRIPT, encoding="utf-8")
    script = read_script(path)
    telling = Telling(at_once=True, voice=False)
    session = open_session(script.sheet, script.source, telling, VirtualClock(), learn=learn)
    session.listen(heard.append)
    session.start()
    session.settle()
    assert session.state.asked is not None
    return session


def waited(session: Session, seconds: float = 20.0) -> None:
    """Tick until nothing is being found out any more."""
    until = time.monotonic() + seconds
    while session.state.pending is not None and time.monotonic() < until:
        session.tick()
        time.sleep(0.01)
    session.settle()
    assert session.state.pending is None


def sayings(heard: list[Told]) -> str:
    return " ".join(one.what.shown for one in heard if isinstance(one, Say))


def test_the_session_does_not_wait(tmp_path: Path) -> None:
    gate = threading.Event()

    def slow(place: Place, move: str) -> tuple[str, str]:
        gate.wait(20)
        return f"Slowly: {move}.", "engine"

    heard: list[Told] = []
    session = opened(tmp_path, Later(slow), heard)
    session.feed(Typed("a4"))
    assert session.state.pending is not None
    assert session.due_ms() is not None
    session.feed(Did("where"))
    gate.set()
    waited(session)
    assert "Slowly: a2a4." in sayings(heard)
    session.close()


def test_closing_does_not_wait_either(tmp_path: Path) -> None:
    gate = threading.Event()

    def slow(place: Place, move: str) -> tuple[str, str]:
        gate.wait(20)
        return "Too late.", "engine"

    session = opened(tmp_path, Later(slow), [])
    session.feed(Typed("a4"))
    begun = time.monotonic()
    session.close()
    assert time.monotonic() - begun < 10
    gate.set()


@pytest.mark.parametrize("mode", ["slow", "frozen", "crash", "illegal", "quits", "missing"])
def test_a_bad_engine_is_told_once_and_the_lesson_goes_on(tmp_path: Path, mode: str) -> None:
    command = ["/nowhere/engine"] if mode == "missing" else [sys.executable, str(FAKE), mode]
    engine = UciEngine(command, Limits(start_s=1.0, nodes=100, think_s=0.2, grace_s=0.3))
    path = tmp_path / "door.lesson"
    path.write_text(SCRIPT, encoding="utf-8")
    replying = Replying(read_script(path).sheet)
    later = Later(replying, close=engine.close)
    replying.judge = Watched(engine, later.notice)
    heard: list[Told] = []
    session = opened(tmp_path, later, heard)
    for move in ("a3", "h3", "b3"):
        session.feed(Typed(move))
        waited(session)
    session.feed(Typed("g3"))
    session.settle()
    assert session.state.over
    notices = [one.sentence for one in heard if isinstance(one, Notice)]
    assert len(notices) <= 1
    assert all(sentence.startswith("The engine") and sentence.endswith(".") for sentence in notices)
    session.close()


def test_without_an_engine_the_board_answers_at_once(tmp_path: Path) -> None:
    path = tmp_path / "door.lesson"
    path.write_text(SCRIPT, encoding="utf-8")
    learn = replies_for(read_script(path).sheet, scratch_world(tmp_path), Settings(), None)
    assert isinstance(learn, Replying)


def test_an_engine_asked_for_answers_in_its_own_time(tmp_path: Path) -> None:
    path = tmp_path / "door.lesson"
    path.write_text(SCRIPT, encoding="utf-8")
    world = scratch_world(tmp_path)
    learn = replies_for(read_script(path).sheet, world, Settings(engine="none"), "/nowhere/engine")
    assert isinstance(learn, Later)
    heard: list[Told] = []
    session = opened(tmp_path, learn, heard)
    session.feed(Typed("a3"))
    waited(session)
    until = time.monotonic() + 10
    while not any(isinstance(one, Notice) for one in heard) and time.monotonic() < until:
        session.tick()
    (notice,) = [one for one in heard if isinstance(one, Notice)]
    assert notice.sentence == "The engine engine is not there."
    session.close()
