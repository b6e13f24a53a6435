"""What a voice says and what a screen shows, as two forms of one thing."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Utterance:
    """One thing to say.

    `spoken` is the text given to the voice: words parted by single blanks. `shown` is the text for the eye.
    `words` has one (start, end) pair for every word of `spoken.split()`: the characters of `shown` that the
    word stands for. Several spoken words may share one pair ("Nf3" is said as three words); pairs never go
    backwards. `language` is a code such as "en".
    """

    spoken: str
    shown: str
    words: tuple[tuple[int, int], ...]
    language: str = "en"

    def word_at(self, offset: int) -> int:
        """The index of the first spoken word that has something left at or after this character of `shown`.

        That is a word whose span begins there or later, or one with a letter or digit still to come. Past the
        last word it is the number of words, which means: when the utterance has been said.
        """
        for index, (start, end) in enumerate(self.words):
            if start >= offset or any(map(str.isalnum, self.shown[offset:end])):
                return index
        return len(self.words)
