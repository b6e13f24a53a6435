"""What-ifs: moves tried on the board beside the lesson, and the way home."""

from __future__ import annotations

import chess

from player.stage.act import Act
from player.stage.happenings import Board
from player.stage.state import Which
from player.wording.hear import Ambiguous, Illegal, NotAMove
from player.wording.say import say
from player.wording.turns import hear_turns


def what_if(act: Act, words: str) -> None:
    """Walk these moves from what the board shows; the lesson waits."""
    place = act.top.place
    if not place.playable:
        act.note("Nobody can move on this imagined board. Say 'home' to go on with the lesson.")
        return
    heard = hear_turns(place.board(), words, language=act.state.sheet.language)
    if isinstance(heard, Ambiguous):
        act.set(which=Which(tuple(m.uci() for m in heard.moves), words, heard.question, True))
        act.note(heard.question)
    elif isinstance(heard, Illegal):
        act.note(heard.sentence, "board")
    elif isinstance(heard, NotAMove):
        act.note(heard.sentence)
    else:
        walk(act, heard)


def walk(act: Act, moves: tuple[chess.Move, ...]) -> None:
    """Put these legal moves on the board, one after another."""
    said = []
    for move in moves:
        place = act.top.place
        board = place.board()
        said.append(say(board, move, language=act.state.sheet.language).shown)
        after = place.then(move.uci())
        if act.top.why != "what-if":
            act.push("what-if", (), after, board_why="what-if", move=move.uci())
        else:
            act.board(after, "what-if", move.uci())
    board = act.top.place.board()
    if board.is_checkmate():
        end = "That is mate."
    elif board.is_stalemate():
        end = "That is stalemate."
    else:
        end = f"{'White' if board.turn else 'Black'} to move."
    act.note(f"What if {' '.join(said)}. {end}")


def end_note(act: Act) -> None:
    """What is still being said of a move that was tried is over as soon as the next one comes."""
    while act.top.why == "note" and act.state.frames[-2].why == "what-if":
        act.pop()


def undo(act: Act) -> None:
    """Take back the last move tried; with none left, come home."""
    frame = act.top
    if frame.why != "what-if":
        act.note("There is no move of yours to take back.")
        return
    below = act.state.frames[-2].place
    gone = frame.place.last
    place = type(below)(frame.place.root, frame.place.moves[:-1])
    if gone is None or place == below:
        act.pop()
        asked = act.top.asked
        act.note("Back at the question." if asked is not None and asked.open else "Back in the lesson.")
        act.take_up()
        return
    act.edit(place=place)
    act.emit(Board(place, None, "undo", act.flip))


def leave_what_if(act: Act) -> None:
    """Leave the moves tried, and go on with what lay below them; nothing where none are tried."""
    if act.top.why == "what-if":
        act.pop()
        act.take_up()


def home(act: Act) -> None:
    """Leave everything above the lesson: what-ifs, asides walked, replies."""
    if len(act.state.frames) == 1:
        act.note("You are in the lesson already.")
        return
    while len(act.state.frames) > 1:
        act.pop()
    asked = act.top.asked
    if asked is not None:
        act.note(f"Back at the question: {asked.ask.text}" if asked.ask.text else "Back at the question.")
    act.take_up()
