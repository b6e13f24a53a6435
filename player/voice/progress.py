"""How far one saying has got, as the events that a speaker reports."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from player.stage.inputs import Finished, Heard


@dataclass(slots=True)
class Progress:
    """The words of one saying on its own time line.

    `begun` is the number of words reported as begun; a saying entered at word n has n begun before it starts.
    """

    saying: int
    word_ms: Sequence[int]
    ms: int
    begun: int = 0
    over: bool = False

    @classmethod
    def from_word(cls, saying: int, word_ms: Sequence[int], ms: int, word: int) -> Progress:
        """Entered so that this word is the first to be heard."""
        return cls(saying, word_ms, ms, begun=min(max(0, word), len(word_ms)))

    @classmethod
    def from_ms(cls, saying: int, word_ms: Sequence[int], ms: int, at_ms: int) -> Progress:
        """Entered at a place in the sound: the words that began before it are not reported again."""
        return cls(saying, word_ms, ms, begun=bisect_left(word_ms, at_ms))

    def begins_ms(self, word: int) -> int:
        """Where a word begins; past the last word it is the end."""
        return self.word_ms[word] if word < len(self.word_ms) else self.ms

    def reach(self, at_ms: float) -> list[Heard | Finished]:
        """What is new when the sound has been heard up to `at_ms`; going backwards gives nothing."""
        events: list[Heard | Finished] = []
        while not self.over and self.begun < len(self.word_ms) and self.word_ms[self.begun] <= at_ms:
            onset = self.word_ms[self.begun]
            self.begun += 1
            events.append(Heard(self.saying, onset, self.begun))
        if not self.over and at_ms >= self.ms and self.begun == len(self.word_ms):
            self.over = True
            events.append(Finished(self.saying, self.ms))
        return events

    def next_ms(self) -> int:
        """Where on the time line the next event lies."""
        return self.begins_ms(self.begun)

    def heard(self, at_ms: float) -> Heard:
        """How far it has been heard when it stops at `at_ms`, no less than has been reported already."""
        stop = max(0, min(int(at_ms), self.ms))
        if self.begun:
            stop = max(stop, min(self.word_ms[self.begun - 1] + 1, self.ms))
        return Heard(self.saying, stop, max(self.begun, bisect_left(self.word_ms, stop)))
