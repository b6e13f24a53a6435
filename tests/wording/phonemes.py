"""What eSpeak NG makes of a text, as phonemes: the library and its data come in a wheel (espeakng-loader)."""

from __future__ import annotations

import ctypes
import json
import os
import subprocess
import sys
from collections.abc import Sequence


def phonemes(texts: Sequence[str], voice: str = "en") -> list[str]:
    """The phonemes (IPA, words parted by blanks) of each text, made in a process of its own."""
    done = subprocess.run(
        [sys.executable, __file__, voice],
        input=json.dumps(list(texts)),
        capture_output=True,
        text=True,
        check=True,
    )
    out: list[str] = json.loads(done.stdout)
    return out


def _main() -> None:
    import espeakng_loader  # type: ignore[import-untyped]

    os.environ["ESPEAK_DATA_PATH"] = espeakng_loader.get_data_path()
    library = ctypes.CDLL(espeakng_loader.get_library_path())
    library.espeak_Initialize(1, 0, espeakng_loader.get_data_path().encode(), 0)
    library.espeak_SetVoiceByName(sys.argv[1].encode())
    to_phonemes = library.espeak_TextToPhonemes
    to_phonemes.restype = ctypes.c_char_p
    to_phonemes.argtypes = [ctypes.POINTER(ctypes.c_char_p), ctypes.c_int, ctypes.c_int]
    out = []
    for text in json.load(sys.stdin):
        rest = ctypes.c_char_p(text.encode())
        parts = []
        while rest.value is not None:
            parts.append(to_phonemes(ctypes.byref(rest), 1, 2).decode())
        out.append(" ".join(parts))
    json.dump(out, sys.stdout)


if __name__ == "__main__":
    _main()
