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

_TELL = (
    r"(?:.*\b)?(?:i (?:give up|surrender)\b.*|(?:just |you |so )?tell me(?: now| then| already| it)?|"
    r"(?:just )?show me(?: now| then)?|give (?:it|the answer) away\b.*|what's the answer(?: then| now)?|"
    r"reveal (?:it|the answer))"
)
_HINT = (
    r"(?!.*\b(?:no|without|don't (?:want|need|give)|not (?:a|another|the)) (?:\w+ )?(?:hint|clue|tip|nudge))"
    r"(?:.*\b)?(?:a|any|another|one|some|small|little|more|give me|get|need|want|just) "
    r"(?:(?:small|little|tiny|more|bit|of|a) )*(?:hints?|clues?|tips?|nudges?)\b.{0,30}"
)
_CHOICES = r"(?:what (?:were|are) (?:the|my)|(?:read|say) (?:me )?the) (?:choices|options)(?: again)?"
_PATTERNS: tuple[tuple[re.Pattern[str], tuple[str, str]], ...] = tuple(
    (re.compile(shape), what)
    for shape, what in (
        (_TELL, ("tell me", "")),
        (_HINT, ("nudge", "")),
        (r"(?:clue|hint|tip|nudge|help)s?", ("nudge", "")),
        (
            r"(?:what was|what is|what's|say|repeat|read)(?: me)? the (?:last )?question"
            r"(?: again| once more)?",
            ("repeat", ""),
        ),
        (
            r"(?:.*\b)?(?:talk|speak|go|read|say it|tell it|a bit|little|more) "
            r"(?:a (?:bit|little) )?(?:slower|slowly)",
            ("slower", ""),
        ),
        (
            r"(?:.*\b)?(?:talk|speak|go|read|say it|tell it|a bit|little|more) "
            r"(?:a (?:bit|little) )?(?:faster|quickly)",
            ("faster", ""),
        ),
        (r"(?:put|show|bring) (?:me )?(?:up )?the board(?: up| again)?", ("look", "")),
        (r"go back to the last (?:move|sentence|bit)", ("back", "")),
        (
            r"(?:let's|i (?:have|need|want) to|i must|can we|time to) (?:stop|quit|leave|go)(?: here)? "
            r"(?:for )?(?:today|tonight|now)\b.*",
            ("quit", ""),
        ),
        (r"help me (?:a (?:little|bit)|out)(?: here)?", ("nudge", "")),
        (_CHOICES, ("repeat", "")),
        (r"read (?:me )?the (?:position|board) (?:to me|out|aloud)(?: again)?", ("look", "")),
        (r"(?:please )?go back a (?:bit|little|sentence)\b.*", ("back", "")),
        (r"(?:the )?next question", ("skip", "")),
        (r"(?:wait|hang on|stop),? (?:pause|stop|wait)", ("pause", "")),
        (r"(?:start over|from the (?:start|beginning)|start again|begin again)", ("go to", "start")),
    )
)
"""Ways that have too many shapes to be listed; each must be the whole of what was said."""

_BY_WORDS = {words: verb for verb, ways in _SAID.items() for words in ways}

_FRAME = re.compile(
    r"^(?:(?:uh|um|er|ok|okay|please|sorry|could you|can you|would you)\b,?\s*)+|,?\s+(?:please|thanks)$"
)
_MOST_WORDS = 10
_SQUARE = re.compile(r"\b[a-h][1-8]\b")
_UNTICKED = re.compile(r"\b(don|can|doesn|isn|what|let|i)((?<=n)t|(?<=t)s|(?<=i)m)\b")
_SMALL = re.compile(r"\b(?:a (?:bit|little)|an?)\s+")


def everyday(low: str) -> Did | None:
    """What these words, in small letters, ask for where the whole of them is an everyday way of asking."""
    bare = low.replace("\u2019", "'").strip(" ?!.,")
    bare = _UNTICKED.sub(lambda found: f"{found[1]}'{found[2]}", bare)
    bare = _FRAME.sub("", _FRAME.sub("", bare)).strip(" ,")
    verb = _BY_WORDS.get(_SMALL.sub("", bare))
    if verb is None and len(bare.split()) <= _MOST_WORDS and not _SQUARE.search(bare):
        verb = next((what for pattern, what in _PATTERNS if pattern.fullmatch(bare)), None)
    return Did(*verb) if verb is not None else None
