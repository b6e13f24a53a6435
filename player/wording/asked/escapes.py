"""Answers about a check: who gives it, whether it is double, and the ways out of it."""

from __future__ import annotations

from dataclasses import replace

import chess

from player.facts.place import is_playable
from player.facts.seen import given_move
from player.facts.seen_moves import mates
from player.wording.asked.blows import checks
from player.wording.asked.moves import man_moves
from player.wording.asked.played import over_now, short, taken_at
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed

_SHOWN = 4


def checkers(scene: Scene) -> BoardReply:
    """Who gives check now; where nobody does, which moves would."""
    board = scene.board
    by = list(board.checkers())
    if not by and "how many" in scene.query.said.casefold():
        return BoardReply("None: nobody is in check.", number=0, yes=False)
    if not by:
        return checks(scene)
    verb = "gives" if len(by) == 1 else "give"
    double = ": a double check" if len(by) > 1 else ""
    text = f"{capital(scene.the(by))} {verb} check{double}."
    return BoardReply(text, squares=tuple(by), number=len(by), yes=True)


def double_check(scene: Scene) -> BoardReply:
    """Whether two men give check at once."""
    by = list(scene.board.checkers())
    if len(by) > 1:
        text = f"Yes: {scene.the(by)} both give check, so only the king can move."
        return BoardReply(text, squares=tuple(by), yes=True)
    if by:
        return BoardReply(f"No: only {scene.the(by)} gives check.", yes=False)
    return BoardReply("No: nobody is in check.", yes=False)


def _checked(scene: Scene) -> chess.Board | BoardReply:
    """The board with the checked side to move, or why there is no check to get out of."""
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    if not board.is_check():
        side = board.turn if scene.side is None else scene.side
        return BoardReply(f"There is no check to meet: {colour_name(side)} is not in check.")
    if scene.side is not None and scene.side != board.turn:
        return BoardReply(f"{colour_name(scene.side)} is not in check; {colour_name(board.turn)} is.")
    return board


def _ways(board: chess.Board, way: str) -> list[chess.Move]:
    """The legal moves that meet a check by that way: "king", "take" or "block"; any where it is ""."""
    king = board.king(board.turn)
    by = list(board.checkers())
    found = []
    for move in board.legal_moves:
        if move.from_square == king:
            kind = "king"
        elif taken_at(board, move) in by:
            kind = "take"
        else:
            kind = "block"
        takes_it = kind == "king" and taken_at(board, move) in by
        if way in ("", kind) or (way == "take" and takes_it):
            found.append(move)
    return found


_CANNOT = {
    "": "there is no way out: it is mate",
    "block": "no man can come between",
    "take": "nothing can take the man that gives check",
    "king": "the king has no square to go to",
}


def ways_out(scene: Scene) -> BoardReply:
    """The legal ways out of a check: all, or only blocking, taking or running; by a man if one is named."""
    way = scene.query.word
    if (
        way == "king"
        and is_playable(scene.board)
        and not scene.board.is_check()
        and "check" not in scene.query.said
    ):
        return man_moves(scene)
    board = _checked(scene)
    if isinstance(board, BoardReply):
        return board
    found = _ways(board, way)
    asked = scene.query.men
    if asked:
        men = scene.men()
        own = [square for square in men if board.color_at(square) == board.turn]
        if not own:
            return BoardReply(
                f"No: {scene.absent()}" if not men else "No: that man is the other side's.", yes=False
            )
        found = [move for move in found if move.from_square in own]
    low = scene.query.said.casefold()
    yes_no = _yes_no(scene)
    who = colour_name(board.turn)
    if not found:
        why = _CANNOT[way]
        if asked and _ways(board, way):
            why = f"{scene.the(own)} cannot do it"
        elif way and board.is_checkmate():
            why = f"{why}, and it is mate"
        return BoardReply(capital(f"{'No: ' if yes_no else ''}{why}."), yes=False, number=0)
    shown = listed([short(board, move) for move in found[:_SHOWN]], "or")
    more = f", and {len(found) - _SHOWN} more" if len(found) > _SHOWN else ""
    if "how many" in low:
        text = f"{who} has {count(len(found), 'way')} out of check: {shown}{more}."
    else:
        text = f"{'Yes: ' if yes_no else ''}{shown}{more}."
    return BoardReply(capital(text), moves=tuple(found), number=len(found), yes=True)


