"""Replies to a move that loses nothing: what it does, what it leaves undone, what speaks against it."""

from __future__ import annotations

from collections.abc import Sequence

from player.facts.replies.finding import Deed, Drawback, Finding
from player.facts.replies.question import Question
from player.wording.names import listed
from player.wording.replies_say import Way, named, opening, way
from player.wording.replies_words import leaves, merits_of, spoils

_STRONG = ("castling gone", "before king", "chased", "unguards", "gives bishop", "in front", "shuts")


def differing(asked: Question, found: Finding) -> Sequence[Way]:
    """Ways to put the move beside the answer; never empty."""
    board = asked.board
    after = board.copy(stack=False)
    after.push(found.move)
    turn = found.move.from_square + found.move.to_square
    said, first = named(board, found.move), opening(board, found.move)
    good = merits_of(board, after, found.merits, turn)
    bad = [(_id(deed), _one(leaves(board, after, deed), turn + n)) for n, deed in enumerate(found.misses[:3])]
    bad = [pair for pair in bad if pair[1]]
    against = [(str(one.kind), _one(spoils(board, after, one), turn)) for one in found.drawbacks[:2]]
    merits = [text for _, text in good]
    if asked.answer is None:
        return _alone(merits, [text for _, text in against], said, first)
    if found.kind == "sound":
        return _sound(merits, said, first)
    ways: list[Way] = []
    strong = bool(found.drawbacks) and found.drawbacks[0].kind in _STRONG
    if not good:
        ways += _bare(first, said, bad, against)
    for rank, (miss, lack) in enumerate(bad):
        if against and strong:
            ways += _twice(first, said, against[0], (miss, lack), rank)
        for number, (kind, merit) in enumerate(good[:2]):
            ways += _but(first, said, (kind, merit), (miss, lack), rank + number + (1 if strong else 0))
        if against and not strong:
            ways += _twice(first, said, against[0], (miss, lack), rank + 1)
    if not bad and against and good:
        for kind, merit in good[:2]:
            ways += _but(first, said, (kind, merit), against[0], 0)
    return ways or _sound(merits, said, first)


def _alone(good: list[str], against: list[str], said: str, first: str) -> Sequence[Way]:
    """Nothing falls after a move, and no other one is asked for."""
    if against:
        but = f", though it {good[0]}" if good else ""
        return [way(f"one thing against {said}: it {against[0]}{but}.", "alone 5")]
    if not good:
        return [
            way(f"I can prove nothing against {said}.", "alone 1"),
            way(f"nothing falls after {said} that I can find.", "alone 2"),
        ]
    return [
        way(f"I can prove nothing against {said}: it {listed(good[:2])}.", "alone 3"),
        way(f"{first} {good[0]}, and I find nothing against it.", "alone 4"),
    ]


def _bare(first: str, said: str, bad: list[tuple[str, str]], against: list[tuple[str, str]]) -> list[Way]:
    """A move of which there is nothing to say but what it leaves undone."""
    ways: list[Way] = []
    for rank, (miss, lack) in enumerate(bad):
        name = f"lacks {miss}"
        ways += [
            way(f"{first} {lack}.", "bare 1", name, rank=rank),
            way(f"one thing is missing after {said}: it {lack}.", "bare 2", name, rank=rank),
            way(f"the trouble with {said} is that it {lack}.", "bare 3", name, rank=rank),
        ]
        if rank:
            both = (f"lacks {bad[0][0]}", name)
            ways.append(way(f"{first} {bad[0][1]}, and it {lack}.", "bare 4", *both))
    if not bad and against:
        ways.append(
            way(f"one thing against {said}: it {against[0][1]}.", "bare 5", f"spoils {against[0][0]}")
        )
    return ways


def _but(first: str, said: str, good: tuple[str, str], bad: tuple[str, str], rank: int) -> list[Way]:
    """One thing for the move, and one against it."""
    (kind, merit), (miss, lack) = good, bad
    names = (f"does {kind}", f"lacks {miss}")
    return [
        way(f"{first} {merit}, but it {lack}.", "but 1", *names, rank=rank),
        way(f"{first} {lack}, though it {merit}.", "but 2", *names, rank=rank),
        way(f"true, {said} {merit}. Yet it {lack}.", "but 3", *names, rank=rank),
        way(f"what {said} leaves undone: it {lack}. It {merit}, and that is another matter.", "but 4", *names,
            rank=rank + 1),
        way(f"it {merit}, yes; but {said} {lack}.", "but 5", *names, rank=rank),
    ]  # fmt: skip


def _twice(first: str, said: str, against: tuple[str, str], bad: tuple[str, str], rank: int) -> list[Way]:
    """Two things against the move."""
    (kind, wrong), (miss, lack) = against, bad
    names = (f"spoils {kind}", f"lacks {miss}")
    return [
        way(f"{first} {wrong}, and it {lack}.", "twice 1", *names, rank=rank),
        way(f"{first} {lack}, and it {wrong}.", "twice 2", *names, rank=rank),
        way(f"two things about {said}: it {wrong}, and it {lack}.", "twice 3", *names, rank=rank),
    ]


def _sound(good: list[str], said: str, first: str) -> Sequence[Way]:
    """Nothing was found against the move."""
    if not good:
        return [
            way(
                f"I can prove nothing against {said}. The lesson has another move in mind, with more to do.",
                "sound 4",
            ),
            way(f"nothing falls after {said} that I can find. Still, another move is meant.", "sound 5"),
        ]
    ways: list[Way] = []
    for rank, merits in enumerate(dict.fromkeys((listed(good[:2]), good[0]))):
        ways += [
            way(
                f"sound too, as far as I can prove: {said} {merits}. Another move is meant.",
                "sound 1",
                rank=rank,
            ),
            way(
                f"{first} {merits}, and I find nothing against it. The lesson goes another way.",
                "sound 2",
                rank=rank,
            ),
            way(
                f"I can prove nothing against {said}, which {merits}. Still, another move is meant.",
                "sound 3",
                rank=rank,
            ),
        ]
    return ways


def _one(ways: Sequence[str], turn: int) -> str:
    return ways[turn % len(ways)] if ways else ""


def _id(one: Deed | Drawback) -> str:
    return f"{one.kind} {one.square}"
