"""Sound files: one channel of 16-bit PCM in RIFF/WAVE, with the beginnings of the words as cue points.

The layout follows "Multimedia Programming Interface and Data Specifications 1.0" (IBM and Microsoft, 1991):
the chunks "fmt ", "data", "cue " (one point a word) and a LIST of type INFO, whose ICMT comment carries a
checksum of what is heard or believed. Any audio editor opens such a file and shows the words as markers.
"""

from __future__ import annotations

import json
import struct
import zlib
from dataclasses import dataclass
from pathlib import Path

FRAME_BYTES = 2
_PCM = 1


class DamagedSound(Exception):
    """A sound file that is not what it says it is."""


@dataclass(frozen=True, slots=True)
class Wave:
    """`pcm` is 16-bit little-endian, one channel; `cues` are frame numbers."""

    rate_hz: int
    pcm: bytes
    cues: tuple[int, ...] = ()
    measured: bool = False

    @property
    def frames(self) -> int:
        return len(self.pcm) // FRAME_BYTES


def wav_bytes(wave: Wave) -> bytes:
    """The whole file."""
    form = struct.pack("<HHIIHH", _PCM, 1, wave.rate_hz, wave.rate_hz * FRAME_BYTES, FRAME_BYTES, 16)
    cues = struct.pack("<I", len(wave.cues)) + b"".join(
        struct.pack("<II4sIII", number, frame, b"data", 0, 0, frame)
        for number, frame in enumerate(wave.cues, start=1)
    )
    crc = _crc(form, cues, wave.pcm, wave.measured)
    comment = json.dumps({"crc32": crc, "measured": wave.measured}).encode()
    body = b"WAVE" + _chunk(b"fmt ", form) + _chunk(b"cue ", cues)
    body += _chunk(b"LIST", b"INFO" + _chunk(b"ICMT", comment + b"\0")) + _chunk(b"data", wave.pcm)
    return b"RIFF" + struct.pack("<I", len(body)) + body


def read_wav(path: Path) -> Wave:
    """The sound in a file written by `wav_bytes`.

    DamagedSound where the header, a length or the checksum does not hold; OSError where it cannot be read.
    """
    return parse_wav(path.read_bytes())


def parse_wav(content: bytes) -> Wave:
    """As `read_wav`, from the file's content."""
    if len(content) < 12 or content[:4] != b"RIFF" or content[8:12] != b"WAVE":
        raise DamagedSound("no RIFF/WAVE header")
    if struct.unpack_from("<I", content, 4)[0] != len(content) - 8:
        raise DamagedSound("the file's length is not the one in its header")
    chunks = _chunks(content[12:])
    try:
        kind, channels, rate, _, width, bits = struct.unpack_from("<HHIIHH", chunks[b"fmt "])
        pcm = chunks[b"data"]
        if (kind, channels, width, bits) != (_PCM, 1, FRAME_BYTES, 16) or not 4_000 <= rate <= 192_000:
            raise DamagedSound("not one channel of 16-bit sound")
        (count,) = struct.unpack_from("<I", chunks[b"cue "])
        cues = tuple(struct.unpack_from("<II4sIII", chunks[b"cue "], 4 + 24 * n)[5] for n in range(count))
        comment = json.loads(_chunks(chunks[b"LIST"][4:])[b"ICMT"].rstrip(b"\0"))
        crc, measured = comment["crc32"], comment["measured"] is True
    except (KeyError, TypeError, ValueError, struct.error) as fault:
        raise DamagedSound("a part of the file is missing or unreadable") from fault
    if len(pcm) % FRAME_BYTES or _crc(chunks[b"fmt "], chunks[b"cue "], pcm, measured) != crc:
        raise DamagedSound("the sound is not the one that was written")
    return Wave(rate, pcm, cues, measured)


def _crc(form: bytes, cues: bytes, pcm: bytes, measured: bool) -> int:
    """One checksum over everything that is heard or believed."""
    return zlib.crc32(pcm, zlib.crc32(form + cues + bytes([measured])))


def _chunk(name: bytes, content: bytes) -> bytes:
    return name + struct.pack("<I", len(content)) + content + b"\0" * (len(content) % 2)


def _chunks(content: bytes) -> dict[bytes, bytes]:
    found: dict[bytes, bytes] = {}
    at = 0
    while at + 8 <= len(content):
        (size,) = struct.unpack_from("<I", content, at + 4)
        if at + 8 + size > len(content):
            raise DamagedSound("a chunk reaches past the end of the file")
        found.setdefault(content[at : at + 4], content[at + 8 : at + 8 + size])
        at += 8 + size + size % 2
    return found
