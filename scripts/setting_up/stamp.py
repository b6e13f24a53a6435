"""What is known of .venv: the sets installed in it, by the hash of their lock, and unfinished work."""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import asdict, dataclass, field, replace

from scripts.setting_up.place import Place


@dataclass(frozen=True)
class Stamp:
    """The state of a .venv.

    `ours` says that these scripts made it, so they may make it anew; `busy` that work on it was begun and not
    finished; `sets` maps the name of each installed set to the hash of the lock it came from.
    """

    ours: bool = False
    busy: bool = False
    sets: dict[str, str] = field(default_factory=dict)

    def holds(self, name: str, place: Place) -> bool:
        """Whether the set is installed, whole, and from the lock as it is now."""
        return not self.busy and self.sets.get(name) == lock_hash(name, place)

    def with_set(self, name: str, place: Place) -> Stamp:
        """This state after a set was installed. Every set has the one called play inside."""
        new = {each: lock_hash(each, place) for each in (name, "play")}
        return replace(self, busy=False, sets=self.sets | new)


def lock_hash(name: str, place: Place) -> str:
    """The hash of what decides the content of a set: its lock and that of the building tools."""
    parts = [place.lock(each).read_bytes().replace(b"\r\n", b"\n") for each in (name, "build")]
    return hashlib.sha256(b"\0".join(parts)).hexdigest()


def read_stamp(place: Place) -> Stamp:
    """The state of .venv; one with nothing in it where there is no stamp, or none that can be read."""
    try:
        found = json.loads(place.stamp.read_text(encoding="utf-8"))
        return Stamp(bool(found["ours"]), bool(found["busy"]), dict(found["sets"]))
    except FileNotFoundError:
        return Stamp()
    except (OSError, ValueError, KeyError, TypeError):
        # Our stamp, torn: what was being done is not known, so none of it is trusted.
        return Stamp(ours=True, busy=True)


def write_stamp(place: Place, stamp: Stamp) -> None:
    """Replace the stamp in one step, making .venv where it is not there yet."""
    place.venv.mkdir(exist_ok=True)
    fresh = place.stamp.with_suffix(".new")
    fresh.write_text(json.dumps(asdict(stamp)), encoding="utf-8")
    os.replace(fresh, place.stamp)
