"""A small UCI engine for tests, which can be as bad as engines get: `fake_uci.py MODE`.

It ranks moves by what they take, and says so in order. Modes: good; single (no MultiPV); slow (never says
uciok); frozen (falls silent after isready); crash (ends in mid-search); illegal (a best move that is none);
wrong-lines (lines of moves that are not legal); rubbish (noise between the lines); quits (ends at once);
kingless-dies (ends when it gets a position without kings).
"""

from __future__ import annotations

import sys
import time

import chess

WORTH = {1: 100, 2: 300, 3: 300, 4: 500, 5: 900}


def main(mode: str) -> None:
    if mode == "quits":
        return
    if mode == "slow":
        time.sleep(120)
    board = chess.Board()
    lines = 1
    for text in sys.stdin:
        words = text.split()
        if not words:
            continue
        if words[0] == "uci":
            say("id name Fake of the reading room", "id author nobody")
            if mode != "single":
                say("option name MultiPV type spin default 1 min 1 max 500")
            say("option name Hash type spin default 16 min 1 max 64", "uciok")
            if mode == "rubbish":
                sys.stderr.write("noise on the other stream\n" * 50)
        elif words[0] == "isready":
            say("readyok")
            if mode == "frozen":
                time.sleep(120)
        elif words[:3] == ["setoption", "name", "MultiPV"]:
            lines = int(words[-1])
        elif words[0] == "position":
            board = placed(words)
        elif words[0] == "go":
            search(board, words, lines, mode)
        elif words[0] == "quit":
            return


def placed(words: list[str]) -> chess.Board:
    at = words.index("moves") if "moves" in words else len(words)
    board = chess.Board() if words[1] == "startpos" else chess.Board(" ".join(words[2:at]))
    for uci in words[at + 1 :]:
        board.push_uci(uci)
    return board


def search(board: chess.Board, words: list[str], lines: int, mode: str) -> None:
    if mode == "crash":
        say("info depth 1 score cp 10")
        sys.exit(3)
    if board.king(chess.WHITE) is None and mode == "kingless-dies":
        sys.exit(4)
    legal = list(board.legal_moves)
    if "searchmoves" in words:
        named = words[words.index("searchmoves") + 1 :]
        legal = [move for move in legal if move.uci() in named]
    ranked = sorted(legal, key=lambda move: (-worth(board, move), move.uci()))
    for number, move in enumerate(ranked[:lines], 1):
        line = move.uci()
        if mode == "wrong-lines":
            line = f"{move.uci()} a1a1 h9h9" if number % 2 else "e1e8 e8e1"
        if mode == "rubbish":
            say(
                "\x00\x07 what", "info depth", "info multipv x score cp", "bestmov", "info string \u265e {}[]"
            )
        say(f"info depth 1 multipv {number} score cp {worth(board, move)} nodes 20 pv {line}")
    say("bestmove " + ("e1e8q" if mode == "illegal" else ranked[0].uci()))


def worth(board: chess.Board, move: chess.Move) -> int:
    taken = board.piece_type_at(move.to_square)
    return WORTH.get(taken or 0, 0)


def say(*lines: str) -> None:
    for line in lines:
        print(line, flush=True)


if __name__ == "__main__":
    main(sys.argv[1])
