"""Help over a lesson: what can be said, and the pages; any key that does not scroll or turn leaves it."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Static

from player.screen.dress import Dress
from player.screen.pages import names, page


class HelpScreen(ModalScreen[None]):
    """The pages of help, one at a time, beginning with the one named."""

    BINDINGS = [  # noqa: RUF012
        *(Binding(key, "leave", priority=True) for key in ("escape", "enter", "q", "f1", "ctrl+q", "ctrl+c")),
        *(Binding(key, "turn(1)", priority=True) for key in ("right", "tab", "space")),
        *(Binding(key, "turn(-1)", priority=True) for key in ("left", "shift+tab")),
    ]

    def __init__(self, dress: Dress, first: str = "") -> None:
        super().__init__()
        self._dress = dress
        self._names = names()
        self._at = self._names.index(first) if first in self._names else 0

    def compose(self) -> ComposeResult:
        yield Static(id="pages", markup=False)
        with VerticalScroll(id="page"):
            yield Static(id="text", markup=False)
        yield Static("Up and down read, left and right turn the page, Escape goes back.", id="leave")

    def on_mount(self) -> None:
        self.query_one("#page").focus()
        self.action_turn(0)

    def action_turn(self, by: int) -> None:
        self._at = (self._at + by) % len(self._names)
        titles = (f"[{name}]" if n == self._at else f" {name} " for n, name in enumerate(self._names))
        self.query_one("#pages", Static).update("".join(titles))
        self.query_one("#text", Static).update(page(self._names[self._at], self._dress))
        self.query_one("#page").scroll_home(animate=False)

    def action_leave(self) -> None:
        self.dismiss(None)
