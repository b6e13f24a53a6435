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
_OF_THE_MOVER = (
    "takes", "trade", "ways out", "where to go", "only move", "stop mate", "promotes", "legal", "safe",
    "safe move", "wins something", "mates", "checks", "captures", "forks", "moves", "reach", "behind",
    "moves that", "skewers",
)  # fmt: skip
"""Questions of the next move: where it may be Black's as well as White's, "I" is who is to make it."""


def ask(act: Act, words: str) -> None:
    """Answer a question about what the board shows; nothing is moved, and no try is counted."""
    # Imported when it is needed: the first frame must not wait for it.
    from player.wording.asked import answer_query, nearby, query_of

    query = query_of(words)
    if query is None:
        act.note(nearby(words))
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
        me=_asker(act, query),
        before=looked.board() if looked is not None and looked != place else None,
        language=act.state.sheet.language,
    )
    if asked is not None and asked.ask.place == place and _gives_away(reply, asked):
        act.set(seen=act.state.seen | {asked.ask.key})
    act.note(f"{reply.text}{_of_the_mover(act, query, reply)}", reply.standing)


def _of_the_mover(act: Act, query: Query, reply: BoardReply) -> str:
    """The same for Black, who is to move, where "I" is White only for want of a `side:` in the lesson."""
    from player.wording.asked import answer_query

    if not _unsure(act, query) or query.kind in _OF_THE_MOVER:
        return ""
    other = answer_query(query, act.top.place.board(), me=chess.BLACK, language=act.state.sheet.language)
    if other.text == reply.text or other.standing != reply.standing or other.yes == reply.yes:
        return ""
    return f" For Black, who is to move: {other.text}"


def _unsure(act: Act, query: Query) -> bool:
    """Whether "I" could as well be Black, who is to move: White is what a lesson with no `side:` has too."""
    asks = "me" in (*query.all("C"), *(man.side for man in query.men))
    white = act.state.asked is None and act.state.sheet.side == "white"
    return asks and white and act.top.place.board().turn == chess.BLACK


def _asker(act: Act, query: Query) -> chess.Color:
    """Whose "my" it is: the side to move at a question; else the lesson's side, or the mover's."""
    asked = act.state.asked
    if asked is not None:
        return asked.ask.place.board().turn
    side = act.state.sheet.side
    if query.kind in _OF_THE_MOVER and _unsure(act, query):
        return chess.BLACK
    return {"white": chess.WHITE, "black": chess.BLACK}.get(side, act.top.place.board().turn)


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

    The move is taken as one instead of the move just made, or else as one to make now; where both could be
    meant, as the asker's, and never as the very move that was made.
    """
    if act.state.asked is not None and act.top.why != "what-if":
        act.note("Play it as your answer, and you will hear what becomes of it.")
        return
    here = act.top.place
    before = Place(here.root, here.moves[:-1]) if here.moves else None
    found: list[tuple[Place, str]] = []
    refused = ""
    for place in (before, here):
        if place is None or not place.playable:
            continue
        heard = hear(place.board(), words, language=act.state.sheet.language)
        if isinstance(heard, MoveHeard):
            found.append((place, heard.move.uci()))
        else:
            refused = heard.question if isinstance(heard, Ambiguous) else heard.sentence
    if not found:
        act.note(refused or "Nobody can move on this board.", "board")
        return
    _learn(act, *_meant(act, found), words)


def _meant(act: Act, found: list[tuple[Place, str]]) -> tuple[Place, str]:
    """Which of the two moves of one name is asked about."""
    if len(found) == 1:
        return found[0]
    here = act.top.place
    if found[0][1] == here.last:
        return found[1]
    side = chess.COLOR_NAMES[here.board().turn]
    return found[1] if act.state.sheet.side == side else found[0]


def _learn(act: Act, place: Place, uci: str, words: str) -> None:
    said = _coachs(act, place, uci)
    if said:
        act.note(said, "coach")
        return
    if place.moves != act.top.place.moves and uci == act.top.place.last:
        act.note("That is the move that was made.")
        return
    if not any(step.ask is not None and step.ask.place == place for step in act.state.sheet.steps):
        # Where no question stands no move is meant: what the board itself proves.
        from player.wording.asked.against import against

        reply = against(place.board(), chess.Move.from_uci(uci))
        act.note(reply.text, reply.standing)
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
