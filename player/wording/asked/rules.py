"""Answers about the last move, what is legal, castling and en passant."""

from __future__ import annotations

import re

import chess

from player.facts.seen import given_move
from player.wording.asked.moves import given_to
from player.wording.asked.reply import BoardReply, Scene, capital, yes_no
from player.wording.changes import changed
from player.wording.hear import Illegal, hear
from player.wording.names import colour_name, listed, man_at


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
            _lost_by(scene.board, side)
            or (
                f"{who} has already lost the right to castle: the king stands on {chess.SQUARE_NAMES[king]}."
                if king is not None and king != home
                else f"{who} has already lost the right to castle, by a move made before."
            )
        )
    else:
        for wing in wings:
            if wing not in legal_now:
                heard = hear(given, "O-O" if wing == "kingside" else "O-O-O")
                if isinstance(heard, Illegal):
                    reason = _all_in_the_way(given, wing, heard.sentence)
                    if len(wings) == 2 and wing not in reason:
                        reason = f"{wing.capitalize()}, {_low(reason)}"
                    why.append(reason)
    can = (
        f"{who} can castle {' or '.join(legal_now)}."
        if legal_now
        else f"{who} cannot castle{'' if len(wings) == 2 else ' ' + wings[0]} now."
    )
    if "right" in low and rights and not legal_now:
        can = f"{who} has the right to castle, but cannot now."
    elif why and not legal_now:
        can = ""
    if len(why) == 2 and legal_now == [] and rights:
        why = [f"{who} has kept the right, but cannot castle now.", *(_brief(one) for one in why)]
    yes = rights != ("lost" in low) if "right" in low else bool(legal_now)
    said = _low(" ".join(one for one in (can, *why) if one))
    if legal_now and side != scene.board.turn:
        said = said.replace(f"{who} can castle", f"with the move {who} can castle", 1)
    return BoardReply(f"{yes_no(yes)}: {said}", yes=yes)


def _lost_by(board: chess.Board, side: chess.Color) -> str:
    """That the king has moved or castled, where the moves known here tell so."""
    before = board.root()
    for move in board.move_stack:
        man = before.piece_at(move.from_square) if move else None
        if man is not None and man.piece_type == chess.KING and man.color == side:
            who, number = colour_name(side), before.fullmove_number
            if before.is_castling(move):
                return f"{who} has castled already, on move {number}."
            to = chess.SQUARE_NAMES[move.to_square]
            return f"the king has moved, to {to} on move {number}, and the right does not come back."
        before.push(move)
    return ""


def _all_in_the_way(board: chess.Board, wing: str, sentence: str) -> str:
    """Why a side cannot castle on a wing; all men that stand in the way, where that is the reason."""
    side = board.turn
    files = (5, 6) if wing == "kingside" else (3, 2, 1)
    rank = 0 if side else 7
    men = [chess.square(file, rank) for file in files]
    there = [s for s in men if board.piece_at(s)]
    if "in the way" not in sentence or not there:
        return sentence
    said = listed([f"the {man_at(board, s)}" for s in there])
    verb = "is" if len(there) == 1 else "are"
    return f"{colour_name(side)} cannot castle {wing}: {said} {verb} in the way."


def _brief(sentence: str) -> str:
    """ "Kingside, the bishop on f8 is in the way.": a reason without who cannot castle."""
    found = re.fullmatch(r"(?:White|Black) (?:cannot|has .*?) castle (kingside|queenside): (.+)", sentence)
    return f"{found[1].capitalize()}, {found[2]}" if found else sentence


def _low(text: str) -> str:
    """With a small letter at its start, but for a side's name."""
    return text if text.startswith(("White", "Black")) else text[0].lower() + text[1:]


def why_not_castle(scene: Scene) -> BoardReply:
    reply = castle(scene)
    if reply.standing == "unknown":
        return reply
    text = reply.text.partition(": ")[2]
    return BoardReply(capital(text), yes=reply.yes)


def en_passant(scene: Scene) -> BoardReply:
    """Whether anything, or anything of a side's, can be taken en passant now."""
    board = scene.board
    side = scene.side
    if side is None and scene.query.men and scene.query.men[0].side:
        side = scene.colour(scene.query.men[0].side)
    moves = []
    if given_move(board, board.turn) and side in (None, board.turn):
        moves = [m for m in board.legal_moves if board.is_en_passant(m)]
    if not moves:
        who = f"{colour_name(side)} can take nothing" if side is not None else "Nothing can be taken"
        return BoardReply(f"{who} en passant now.", yes=False, number=0)
    here = chess.SQUARE_NAMES[moves[0].to_square]
    by = scene.the([m.from_square for m in moves])
    if scene.query.word == "must":
        only = board.legal_moves.count() == len(moves)
        text = "Yes: there is no other legal move." if only else f"No: {by} can take on {here}, but need not."
        return BoardReply(text, yes=only, moves=tuple(moves))
    return BoardReply(
        f"Yes: {here} is the en passant square; {by} can take there.",
        squares=(moves[0].to_square,),
        yes=True,
        moves=tuple(moves),
    )
