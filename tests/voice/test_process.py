"""Real workers, real signals."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from player.voice.process import WorkerGone, WorkerProcess
from player.voice.sound import NoSound

ROOT = Path(__file__).resolve().parents[2]
RUDE = "tests.voice.rude:RudeEngine"


@pytest.fixture
def worker() -> Iterator[WorkerProcess]:
    process = WorkerProcess(RUDE, folders=[ROOT])
    yield process
    process.close()


def make(text: str) -> dict[str, Any]:
    return {"do": "make", "text": text, "speed": 1.0, "voice": "", "language": "en"}


def is_running(pid: int) -> bool:
    """Whether a process lives; one that has ended and that nobody has asked about yet does not."""
    with contextlib.suppress(OSError):
        return Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    return True


def wait_for_end(pid: int, seconds: float = 5.0) -> bool:
    until = time.monotonic() + seconds
    while is_running(pid) and time.monotonic() < until:
        time.sleep(0.01)
    return not is_running(pid)


def test_one_worker_serves_many_requests(worker: WorkerProcess) -> None:
    head, _ = worker.ask({"do": "voices"}, 5)
    assert head["version"] == "rude 1" and head["voices"] == [["Rude", "en"]]
    first = worker.pid
    for _ in range(20):
        head, body = worker.ask(make("rook to e1"), 5)
        assert head["rate_hz"] == 8_000 and len(head["word_frames"]) == 3 and len(body) > 10_000
    assert worker.pid == first


@pytest.mark.parametrize("text", ["crash now", "die now"])
def test_a_worker_that_ends_is_replaced(worker: WorkerProcess, text: str) -> None:
    worker.ask(make("before"), 5)
    first = worker.pid
    with pytest.raises(WorkerGone, match="stopped working"):
        worker.ask(make(text), 5)
    assert worker.ask(make("after"), 5)[1]
    assert worker.pid not in (None, first)


def test_a_worker_that_hangs_is_killed_and_replaced(worker: WorkerProcess) -> None:
    worker.ask(make("before"), 5)
    first = worker.pid
    assert first is not None
    begun = time.monotonic()
    with pytest.raises(WorkerGone, match="in time"):
        worker.ask(make("hang here"), 0.3)
    assert time.monotonic() - begun < 2
    assert wait_for_end(first)
    assert worker.ask(make("after"), 5)[1]


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
def test_a_worker_killed_in_the_middle_of_a_text_is_replaced(worker: WorkerProcess) -> None:
    worker.ask(make("before"), 5)
    pid = worker.pid
    assert pid is not None
    threading.Timer(0.15, os.kill, (pid, signal.SIGKILL)).start()
    with pytest.raises(WorkerGone):
        worker.ask(make("slow text"), 5)
    assert worker.ask(make("after"), 5)[1]


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
def test_a_frozen_worker_does_not_block_even_a_long_text(worker: WorkerProcess) -> None:
    worker.ask(make("before"), 5)
    pid = worker.pid
    assert pid is not None
    os.kill(pid, signal.SIGSTOP)
    begun = time.monotonic()
    with pytest.raises(WorkerGone):
        worker.ask(make("word " * 60_000), 0.3)
    assert time.monotonic() - begun < 2
    assert worker.ask(make("after"), 5)[1]


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGINT, signal.SIGHUP])
def test_polite_signals_do_not_harm_a_worker(worker: WorkerProcess, number: signal.Signals) -> None:
    worker.ask(make("before"), 5)
    pid = worker.pid
    assert pid is not None
    assert os.getsid(pid) != os.getsid(0), "a key in the terminal reaches the worker"
    os.kill(pid, number)
    assert worker.ask(make("slow after"), 5)[1]
    assert worker.pid == pid


@pytest.mark.parametrize("text", ["refuse this", "unforeseen thing"])
def test_a_refusal_is_a_sentence_and_the_worker_stays(worker: WorkerProcess, text: str) -> None:
    worker.ask(make("before"), 5)
    pid = worker.pid
    with pytest.raises(NoSound, match=r"^[A-Z].*\.$") as caught:
        worker.ask(make(text), 5)
    assert not isinstance(caught.value, WorkerGone)
    assert worker.pid == pid


@pytest.mark.parametrize(
    ("engine", "why"),
    [
        ("tests.voice.rude:MissingEngine", "not installed"),
        ("tests.voice.rude:BrokenEngine", "could not be started"),
        ("no.such.module:Engine", "could not be started"),
    ],
)
def test_an_engine_that_is_not_there_says_why(engine: str, why: str) -> None:
    process = WorkerProcess(engine, folders=[ROOT])
    try:
        for _ in range(2):
            with pytest.raises(NoSound, match=why):
                process.ask(make("anything"), 5)
    finally:
        process.close()


def test_what_a_library_prints_goes_nowhere(worker: WorkerProcess, capfd: pytest.CaptureFixture[str]) -> None:
    assert worker.ask(make("print this"), 5)[1]
    assert worker.ask(make("and this"), 5)[1]
    assert capfd.readouterr() == ("", "")


def test_close_ends_a_request_under_way_and_leaves_no_process(worker: WorkerProcess) -> None:
    worker.ask(make("before"), 5)
    pid = worker.pid
    assert pid is not None
    caught: list[Exception] = []

    def ask() -> None:
        try:
            worker.ask(make("hang here"), 60)
        except NoSound as fault:
            caught.append(fault)

    thread = threading.Thread(target=ask)
    thread.start()
    time.sleep(0.1)
    begun = time.monotonic()
    worker.close()
    thread.join(5)
    assert time.monotonic() - begun < 1
    assert not thread.is_alive() and len(caught) == 1
    assert wait_for_end(pid)
    with pytest.raises(WorkerGone, match="closed"):
        worker.ask(make("more"), 5)
    worker.close()


@pytest.mark.skipif(os.name != "posix", reason="signals of POSIX")
@pytest.mark.parametrize("end", ["kill", "leave"])
def test_a_worker_does_not_outlive_the_program(tmp_path: Path, end: str) -> None:
    # The program is killed, or leaves without closing anything, while its worker hangs in a text.
    program = (
        "import sys, threading, time, os, signal\n"
        f"sys.path.insert(0, {str(ROOT)!r})\n"
        "from pathlib import Path\n"
        "from player.voice.process import WorkerProcess\n"
        f"worker = WorkerProcess({RUDE!r}, folders=[Path({str(ROOT)!r})])\n"
        "worker.ask({'do': 'voices'}, 5)\n"
        "ask = {'do': 'make', 'text': 'hang', 'speed': 1.0, 'voice': '', 'language': 'en'}\n"
        "threading.Thread(target=worker.ask, args=(ask, 99), daemon=True).start()\n"
        "time.sleep(0.1)\n"
        "print(worker.pid, flush=True)\n"
        + ("os.kill(os.getpid(), signal.SIGKILL)\n" if end == "kill" else "")
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=20, cwd=tmp_path, check=False
    )
    assert done.returncode == (-signal.SIGKILL if end == "kill" else 0), done.stderr
    assert wait_for_end(int(done.stdout)), "the worker went on after its program"


def test_nothing_is_imported_from_the_folder_of_the_lesson(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    trap = tmp_path / "trap.txt"
    for name in ("json.py", "queue.py", "player.py"):
        (tmp_path / name).write_text(f"open({str(trap)!r}, 'w').write('caught')\n")
    monkeypatch.chdir(tmp_path)
    process = WorkerProcess(RUDE, folders=[ROOT])
    try:
        assert process.ask(make("before"), 5)[1]
    finally:
        process.close()
    assert not trap.exists()
