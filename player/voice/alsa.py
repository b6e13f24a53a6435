"""Linux's sound library, kept from printing over the screen."""

from __future__ import annotations

import contextlib
import ctypes
import sys


def quieten_alsa() -> None:
    """Linux's sound library prints its complaints on the terminal, over whatever is drawn there.

    Its handler for them is set to a function of the C library that takes nothing and does nothing.
    """
    if not sys.platform.startswith("linux"):
        return
    with contextlib.suppress(OSError, AttributeError):
        nothing = ctypes.cast(ctypes.CDLL(None).getpid, ctypes.c_void_p)
        alsa = ctypes.CDLL("libasound.so.2")
        for setter in ("snd_lib_error_set_handler", "snd_lib_log_set_handler"):
            if hasattr(alsa, setter):
                getattr(alsa, setter)(nothing)
