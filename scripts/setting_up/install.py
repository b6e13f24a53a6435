"""Make .venv hold a set of libraries, doing nothing when it does already."""

from __future__ import annotations

import contextlib
import errno
import importlib.util
import os
import re
import shutil
import subprocess
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from scripts.setting_up.pip_talk import Progress, explain
from scripts.setting_up.place import Place, base_python
from scripts.setting_up.stamp import Stamp, read_stamp, write_stamp
from scripts.setting_up.starter import write_starters
from scripts.setting_up.trouble import Trouble
from scripts.setting_up.turns import one_at_a_time

# Settings of pip's that would send libraries elsewhere than into .venv; a registry or proxy of yours stays.
_AWAY = ("PIP_TARGET", "PIP_PREFIX", "PIP_ROOT", "PIP_PYTHON", "PIP_DRY_RUN", "PIP_CONSTRAINT")
_PIP: tuple[str, ...] = (
    "install",
    "--require-hashes",
    "--no-deps",
    "--no-input",
    "--no-color",
    "--progress-bar",
    "off",
)
_PIP += ("--disable-pip-version-check", "--no-warn-script-location", "--only-binary", ":all:")
# Room to have free, in MB: measured for each set and rounded up.
_SIZES_MB = {"play": 100, "dev": 250}

# With less free than this after a failure that says nothing, the disk is what failed.
_NO_ROOM_BYTES = 2_000_000

# Runs a command, hands every line it prints to a listener, and returns its exit status.
Runner = Callable[[Sequence[str], Callable[[str], None]], int]
Say = Callable[[str], None]


def run_command(command: Sequence[str], hear: Callable[[str], None]) -> int:
    """Run a command without input, with its two outputs as one, and return its exit status.

    It ends when this does. Should this be killed outright, what goes on still holds the lock (see turns.py).
    """
    env = {name: value for name, value in os.environ.items() if name.upper() not in _AWAY}
    env |= {"PYTHONIOENCODING": "utf-8", "PIP_USER": "0", "PIP_ROOT_USER_ACTION": "ignore"}
    with subprocess.Popen(
        command,
        env=env,
        encoding="utf-8",
        errors="replace",
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        close_fds=False,
    ) as running:
        try:
            for line in running.stdout or ():
                hear(line.rstrip())
        except BaseException:
            running.kill()
            raise
    return running.returncode


@dataclass(frozen=True)
class Installer:
    """Installs sets into the .venv of a place, telling of it line by line."""

    place: Place
    say: Say
    run: Runner = run_command

    def ensure(self, *names: str) -> None:
        """Make .venv hold the sets of these names. Raise Trouble when that cannot be done."""
        known = sorted(path.stem for path in self.place.locks.glob("*.txt"))
        for name in names:
            if name not in known:
                more = [each for each in known if each not in ("build", "play", "dev")]
                choice = f"There are: {', '.join(more)}." if more else "There are none to add yet."
                raise Trouble(f'There is no set of libraries called "{name}". {choice}')
        for name in names:
            self._ensure(name)
        try:
            write_starters(self.place)
        except OSError as error:
            raise Trouble(_explain_os_error(error, self.place, 1)) from error

    def _ensure(self, name: str) -> None:
        place = self.place
        if not (read_stamp(place).holds(name, place) and place.whole()):
            try:
                with one_at_a_time(place.turn, self.say):
                    self._install(name)
            except OSError as error:
                raise Trouble(_explain_os_error(error, place, _SIZES_MB.get(name, 600))) from error

    def _install(self, name: str) -> None:
        place = self.place
        stamp = read_stamp(place)
        if stamp.holds(name, place) and place.whole():
            return  # the one we waited for did it
        if stamp.busy or not place.whole():
            stamp = self._make_venv(stamp)
        self.say("Fetching the libraries; only a first run or a new version needs this.")
        write_stamp(place, replace(stamp, busy=True))
        self._pip("build", ())
        self._pip(name, ("--no-binary", "chess", "--no-build-isolation"))
        write_stamp(place, stamp.with_set(name, place))
        with contextlib.suppress(OSError):
            place.log.unlink()
        self.say("All the libraries are in place.")

    def _make_venv(self, stamp: Stamp) -> Stamp:
        """Make .venv from nothing, in place of one that is ours and unfinished or broken."""
        place = self.place
        if place.venv.is_symlink() or (place.venv.exists() and not place.venv.is_dir()):
            raise Trouble(f"{place.venv} is not a folder. Move it away and run this again.")
        if place.venv.exists():
            if not stamp.ours and any(place.venv.iterdir()):
                raise Trouble(
                    f"The folder {place.venv} was not made by this script and cannot be used as it is. "
                    "Move it away and run this again."
                )
            self.say("The last set-up was not finished, or its Python is gone; starting afresh.")
            # The stamp goes last, so that a stop in the middle still leaves a folder known to be ours.
            for path in place.venv.iterdir():
                if path != place.stamp:
                    _remove(path)
        if importlib.util.find_spec("venv") is None or importlib.util.find_spec("ensurepip") is None:
            raise Trouble(_NO_VENV)
        self.say(f"Making {place.venv} for the libraries.")
        fresh = Stamp(ours=True, busy=True)
        write_stamp(place, fresh)
        said: list[str] = []
        if self.run([base_python(), "-I", "-m", "venv", str(place.venv)], said.append) or not place.whole():
            if "ensurepip is not" in " ".join(said):
                raise Trouble(_NO_VENV)
            raise self._failed("venv", said, 50)
        return replace(fresh, busy=False)

    def _pip(self, name: str, more: Sequence[str]) -> None:
        lock = self.place.lock(name)
        pins = re.findall(r"^[A-Za-z0-9._-]+==", lock.read_text(encoding="utf-8"), flags=re.MULTILINE)
        progress = Progress(len(pins), self.say)
        said: list[str] = []

        def hear(line: str) -> None:
            said.append(line)
            progress.hear(line)

        if self.run([str(self.place.python), "-I", "-m", "pip", *_PIP, *more, "-r", str(lock)], hear):
            raise self._failed("pip", said, _SIZES_MB.get(name, 600))

    def _failed(self, program: str, said: Sequence[str], size_mb: int) -> Trouble:
        with contextlib.suppress(OSError):
            self.place.log.write_text("\n".join(said) + "\n", encoding="utf-8")
        known = explain(said, size_mb)
        if known is None and shutil.disk_usage(self.place.root).free < _NO_ROOM_BYTES:
            known = _disk_full(size_mb)
        return Trouble(known or f"Setting up failed in {program}. What it said is in {self.place.log}.")


_NO_VENV = (
    "This Python cannot make a virtual environment: its venv or ensurepip part is missing. "
    "On Debian and Ubuntu install the package python3-venv, then run this again."
)


def _disk_full(size_mb: int) -> str:
    return f"The disk is full. Make some room (about {size_mb} MB) and run this again."


def _remove(path: os.PathLike[str]) -> None:
    if os.path.isdir(path) and not os.path.islink(path):
        shutil.rmtree(path)
    else:
        os.unlink(path)


def _explain_os_error(error: OSError, place: Place, size_mb: int) -> str:
    if error.errno == errno.ENOSPC:
        return _disk_full(size_mb)
    if error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        return f"Nothing can be written in {place.root}. Copy the checkout to a folder of yours first."
    return f"Setting up failed: {error.strerror or error} ({error.filename or place.venv})."
