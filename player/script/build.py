"""From items to the model: every key at a place where it may stand, with the value it needs."""

from __future__ import annotations

from dataclasses import dataclass, field

from player.script.bits import bits_of
from player.script.blocks import Item
from player.script.build_question import question_of
from player.script.examples import EXAMPLES
from player.script.found import Found, short
from player.script.header import HeaderReader, key_spot, stamp_spot
from player.script.keys import BLOCK_KEYS, HEADER_KEYS, QUESTION_KEYS
from player.script.model import Beat, Bits, Block, Element, Header, IdeaLine, Line, Part, Spot

_PLAIN_LINES = frozenset(["board", "side", "view", "mark", "show", "claim", "pause", "fine", "game"])
_RETURNING = BLOCK_KEYS - {"question"}
_PARTING = _RETURNING | {"part", "retell"}


def build(items: list[Item], found: Found) -> tuple[Header, tuple[Element, ...]]:
    """The header and the body of a lesson."""
    builder = _Builder(found)
    body = builder.body(items, at_top=True)
    return builder.header.header(), tuple(body)


@dataclass
class _Builder:
    found: Found
    header: HeaderReader = field(init=False)
    begun: bool = False

    def __post_init__(self) -> None:
        self.header = HeaderReader(self.found)

    def body(self, items: list[Item], at_top: bool = False, block: Item | None = None) -> list[Element]:
        """The elements of one block, or of the whole script."""
        made: list[Element] = []
        for item in _gathered(items, self.found):
            key = item.key
            if key in HEADER_KEYS and not (key == "side" and self.begun):
                self.header.take(item, late=self.begun or not at_top)
                continue
            self.begun = True
            if key == "":
                made += self.beat(item)
            elif key == "question":
                question, strays = question_of(item, self.found)
                made.append(question)
                made += self.body(strays, block=item)
            elif key in QUESTION_KEYS:
                self.misplaced(item, "question-key-outside", f"{key}: belongs in the block under a question.")
            elif key == "back":
                if block is None or block.key == "question":
                    self.misplaced(
                        item, "back-outside", "back: belongs in the block of an aside, instead or imagine."
                    )
            else:
                made += self.element(item)
        return made

    def beat(self, item: Item) -> list[Element]:
        value = item.value()
        bits = bits_of(value, self.found)
        if not bits:
            if item.head.stamp_ms is not None:
                self.found.fault(
                    start_spot(item),
                    "stamp-alone",
                    "After a stamp must come what is said then.",
                    "[0:14] Good evening.",
                )
            return []
        spot = start_spot(item) if item.head.stamp_end else value.spot(0, len(value.text))
        return [Beat(bits, item.head.stamp_ms, spot)]

    def element(self, item: Item) -> list[Element]:
        """A part, an idea, a block or a line that is not spoken."""
        key, value, stamp_ms = item.key, item.value(), item.head.stamp_ms
        if not value.text and key not in ("aside", "instead"):
            self.found.fault(key_spot(item), "empty-key", f"{key}: says nothing.", EXAMPLES[key])
            if key not in ("imagine", "part"):
                return []
        if key in _PLAIN_LINES:
            return [Line(key, plain_value(value.text), value.spot(0, len(value.text)), stamp_ms)]
        spot = start_spot(item)
        if key == "part":
            return [Part(bits_of(value, self.found), stamp_ms, spot)]
        if key == "idea":
            name = " ".join(item.head.name.split()) or short(value.text, 30)
            words = bits_of(value, self.found)
            return [IdeaLine(name, words, stamp_ms, spot)] if words else []
        if key == "retell":
            return [self.retell(item, spot)]
        return [self.block(item, spot)]

    def block(self, item: Item, spot: Spot) -> Block:
        """An aside, instead or imagined position, with its own words for the return."""
        kind = item.key
        assert kind in ("aside", "instead", "imagine")
        value = item.value()
        if not item.children:
            told = self.found.told_after(spot) or "{d4} and it must move again."
            self.found.fault(
                key_spot(item),
                "empty-block",
                f"Nothing is told in this {kind}. Indent its lines deeper than the key.",
                f"{kind}: {short(value.text, 40)}\n      {told}",
            )
        title = bits_of(value, self.found) if kind != "imagine" else ()
        words = plain_value(value.text) if kind == "imagine" else ""
        body = tuple(self.body(item.children, block=item))
        return Block(kind, title, words, body, self.back(item), item.head.stamp_ms, spot)  # type: ignore[arg-type]

    def retell(self, item: Item, spot: Spot) -> Block:
        for child in item.children:
            if child.key != "back":
                self.misplaced(
                    child, "not-in-retell", "Under retell: only back: may stand. Take the indent away."
                )
        back = self.back(item)
        return Block("retell", (), plain_value(item.value().text), (), back, item.head.stamp_ms, spot)

    def back(self, item: Item) -> Bits | None:
        """The coach's own words for the return from this block."""
        made: Bits | None = None
        for child in item.children:
            if child.key != "back":
                continue
            value = child.value()
            if child.head.stamp_ms is not None:
                self.found.fault(
                    stamp_spot(child), "stamp-misplaced", "back: takes no stamp.", f"back: {value.text}"
                )
            if not value.text:
                self.found.fault(key_spot(child), "empty-key", "back: says nothing.", EXAMPLES["back"])
            elif made is not None:
                self.found.fault(key_spot(child), "key-twice", "This block already has its back:.")
            else:
                made = bits_of(value, self.found) or None
        return made

    def misplaced(self, item: Item, code: str, message: str) -> None:
        self.found.fault(key_spot(item), code, message, EXAMPLES.get(item.key, ""))


def start_spot(item: Item) -> Spot:
    """The beginning of an item: its stamp where it has one, else its key or first word."""
    line = item.first
    end = item.head.value if item.key else len(line.text)
    return Spot(line.number, line.column(0), max(1, line.column(max(1, end)) - line.column(0)))


def plain_value(text: str) -> str:
    """The value of a line that is not spoken, with its runs of blanks made one."""
    return " ".join(text.split())


def _gathered(items: list[Item], found: Found) -> list[Item]:
    """The items, where lines that were not indented under their question or block are put there."""
    made: list[Item] = []
    begun: Item | None = None
    for item in items:
        if item.key == "back" and begun is not None and made[-1] is not begun:
            at = next(at for at, one in enumerate(made) if one is begun) + 1
            found.fault(
                key_spot(begun),
                "block-not-indented",
                f"The lines of this {begun.key} are not indented. Indent them, down to its back:.",
                "  " + short(made[at].first.text),
            )
            begun.children += [*made[at:], item]
            del made[at:]
            begun = None
            continue
        if item.key in _PARTING:
            begun = item if item.key in _RETURNING and not item.children else None
        if item.key in QUESTION_KEYS and made and made[-1].key == "question":
            found.fault(
                key_spot(item),
                "question-key-outside",
                f"{item.key}: belongs in the block under the question. Indent it.",
                "  " + short(item.first.text),
            )
            made[-1].children.append(item)
        else:
            made.append(item)
    return made
