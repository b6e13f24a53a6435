"""Settings changed from within a lesson: "remember", and "set NAME VALUE"."""

from __future__ import annotations

from typing import Any

from player.cli.settings import checked, known, line
from player.session.session import Listener, Session, Told
from player.stage.happenings import Tuned
from player.stage.inputs import Did
from player.stage.state import Telling
from player.voice.speaker import Notice
from player.world.setting_rules import RULES, typed_as
from player.world.settings import change_settings, settings_path
from player.world.trouble import Trouble, in_words
from player.world.world import World

_AT_ONCE = {
    "speed": "speed",
    "silence_scale": "silence",
    "naming": "squares",
    "ear": "ear",
    "mute": "voice",
    "hands_free_waits": "wait",
}
"""Settings that a command of the lesson changes too, so that they hold from this moment on."""


def remembering(world: World, session: Session) -> Listener:
    """A listener that writes what the learner wants kept, and says so, or why not, in a sentence."""
    path = settings_path(world.folders.config)

    def write(changes: dict[str, Any]) -> str:
        loaded = change_settings(path, changes)
        return ". ".join(line(loaded.settings, name) for name in changes)

    def hear(told: Told) -> None:
        if not isinstance(told, Tuned) or told.name not in ("set", "remembered"):
            return
        try:
            if told.name == "remembered":
                write(remembered(session.state.telling))
                return
            name, value = _asked(told.value)
            later = "" if name in _AT_ONCE else " It holds from the next start on."
            session.tell(Notice(f"{write({name: value})}.{later}"))
        except Trouble as trouble:
            session.tell(Notice(str(trouble)))
            return
        except OSError as error:
            session.tell(Notice(in_words(error)))
            return
        verb = _AT_ONCE.get(name)
        if verb is not None:
            wanted = not value if name == "mute" else value
            plainly = ("on" if wanted else "off") if isinstance(wanted, bool) else typed_as(wanted)
            session.feed(Did(verb, plainly))

    return hear


def remembered(telling: Telling) -> dict[str, Any]:
    """The settings that this way of telling stands for."""
    return {
        "speed": telling.speed,
        "silence_scale": telling.silence,
        "naming": telling.naming,
        "ear": telling.ear,
    }


def _asked(words: str) -> tuple[str, Any]:
    """The setting and the value of "speed 1.25" or "line width 72". Raises Trouble."""
    parts = words.split()
    cuts = [cut for cut in range(len(parts) - 1, 0, -1) if "_".join(parts[:cut]).casefold() in RULES]
    cut = cuts[0] if cuts else 1
    name = known(" ".join(parts[:cut]))
    return name, checked(name, " ".join(parts[cut:]))
