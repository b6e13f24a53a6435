"""What is said about miswritten keys, stamps and indents."""

from __future__ import annotations

import re

from player.script.found import Found, short
from player.script.heads import Head
from player.script.keys import NAMED_KEYS
from player.script.model import Spot
from player.script.physical import PhysicalLine

_LEAD = re.compile(r"^(?:[=\u2013\u2014-]\s+)+")


class Slips:
    """Reports each slip at its place; the same unknown word and the same mixed block only once."""

    def __init__(self, found: Found) -> None:
        self.found = found
        self._mentioned: set[str] = set()
        self._mixed: set[int] = set()
        self._uneven: set[tuple[int, int]] = set()
        self._deep_told = False
        self._unindented: set[int] = set()
        self._capitals: set[int] = set()
        self._indents: dict[int, set[str]] = {}

    def capital(self, line: PhysicalLine, head: Head) -> None:
        """A known key with a capital, and an indented block under it."""
        self.found.fault(
            _word(line, head),
            "capital-key",
            f"Keys are written in small letters: {head.key}, not {head.word}.",
            _with_word(line, head, head.key, apart=False),
        )

    def capital_speech(self, line: PhysicalLine, head: Head) -> None:
        """A known key with a capital and nothing under it: it may well be speech."""
        self._capitals.add(line.number)
        if self._once(head.word):
            self.found.query(
                _word(line, head),
                "capital-key",
                f"{head.word} with a capital is spoken. Use small letters if the key {head.key} is meant.",
                _with_word(line, head, head.key),
            )

    def was_capital(self, line: PhysicalLine) -> bool:
        """Whether this line is spoken for the capital of its key, so that no sentence need end there."""
        return line.number in self._capitals

    def unknown(self, line: PhysicalLine, head: Head) -> None:
        """A word before a colon that is no key; mentioned once."""
        if head.slip == "with-words":
            self.found.query(
                _word(line, head),
                "key-with-words",
                f"This line is spoken, for the key {head.word} has its colon right after it. "
                "Put the words after the colon if the key is meant.",
                f"{head.word}: {short(line.text[_word_end(line, head) :].replace(':', ' ', 1))}",
            )
        elif self._once(head.word):
            self.found.query(
                _word(line, head),
                "unknown-key",
                f"{head.word} is no key of the script, so this line is spoken. "
                "A backslash before the colon says that it is meant so.",
                _with_word(line, head, head.word + "\\"),
            )

    def miswritten(self, line: PhysicalLine, head: Head) -> None:
        """A key that is meant but not written as it should be."""
        key = head.key
        if head.slip == "near":
            self.found.fault(
                _word(line, head),
                "near-key",
                f"{head.word} is no key; {key} is.",
                _with_word(line, head, key),
            )
        elif head.slip == "no-blank":
            self.found.fault(
                _word(line, head),
                "key-without-blank",
                f"After {key}: there must be a blank.",
                f"{line.text[: head.value]} {line.text[head.value :]}".strip(),
            )
        elif head.slip == "blank-before":
            self.found.fault(
                _word(line, head),
                "blank-before-colon",
                f"The colon stands right after the key {key}, without a blank.",
                line.text[: head.value].rstrip()[:-1].rstrip() + ": " + line.text[head.value :].lstrip(),
            )
        elif head.slip == "no-name":
            self.found.fault(
                _word(line, head),
                "key-without-name",
                f"The key {key} needs a word of its own before the colon.",
                NAMED_KEYS[key],
            )

    def no_colon(self, line: PhysicalLine, meant: Head, surely: bool) -> None:
        """A key without its colon: a fault where nothing else can be meant, else a doubt about speech."""
        lead = line.text[: meant.value].rstrip()
        fix = f"{lead}: {short(_LEAD.sub('', line.text[meant.value :]))}".rstrip()
        if meant.key == "idea":  # how much of the line is its name cannot be told
            fix = NAMED_KEYS["idea"]
        if surely:
            self.found.fault(
                _word(line, meant), "key-without-colon", f"The colon after {meant.key} is missing.", fix
            )
        else:
            self.found.query(
                _word(line, meant),
                "key-without-colon",
                f"This line is spoken, for {meant.key} has no colon. Put it in if the key is meant.",
                fix,
            )

    def in_sentence(self, line: PhysicalLine, head: Head, above: PhysicalLine, spoken: bool) -> None:
        """A key line that follows an unfinished sentence; `spoken` says that it is taken as speech."""
        at = line.text.find(":", head.stamp_end)
        if spoken:
            message = (
                f"The sentence above goes on, so {head.word} is spoken. Put a backslash before the colon."
            )
            fix = line.text[:at] + "\\" + line.text[at:]
        else:
            message = (
                f"The key {head.key} stands in the middle of an unfinished sentence. End the sentence above, "
                "or put a backslash before the colon if the word is spoken."
            )
            fix = short(above.text.rstrip(",;-–— ") + ".", 90)
        self.found.fault(_word(line, head), "key-in-sentence", message, fix)

    def bad_stamp(self, line: PhysicalLine, head: Head) -> None:
        """Square brackets at the beginning of a line with something like a time in them."""
        self.found.fault(
            Spot(line.number, line.column(0), max(1, len(line.text[: head.bad_stamp].rstrip()))),
            "bad-stamp",
            "A stamp is written [m:ss], [m:ss.mmm] or [h:mm:ss], with seconds below 60.",
            "[0:14] " + short(line.text[head.bad_stamp :]),
        )

    def unindented(self, line: PhysicalLine, head: Head, key_line: PhysicalLine) -> None:
        """A key of a question's block that stands as deep as the question; told once a question."""
        if key_line.number not in self._unindented:
            self._unindented.add(key_line.number)
            self.found.fault(
                _word(line, head),
                "question-key-outside",
                f"{head.key}: belongs in the block under the question. Indent it.",
                f"{key_line.indent}  {short(line.text)}".replace("\t", "    "),
            )

    def indent(self, line: PhysicalLine, key_line: PhysicalLine, level: PhysicalLine | None) -> None:
        """Looks whether the lines of one block are indented with spaces and with tabs.

        `level` is the first line of the block, where `line` is not that line itself.
        """
        marks = set(line.indent + key_line.indent)
        seen = self._indents.setdefault(key_line.number, marks)
        seen |= marks
        if len(seen) > 1 and key_line.number not in self._mixed:
            self._mixed.add(key_line.number)
            self.found.fault(
                Spot(line.number, 1, max(1, len(line.indent))),
                "mixed-indent",
                "This block is indented with spaces and with tabs. Use one of them in a block.",
                ("    " if level is None else level.indent.replace("\t", "    ")) + short(line.text),
            )
        if len(seen) > 1 and level is not None:
            self._uneven.add((level.number, line.depth))

    def too_deep(self, line: PhysicalLine) -> None:
        """More blocks in one another than anybody could follow; told once."""
        if not self._deep_told:
            self._deep_told = True
            self.found.fault(
                Spot(line.number, line.column(0), len(line.text)),
                "too-deep",
                "No more blocks may stand in one another than there are here already.",
            )

    def uneven(self, line: PhysicalLine, level: PhysicalLine) -> None:
        """A line that stands at another depth than the lines it belongs with; each depth is told once."""
        if (level.number, line.depth) in self._uneven:
            return
        self._uneven.add((level.number, line.depth))
        self.found.fault(
            Spot(line.number, 1, max(1, len(line.indent))),
            "uneven-indent",
            f"This line is indented like none of the lines it belongs with; those stand as deep as line "
            f"{level.number}.",
            level.indent.replace("\t", "    ") + short(line.text),
        )

    def _once(self, word: str) -> bool:
        if word.lower() in self._mentioned:
            return False
        self._mentioned.add(word.lower())
        return True


def _word(line: PhysicalLine, head: Head) -> Spot:
    first = line.column(head.stamp_end)
    return Spot(line.number, first, max(1, line.column(_word_end(line, head)) - first))


def _word_end(line: PhysicalLine, head: Head) -> int:
    return head.stamp_end + len(head.word)


def _with_word(line: PhysicalLine, head: Head, word: str, apart: bool = True) -> str:
    """The line with another word for its key; without `apart`, no blank is left before the colon."""
    rest = line.text[_word_end(line, head) :]
    return line.text[: head.stamp_end] + word + (rest if apart else re.sub(r"^\s+(?=:)", "", rest))
