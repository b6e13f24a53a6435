"""Answers about the last move, what is legal, castling and en passant."""

from __future__ import annotations

import chess

from player.facts.seen import given_move
from player.wording.asked.blows import plainly
from player.wording.asked.moves import given_to
from player.wording.asked.reply import BoardReply, Scene, capital, unknown, yes_no
from player.wording.changes import changed
from player.wording.hear import Ambiguous, Illegal, MoveHeard, hear
from player.wording.names import colour_name


def last_move(scene: Scene) -> BoardReply:
    last = scene.last
    if last is None:
        return BoardReply("No move has been made here yet.")
    after = scene.board
    parts = [changed(last.before, after)]
    to = last.move.to_square
    hits = [s for s in after.attacks(to) if after.color_at(s) == after.turn]
    if hits:
        parts.append(f"There it attacks {scene.the(hits)}.")
    if after.is_check():
        parts.append("It is mate." if after.is_checkmate() else "It is check.")
    return BoardReply(" ".join(parts), squares=(last.move.from_square, to), moves=(last.move,))


def what_changed(scene: Scene) -> BoardReply:
    said = scene.query.said.casefold()
    if "question" not in said and ("move" in said or scene.before is None) and scene.last is not None:
        return last_move(scene)
    if scene.before is None:
        return BoardReply("Nothing has changed: no move has been made here yet.")
    return BoardReply(changed(scene.before, scene.board))


def legal(scene: Scene) -> BoardReply:
    """Whether a move is legal, check, mate or a capture."""
    said = next(str(thing) for tag, thing in scene.query.things if tag == "V")
    if not given_move(scene.board, scene.board.turn):
        return unknown("Nobody can move on this board.")
    heard = hear(scene.board, said, language=scene.language)
    if isinstance(heard, Illegal):
        return BoardReply(f"No. {heard.sentence}", yes=False)
    if isinstance(heard, Ambiguous):
        return BoardReply(f"More than one move is {said} here. {heard.question}", moves=heard.moves, yes=True)
    if not isinstance(heard, MoveHeard):
        return unknown(heard.sentence)
    board, move, word = scene.board, heard.move, scene.query.word
    what = capital(plainly(board, move))
    after = board.copy()
    after.push(move)
    holds = {
        "legal": True,
        "check": after.is_check(),
        "mate": after.is_checkmate(),
        "capture": board.is_capture(move),
    }[word]
    tail = {"legal": "is legal", "check": "is check", "mate": "is mate", "capture": "is a capture"}[word]
    text = f"{yes_no(holds)}: {what} {tail if holds else tail.replace('is', 'is not', 1)}."
    return BoardReply(text, moves=(move,), yes=holds)


def castle(scene: Scene) -> BoardReply:
    """Whether a side can castle now, by the rules; and why not."""
    side = scene.board.turn if scene.side is None else scene.side
    low = scene.query.said.casefold()
    wings = (
        ["kingside"] if ("king" in low.replace("king's", "king") and "side" in low) or "short" in low else []
    )
    wings += ["queenside"] if ("queen" in low and "side" in low) or "long" in low else []
    wings = wings or ["kingside", "queenside"]
    given = given_to(scene, side)
    if isinstance(given, BoardReply) and scene.board.is_check():
        return given
    if isinstance(given, BoardReply):
        return given
    rights = bool(given.castling_rights & (chess.BB_RANK_1 if side else chess.BB_RANK_8))
    who = colour_name(side)
    legal_now = [
        wing
        for wing in wings
        if any(
            given.is_castling(m) and given.is_kingside_castling(m) == (wing == "kingside")
            for m in given.legal_moves
        )
    ]
    why = []
    if not rights:
        king = given.king(side)
        home = chess.E1 if side else chess.E8
        why.append(
            f"{who} has already lost the right to castle: the king stands on {chess.SQUARE_NAMES[king]}."
            if king is not None and king != home
            else f"{who} has already lost the right to castle."
        )
    else:
        for wing in wings:
            if wing not in legal_now:
                heard = hear(given, "O-O" if wing == "kingside" else "O-O-O")
                if isinstance(heard, Illegal):
                    why.append(f"{wing.capitalize()}: {heard.sentence}")
    can = (
        f"{who} can castle {' or '.join(legal_now)}."
        if legal_now
        else f"{who} cannot castle{'' if len(wings) == 2 else ' ' + wings[0]} now."
    )
    if "right" in low and rights and not legal_now:
        can = f"{who} has the right to castle, but cannot now."
    yes = rights if "right" in low else bool(legal_now)
    return BoardReply(f"{yes_no(yes)}: {' '.join([can, *why])}", yes=yes)


def why_not_castle(scene: Scene) -> BoardReply:
    reply = castle(scene)
    if reply.standing == "unknown":
        return reply
    text = reply.text.partition(": ")[2]
    return BoardReply(text, yes=reply.yes)


def en_passant(scene: Scene) -> BoardReply:
    moves = (
        [m for m in scene.board.legal_moves if scene.board.is_en_passant(m)]
        if given_move(scene.board, scene.board.turn)
        else []
    )
    if not moves:
        return BoardReply("Nothing can be taken en passant now.", yes=False, number=0)
    here = chess.SQUARE_NAMES[moves[0].to_square]
    by = scene.the([m.from_square for m in moves])
    return BoardReply(
        f"Yes: {here} is the en passant square; {by} can take there.",
        squares=(moves[0].to_square,),
        yes=True,
        moves=tuple(moves),
    )
