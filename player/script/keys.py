"""The closed list of keys of the lesson script, and what may follow each of them."""

from __future__ import annotations

HEADER_KEYS = frozenset(
    ["script", "title", "series", "coach", "side", "level", "language", "recording", "voice", "pronounce"]
)
QUESTION_KEYS = frozenset(
    ["ask", "answer", "choice", "also", "reply", "otherwise", "because", "nudge", "about", "think", "key"]
)
PLACE_KEYS = frozenset(["part", "board", "game", "side", "view", "mark", "retell"])
BLOCK_KEYS = frozenset(["aside", "instead", "imagine", "question"])
CUE_KEYS = frozenset(["show", "claim", "idea", "pause", "fine"])
KEYS = HEADER_KEYS | QUESTION_KEYS | PLACE_KEYS | BLOCK_KEYS | CUE_KEYS | {"back"}

NAMED_KEYS = {
    "pronounce": "pronounce WORD: how it sounds",
    "idea": "idea the long diagonal: words about it",
    "also": "also c4: words about that move",
    "reply": "reply Nc3: words about that move",
}
"""Keys that need a word of their own before the colon, with an example."""

STAMPED_KEYS = PLACE_KEYS | BLOCK_KEYS | CUE_KEYS
"""Keys that may carry a time stamp: everything that is told in file order."""

EMPTY_KEYS = frozenset(["aside", "instead"])
"""Keys that may stand without words."""


def is_one_letter_off(word: str, key: str) -> bool:
    """Whether one letter left out, added, changed or swapped with its neighbour makes `word` into `key`."""
    if word == key or abs(len(word) - len(key)) > 1 or len(key) < 3:
        return False
    start = 0
    while start < min(len(word), len(key)) and word[start] == key[start]:
        start += 1
    rest, want = word[start:], key[start:]
    return (
        rest[1:] == want[1:]
        or rest[1:] == want
        or rest == want[1:]
        or (rest[:2] == want[1::-1] and rest[2:] == want[2:])
    )


def near_key(word: str) -> str:
    """The key that this word misses by one letter, or ""; the likelier one where there are two."""
    near = [key for key in KEYS if is_one_letter_off(word, key)]
    return min(near, key=lambda key: (key[0] != word[0], len(key) != len(word), key), default="")
