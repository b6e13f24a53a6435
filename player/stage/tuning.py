"""How the lesson is told, changed while it is told: pace, silences, voice, waiting, names of squares."""

from __future__ import annotations

from dataclasses import replace

from player.cues.naming import renamed
from player.stage.act import Act
from player.stage.happenings import Tuned
from player.stage.state import Naming

SPEEDS = (0.5, 0.6, 0.7, 0.8, 0.9, 1.0, 1.1, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0)
ON = {"": None, "on": True, "yes": True, "off": False, "no": False}


def tune(act: Act, name: str, value: object, shown: str) -> None:
    act.set(telling=replace(act.state.telling, **{name: value}))  # type: ignore[arg-type]
    act.emit(Tuned(name, shown))


def speed(act: Act, words: str) -> None:
    try:
        value = float(words.casefold().strip().rstrip("x").replace(",", "."))
    except ValueError:
        value = 0.0
    if not 0.5 <= value <= 3:
        act.note("The speed is a number from 0.5 to 3.")
        return
    set_speed(act, value)


def set_speed(act: Act, value: float) -> None:
    changes = value != act.state.telling.speed
    saying = changes and act.top.doing == "saying" and act.top.saying
    if saying:
        act.hush()
    if changes:
        act.edit(ms=None)
    tune(act, "speed", value, f"{value:g}")
    if saying:
        act.say_step(from_word=max(0, act.top.word - 1))


def faster(act: Act, _: str) -> None:
    now = act.state.telling.speed
    set_speed(act, next((one for one in SPEEDS if one > now + 0.001), 3.0))


def slower(act: Act, _: str) -> None:
    now = act.state.telling.speed
    set_speed(act, next((one for one in reversed(SPEEDS) if one < now - 0.001), 0.5))


def silence(act: Act, words: str) -> None:
    try:
        value = float(words.casefold().strip().rstrip("x").replace(",", "."))
    except ValueError:
        value = 0.0
    if not 0.3 <= value <= 10:
        act.note("The scale of silences is a number from 0.3 to 10.")
        return
    tune(act, "silence", value, f"{value:g}")


def switch(act: Act, words: str, name: str, label: str) -> bool:
    """Set a switch by on or off, or change it over; False where the words are neither."""
    if words.casefold() not in ON:
        act.note(f"Say '{label} on' or '{label} off'.")
        return False
    wanted = ON[words.casefold()]
    value = (not getattr(act.state.telling, name)) if wanted is None else wanted
    tune(act, name, value, "on" if value else "off")
    return True


def wait(act: Act, words: str) -> None:
    """Whether questions wait for ever. A thinking silence begins or ends at a question that stands."""
    if switch(act, words or "on", "wait", "wait for me") and act.top.doing == "asked":
        act.sleep()
        act.think()


def ear(act: Act, words: str) -> None:
    if switch(act, words, "ear", "ear mode"):
        act.note("Everything is announced in words." if act.state.telling.ear else "Announcements are off.")


def voice(act: Act, words: str) -> None:
    switch(act, words, "voice", "voice")


def squares(act: Act, words: str) -> None:
    names: dict[str, Naming] = {"letters": "letters", "names": "fide", "fide": "fide", "alphabet": "alphabet"}
    naming = names.get(words.casefold().strip())
    if naming is None:
        act.note("Say 'squares letters', 'squares names' or 'squares alphabet'.")
        return
    saying = act.top.doing == "saying"
    if saying:
        act.hush()
    before = act.state.sheet
    after = renamed(before, naming)
    frames = tuple(
        replace(frame, track=after.steps, word=0, ms=None) if frame.track == before.steps else frame
        for frame in act.state.frames
    )
    act.set(sheet=after, frames=frames)
    tune(act, "naming", naming, words.casefold().strip())
    if saying:
        act.say_step()
