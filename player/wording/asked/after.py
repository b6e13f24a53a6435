"""Answers about what a move does: what comes after it, what it stops and wins, and whether it is safe."""

from __future__ import annotations

import chess

from player.facts.exchange import Nodes, OutOfNodes, gain_of, profit
from player.facts.refute import win_stands
from player.facts.seen import given_move
from player.facts.seen_moves import mates, threats
from player.wording.asked.against import worth_words
from player.wording.asked.played import Made, made, over_now, plainly, short, taken_at
from player.wording.asked.reply import BoardReply, Scene, capital, unknown
from player.wording.asked.standing import as_placed
from player.wording.names import colour_name, listed, man_at

_WIN_NODES = 10_000
_TOO_LONG = "It would take more looking than there is time for; it is not known."


def _the(board: chess.Board, squares: list[chess.Square]) -> str:
    return listed([f"the {man_at(board, square)}" for square in squares])


def takers(found: Made) -> list[chess.Square]:
    """The men that can legally take the man that has moved."""
    to = found.move.to_square
    moves = [m for m in found.after.generate_legal_captures() if taken_at(found.after, m) == to]
    return list(dict.fromkeys(m.from_square for m in moves))


def after(scene: Scene) -> BoardReply:
    """What comes after a move: check and the answers to it, what it takes and attacks, who takes it."""
    found = made(scene)
    word = scene.query.word
    if isinstance(found, BoardReply):
        return (as_placed(scene, "what does {} attack") if not word else None) or found
    if word == "taken":
        return _taken(scene, found)
    if word == "threat":
        return _threatens(scene, found)
    board, move, then = found.before, found.move, found.after
    victim = taken_at(board, move)
    took = [f"takes {_the(board, [victim])}"] if victim is not None else []
    if then.is_checkmate() or then.is_stalemate():
        how = "is mate" if then.is_checkmate() else "is stalemate, a draw"
        lead = "It" if took else capital(short(board, move))
        return BoardReply(f"{lead} {listed([*took, how])}.", moves=(move,))
    checks = ["gives check"] if then.is_check() else []
    hit = _hit(then, move.to_square)
    hits = [f"attacks {_the(then, hit)}"] if hit else []
    lead = "It" if took else capital(short(board, move))
    parts = [f"{lead} {listed(took + checks + hits) or 'takes nothing and attacks no man'}."]
    by = takers(found)
    answers = list(then.legal_moves)
    who = colour_name(then.turn)
    if then.is_check() and len(answers) <= 3:
        said = listed([short(then, one) for one in answers], "or")
        parts.append(f"{who} can only answer {said}.")
    elif by:
        parts.append(f"{capital(_the(then, by))} can take it.")
    mating = mates(then)
    if mating:
        parts.append(f"But then {short(then, mating[0])} is mate.")
    return BoardReply(" ".join(parts), moves=(move,), squares=tuple(hit))


def _hit(board: chess.Board, square: chess.Square) -> list[chess.Square]:
    """The enemy men, their king aside, that the man on a square attacks."""
    reached = board.attacks(square) & board.occupied_co[board.turn] & ~board.kings
    return list(reached)


def _taken(scene: Scene, found: Made) -> BoardReply:
    by = takers(found)
    yes = scene.query.said.casefold().lstrip().startswith(("can ", "could ", "is ", "may ", "does "))
    if not by:
        return BoardReply(
            f"{'No: n' if yes else 'N'}othing can take it there.", yes=False, moves=(found.move,)
        )
    text = f"{'Yes: ' if yes else ''}{_the(found.after, by)} can take it."
    return BoardReply(capital(text), yes=True, squares=tuple(by), moves=(found.move,))


def _threatens(scene: Scene, found: Made) -> BoardReply:
    """What the mover would mate with or win by captures next."""
    asked = "Yes: " if _yes_no(scene) else ""
    then = found.after
    if not any(then.legal_moves):
        return BoardReply(over_now(then))
    if then.is_check():
        return BoardReply("It gives check, and that comes first.", yes=True)
    given = given_move(then, found.side)
    assert given is not None
    seen, whole = threats(given, scene.nodes)
    only_mate = "mate" in scene.query.said.casefold()
    if only_mate:
        seen = [one for one in seen if one.gain is None]
    if not seen:
        if not whole:
            return unknown(_TOO_LONG)
        what = "no mate in one" if only_mate else "nothing by captures and mates in one"
        return BoardReply(f"{'No: ' if asked else ''}{capital(what) if not asked else what}.", yes=False)
    said = [f"{short(given, one.move)}{', mate' if one.gain is None else ''}" for one in seen[:2]]
    return BoardReply(
        capital(f"{asked}{listed(said, 'or')}."), yes=True, moves=tuple(one.move for one in seen)
    )


def _yes_no(scene: Scene) -> bool:
    return scene.query.said.casefold().lstrip().startswith(("does ", "do ", "would ", "will ", "is "))