def stop_mate(scene: Scene) -> BoardReply:
    """Whether the mate in one that the other side threatens can be met, and by what."""
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    if not any(board.legal_moves):
        return BoardReply(over_now(board), yes=False)
    if board.is_check():
        return ways_out(replace(scene, query=replace(scene.query, word="", things=())))
    given = given_move(board, not board.turn)
    threat = mates(given) if given is not None else []
    if given is None or not threat:
        return unknown(
            f"{colour_name(not board.turn)} threatens no mate in one; a longer one is not looked for."
        )
    found = []
    for move in board.legal_moves:
        after = board.copy(stack=False)
        after.push(move)
        if not mates(after):
            found.append(move)
    if not found:
        return BoardReply("No: whatever is played, there is mate in one.", yes=False, number=0)
    shown = listed([short(board, move) for move in found[:_SHOWN]], "or")
    more = f", and {len(found) - _SHOWN} more" if len(found) > _SHOWN else ""
    lead = "Yes: " if _yes_no(scene) else ""
    leave = "leaves" if len(found) == 1 else "leave"
    text = f"{lead}{count(len(found), 'move')} {leave} no mate in one: {shown}{more}."
    return BoardReply(capital(text), moves=tuple(found), number=len(found), yes=True)


def _yes_no(scene: Scene) -> bool:
    """Whether yes or no is wanted, by the first word."""
    low = scene.query.said.casefold().lstrip()
    return low.startswith(("can ", "could ", "is ", "does ", "do ", "am ", "are ", "may "))


def where_to_go(scene: Scene) -> BoardReply:
    """ "Where can I go?": in check the ways out, else how many moves there are to choose from."""
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    if not any(board.legal_moves):
        return BoardReply(over_now(board))
    if scene.side is not None and scene.side != board.turn:
        return BoardReply(f"{colour_name(board.turn)} is to move now.")
    moves = list(board.legal_moves)
    if board.is_check():
        king = [m for m in moves if m.from_square == board.king(board.turn)]
        rest = [m for m in moves if m not in king]
        parts = [f"the king can go to {listed([chess.SQUARE_NAMES[m.to_square] for m in king])}"] * bool(king)
        parts += [listed([short(board, m) for m in rest[:_SHOWN]], "or")] * bool(rest)
        more = f", and {len(rest) - _SHOWN} more" if len(rest) > _SHOWN else ""
        text = f"{colour_name(board.turn)} is in check: {'; or '.join(parts)}{more}."
        return BoardReply(text, moves=tuple(moves), number=len(moves), yes=True)
    text = (
        f"{colour_name(board.turn)} has {count(len(moves), 'legal move')}. Name a man, such as the knights."
    )
    return BoardReply(text, number=len(moves), yes=True)


def has_move(scene: Scene) -> BoardReply:
    """Whether a side has any legal move."""
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    side = board.turn if scene.side is None else scene.side
    who = colour_name(side)
    if side != board.turn:
        if not any(board.legal_moves):
            return BoardReply(over_now(board), yes=False)
        return BoardReply(f"{colour_name(board.turn)} is to move now, not {who}.", yes=False)
    number = board.legal_moves.count()
    if number:
        return BoardReply(f"Yes: {who} has {count(number, 'legal move')}.", yes=True, number=number)
    how = "mated" if board.is_check() else "stalemated"
    return BoardReply(f"No: {who} is {how}.", yes=False, number=0)
