"""Answers about the game: turn, material, check, results, rights."""

from __future__ import annotations

import re

import chess

from player.facts.balance import ahead_by, in_words
from player.facts.claim import Claim
from player.facts.place import is_playable
from player.facts.rights import times_stood
from player.wording.asked.played import over_now
from player.wording.asked.reply import BoardReply, Scene, capital, count, unknown, yes_no
from player.wording.asked.rules import last_move
from player.wording.claims import claim_of
from player.wording.names import colour_name, listed, name


def turn(scene: Scene) -> BoardReply:
    if re.search(r"\bmoved\b", scene.query.said, re.I):
        return last_move(scene)
    return BoardReply(f"{colour_name(scene.board.turn)} is to move.")


def is_turn(scene: Scene) -> BoardReply:
    yes = scene.board.turn == (scene.me if scene.side is None else scene.side)
    return BoardReply(f"{yes_no(yes)}: {colour_name(scene.board.turn)} is to move.", yes=yes)


def material(scene: Scene) -> BoardReply:
    more = ahead_by(scene.board, chess.WHITE)
    text = in_words(more, chess.WHITE)
    low = scene.query.said.casefold()
    worth = sum(n * each for n, each in zip(more, (1, 3, 5, 9), strict=True))
    if scene.query.word == "list":
        return BoardReply(f"{text} {_men_of(scene.board)}")
    if low.lstrip().startswith("is ") and ("equal" in low or "even" in low or "balanced" in low):
        yes = not any(more)
        return BoardReply(f"{yes_no(yes)}: {text[0].lower() + text[1:] if yes else text}", yes=yes)
    if low.lstrip().startswith(("is ", "does ")) and scene.side is not None:
        up = worth if scene.side else -worth
        if "behind" in low or "down" in low:
            up = -up
        return BoardReply(f"{yes_no(up > 0)}: {text}", yes=up > 0)
    return BoardReply(text)


_KINDS = (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT, chess.PAWN)


def _men_of(board: chess.Board) -> str:
    """Every man of both sides but the kings, counted."""
    said = []
    for side in chess.COLORS:
        own = [(len(board.pieces(kind, side)), name(kind)) for kind in _KINDS]
        said.append(listed([count(number, one) for number, one in own if number]) or "only a king")
    if said[0] == said[1]:
        return f"Each side has {said[0]}."
    white, black = said
    return f"White has {white}; Black has {black}."


def in_check(scene: Scene) -> BoardReply:
    sides = [scene.board.turn, not scene.board.turn] if scene.side is None else [scene.side]
    for side in sides:
        king = scene.board.king(side)
        by = scene.board.attackers(not side, king) if king is not None else chess.SquareSet()
        if by:
            mate = " It is mate." if is_playable(scene.board) and scene.board.is_checkmate() else ""
            return BoardReply(
                f"Yes: {colour_name(side)} is in check from {scene.the(by)}.{mate}",
                yes=True,
                squares=tuple(by),
            )
    who = "nobody" if scene.side is None else colour_name(scene.side)
    return BoardReply(f"No, {who} is {'' if scene.side is None else 'not '}in check.", yes=False)


def _ended(scene: Scene, word: str) -> BoardReply:
    if not is_playable(scene.board):
        return unknown("Nobody can move on this board.")
    yes = scene.board.is_checkmate() if word == "mate" else scene.board.is_stalemate()
    side = scene.board.turn
    if yes and scene.side is not None and scene.side != side:
        return BoardReply(
            f"No: it is {colour_name(side)} who is {'mated' if word == 'mate' else 'stalemated'}.", yes=False
        )
    if yes:
        return BoardReply(
            f"Yes, {colour_name(side)} is {'mated' if word == 'mate' else 'stalemated'}.", yes=True
        )
    if not yes and not any(scene.board.legal_moves):
        if scene.query.word == "why" and scene.board.is_stalemate():
            text = f"{colour_name(side)} is not in check: it is stalemate, a draw."
            return BoardReply(text, yes=False)
        return BoardReply(
            f"No: {over_now(scene.board).partition(': ')[2] or over_now(scene.board)}", yes=False
        )
    moves = count(scene.board.legal_moves.count(), "legal move")
    if scene.query.word == "why":
        way = f"check, but {colour_name(side)} has {moves} to meet it"
        text = f"It is {way}." if scene.board.is_check() else f"{colour_name(side)} is not in check."
        return BoardReply(text, yes=False)
    return BoardReply(
        f"No: {colour_name(side)} has {moves}{' and is in check' if scene.board.is_check() else ''}.",
        yes=False,
    )


def is_mate(scene: Scene) -> BoardReply:
    return _ended(scene, "mate")


def stalemate(scene: Scene) -> BoardReply:
    return _ended(scene, "stalemate")


