"""What of hearing answers works on this machine, found out by trying it."""

from __future__ import annotations

from collections.abc import Callable

from player.voice.ears.ears import open_ears
from player.voice.ears.microphone import Microphone
from player.voice.ears.recogniser import NoEars

_TRIES = 20
_TRY_S = 0.1

Found = tuple[str, bool, str, str]
"""What it is, whether it works, what was found, and what to do where it does not work."""


def probe(microphone: Callable[[], Microphone] = Microphone) -> tuple[Found, Found]:
    """The microphone and the recogniser, each tried for real; two seconds at most for the first."""
    return _microphone(microphone()), _recogniser()


def _microphone(one: Microphone) -> Found:
    one.start()
    frame = None
    for _ in range(_TRIES):
        frame = one.frame(_TRY_S)
        if frame is not None or not one.works:
            break
    one.stop()
    if frame is not None:
        return (
            "microphone",
            True,
            "It can be heard; nothing of it is kept, and nothing leaves this machine.",
            "",
        )
    found = "No sound comes from it." if one.works else "No microphone was found, or it is not allowed."
    remedy = (
        "Plug one in, and allow this terminal to use it; until then answers are typed, or given with one key."
    )
    return "microphone", False, found, remedy


def _recogniser() -> Found:
    try:
        open_ears()
    except NoEars as trouble:
        return (
            "ears",
            False,
            str(trouble),
            "Answers are typed, or given with one key; nothing else is needed.",
        )
    return "ears", True, "Spoken English answers can be understood, without a network.", ""
