"""Answers about what the rules make of a move: legal, check, mate, a draw, forced."""

from __future__ import annotations

from player.facts.rights import times_stood
from player.facts.seen import given_move
from player.wording.asked.played import Made, can_clause, made, over_now, plainly, short
from player.wording.asked.reply import BoardReply, Scene, capital, yes_no
from player.wording.names import colour_name

_ONLY = ("only move", "only legal move", "only reply", "forced")


def legal(scene: Scene) -> BoardReply:
    """Whether a move is legal, check, mate, a draw, a capture or the only one; or why it is not legal."""
    found = made(scene)
    word = scene.query.word
    if isinstance(found, BoardReply):
        if word == "why":
            return BoardReply(found.text.removeprefix("No. "), found.standing, yes=found.yes)
        return found
    if word in ("legal", "why"):
        return _legal(scene, found)
    if word in _ONLY:
        return _only(found)
    if word in ("stalemate", "draw", "over"):
        return _ends(found, word)
    what = "mate" if word == "checkmate" else word
    what = "capture" if what == "take" else what
    holds, tail = _verdict(found, what)
    text = capital(plainly(found.before, found.move))
    return BoardReply(f"{yes_no(holds)}: {_low(text)} {tail}.", moves=(found.move,), yes=holds)


def _low(text: str) -> str:
    return text[0].lower() + text[1:]


def _legal(scene: Scene, found: Made) -> BoardReply:
    mates = found.after.is_checkmate()
    tail = ", and that is mate" if mates else ", with check" if found.after.is_check() else ""
    if found.turn:
        lead = "It is legal" if scene.query.word == "why" else "Yes"
        return BoardReply(
            f"{lead}: {can_clause(found.before, found.move)}{tail}.", moves=(found.move,), yes=True
        )
    could = f"with the move, {can_clause(found.before, found.move, 'could')}{tail}"
    if scene.side is None:
        return BoardReply(f"No, {colour_name(not found.side)} is to move; {could}.", yes=False)
    return BoardReply(f"Yes, {could}; now {colour_name(not found.side)} is to move.", yes=True)


def _verdict(found: Made, word: str) -> tuple[bool, str]:
    """Whether the move is that, and so in words."""
    after = found.after
    checkers = after.checkers()
    if word == "mate":
        if after.is_checkmate():
            return True, "is mate"
        return False, "is check, but not mate" if checkers else "is not even check"
    if word == "check":
        tail = "is mate" if after.is_checkmate() else "is check"
        return bool(checkers), tail if checkers else "is not check"
    if word == "double check":
        return len(checkers) > 1, "is double check" if len(checkers) > 1 else "is not double check"
    if word == "discovered check":
        holds = any(square != found.move.to_square for square in checkers)
        return holds, "is a discovered check" if holds else "is no discovered check"
    if word == "promotion":
        holds = bool(found.move.promotion)
        return holds, "is a promotion" if holds else "is no promotion"
    if word == "en passant":
        holds = found.before.is_en_passant(found.move)
        return holds, "is en passant" if holds else "is not en passant"
    holds = found.before.is_capture(found.move)
    return holds, "is a capture" if holds else "is not a capture"


def _only(found: Made) -> BoardReply:
    number = found.before.legal_moves.count()
    who = colour_name(found.side)
    if number == 1:
        return BoardReply(f"Yes: it is {who}'s only legal move.", yes=True, moves=(found.move,))
    return BoardReply(
        f"No: {who} has {number} legal moves. Whether the others are any good is another matter.", yes=False
    )


def _ends(found: Made, word: str) -> BoardReply:
    """Whether the move ends the game, or makes it a draw by the rules."""
    after = found.after
    said = short(found.before, found.move)
    if after.is_checkmate():
        text = f"{yes_no(word == 'over')}: {said} is mate."
        return BoardReply(text, yes=word == "over", moves=(found.move,))
    if after.is_stalemate():
        return BoardReply(f"Yes: {said} is stalemate, a draw.", yes=True, moves=(found.move,))
    if word == "stalemate":
        text = f"No: after {said} {colour_name(after.turn)} still has a move."
        return BoardReply(text, yes=False, moves=(found.move,))
    if after.is_insufficient_material():
        text = "Yes: then neither side has enough men to mate."
        return BoardReply(text, yes=True, moves=(found.move,))
    stood = times_stood(after)
    if word == "draw" and stood >= 3:
        text = f"Yes, it can be claimed: after {said} the position stands here for the third time."
        return BoardReply(text, yes=True, moves=(found.move,))
    if word == "draw" and after.halfmove_clock >= 100:
        text = "Yes, it can be claimed: then fifty moves have passed without a capture or a pawn's move."
        return BoardReply(text, yes=True, moves=(found.move,))
    text = f"Not by a rule: {said} brings neither stalemate nor a third repetition."
    return BoardReply(text if word == "draw" else f"No: {said} does not end the game.", yes=False)


def only_move(scene: Scene) -> BoardReply:
    """The only legal move, where there is but one; else how many there are."""
    board = scene.board
    side = board.turn if scene.side is None else scene.side
    given = given_move(board, side)
    if given is None:
        return BoardReply(f"{colour_name(side)} cannot be to move here.")
    if not any(given.legal_moves):
        return BoardReply(over_now(given), yes=False)
    moves = list(given.legal_moves)
    who = colour_name(side)
    asked = scene.query.said.casefold().lstrip().startswith(("is ", "has ", "does ", "do "))
    if len(moves) == 1:
        text = f"{'Yes: ' if asked else ''}{short(given, moves[0])} is {who}'s only legal move."
        return BoardReply(capital(text), moves=tuple(moves), number=1, yes=True)
    text = f"{'No: ' if asked else ''}{who} has {len(moves)} legal moves, not one only."
    return BoardReply(text, number=len(moves), yes=False)
