"""The one registry of what a learner can do: it feeds keys, words, help and the spoken grammar."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Object = Literal["", "may", "must"]


@dataclass(frozen=True, slots=True)
class Action:
    """One thing a learner can do.

    `words` are the ways to say it, the first being the one shown. `letter` is a short typed form, "" where
    a letter would hide a move. `key` is a key of the screen (a Textual key name). `object` tells whether
    further words belong to it. `help` is one line.
    """

    name: str
    words: tuple[str, ...]
    letter: str
    key: str
    object: Object
    help: str


ACTIONS: tuple[Action, ...] = (
    Action(
        "go on",
        ("go on", "continue", "carry on", "resume", "next"),
        "",
        "enter",
        "",
        "Go on with the telling.",
    ),
    Action(
        "pause",
        ("pause", "stop", "quiet", "hush"),
        "p",
        "escape",
        "",
        "Stop in mid-word; 'go on' takes it up there.",
    ),
    Action("hold", ("hold", "hold on", "wait"), "", "ctrl+d", "", "Wait without end, at a question too."),
    Action(
        "repeat", ("repeat", "say that again", "once more"), "r", "ctrl+r", "", "Say this sentence once more."
    ),
    Action("again", ("again",), "", "ctrl+g", "", "Do the last thing you asked for again."),
    Action("back", ("back", "go back"), "", "ctrl+b", "", "Go to the sentence before."),
    Action(
        "home",
        ("home", "back to the lesson", "return"),
        "m",
        "ctrl+o",
        "",
        "Leave what you tried; back to the lesson.",
    ),
    Action(
        "undo", ("undo", "take back", "take it back"), "u", "ctrl+z", "", "Take back the last move you tried."
    ),
    Action(
        "what if", ("what if", "if", "try"), "", "ctrl+f", "must", "Try moves on the board: what if e4 e5."
    ),
    Action(
        "why",
        ("why",),
        "y",
        "ctrl+y",
        "may",
        "The reason for the move just told, or for a question's answer.",
    ),
    Action("nudge", ("nudge", "help me", "a nudge"), "n", "ctrl+n", "", "A little help with the question."),
    Action(
        "tell me",
        ("tell me", "i give up", "what is the answer"),
        "t",
        "ctrl+t",
        "",
        "The answer, and the telling goes on.",
    ),
    Action(
        "ask",
        ("ask", "ask the board"),
        "",
        "shift+f1",
        "must",
        "Ask the board: what attacks e5, is the knight pinned, is anything hanging, why not e4.",
    ),
    Action(
        "look",
        ("look", "look around", "look along", "board", "position"),
        "l",
        "ctrl+l",
        "may",
        "The position in words: look, look around e4, look along the d-file, look changed.",
    ),
    Action(
        "examine",
        ("examine", "inspect"),
        "x",
        "ctrl+x",
        "must",
        "One square: who stands there and what it can do.",
    ),
    Action(
        "where",
        ("where am i", "where are we", "where is", "where are", "where"),
        "w",
        "f2",
        "may",
        "Where you are in the lesson; or where a man stands: where is the queen.",
    ),
    Action(
        "plainer",
        ("plainer", "say it plainer", "in plain words"),
        "",
        "shift+f2",
        "may",
        "Say it plainer; again for more: the last move, the position in a breath, every man.",
    ),
    Action("ideas", ("ideas", "notebook"), "i", "f3", "", "The ideas told so far."),
    Action(
        "aside",
        ("aside", "asides"),
        "",
        "f4",
        "may",
        "The asides; with a name or number, walk it and come back.",
    ),
    Action(
        "skip",
        ("skip", "skip this"),
        "s",
        "ctrl+s",
        "",
        "Leave the aside (its return is heard), or this sentence.",
    ),
    Action("slower", ("slower",), "-", "f7", "", "Tell it slower."),
    Action("faster", ("faster",), "+", "f8", "", "Tell it faster."),
    Action("speed", ("speed",), "", "f9", "must", "Set the speed, 0.5 to 3: speed 1.25."),
    Action(
        "silence", ("silence", "silences"), "", "f10", "must", "Scale the silences, 0.3 to 10: silence 2."
    ),
    Action(
        "go to",
        ("go to", "goto", "jump to", "part"),
        "",
        "ctrl+p",
        "must",
        "Go to a time, part or question: go to 3:20, go to part 2, go to question 4.",
    ),
    Action(
        "transcript", ("transcript", "what was said"), "", "f5", "", "All that has been told so far, to read."
    ),
    Action(
        "wait",
        ("wait for me",),
        "",
        "f6",
        "may",
        "Questions wait for ever (wait for me), or pass: wait for me off.",
    ),
    Action(
        "ear",
        ("ear mode", "listening only"),
        "",
        "f11",
        "may",
        "Have everything announced in words, or stop that.",
    ),
    Action("voice", ("voice", "sound"), "", "f12", "may", "The voice: voice on, voice off."),
    Action(
        "squares",
        ("squares", "name squares by"),
        "",
        "ctrl+e",
        "must",
        "How squares are said: squares letters, squares names, squares alphabet.",
    ),
    Action(
        "remember",
        ("remember", "remember this", "keep these settings"),
        "",
        "shift+f3",
        "",
        "Have the present speed, silences and names of squares hold in every lesson.",
    ),
    Action(
        "set",
        ("set",),
        "",
        "shift+f4",
        "must",
        "Change a setting for good: set volume 0.5. 'moveteller settings' lists them.",
    ),
    Action("turn", ("turn the board", "turn"), "", "ctrl+v", "", "Show the board from the other side."),
    Action("help", ("help", "what can i say", "commands"), "?", "f1", "may", "What you can say here."),
    Action(
        "take me to it",
        ("take me to it", "take me there"),
        "",
        "ctrl+u",
        "",
        "In a revisit: go to this question's lesson; quit there comes back.",
    ),
    Action(
        "enough",
        ("enough", "that is enough", "enough for today"),
        "",
        "ctrl+w",
        "",
        "End after this question; your place is kept.",
    ),
    Action(
        "quit",
        ("quit", "leave", "goodbye", "bye", "exit"),
        "q",
        "ctrl+q",
        "",
        "Leave; the lesson keeps your place.",
    ),
)

BY_NAME = {action.name: action for action in ACTIONS}


def phrases() -> list[tuple[str, Action]]:
    """Every way of saying every action, the longest first."""
    said = [(word, action) for action in ACTIONS for word in (*action.words, action.letter) if word]
    return sorted(said, key=lambda pair: -len(pair[0]))
