"""What there is against a move, where no question stands: proved, or that nothing was found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from player.facts.exchange import Nodes, OutOfNodes
from player.facts.mates import forced_mate
from player.facts.refute import Refuted, refutation
from player.facts.seen_moves import mates
from player.wording.asked.played import over_now, short
from player.wording.asked.reply import BoardReply, capital, unknown
from player.wording.hear import Ambiguous, Illegal, MoveHeard, hear

_MATE_NODES = 2_500
_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


@dataclass(frozen=True, slots=True)
class _Asked:
    board: chess.Board
    move: chess.Move
    after: chess.Board

    @property
    def said(self) -> str:
        return capital(short(self.board, self.move))


def against_words(board: chess.Board, words: str, *, language: str = "en") -> BoardReply:
    """What there is against a move said in words, on a board where moves may be made."""
    if not any(board.legal_moves):
        return BoardReply(over_now(board))
    heard = hear(board, words, language=language)
    if isinstance(heard, MoveHeard):
        return against(board, heard.move)
    if isinstance(heard, Ambiguous):
        return BoardReply(heard.question, moves=heard.moves)
    return BoardReply(heard.sentence) if isinstance(heard, Illegal) else unknown(heard.sentence)


def against(board: chess.Board, move: chess.Move) -> BoardReply:
    """What there is against a legal move: mate, or a loss that stands a closer look; what it passes by."""
    after = board.copy()
    after.push(move)
    asked = _Asked(board, move, after)
    if after.is_checkmate():
        return BoardReply(f"Nothing: {short(board, move)} is mate.", moves=(move,))
    if after.is_stalemate():
        return BoardReply(f"{asked.said} is stalemate, so a draw.", moves=(move,))
    try:
        found = refutation(board, move)
    except OutOfNodes:
        text = f"What there is against {short(board, move)} would take more looking than there is time for."
        return unknown(f"{text}{_passed_by(asked)}")
    if found is not None and not found.met:
        whose: Literal["board", "search"] = "board" if found.mate else "search"
        return BoardReply(f"{_harm(asked, found)}{_passed_by(asked)}", whose, moves=(move,))
    mate = _mates_in(asked)
    if mate:
        check = "it is check, and " if after.is_check() else "it "
        return BoardReply(f"Nothing: {check}forces mate in {_NUMBERS[mate]}.", moves=(move,))
    return BoardReply(_nothing(asked, found), "unknown", moves=(move,))


def _harm(asked: _Asked, found: Refuted) -> str:
    reply = short(asked.after, found.reply)
    if found.mate == 1:
        return f"After {short(asked.board, asked.move)}, {reply} is mate."
    if found.mate:
        return f"After {short(asked.board, asked.move)}, {reply} forces mate in {_NUMBERS[found.mate]}."
    said = f"After {short(asked.board, asked.move)}, {reply} wins {worth_words(found.loss)}"
    return f"{said}, and I find nothing that makes it good."


def worth_words(pawns: int) -> str:
    """ "a pawn", "a piece's worth", "four pawns' worth": what captures win."""
    words = {1: "a pawn's worth", 3: "a piece's worth", 5: "a rook's worth", 9: "a queen's worth"}
    if pawns in words:
        return words[pawns]
    return f"{_NUMBERS[pawns] if pawns < len(_NUMBERS) else pawns} pawns' worth"


def _mates_in(asked: _Asked) -> int:
    """In how many moves the move itself forces mate, where that is two or three and soon found; else 0."""
    for moves in (1, 2):
        try:
            if _helpless(asked.after, moves):
                return moves + 1
        except OutOfNodes:
            break
    return 0


def _helpless(after: chess.Board, moves: int) -> bool:
    nodes = Nodes(_MATE_NODES)
    board = after.copy(stack=False)
    for reply in list(board.legal_moves):
        board.push(reply)
        forced = forced_mate(board, moves, nodes)
        board.pop()
        if forced is None:
            return False
    return True


def _passed_by(asked: _Asked) -> str:
    """That there was a mate in one instead."""
    found = mates(asked.board)
    return f" Instead, {short(asked.board, found[0])} is mate." if found else ""


def _nothing(asked: _Asked, met: Refuted | None) -> str:
    said = short(asked.board, asked.move)
    found = mates(asked.board)
    if found:
        return f"{capital(short(asked.board, found[0]))} is mate; {said} passes that by."
    if met is not None:
        reply = short(asked.after, met.reply)
        return (
            f"By captures alone {reply} would win {worth_words(met.loss)}, but a closer look finds an answer "
            f"to it. So nothing is proved against {said}."
        )
    return f"Nothing that I can prove: a few moves deep, neither mate nor captures speak against {said}."
