"""What is told, to read: it scrolls, and the sentence being said shows how far the voice has come."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from rich.segment import Segment
from rich.style import Style
from rich.text import Text
from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip

from player.screen.dress import Dress
from player.world.clean import clean

Kind = Literal["told", "asked", "said", "you", "head"]
"""A coach's words, his question, the program's or the board's words, the learner's, or a title."""

GUTTER = 8
NARROW = 36
INDENT = 2
AIRY = 17


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Some sentences of one speaker.

    Of the sentence being said, `began` is where it begins in `text` and `reached` where the voice is.

    `word` is where the word under way begins. `depth` counts the asides around it, `part_of` names what the
    sentences belong to: sentences of one beat stand in one paragraph.
    """

    who: str
    text: str
    kind: Kind
    depth: int = 0
    part_of: str = ""
    began: int = 0
    word: int = 0
    reached: int = 0
    live: bool = False


class Narration(ScrollView):
    """Paragraphs, the last one at the bottom."""

    can_focus = False

    def __init__(self, dress: Dress, *, blocks: bool = True, id: str | None = None) -> None:
        super().__init__(id=id)
        self._dress = dress
        self._rule = "│ " if blocks else "| "
        self._told: list[Paragraph] = []
        self._strips: list[list[Strip]] = []
        self._tops: list[int] = []
        self._wide = 0
        self._follows = True
        self._settling = False

    @property
    def told(self) -> tuple[Paragraph, ...]:
        """Everything told so far."""
        return tuple(self._told)

    def add(
        self, who: str, text: str, kind: Kind, *, depth: int = 0, part_of: str = "", live: bool = False
    ) -> None:
        """One sentence more; it goes on in the paragraph that it belongs to, if that is the last one."""
        self.rest()
        text = clean(text).strip()
        if not text:
            return
        last = self._told[-1] if self._told else None
        if last is not None and part_of and last.part_of == part_of and (last.who, last.kind) == (who, kind):
            began = len(last.text) + 1
            joined = replace(
                last, text=f"{last.text} {text}", began=began, word=began, reached=began, live=live
            )
            self._put(len(self._told) - 1, joined)
        else:
            self._put(len(self._told), Paragraph(who, text, kind, depth, part_of, live=live))

    def amend(self, text: str) -> None:
        """Say more in the last paragraph."""
        if self._told:
            last = self._told[-1]
            self._put(len(self._told) - 1, replace(last, text=f"{last.text}{clean(text)}"))

    def reach(self, word: int, end: int) -> None:
        """The voice has begun the word of the last sentence that stands at these characters of it."""
        if not self._told or not self._told[-1].live:
            return
        last = self._told[-1]
        now = replace(last, word=last.began + word, reached=min(last.began + end, len(last.text)))
        if now != last:
            self._put(len(self._told) - 1, now)

    def rest(self) -> None:
        """Nothing is being said any more."""
        if self._told and self._told[-1].live:
            self._put(len(self._told) - 1, replace(self._told[-1], live=False))

    def read(self, way: int) -> None:
        """Read a page back (-1) or on (1); at the end it follows what is told again."""
        self.scroll_relative(y=way * max(1, self.size.height - 1), animate=False, immediate=True)
        self._follows = self.is_vertical_scroll_end

    def on_mouse_scroll_up(self) -> None:
        self._follows = False

    def on_mouse_scroll_down(self) -> None:
        self._follows = self.scroll_offset.y + 3 >= self.max_scroll_y

    def _to_end(self) -> None:
        if self._follows:
            self.scroll_end(animate=False, immediate=True, x_axis=False)
            if not self._settling:
                self._settling = True
                self.call_after_refresh(self._settle)

    def _settle(self) -> None:
        """Go to the end once more, where the room has changed meanwhile."""
        self._settling = False
        if self._follows and self.scroll_offset.y != self.max_scroll_y:
            self.scroll_end(animate=False, immediate=True, x_axis=False)

    # -- lines -----------------------------------------------------------------------------------------------

    def _put(self, index: int, paragraph: Paragraph) -> None:
        if index == len(self._told):
            self._told.append(paragraph)
            self._strips.append([])
            self._tops.append(self._tops[-1] + len(self._strips[-2]) if index else 0)
        else:
            self._told[index] = paragraph
        before = len(self._strips[index])
        self._strips[index] = self._broken(index)
        after = len(self._strips[index])
        if after != before:
            self.virtual_size = Size(self._wide, self._tops[index] + after)
            self._to_end()
            self.refresh()
        else:
            self.refresh_lines(self._tops[index], after)

    def _lay(self) -> None:
        """Break every line anew, for another width or dress."""
        self._wide = self.scrollable_content_region.width
        self._strips, self._tops, top = [], [], 0
        for index in range(len(self._told)):
            self._strips.append(self._broken(index))
            self._tops.append(top)
            top += len(self._strips[-1])
        self.virtual_size = Size(self._wide, top)
        self._to_end()
        self.refresh()

    def on_resize(self) -> None:
        if self.scrollable_content_region.width != self._wide:
            self._lay()
        else:
            self._to_end()

    def _broken(self, index: int) -> list[Strip]:
        """The paragraph as strips of the present width."""
        if self._wide <= 0:
            return []
        one = self._told[index]
        before = self._told[index - 1] if index else None
        named = bool(one.who) and (before is None or before.who != one.who or one.kind != before.kind)
        inline = self._wide < NARROW
        indent = INDENT * min(one.depth, 3)
        gutter = indent + (0 if inline or one.kind == "head" else GUTTER)
        text = self._text(one)
        if inline and named:
            text = Text.assemble((f"{one.who}: ", self._named_in()), text)
        lines = text.wrap(self.app.console, max(8, self._wide - gutter))
        strips: list[Strip] = []
        airy = named and before is not None and before.kind != "head" and self.size.height > AIRY
        if before is not None and (one.kind == "head" or airy):
            strips.append(Strip.blank(self._wide, self._plain()))
        for number, line in enumerate(lines):
            line.rstrip()
            margin = self._rule * (indent // INDENT)
            segments = [Segment(margin, self._quiet())] if margin else []
            if gutter > indent:
                name = one.who[: GUTTER - 1] if named and number == 0 else ""
                segments.append(Segment(name.ljust(GUTTER), self._named_in()))
            segments += [s for s in line.render(self.app.console) if s.text]
            strip = Strip(segments).adjust_cell_length(self._wide, self._plain())
            strips.append(strip)
        return strips

    def _text(self, one: Paragraph) -> Text:
        colour = {"said": self._dress.quiet, "head": self._dress.lamp}.get(one.kind, self._dress.text)
        base = Style(
            color=colour,
            bgcolor=self._dress.room,
            bold=True if one.kind in ("head", "asked") and not one.live else None,
            italic=True if one.kind == "you" else None,
        )
        text = Text(one.text, end="")
        text.stylize(base)
        if one.live:
            text.stylize(Style(bold=True), one.began, one.reached)
            text.stylize(Style(underline=True), one.word, one.reached)
        return text

    def _plain(self) -> Style:
        return Style(color=self._dress.text, bgcolor=self._dress.room)

    def _quiet(self) -> Style:
        return Style(color=self._dress.quiet, bgcolor=self._dress.room)

    def _named_in(self) -> Style:
        return Style(color=self._dress.lamp, bgcolor=self._dress.room)

    def render_line(self, y: int) -> Strip:
        at = y + self.scroll_offset.y
        index = self._index(at)
        if index is None:
            return Strip.blank(self.size.width, self._plain())
        return self._strips[index][at - self._tops[index]].adjust_cell_length(self.size.width, self._plain())

    def _index(self, line: int) -> int | None:
        from bisect import bisect_right

        index = bisect_right(self._tops, line) - 1
        while index >= 0 and not self._strips[index]:
            index -= 1
        if index < 0 or line - self._tops[index] >= len(self._strips[index]):
            return None
        return index
