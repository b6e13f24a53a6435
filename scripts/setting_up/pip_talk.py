"""pip's output, put into plain lines while it works and plain sentences when it fails."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

_BEGUN = re.compile(r"^(?:Collecting|Requirement already satisfied:) ([A-Za-z0-9._-]+)==([^\s;]+)")

# The first that is found in what pip said tells what to say. Disk and hash come before the network, since pip
# tries again after either and may then speak of connections too.
_FAILURES = (
    (
        r"No space left on device|\[Errno 28\]|WinError 112|not enough space",
        "The disk is full. Make some room (about {size} MB) and run this again.",
    ),
    (
        r"DO NOT MATCH THE HASHES|HashMismatch",
        "A library that came is not the one that the lock file names, so it was not installed. "
        "Try again; if it stays so, something between you and the package registry changes files.",
    ),
    (
        r"CERTIFICATE_VERIFY_FAILED|SSLError",
        "The package registry was reached, but its certificate was not accepted. "
        "If a proxy stands between, tell pip of its certificate (pip config set global.cert FILE).",
    ),
    (
        r"NewConnectionError|NameResolutionError|ConnectTimeoutError|ReadTimeoutError|Connection refused"
        r"|Temporary failure in name resolution|getaddrinfo failed|ProxyError|Network is unreachable"
        r"|Connection aborted|Connection broken|ConnectionResetError|IncompleteRead|HTTP ?[Ee]rror:? \d\d\d",
        "The package registry cannot be reached. Connect to the internet this once and run this again; "
        "later runs need no network.",
    ),
    (
        r"No matching distribution found for ([A-Za-z0-9._-]+)",
        "There is no ready-made {0} for this Python on this machine. Try another Python, 3.11 to 3.14.",
    ),
    (
        r"No module named ['\"]?pip",
        "The folder .venv has no pip in it. Delete .venv and run this again.",
    ),
    (
        r"Permission denied|\[Errno 13\]|WinError 5\b|Read-only file system|\[Errno 30\]",
        "The folder .venv cannot be written to. Make it yours to write, or copy the checkout elsewhere.",
    ),
)


class Progress:
    """Says one plain line for each library that pip takes up: its number, how many there are, its name."""

    def __init__(self, total: int, say: Callable[[str], None]) -> None:
        self._total = total
        self._say = say
        self._seen = 0
        self._retried = False

    def hear(self, line: str) -> None:
        """Take one line of pip's output."""
        if line.startswith("Ignoring ") and "markers" in line:
            self._total -= 1  # meant for another system
        elif (match := _BEGUN.match(line)) is not None:
            self._seen += 1
            self._say(f"  {self._seen} of {max(self._seen, self._total)}: {match[1]} {match[2]}")
        elif "Retrying (Retry(" in line and not self._retried:
            self._retried = True
            self._say("  The package registry does not answer; trying again.")
        elif line.startswith("Installing collected packages"):
            self._say("  Putting them in place.")


def explain(lines: Sequence[str], size_mb: int) -> str | None:
    """One or two sentences that say why pip failed, or None where its output tells nothing known."""
    said = "\n".join(lines)
    for pattern, sentence in _FAILURES:
        if (match := re.search(pattern, said)) is not None:
            return sentence.format(*match.groups(), size=size_mb)
    return None
