"""What each action of the registry does."""

from __future__ import annotations

import re
from collections.abc import Callable

import chess

from player.facts.place import Place
from player.stage import asking, inquiring, plainer, seeking, tuning, wandering
from player.stage.act import Act
from player.stage.happenings import Marked, Put, Quit
from player.stage.registry import ACTIONS, BY_NAME
from player.stage.state import Naming
from player.stage.whereabouts import where_text


def start(act: Act, _: str) -> None:
    act.enter()


def resume(act: Act, _: str) -> None:
    """Come back after the program was away: the board, the question or the sentence from its start."""
    frame = act.top
    if frame.doing in ("saying", "resting") and frame.step is not None:
        if frame.ahead is None and frame.why in ("lesson", "aside"):
            act.board(frame.step.before, "seek")
        else:
            act.board(frame.place, "seek")
        act.enter()
        return
    shown = frame.shown
    act.edit(shown=None)
    act.board(frame.place, "seek")
    if shown is not None:
        act.edit(shown=shown)
        act.emit(Marked(shown))
    if frame.asked is not None and frame.doing in ("asked", "held"):
        if frame.asked.ask.text:
            act.note(f"Back at the question: {frame.asked.ask.text}")
        act.emit(Put(frame.asked.ask, act.think_ms()))
        if frame.doing == "asked":
            act.think()


def go_on(act: Act, _: str) -> None:
    frame = act.top
    act.set(which=None)
    if frame.doing == "held":
        act.let_go()
    elif frame.doing == "paced":
        act.next_step()
    elif frame.doing == "resting":
        act.sleep()
        act.next_step()
    elif frame.doing == "asked":
        act.note("A question stands here. Answer it, ask for a nudge, say 'tell me', or 'skip' it.")
    elif frame.doing == "wandering":
        wandering.leave_what_if(act)
    elif frame.doing == "over" and act.state.sheet.following is not None:
        act.set(quit=True)
        act.emit(Quit(to=act.state.sheet.following[0]))
    elif frame.doing == "over":
        act.note("The lesson is told. Say 'go to start' to hear it again, or 'quit'.")
    elif act.state.telling.by_beat:
        return


def pause(act: Act, _: str) -> None:
    if act.top.doing in ("saying", "resting", "asked"):
        act.hold()
    elif act.top.doing == "held":
        act.let_go()


def hold(act: Act, _: str) -> None:
    if act.top.doing in ("saying", "resting", "asked"):
        act.hold()
    act.note("Held. Say 'go on' when you are ready.")


def tell_me(act: Act, _: str) -> None:
    if act.state.asked is None:
        act.note("Nothing is asked at the moment.")
        return
    wandering.leave_what_if(act)
    asking.reveal(act, "told")


def nudge(act: Act, words: str) -> None:
    if words == "soon" and act.state.asked is not None:
        act.note("Give it a few seconds, or try a move first; then there is another nudge.")
        return
    if act.state.asked is not None:
        wandering.leave_what_if(act)
    asking.nudge(act)


def why(act: Act, words: str) -> None:
    """The coach's reason for the answer of the last question told, once the answer is known."""
    asked = act.state.asked
    if words.casefold().startswith("not "):
        inquiring.ask(act, f"why {words}")
        return
    if re.match(r"(is|are|do|does|did|can|can't|cannot|was|were|would|should)\b", words, re.I):
        inquiring.ask(act, f"why {words}")
        return
    if asked is not None:
        if words and act.top.why == "what-if":
            inquiring.ask(act, f"why not {words}")
        elif words:
            act.note("Play it as your answer, and you will hear what becomes of it.")
        else:
            act.note("The reason would give the answer away. Ask for a nudge, or say 'tell me'.")
        return
    steps = act.state.sheet.steps
    at = min(act.state.lesson.at, len(steps) - 1)
    for step in reversed(steps[: at + 1]):
        if step.ask is not None and step.ask.because and step.ask.answer is not None:
            reason = " ".join(s.say.shown for s in step.ask.because if s.say is not None)
            act.note(
                f"{act.state.sheet.coach or 'The coach'} says of {step.ask.answer.san}: {reason}", "coach"
            )
            return
    act.note("The coach has given no reason here but what was said. 'repeat' says it once more.", "unknown")


def look(act: Act, words: str) -> None:
    from player.wording.describe import changed, describe
    from player.wording.examine import examine

    place = act.top.place
    board = place.board()
    low = words.casefold().removeprefix("at ").strip()
    naming = act.state.telling.naming
    if low.startswith("changed") or low == "what changed":
        looked = act.state.looked or Place()
        act.note(changed(looked.board(), board), "board")
    elif low.startswith(("around ", "near ")):
        act.note(described(board, "around", low.partition(" ")[2], naming), "board")
    elif low.startswith(("along ", "line ")):
        act.note(described(board, "line", low.partition(" ")[2].removeprefix("the "), naming), "board")
    elif low in ("pieces", "all", "everything"):
        act.note(describe(board, "pieces", naming=naming), "board")
    elif low in ("", "gist", "board", "around"):
        act.note(describe(board, "gist" if low == "gist" else "whole", naming=naming), "board")
    elif low in chess.SQUARE_NAMES:
        act.note(examine(board, chess.parse_square(low)), "board")
    else:
        act.note(described(board, "line", low.removeprefix("the "), naming), "board")
    act.set(looked=place)


