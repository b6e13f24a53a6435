"""Questions the learner puts to the board, at any time: answered from what is proved, or as not known."""

from __future__ import annotations

from typing import TYPE_CHECKING

import chess

from player.facts.place import Place
from player.stage.act import Act
from player.stage.happenings import Need
from player.stage.state import Asked, Pending
from player.wording.hear import Ambiguous, MoveHeard, hear

if TYPE_CHECKING:
    from player.wording.asked import BoardReply, Query

_FEW = 3


def ask(act: Act, words: str) -> None:
    """Answer a question about what the board shows; nothing is moved, and no try is counted."""
    # Imported when it is needed: the first frame must not wait for it.
    from player.wording.asked import CAN_BE_ASKED, answer_query, query_of

    query = query_of(words)
    if query is None:
        act.note(CAN_BE_ASKED)
        return
    asked = act.state.asked
    if asked is not None and _is_the_question(query, asked):
        act.note("That is the question that stands. Answer it, ask for a nudge, or say 'tell me'.")
        return
    if query.kind == "why not":
        why_not(act, query.word)
        return
    place = act.top.place
    looked = act.state.looked
    reply = answer_query(
        query,
        place.board(),
        me=_asker(act),
        before=looked.board() if looked is not None and looked != place else None,
        language=act.state.sheet.language,
    )
    if asked is not None and asked.ask.place == place and _gives_away(reply, asked):
        act.set(seen=act.state.seen | {asked.ask.key})
    act.note(reply.text, "board" if reply.standing == "board" else "unknown")


def _asker(act: Act) -> chess.Color:
    """Whose "my" it is: the side to move at a question, else the side the board is shown from."""
    asked = act.state.asked
    if asked is not None:
        return asked.ask.place.board().turn
    return chess.BLACK if act.state.flip else chess.WHITE


def _is_the_question(query: Query, asked: Asked) -> bool:
    """Whether the learner only asks what is being asked, or for the answer itself."""
    if query.kind == "judgement" and query.word in ("best", "answer"):
        turn = chess.COLOR_NAMES[asked.ask.place.board().turn]
        return query.side.casefold() not in {"white", "black"} - {turn}
    from player.wording.asked import query_of

    own = query_of(asked.ask.text) if asked.ask.kind != "move" else None
    return own is not None and own.same_as == query.same_as


def _gives_away(reply: BoardReply, asked: Asked) -> bool:
    """Whether an answer leaves little to find: few moves with the told one, or just the squares."""
    answer = asked.ask.answer
    if answer is not None:
        moves = {move.uci() for move in reply.moves}
        return answer.uci in moves and len(moves) <= _FEW
    if asked.ask.kind == "square":
        return {chess.SQUARE_NAMES[square] for square in reply.squares} == set(asked.ask.answers)
    return False


def why_not(act: Act, words: str) -> None:
    """What there is against a move: the coach's own reply where there is one, else what can be learnt of it.

    The move is taken as one instead of the move just made, or else as one to make now.
    """
    if act.state.asked is not None and act.top.why != "what-if":
        act.note("Play it as your answer, and you will hear what becomes of it.")
        return
    here = act.top.place
    refused = ""
    for place in [Place(here.root, here.moves[:-1])] * bool(here.moves) + [here]:
        if not place.playable:
            continue
        heard = hear(place.board(), words, language=act.state.sheet.language)
        if isinstance(heard, MoveHeard):
            _learn(act, place, heard.move.uci(), words)
            return
        refused = heard.question if isinstance(heard, Ambiguous) else heard.sentence
    act.note(refused or "Nobody can move on this board.", "board")


def _learn(act: Act, place: Place, uci: str, words: str) -> None:
    said = _coachs(act, place, uci)
    if said:
        act.note(said, "coach")
        return
    if place.moves != act.top.place.moves and uci == act.top.place.last:
        act.note("That is the move that was made.")
        return
    number = act.state.needs + 1
    act.set(needs=number, pending=Pending(number, uci, words, why=True))
    act.emit(Need(number, place, uci))


def _coachs(act: Act, place: Place, uci: str) -> str:
    """What the coach says of this move at a question that has been told already; "" where nothing."""
    for step in act.state.sheet.steps[: act.state.lesson.at + 1]:
        ask_ = step.ask
        if ask_ is None or ask_.place != place:
            continue
        for reply in (*ask_.replies, *ask_.also):
            if uci in reply.answers:
                return " ".join(s.say.shown for s in reply.track if s.say is not None)
    return ""