def draw(scene: Scene) -> BoardReply:
    board = scene.board
    if not is_playable(board):
        return unknown("Nobody can move on this board.")
    stood = times_stood(board)
    for holds, why in (
        (board.is_stalemate(), "it is stalemate"),
        (board.is_insufficient_material(), "neither side has enough men to mate"),
        (stood >= 3, f"this position has stood here {stood} times, so a draw can be claimed"),
        (
            board.halfmove_clock >= 100,
            "fifty moves have passed without a capture or a pawn's move, so it can be claimed",
        ),
    ):
        if holds:
            return BoardReply(f"Yes: {why}.", yes=True)
    proved = scene.proved(Claim("drawn"))
    known = f" {proved.text.partition('. ')[2]}" if proved.yes is not None else ""
    return BoardReply(f"No rule makes it a draw now.{known}", yes=False)


def best_result(scene: Scene) -> BoardReply:
    found = scene.proved(Claim("drawn"))
    if found.yes is None:
        return found
    text = found.text.partition(". ")[2]
    low = scene.query.said.casefold()
    if (
        not low.lstrip().startswith(("is ", "does ", "can "))
        or " or " in low
        or "either" in low
        or "any" in low
    ):
        return BoardReply(text)
    if "draw" in scene.query.said.casefold():
        return BoardReply(f"{yes_no(found.yes)}. {text}", yes=found.yes)
    side = scene.board.turn if scene.side is None else scene.side
    yes = bool(scene.proved(Claim("wins with best play", colour=side)).yes)
    return BoardReply(f"{yes_no(yes)}. {text}", yes=yes)


def repetition(scene: Scene) -> BoardReply:
    stood = times_stood(scene.board)
    times = "once" if stood == 1 else "twice" if stood == 2 else f"{stood} times"
    if scene.query.word == "three":
        claim = "three times, so a draw can be claimed" if stood == 3 else f"{times}, now included"
        text = f"{yes_no(stood > 2)}: this position has stood here {claim}."
        return BoardReply(text, yes=stood > 2, number=stood)
    return BoardReply(
        f"{yes_no(stood > 1)}: this position has stood here {times}, now included.",
        yes=stood > 1,
        number=stood,
    )


def fifty(scene: Scene) -> BoardReply:
    done = scene.board.halfmove_clock // 2
    text = (
        f"{count(done, 'full move')} of the fifty {'has' if done == 1 else 'have'} "
        f"passed without a capture or a pawn's move."
    )
    return BoardReply(capital(text), number=done, yes=done >= 50)


def opposition(scene: Scene) -> BoardReply:
    yes = [side for side in chess.COLORS if scene.proved(Claim("opposition", colour=side)).yes]
    if yes:
        who = colour_name(yes[0])
        text = (
            f"{who} has the opposition: the kings face each other and {colour_name(not yes[0])} is to move."
        )
        if scene.side is not None:
            holds = scene.side == yes[0]
            return BoardReply(f"{yes_no(holds)}: {text}", yes=holds)
        return BoardReply(text, yes=True)
    why = scene.proved(Claim("opposition", colour=not scene.board.turn)).text.removeprefix("No. ")
    return BoardReply(f"Neither side has it, it is not so here. {why}", yes=False)


def bishop_pair(scene: Scene) -> BoardReply:
    sides = list(chess.COLORS) if scene.side is None else [scene.side]
    lead = "" if re.match(r"(?:so |and )?(?:who|which|what)", scene.query.said.strip(), re.I) else "Yes: "
    board = scene.board
    both = [
        side
        for side in chess.COLORS
        if all(
            board.pieces_mask(chess.BISHOP, side) & shade
            for shade in (chess.BB_LIGHT_SQUARES, chess.BB_DARK_SQUARES)
        )
    ]
    if len(both) == 2:
        return BoardReply(f"{'Not alone: b' if lead else 'B'}oth sides have both bishops.", yes=False)
    for side in sides:
        if scene.proved(Claim("bishop pair", colour=side)).yes:
            return BoardReply(f"{lead}{colour_name(side)} has it.", yes=True)
    if not lead:
        return BoardReply("Neither side has it.", yes=False)
    return scene.proved(Claim("bishop pair", colour=sides[0]))


def rooks_connected(scene: Scene) -> BoardReply:
    side = scene.side
    if side is None and scene.query.men and scene.query.men[0].side:
        side = scene.colour(scene.query.men[0].side)
    return scene.proved(Claim("rooks connected", colour=scene.board.turn if side is None else side))


def move_number(scene: Scene) -> BoardReply:
    number = scene.board.fullmove_number
    return BoardReply(f"It is move {number}, {colour_name(scene.board.turn)} to move.", number=number)


def prove_it(scene: Scene) -> BoardReply:
    """Any claim of a known form, put as a question."""
    said = scene.query.said.strip(" ?.!")
    for lead in ("is it true that ", "is it so that ", "is it right that ", "prove that ", "prove "):
        if said.casefold().startswith(lead):
            claim = claim_of(said[len(lead) :])
            if claim is not None:
                return scene.proved(claim)
    return unknown("That is in no form that can be proved. 'help claims' lists the forms.")
