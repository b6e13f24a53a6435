"""What people say in passing for the things a learner can do: understood, but listed in no help."""

from __future__ import annotations

import re

from player.stage.inputs import Did

_SAID: dict[tuple[str, str], tuple[str, ...]] = {
    ("nudge", ""): (
        "hint", "give hint", "give me hint", "give me nudge", "another hint", "another nudge",
        "one more hint", "one more nudge", "can i have hint", "can i get hint", "some help",
        "give me some help", "i don't know", "i do not know", "i dunno", "dunno", "no idea", "i have no idea",
        "idk", "no clue", "i have no clue", "i'm stuck", "i am stuck", "not sure", "i'm not sure",
        "i am not sure",
    ),
    ("tell me", ""): (
        "show me the answer", "give me the answer", "tell me the answer", "what's the answer",
    ),
    ("repeat", ""): (
        "repeat that", "repeat it", "repeat the question", "repeat question", "say it again", "come again",
        "pardon", "pardon me", "what", "huh", "sorry", "what did you say", "what was that",
        "what was the question", "what is the question", "what's the question", "one more time",
    ),
    ("slower", ""): ("slower", "slow down", "too fast", "more slowly", "go slower", "speak slower"),
    ("faster", ""): ("faster", "speed up", "too slow", "go faster", "speak faster", "hurry up"),
    ("look", ""): (
        "read the board", "read me the board", "show the board", "show me the board", "describe the board",
        "show the position", "show me the position", "read the position", "read me the position",
        "describe the position", "what is the position", "what's the position",
    ),
    ("where", ""): (
        "how long is left", "how much is left", "how much longer", "how long does it take",
    ),
    ("undo", ""): ("take that back", "take back that", "take back that move", "take back the move"),
    ("hold", ""): ("hold on moment", "hold on second", "one moment", "just moment", "moment"),
    ("pause", ""): ("shut up", "be quiet", "stop talking"),
    ("help", ""): ("what should i type", "what can i type", "what do i type", "what should i say"),
    ("help", "quit"): ("how do i quit", "how do i leave", "how do i stop", "how do i get out"),
}  # fmt: skip

_BY_WORDS = {words: verb for verb, ways in _SAID.items() for words in ways}

_FRAME = re.compile(
    r"^(?:(?:uh|um|er|ok|okay|please|could you|can you|would you)\b,?\s*)+|,?\s+(?:please|thanks)$"
)
_UNTICKED = re.compile(r"\b(don|can|doesn|isn|what|let|i)((?<=n)t|(?<=t)s|(?<=i)m)\b")
_SMALL = re.compile(r"\b(?:a (?:bit|little)|an?)\s+")


def everyday(low: str) -> Did | None:
    """What these words, in small letters, ask for where the whole of them is an everyday way of asking."""
    bare = low.replace("\u2019", "'").strip(" ?!.,")
    bare = _UNTICKED.sub(lambda found: f"{found[1]}'{found[2]}", bare)
    bare = _FRAME.sub("", _FRAME.sub("", bare)).strip(" ,")
    bare = _SMALL.sub("", bare)
    verb = _BY_WORDS.get(bare)
    return Did(*verb) if verb is not None else None
