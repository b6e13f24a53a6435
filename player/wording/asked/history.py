"""Answers about what has been played: moves, captures, castling, and how the game has ended."""

from __future__ import annotations

from collections.abc import Iterator

import chess

from player.facts.place import is_playable
from player.wording.asked.played import over_now, short, taken_at
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown
from player.wording.names import colour_name, listed, man_at

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_SHOWN = 8


def made_moves(board: chess.Board) -> Iterator[tuple[chess.Board, chess.Move]]:
    """Every move made here with the board before it, from the first on."""
    before = board.root()
    for move in board.move_stack:
        yield before.copy(stack=False), move
        before.push(move)


def _known(scene: Scene) -> bool:
    """Whether all that has been played is known: the moves begin at the starting position."""
    return scene.board.root().board_fen() == chess.STARTING_BOARD_FEN


def so_far(scene: Scene) -> BoardReply:
    """The moves made here, or as many of the last as can be listened to."""
    played = [(before, move) for before, move in made_moves(scene.board) if move]
    if not played:
        return BoardReply("No move has been made here yet.", number=0, yes=False)
    said = [short(before, move) for before, move in played[-_SHOWN:]]
    lead = "" if len(played) <= _SHOWN else f"{count(len(played), 'move')} in all; the last {_SHOWN}: "
    return BoardReply(
        capital(f"{lead}{', '.join(said)}."), number=len(played), yes=True, moves=tuple(m for _, m in played)
    )


def nth_move(scene: Scene) -> BoardReply:
    """Which move a side made at a number of the game."""
    low = scene.query.said.casefold()
    number = next((n for n, word in enumerate(_ORDINALS, 1) if word in low), scene.query.number or 1)
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    found = [
        f"{colour_name(before.turn)}'s {_ordinal(number)} move was {short(before, move)}"
        for before, move in made_moves(scene.board)
        if move and before.fullmove_number == number and before.turn in sides
    ]
    if not found:
        return unknown(f"Which move number {number} was is not known here.")
    return BoardReply(f"{'; '.join(found)}.", number=number)


def _ordinal(number: int) -> str:
    return _ORDINALS[number - 1] if number <= len(_ORDINALS) else f"{number}th"


def moves_made(scene: Scene) -> BoardReply:
    """How many moves each side has made, by the number of the move."""
    board = scene.board
    black = board.fullmove_number - 1
    white = black + (board.turn == chess.BLACK)
    text = f"White has made {count(white, 'move')}, Black {count(black, 'move')}."
    return BoardReply(text, number=white + black)


def last_taken(scene: Scene) -> BoardReply:
    """What was taken with the last move, or with a side's last one."""
    played = [one for one in made_moves(scene.board) if one[1]]
    if scene.side is not None:
        played = [one for one in played if one[0].turn == scene.side]
    if not played:
        return BoardReply("No move has been made here yet.", yes=False)
    before, move = played[-1]
    victim = taken_at(before, move)
    who = colour_name(before.turn)
    if victim is None:
        return BoardReply(f"Nothing: {who}'s last move was {short(before, move)}.", yes=False)
    text = f"{who} took the {man_at(before, victim)}, with the {man_at(before, move.from_square)}."
    return BoardReply(text, squares=(victim,), moves=(move,), yes=True)


def any_taken(scene: Scene) -> BoardReply:
    """Whether anything has been taken yet, and what."""
    taken = []
    for before, move in made_moves(scene.board):
        victim = taken_at(before, move) if move else None
        if victim is not None and (scene.side is None or before.turn == scene.side):
            side = colour_name(bool(before.color_at(victim))).casefold()
            taken.append(f"the {side} {man_at(before, victim)}")
    if taken:
        more = f", and {len(taken) - _SHOWN} more" if len(taken) > _SHOWN else ""
        many = scene.query.said.casefold().startswith("how many")
        lead = capital(count(len(taken), "man")) if many else "Yes"
        return BoardReply(f"{lead}: {listed(taken[:_SHOWN])}{more}.", number=len(taken), yes=True)
    gone = 32 - chess.popcount(scene.board.occupied)
    if _known(scene) or not gone:
        return BoardReply("No: nothing has been taken yet.", number=0, yes=False)
    text = f"Not in the moves known here. Before them {count(gone, 'man')} had gone from the board."
    return BoardReply(text, yes=False)