def stops(scene: Scene) -> BoardReply:
    """Whether a move meets the check, the mate in one or the threats of the other side."""
    found = made(scene)
    if isinstance(found, BoardReply):
        return found
    if not found.turn:
        return BoardReply(f"It is {colour_name(not found.side)}'s move now.")
    said = short(found.before, found.move)
    if found.before.is_check():
        return BoardReply(f"Yes: {said} is legal, so it meets the check.", yes=True, moves=(found.move,))
    given = given_move(found.before, not found.side)
    assert given is not None
    before, then = mates(given), mates(found.after)
    if then:
        return BoardReply(
            f"No: after {said}, {short(found.after, then[0])} is mate.", yes=False, moves=(found.move,)
        )
    if before:
        threat = short(given, before[0])
        return BoardReply(
            f"Yes: after {said} there is no mate in one. Before it, {threat} was.",
            yes=True,
            moves=(found.move,),
        )
    if scene.query.word in ("mate", "checkmate", "mated"):
        return BoardReply(f"No mate in one was threatened, and after {said} there is none.")
    seen, whole = threats(found.after, scene.nodes)
    if seen:
        return BoardReply(
            f"No: then {short(found.after, seen[0].move)} wins material by captures.", yes=False
        )
    if not whole:
        return unknown(_TOO_LONG)
    return BoardReply(f"Yes: after {said}, captures win nothing and there is no mate in one.", yes=True)


def safe_move(scene: Scene) -> BoardReply:
    """Whether the man that moves can be taken at a profit, by captures alone, or mate follows."""
    found = made(scene)
    if isinstance(found, BoardReply):
        if scene.query.squares or not scene.query.move:
            return found
        return _safe_there(scene, found)
    then = found.after
    if then.is_checkmate():
        return BoardReply(f"Yes: {short(found.before, found.move)} is mate.", yes=True)
    mating = mates(then)
    if mating:
        return BoardReply(f"No: then {short(then, mating[0])} is mate.", yes=False)
    by = takers(found)
    if not by:
        return _beside(scene, found)
    who = capital(_the(then, by))
    try:
        net = profit(found.before, found.move, scene.nodes)
        most = max(profit(then, m, scene.nodes) for m in then.legal_moves if m.from_square in by
                   and taken_at(then, m) == found.move.to_square)  # fmt: skip
    except OutOfNodes:
        return unknown(_TOO_LONG)
    loss = most - gain_of(found.before, found.move)
    if loss >= 1:
        text = f"No: {who[0].lower()}{who[1:]} can take it, and by captures that loses {worth_words(loss)}."
        return BoardReply(text, yes=False, squares=tuple(by))
    if net < 0:
        return _beside(scene, found)
    text = f"Yes, by captures: {who[0].lower()}{who[1:]} can take it, but no material is lost by that."
    return BoardReply(text, yes=True, squares=tuple(by))


def _beside(scene: Scene, found: Made) -> BoardReply:
    """The man itself is safe; but something else may fall."""
    then = found.after
    try:
        lost = [(profit(then, m, scene.nodes), m) for m in then.generate_legal_captures()]
    except OutOfNodes:
        return unknown(_TOO_LONG)
    gained = gain_of(found.before, found.move)
    worst = max(lost, key=lambda one: one[0], default=None)
    free = "nothing can take it there" if not takers(found) else "taking it wins nothing"
    if worst is not None and worst[0] > gained:
        return BoardReply(
            f"By itself, yes: {free}. But {short(then, worst[1])} then wins material by captures.", yes=True
        )
    return BoardReply(f"Yes, by captures: {free}.", yes=True)


def _safe_there(scene: Scene, refused: BoardReply) -> BoardReply:
    """A square that was meant as the man on it: whether that man hangs."""
    return as_placed(scene, "is {} safe") or refused


def wins(scene: Scene) -> BoardReply:
    """Whether a move wins or loses something: by captures, and only where that stands a short look."""
    found = made(scene)
    if isinstance(found, BoardReply):
        return found
    if scene.query.word not in ("win", "gain"):
        return _loses(safe_move(scene))
    then, move = found.after, found.move
    if not scene.query.inner and not then.is_checkmate():
        return unknown(
            "Whether that wins is a judgement; it is not known. Ask whether it is safe, or a check."
        )
    if then.is_checkmate():
        return BoardReply(f"Better: {short(found.before, move)} is mate.", yes=True)
    victim = taken_at(found.before, move)
    try:
        gain = profit(found.before, move, scene.nodes)
    except OutOfNodes:
        return unknown(_TOO_LONG)
    try:
        stands = gain >= 1 and win_stands(found.before, move, gain, Nodes(_WIN_NODES))
    except OutOfNodes:
        stands = False
    if victim is None and not move.promotion:
        return unknown(
            f"{capital(plainly(found.before, move))} takes nothing; what it may win later is not known."
        )
    took = f"It takes {_the(found.before, [victim])}" if victim is not None else "It promotes"
    if stands:
        text = f"Yes: it wins {worth_words(gain)}, and I find no reply that wins it back."
        return BoardReply(text, "search", yes=True)
    if gain >= 1:
        return unknown(f"{took}, and captures alone do not win it back; but a closer look proves no win.")
    by = takers(found)
    back = f", but {_the(then, by)} can take back" if by else ""
    return BoardReply(f"No: {took[0].lower()}{took[1:]}{back}; by captures nothing is won.", yes=False)


def _loses(safe: BoardReply) -> BoardReply:
    """Whether a move loses something, from whether it is safe: the other way round."""
    if safe.yes is None:
        return safe
    lead, _, why = safe.text.partition(": ")
    lead = "Yes" if lead.startswith("No") else "No, by captures" if "captures" in lead else "No"
    return BoardReply(f"{lead}: {why}", safe.standing, squares=safe.squares, yes=not safe.yes)
