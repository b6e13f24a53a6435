"""Reading and writing files so that nothing is lost, half-written or misread."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import stat
from collections.abc import Iterator
from pathlib import Path

from player.world.trouble import Trouble

LARGEST_TEXT_BYTES = 20_000_000

_WRITE = os.O_WRONLY | os.O_CREAT | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)


def write_atomically(path: Path, data: str | bytes) -> None:
    """Give the file this content, all at once: a reader, or a kill, finds the old content or the new.

    Text is written as UTF-8 with LF. The permissions of a file that is there stay; a link stays a link, and
    the file it leads to gets the content. What is not a plain file (a pipe, a device) is written to as it is.
    Raises OSError, having left the old content and nothing else.
    """
    content = data.encode("utf-8") if isinstance(data, str) else data
    target = Path(os.path.realpath(path))
    try:
        known: os.stat_result | None = os.stat(target)
    except FileNotFoundError:
        known = None
    if known is not None and stat.S_ISDIR(known.st_mode):
        raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    if known is not None and not stat.S_ISREG(known.st_mode):
        with about(path), open(target, "wb", buffering=0) as out:
            _write_all(out.fileno(), content)
        return
    if known is not None and not os.access(target, os.W_OK):
        # Its folder would let us replace it, but whoever made it read-only meant it.
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
    fresh = target.with_name(f".{secrets.token_hex(8)}.new")
    with about(path):
        handle = os.open(fresh, _WRITE | os.O_EXCL, 0o666)
        try:
            try:
                if known is not None:
                    _keep_owner_and_mode(handle, fresh, known)
                _write_all(handle, content)
                os.fsync(handle)
            finally:
                os.close(handle)
            os.replace(fresh, target)
        except BaseException:
            with contextlib.suppress(OSError):
                os.unlink(fresh)
            raise
    sync_folder(target.parent)


def open_to_append(path: Path) -> int:
    """Open a file for reading and appending, making it if need be; the caller closes the handle."""
    flags = os.O_RDWR | os.O_APPEND | os.O_CREAT
    return os.open(path, flags | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0), 0o666)


def append_whole(handle: int, data: bytes, size: int, path: Path) -> None:
    """Append bytes to an open file of `size` bytes in one write. A short one is taken back: OSError."""
    with about(path):
        written = os.write(handle, data)
    if written != len(data):
        os.ftruncate(handle, size)
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(path))


def read_text_forgiving(path: Path, largest_bytes: int = LARGEST_TEXT_BYTES) -> str:
    """The text of a file as people save it: UTF-8 with or without a byte order mark, or UTF-16 with one.

    Every line end becomes LF. Raises OSError, or Trouble with the line where the text is not to be read, or
    where the file is larger than any text of ours.
    """
    with open(path, "rb") as source:
        data = source.read(largest_bytes + 1)
    if len(data) > largest_bytes:
        raise Trouble(f"{path} is larger than {largest_bytes // 1_000_000} MB, so it is not read as a text.")
    encoding = "utf-8-sig"
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        encoding = "utf-16"
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        line = _count_lines(data[: error.start], encoding)
        raise Trouble(f"{path} is not UTF-8 text: line {line} cannot be read. Save it as UTF-8.") from error
    return text.replace("\r\n", "\n").replace("\r", "\n")


def make_folder(path: Path) -> None:
    """Make a folder and those above it that are missing, for this user alone (XDG: mode 0700)."""
    if path.is_dir():
        return
    make_folder(path.parent)
    with contextlib.suppress(FileExistsError):
        path.mkdir(mode=0o700)
    if not path.is_dir():
        raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR), str(path))


def set_aside(path: Path) -> Path:
    """Rename a damaged file to a free name beside it, `NAME.damaged` or `NAME.damaged-2`, and return that."""
    number = 1
    while True:
        aside = path.with_name(f"{path.name}.damaged" + (f"-{number}" if number > 1 else ""))
        if not os.path.lexists(aside):
            os.rename(path, aside)
            return aside
        number += 1


def sync_folder(folder: Path) -> None:
    """Ask the system to have the names in a folder on disk, where it can do that."""
    if os.name != "posix":
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


@contextlib.contextmanager
def about(path: Path) -> Iterator[None]:
    """Name this file in every OSError of the block, in place of a temporary one or of none."""
    try:
        yield
    except OSError as error:
        error.filename, error.filename2 = str(path), None
        raise


def _write_all(handle: int, content: bytes) -> None:
    view = memoryview(content)
    while view:
        view = view[os.write(handle, view) :]


def _keep_owner_and_mode(handle: int, fresh: Path, known: os.stat_result) -> None:
    if hasattr(os, "fchown"):
        made = os.fstat(handle)
        if (made.st_uid, made.st_gid) != (known.st_uid, known.st_gid):
            with contextlib.suppress(OSError):
                os.fchown(handle, known.st_uid, known.st_gid)
    os.chmod(fresh, stat.S_IMODE(known.st_mode))


def _count_lines(data: bytes, encoding: str) -> int:
    text = data.decode(encoding, errors="replace").replace("\r\n", "\n").replace("\r", "\n")
    return text.count("\n") + 1
