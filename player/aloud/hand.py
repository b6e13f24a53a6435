"""One key, as a pure state machine: taps and time go in; what the lesson is fed, and what is said, come out.

The first tap hushes. How many taps came within a moment decides what was meant:

    1   stop, or go on where it is stopped; a question then waits
    2   the sentence, or the question, again
    3   where are we
    4   or any longer run: the menu

The menu offers one thing after another: 1 takes the one being offered, 2 goes back a step, 3 says it again,
4 leaves the menu, and silence goes on to the next. Times are milliseconds of any clock.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from player.aloud import menu
from player.aloud.outs import After, Feed, Out, Outs, Quiet, Show, Tell
from player.aloud.picking import Item, Items
from player.aloud.taps import MENU, Burst
from player.stage.inputs import Did
from player.stage.state import State

GAP_MS = 1_300
"""Silence after an item is offered, in which it can be taken, before the next one."""

REACTION_MS = 350
"""A tap so soon after an item began was meant for the one before it (simple reactions take a quarter of a
second: common knowledge of the laboratories)."""

ROUNDS = 2
"""So often a list is gone through when nobody taps; then it is left."""

MENU_HEAD = "Menu. One tap takes what you hear, two go back."
PAUSED = "Paused. One tap goes on."
WAITS = "It waits for you."

CHANGES = frozenset(
    ("slower", "faster", "speed", "silence", "squares", "set", "wait", "ear", "voice", "turn", "remember")
)
"""What only changes how the lesson is told, and is answered in a few words."""

NO_TAPS = Burst()
_GOING = ("saying", "resting", "asked")


@dataclass(frozen=True, slots=True)
class Offer:
    """A menu that is open: the lists from the first to the present one, and what of it is being offered."""

    lists: tuple[Items, ...]
    going: bool
    at: int = 0
    round: int = 1
    began_ms: int = 0
    said_ms: int | None = None

    @property
    def item(self) -> Item:
        """What is being offered."""
        return self.lists[-1][self.at]


@dataclass(frozen=True, slots=True)
class Hand:
    """Taps that are being counted, whether the first of them stopped something, and an open menu."""

    burst: Burst = NO_TAPS
    going: bool = False
    asked: bool = False
    offer: Offer | None = None

    @property
    def busy(self) -> bool:
        """Whether taps are being counted or a menu is open."""
        return self.burst.count > 0 or self.offer is not None

    def due_ms(self, now_ms: int) -> int | None:
        """Milliseconds until `passed` is wanted; None where only taps, or the end of a sentence, matter."""
        if self.burst.count:
            return self.burst.due_ms(now_ms)
        if self.offer is not None and self.offer.said_ms is not None:
            return max(0, self.offer.said_ms + GAP_MS - now_ms)
        return None


def tapped(hand: Hand, state: State, at_ms: int) -> tuple[Hand, Outs]:
    """The key was tapped."""
    first = not hand.burst.count
    hand = replace(hand, burst=hand.burst.tapped(at_ms))
    if not first:
        return hand, ()
    if hand.offer is not None:
        return hand, (Quiet(),)
    going = state.top.doing in _GOING
    hand = replace(hand, going=going, asked=state.top.doing == "asked")
    return hand, (Quiet(), Feed(Did("pause"))) if going else (Quiet(),)


def passed(hand: Hand, state: State, now_ms: int, *, speaking: bool) -> tuple[Hand, Outs]:
    """Time has passed; `speaking` tells whether what was last told (`Tell`) is still being said."""
    if hand.burst.count:
        if not hand.burst.over(now_ms):
            return hand, ()
        burst, hand = hand.burst, replace(hand, burst=NO_TAPS)
        if hand.offer is not None:
            return _chosen(hand, hand.offer, burst, state, now_ms)
        return _meant(hand, burst.count, state, now_ms)
    offer = hand.offer
    if offer is None or speaking:
        return hand, ()
    if offer.said_ms is None:
        return replace(hand, offer=replace(offer, said_ms=now_ms)), ()
    if now_ms - offer.said_ms < GAP_MS:
        return hand, ()
    return _next(hand, offer, now_ms)


def _meant(hand: Hand, count: int, state: State, now_ms: int) -> tuple[Hand, Outs]:
    """What a burst means outside the menu."""
    if count >= MENU:
        return _opened(hand, state, now_ms)
    if count == 1:
        if not hand.going:
            return hand, (Feed(Did("go on")),)
        return hand, (Tell(WAITS) if hand.asked else Show(PAUSED),)
    deed = Feed(Did("repeat" if count == 2 else "where"))
    if count == 2 or not hand.going:
        return hand, (deed,)
    return hand, (Feed(Did("go on")), deed)


def _opened(hand: Hand, state: State, now_ms: int) -> tuple[Hand, Outs]:
    offer = Offer((menu.top(state),), hand.going)
    hand, outs = _offered(hand, offer, now_ms, before=f"{MENU_HEAD} ")
    return hand, outs


def _offered(hand: Hand, offer: Offer, now_ms: int, before: str = "") -> tuple[Hand, Outs]:
    offer = replace(offer, began_ms=now_ms, said_ms=None)
    words = offer.item.words
    mark = "" if words.endswith(("?", "!", ".")) else "?"
    return replace(hand, offer=offer), (Tell(f"{before}{words}{mark}"),)


def _next(hand: Hand, offer: Offer, now_ms: int) -> tuple[Hand, Outs]:
    """Nobody tapped: the next item; after the last round the menu is left."""
    if offer.at + 1 < len(offer.lists[-1]):
        return _offered(hand, replace(offer, at=offer.at + 1), now_ms)
    if offer.round < ROUNDS:
        return _offered(hand, replace(offer, at=0, round=offer.round + 1), now_ms)
    return _left(hand, offer)


def _left(hand: Hand, offer: Offer) -> tuple[Hand, Outs]:
    """Out of the menu: what went on goes on; what was stopped stays stopped."""
    hand = replace(hand, offer=None)
    return hand, (Feed(Did("go on")),) if offer.going else (Show(PAUSED),)


def _chosen(hand: Hand, offer: Offer, burst: Burst, state: State, now_ms: int) -> tuple[Hand, Outs]:
    """What a burst means in the menu."""
    if burst.count >= MENU:
        return _left(hand, offer)
    if burst.count == 3:
        return _offered(hand, offer, now_ms)
    if burst.count == 2:
        if len(offer.lists) == 1:
            return _left(hand, offer)
        return _offered(hand, replace(offer, lists=offer.lists[:-1], at=0, round=1), now_ms)
    if burst.first_ms - offer.began_ms < REACTION_MS and offer.at > 0:
        offer = replace(offer, at=offer.at - 1)
    item = offer.item
    if item.leads is not None:
        return _offered(hand, replace(offer, lists=(*offer.lists, item.leads()), at=0, round=1), now_ms)
    return _done(replace(hand, offer=None), offer, item, state)


def _done(hand: Hand, offer: Offer, item: Item, state: State) -> tuple[Hand, Outs]:
    """Do what was taken; a lesson that was going on before goes on, after a change once it has been told."""
    deeds: list[Out] = [Feed(deed) for deed in item.deeds]
    if not offer.going or item.stays or state.top.doing != "held":
        return hand, tuple(deeds)
    if any(isinstance(deed, Did) and deed.verb in CHANGES for deed in item.deeds):
        return hand, (*deeds, After(Did("go on")))
    return hand, (Feed(Did("go on")), *deeds)
