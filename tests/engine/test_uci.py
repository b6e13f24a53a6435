"""An outside engine, good or as bad as they come: nothing hangs, and each trouble is one sentence."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import chess
import pytest

from player.engine.choose import choose_engine
from player.engine.uci import EngineTrouble, Limits, UciEngine
from player.engine.view import View
from player.facts.place import Place

FAKE = Path(__file__).with_name("fake_uci.py")
QUICK = Limits(start_s=3.0, nodes=1000, think_s=0.3, grace_s=0.5)
TAKES = Place("4k3/8/8/3p4/4P3/8/8/4K3 w - - 0 1")


@pytest.fixture
def engine(request: pytest.FixtureRequest) -> Iterator[UciEngine]:
    made = UciEngine([sys.executable, str(FAKE), request.param], QUICK)
    yield made
    made.close()


@pytest.mark.parametrize("engine", ["good", "single", "rubbish"], indirect=True)
def test_every_move_asked_about_has_a_view(engine: UciEngine) -> None:
    views = engine.judge(TAKES, ["e4d5", "e4e5", "e1d1"])
    assert views == {"e4d5": View(1.0), "e4e5": View(0.0), "e1d1": View(0.0)}
    assert engine.judge(TAKES, ["e4d5", "e4e5", "e1d1"]) == views, "the same question, the same answer"
    assert engine.name == "Fake of the reading room"


@pytest.mark.parametrize("engine", ["good"], indirect=True)
def test_illegal_moves_and_impossible_boards_are_never_sent(engine: UciEngine) -> None:
    assert engine.judge(TAKES, ["e4e6"]) == {}
    assert engine.judge(Place("8/8/8/3p4/4P3/8/8/8 w - - 0 1"), ["e4d5"]) == {}
    assert engine.judge(Place("4k3/4Q3/8/8/8/8/8/4K3 w - - 0 1"), ["e7e6"]) == {}
    assert engine.judge(TAKES, []) == {}


@pytest.mark.parametrize("engine", ["wrong-lines"], indirect=True)
def test_lines_that_are_not_legal_are_cut_or_dropped(engine: UciEngine) -> None:
    views = engine.judge(TAKES, ["e4d5", "e4e5"])
    assert set(views) <= {"e4d5", "e4e5"}
    assert all(view.line == () for view in views.values())


@pytest.mark.parametrize(
    ("engine", "words"),
    [
        ("slow", "takes too long to start"),
        ("frozen", "does not answer"),
        ("crash", "has stopped"),
        ("illegal", "so the lesson goes on without it"),
        ("quits", "could not be started"),
    ],
    indirect=["engine"],
)
def test_trouble_is_one_sentence_and_final(
    engine: UciEngine, words: str, capfd: pytest.CaptureFixture[str], caplog: pytest.LogCaptureFixture
) -> None:
    begun = time.monotonic()
    with pytest.raises(EngineTrouble) as told:
        engine.judge(TAKES, ["e4d5", "e4e5"])
    assert time.monotonic() - begun < 15, "no more than its limits, on a slow machine too"
    sentence = str(told.value)
    assert words in sentence
    assert sentence.endswith(".") and "\n" not in sentence
    with pytest.raises(EngineTrouble, match="The engine"):
        engine.judge(TAKES, ["e4d5"])
    engine.close()
    time.sleep(0.2)
    assert capfd.readouterr() == ("", "") and not caplog.records, "nothing else is said of it"


@pytest.mark.parametrize("mode", ["good", "slow", "frozen", "crash", "illegal", "quits"])
@pytest.mark.parametrize("leaving", ["", "engine.close()"])
def test_a_program_that_asked_it_can_end(mode: str, leaving: str) -> None:
    text = f"""if True:
        from player.engine.uci import *
        engine = UciEngine({[sys.executable, str(FAKE), mode]}, Limits(1.0, 1000, 0.3, 0.5))
        with contextlib.suppress(EngineTrouble):
            engine.judge(Place({TAKES.fen!r}), ["e4d5", "e4e5"])
        {leaving}
        print("asked")
    """
    ran = subprocess.run(
        [sys.executable, "-c", text], capture_output=True, text=True, timeout=30, check=False
    )
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "asked\n", "")


@pytest.mark.parametrize("engine", ["frozen"], indirect=True)
def test_closing_it_ends_the_wait_of_whoever_asked(engine: UciEngine) -> None:
    patient = UciEngine(engine.command, Limits(start_s=20, think_s=60))
    threading.Timer(1.5, patient.close).start()
    begun = time.monotonic()
    with pytest.raises(EngineTrouble, match="is closed"):
        patient.judge(TAKES, ["e4d5"])
    assert time.monotonic() - begun < 30


def test_a_missing_engine_and_one_that_may_not_be_run(tmp_path: Path) -> None:
    with pytest.raises(EngineTrouble, match="is not there"):
        UciEngine(str(tmp_path / "nothing"), QUICK).judge(TAKES, ["e4d5"])
    plain = tmp_path / "plain.txt"
    plain.write_text("no program", encoding="utf-8")
    with pytest.raises(EngineTrouble, match=r"plain\.txt (may not be run|could not be started)"):
        UciEngine(str(plain), QUICK).judge(TAKES, ["e4d5"])
    plain.chmod(0o755)
    with pytest.raises(EngineTrouble, match=r"The engine plain\.txt"):
        UciEngine(str(plain), QUICK).judge(TAKES, ["e4d5"])


@pytest.mark.skipif(os.name != "posix", reason="names on PATH are made with a mode")
def test_which_engine_is_used(tmp_path: Path) -> None:
    known = tmp_path / "uci-engine"
    known.write_text("#!/bin/sh\n", encoding="utf-8")
    known.chmod(0o755)
    env = {"PATH": str(tmp_path)}
    assert choose_engine(None, "", {"PATH": ""}) is None
    assert choose_engine(None, "", env) == str(known)
    assert choose_engine(None, "none", env) is None
    assert choose_engine("none", "uci-engine", env) is None
    assert choose_engine("uci-engine", "none", env) == str(known)
    assert choose_engine("/elsewhere/one", "", env) == "/elsewhere/one"


@pytest.mark.skipif(choose_engine(None, "", os.environ) is None, reason="no engine on PATH")
def test_the_engine_of_this_machine() -> None:
    """Checkmate with the queen on g7, as any engine sees it."""
    found = choose_engine(None, "", os.environ)
    assert found is not None and shutil.which(found)
    engine = UciEngine(found)
    try:
        place = Place("6k1/8/5K1Q/8/8/8/8/8 w - - 0 1")
        moves = [move.uci() for move in chess.Board(place.root).legal_moves]
        views = engine.judge(place, moves)
        assert views["h6g7"].mate == 1
        assert views == engine.judge(place, moves)
    finally:
        engine.close()