def described(board: chess.Board, depth: str, about: str, naming: Naming) -> str:
    from player.wording.describe import describe

    try:
        return describe(board, "around" if depth == "around" else "line", about=about, naming=naming)
    except ValueError:
        return f"'{about}' is no square, file, rank or diagonal."


def examine_square(act: Act, words: str) -> None:
    from player.wording.examine import examine, where

    name = words.casefold().removeprefix("the ").strip()
    if name in chess.SQUARE_NAMES:
        act.note(examine(act.top.place.board(), chess.parse_square(name)), "board")
    else:
        act.note(
            "Examine a square, such as examine e4." if not words else where(act.top.place.board(), words)
        )


def where_am_i(act: Act, words: str) -> None:
    from player.wording.examine import where

    act.note(
        where(act.top.place.board(), words) if words else where_text(act.state),
        "board" if words else "program",
    )


def ideas(act: Act, _: str) -> None:
    notebook = act.state.notebook
    if not notebook:
        act.note("No idea has been told yet.")
        return
    act.note("\n".join(f"{name}: {act.state.sheet.ideas.get(name, '')}" for name in notebook), "coach")


def transcript(act: Act, _: str) -> None:
    """What has been told up to here, without the answer to a question that stands."""
    steps = act.state.sheet.steps[: act.state.lesson.at + 1]
    ear = act.state.telling.ear
    told = [s.say.shown for s in steps if s.say is not None and (ear or not s.ear_only)]
    act.note("\n".join(told) or "Nothing has been told yet.", "coach")


def turn(act: Act, _: str) -> None:
    act.set(turned=not act.state.turned)
    place = act.top.place
    shown = act.top.shown
    act.edit(shown=None)
    act.board(place, "seek")
    if shown is not None:
        act.edit(shown=shown)
        act.emit(Marked(shown))


def help_(act: Act, words: str) -> None:
    """All that can be said, or the one line of the action that is named."""
    one = BY_NAME.get(words.casefold())
    if one is not None:
        act.note(f"{one.words[0]}: {one.help}")
        return
    lines = [f"{a.words[0]}{' ...' if a.object == 'must' else ''}: {a.help}" for a in ACTIONS]
    act.note("A move in any ordinary form answers a question, or tries it on the board.\n" + "\n".join(lines))


def quit_(act: Act, _: str) -> None:
    act.hush()
    act.set(quit=True)
    act.emit(Quit())


def enough(act: Act, _: str) -> None:
    """End before the next question or part; what is asked or told now is heard out."""
    act.set(enough=True)
    if act.state.over:
        quit_(act, "")
    elif act.state.asked is not None:
        act.note("It ends after this question; your place is kept.")
    else:
        act.note("It ends before the next question; your place is kept.")


def take_me_to_it(act: Act, _: str) -> None:
    """Leave for the lesson that a gathered question is from; the answer is then no longer unseen."""
    asked = act.state.asked
    key = asked.ask.key if asked is not None else _last_asked(act)
    to = act.state.sheet.origins.get(key)
    if to is None:
        act.note("There is no other lesson to go to from here.")
        return
    act.hush()
    act.set(quit=True, seen=act.state.seen | {key})
    act.emit(Quit(*to))


def _last_asked(act: Act) -> str:
    """The key of the question that was put last, "" where none was."""
    steps = act.state.sheet.steps[: act.state.lesson.at + 1]
    return next((step.ask.key for step in reversed(steps) if step.ask is not None), "")


def home(act: Act, _: str) -> None:
    wandering.home(act)


def undo(act: Act, _: str) -> None:
    wandering.undo(act)


def repeat(act: Act, _: str) -> None:
    seeking.repeat(act)


def back(act: Act, _: str) -> None:
    seeking.back(act)


def skip(act: Act, _: str) -> None:
    seeking.skip(act)


def aside(act: Act, words: str) -> None:
    seeking.walk_aside(act, words)


HANDLERS: dict[str, Callable[[Act, str], None]] = {
    "start": start,
    "resume": resume,
    "go on": go_on,
    "pause": pause,
    "hold": hold,
    "repeat": repeat,
    "back": back,
    "home": home,
    "undo": undo,
    "what if": wandering.what_if,
    "why": why,
    "nudge": nudge,
    "tell me": tell_me,
    "ask": inquiring.ask,
    "look": look,
    "examine": examine_square,
    "where": where_am_i,
    "ideas": ideas,
    "aside": aside,
    "skip": skip,
    "slower": tuning.slower,
    "faster": tuning.faster,
    "speed": tuning.speed,
    "silence": tuning.silence,
    "go to": seeking.go_to,
    "transcript": transcript,
    "wait": tuning.wait,
    "ear": tuning.ear,
    "voice": tuning.voice,
    "squares": tuning.squares,
    "plainer": plainer.plainer,
    "remember": plainer.remember,
    "set": plainer.set_,
    "turn": turn,
    "help": help_,
    "take me to it": take_me_to_it,
    "enough": enough,
    "quit": quit_,
}