def castled(scene: Scene) -> BoardReply:
    """Whether a side has castled: by the moves known here, else by where its king stands."""
    sides = [scene.side] if scene.side is not None else []
    if not sides and scene.query.men and scene.query.men[0].side:
        side = scene.colour(scene.query.men[0].side)
        sides = [side] if side is not None else []
    sides = sides or list(chess.COLORS)
    found = [_castled(scene, bool(side)) for side in sides]
    low = scene.query.said.casefold()
    if len(found) == 1:
        yes, text = found[0]
        if yes is None:
            return unknown(text)
        return BoardReply(f"{'Yes' if yes else 'No'}: {text}", yes=yes)
    texts = " ".join(text for _, text in found)
    if any(yes is None for yes, _ in found):
        return unknown(texts)
    all_ = all(yes for yes, _ in found)
    some = any(yes for yes, _ in found)
    lead = (
        ""
        if low.lstrip().startswith(("who", "which"))
        else "Yes: "
        if all_
        else "Not both: "
        if some
        else "No: "
    )
    if "both" not in low and "all" not in low and some and not all_:
        lead = ""
    return BoardReply(f"{lead}{texts}", yes=all_)


def _castled(scene: Scene, side: bool) -> tuple[bool | None, str]:
    board, who = scene.board, colour_name(side)
    for before, move in made_moves(board):
        if move and before.turn == side and before.is_castling(move):
            wing = "kingside" if before.is_kingside_castling(move) else "queenside"
            king = board.king(side)
            where = f"; the king stands on {chess.SQUARE_NAMES[king]}" if king is not None else ""
            return True, f"{who} castled {wing} on move {before.fullmove_number}{where}."
    if board.has_castling_rights(side):
        return False, f"{who} has not castled, and still has the right to."
    king = board.king(side)
    here = chess.SQUARE_NAMES[king] if king is not None else "no square"
    if _known(scene) or king == (chess.E1 if side else chess.E8):
        return False, f"{who} has not castled; the king stands on {here}."
    return None, f"Whether {who} has castled is not in the moves known here; the king stands on {here}."


def has_moved(scene: Scene) -> BoardReply:
    """Whether a man has moved in the moves known here; a king with the right to castle certainly has not."""
    men = scene.men()
    if not men:
        return BoardReply(scene.absent())
    man = scene.query.men[0]
    if man.square is None and not man.side:
        men = [
            s
            for s in men
            if scene.board.color_at(s) == (scene.board.turn if scene.side is None else scene.side)
        ]
    if len(men) != 1:
        return unknown("Name the man by its square, such as the rook on a1.")
    square = men[0]
    who = scene.the([square], sides=True)
    at = square
    for before, move in reversed(list(made_moves(scene.board))):
        if move and move.to_square == at:
            return BoardReply(f"Yes: {who} came from {chess.SQUARE_NAMES[move.from_square]}.", yes=True)
        if move and before.is_castling(move):
            rook = chess.square(5 if before.is_kingside_castling(move) else 3, move.to_square >> 3)
            if at == rook:
                return BoardReply(f"Yes: {who} came there when its king castled.", yes=True)
    clean = scene.board.clean_castling_rights() & chess.BB_SQUARES[square]
    if _known(scene) or clean:
        return BoardReply(f"No: {who} has not moved.", yes=False)
    return BoardReply(f"Not in the moves known here: {who} stands where it stood.", yes=False)


def who_won(scene: Scene) -> BoardReply:
    """Who has won, where the game is over; with a side, whether that one."""
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    if not board.is_game_over():
        if scene.query.word == "wins":
            return unknown("Nobody yet; how it ends is a judgement the board cannot prove.")
        return BoardReply(
            f"Nobody yet: the game is not over, {colour_name(board.turn)} is to move.", yes=False
        )
    over = over_now(board).partition(": ")[2]
    asked = scene.query.said.casefold().lstrip().startswith(("did ", "has ", "have ", "is ", "does ", "do "))
    if not board.is_checkmate():
        return BoardReply(f"{'No' if asked else 'Nobody'}: {over}", yes=False)
    yes = scene.side is None or scene.side != board.turn
    return BoardReply(f"{('Yes: ' if yes else 'No: ') if asked else ''}{over}", yes=yes)


def is_over(scene: Scene) -> BoardReply:
    """Whether the game is over by mate, stalemate or bare material."""
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    if board.is_game_over():
        how = over_now(board).partition(": ")[2]
        return BoardReply(f"Yes: {how}", yes=True)
    moves = count(board.legal_moves.count(), "legal move")
    return BoardReply(f"No: {colour_name(board.turn)} is to move and has {moves}.", yes=False)
