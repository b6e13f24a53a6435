"""A question's life: answers, tries, replies, nudges, and the answer told."""

from __future__ import annotations

import re
from dataclasses import replace

import chess

from player.cues.sheet import Ask, Reply, Track
from player.script.told import Turn
from player.stage import reasoning
from player.stage.act import Act
from player.stage.bare import ORDINALS
from player.stage.given import find_given, is_right, not_so
from player.stage.happenings import Attempt, Grade, Need
from player.stage.inputs import Learnt
from player.stage.state import Asked, Pending, Which
from player.stage.taken import taken
from player.wording.answer import resolve
from player.wording.hear import Ambiguous, Illegal, MoveHeard, NotAMove, hear
from player.wording.say import say


def standing_question(act: Act) -> Asked | None:
    """Come back to the innermost question from a reply or note above it; None where nothing is asked."""
    if act.state.asked is None:
        return None
    while act.top.asked is None and len(act.state.frames) > 1 and act.top.why in ("reply", "nudge", "note"):
        act.pop()
    return act.top.asked


def answer(act: Act, text: str) -> None:
    """The learner answers the question that stands."""
    asked = standing_question(act)
    if asked is None:
        return
    if asked.ask.kind == "move":
        hear_answer(act, asked, text)
    else:
        judge(act, asked, text)


def hear_answer(act: Act, asked: Asked, text: str) -> None:
    board = asked.ask.place.board()
    heard = hear(board, text, language=act.state.sheet.language, freely=True)
    if isinstance(heard, MoveHeard) and reasoning.held_back(act, asked, text):
        return
    if isinstance(heard, MoveHeard):
        try_move(act, asked, heard.move, text)
    elif isinstance(heard, Ambiguous):
        moves = tuple(move.uci() for move in heard.moves)
        act.set(which=Which(moves, text, heard.question, False))
        act.note(heard.question)
    elif isinstance(heard, Illegal):
        act.note(heard.sentence, "board")
    else:
        act.note(heard.sentence)


def settle_which(act: Act, which: Which, text: str) -> chess.Move | None:
    """The move meant by the one word that answers "which?"; None where it settles nothing."""
    asked = act.state.asked
    place = act.top.place if which.what_if or asked is None else asked.ask.place
    board = place.board()
    moves = tuple(chess.Move.from_uci(uci) for uci in which.moves)
    return resolve(moves, board, text)


def grade(act: Act, asked: Asked, good: Grade) -> Grade:
    return "seen" if asked.ask.key in act.state.seen else good


def try_move(act: Act, asked: Asked, move: chess.Move, given: str) -> None:
    """A legal move as an answer."""
    uci = move.uci()
    ask = asked.ask
    if ask.answer is not None and uci == ask.answer.uci:
        right(act, asked, given, uci)
        return
    also = find(ask.also, uci)
    if also is not None:
        attempt(act, asked, given, uci, grade(act, asked, "also"), tried=True)
        after = ask.place.then(uci)
        words: Track = (*also.track, act.sentence(here_we_go_on(act, ask), "goes-on:program", after))
        go_on_after(act, ask)
        act.edit(asked=replace(asked, answered=True))
        act.push("reply", words, after, then="go on", move=uci)
        return
    asked = wrong(act, asked, given, uci)
    coach = find(ask.replies, uci)
    if coach is not None:
        words = (*coach.track, act.sentence(invitation(act, asked), "invitation:program", ask.place))
        act.push("reply", words, ask.place.then(uci), then="ask", move=uci)
        return
    number = act.state.needs + 1
    act.set(needs=number, pending=Pending(number, uci, given))
    act.sleep()
    act.emit(Need(number, ask.place, uci))


def learnt(act: Act, truth: Learnt) -> None:
    """The truth about a wrong move is here: the reply, and then the coach's word for all other moves."""
    pending = act.state.pending
    asked = act.top.asked
    if pending is not None and pending.need == truth.need and pending.why:
        act.set(pending=None)
        standing = truth.standing if truth.standing in ("board", "engine", "search") else "unknown"
        act.note(truth.sentence, standing)  # type: ignore[arg-type]
        return
    if pending is None or pending.need != truth.need or asked is None:
        return
    act.set(pending=None)
    ask = asked.ask
    after = ask.place.then(pending.move)
    words: Track = (act.sentence(truth.sentence, f"reply:{truth.standing}", after),)
    words = (*words, *ask.otherwise, act.sentence(invitation(act, asked), "invitation:program", ask.place))
    act.push("reply", words, after, then="ask", move=pending.move)


def wrong(act: Act, asked: Asked, given: str, meant: str) -> Asked:
    tried = replace(asked, tries=asked.tries + 1, given=(*asked.given, meant))
    act.edit(asked=tried)
    attempt(act, tried, given, meant, "wrong", tried=False)
    return tried


def attempt(act: Act, asked: Asked, given: str, meant: str, graded: Grade, *, tried: bool) -> None:
    number = asked.tries + (1 if tried else 0)
    act.emit(Attempt(asked.ask.key, given, meant, graded, number, asked.nudges))


def right(act: Act, asked: Asked, given: str, meant: str) -> None:
    """The answer: yes, why, and the telling goes on with the move on the board."""
    ask = asked.ask
    attempt(act, asked, given, meant, grade(act, asked, "right"), tried=True)
    act.set(seen=act.state.seen | {ask.key})
    place = ask.answer.after if ask.answer is not None else ask.place
    yes = "Right" if _says_no(ask) else "Yes"
    yes = yes if not asked.tries else f"{yes}, at the {ORDINALS[min(asked.tries, 7)]} try"
    yes = f"{yes}: {said(act, ask.answer)}." if ask.answer is not None else f"{yes}."
    words: Track = (act.sentence(yes, "yes:program", place),)
    wants = reasoning.wanted_after(act, asked)
    if wants != "why":
        words += reason(act, ask)
    go_on_after(act, ask)
    act.edit(asked=replace(asked, wants=wants, answered=True))
    act.push(
        "reply",
        words,
        place,
        then="go on",
        board_why="answer",
        move=meant if ask.answer is not None else None,
    )


def _says_no(ask: Ask) -> bool:
    """Whether the answer is a no: "Yes. No, it is a draw" would say both in one breath."""
    because = next((step.say.shown for step in ask.because if step.say is not None), "")
    return ask.answer is None and any(re.match(r"(?i)no\b", one) for one in (*ask.answers[:1], because))


def untold(act: Act) -> bool:
    """Whether the telling that would give the answer and its reason is left out."""
    return act.state.telling.questions_only and act.top.why == "lesson"


def reason(act: Act, ask: Ask) -> Track:
    """What is said after the answer: the coach's reason; where the telling that would hold it is left out,
    the sentence that tells the answer, and the next one if nothing is played in it.
    """
    if ask.because_given:
        return ask.because
    if not untold(act) or ask.told is None or ask.answer is None:
        return ()
    first, *more = act.state.sheet.steps[ask.told : ask.told + 2]
    place = ask.answer.after
    told = [step for step in (first, *more) if step.say is not None and step.kind == "tell"]
    if first.say is not None and first.say.shown.strip(" .") == said(act, ask.answer):
        told = [step for step in told if step is not first]
    return tuple(
        replace(step, before=place, after=place, cues=())
        for step in told
        if step.after == place and (step is first or step.before == place) and step.scopes == first.scopes
    )


def go_on_after(act: Act, ask: Ask) -> None:
    """The told answer stays on the board until the telling has caught up with it."""
    act.hush()
    if ask.answer is not None and ask.told is not None:
        act.edit(ahead=ask.answer.after, ahead_till=ask.told, place=ask.answer.after, shown=None)


def reveal(act: Act, graded: Grade) -> None:
    """The answer and why: asked for ("told"), or because the silence ran out ("passed")."""
    asked = standing_question(act)
    if asked is None:
        return
    ask = asked.ask
    act.emit(Attempt(ask.key, "", "", graded, asked.tries, asked.nudges))
    act.set(seen=act.state.seen | {ask.key})
    act.hush()
    at_once = ask.told == act.top.at + 1 and not ask.because_given and not untold(act)
    if at_once:
        act.edit(asked=None)
        act.next_step()
        return
    place = ask.answer.after if ask.answer is not None else ask.place
    words: Track = (act.sentence(the_answer(act, ask), "answer:program", place),)
    words += reason(act, ask)
    go_on_after(act, ask)
    act.edit(asked=replace(asked, answered=True))
    uci = ask.answer.uci if ask.answer is not None else None
    act.push("reply", words, place, then="go on", board_why="answer", move=uci)


def nudge(act: Act) -> None:
    """The next rung of help: the coach's own, then ones read off the answer."""
    asked = standing_question(act)
    if asked is None:
        act.note("Nothing is asked at the moment.")
        return
    rungs = (*asked.ask.nudges, *own_nudges(act, asked.ask))
    if not rungs:
        act.note("There is no nudge here. Say 'tell me' for the answer.")
        return
    if asked.nudges >= len(rungs):
        act.note("That is all the help there is. Say 'tell me' for the answer.")
        return
    act.edit(asked=replace(asked, nudges=asked.nudges + 1))
    act.push("nudge", rungs[asked.nudges], asked.ask.place, then="ask")


def own_nudges(act: Act, ask: Ask) -> tuple[Track, ...]:
    """The rungs that the coach has left: idea, man, area, and the move with its reason."""
    if ask.answer is None:
        texts: tuple[str, ...] = () if ask.nudges or not ask.about else (f"Think of {ask.about[0]}.",)
    else:
        coach = [" ".join(step.say.shown for step in track if step.say is not None) for track in ask.nudges]
        from player.wording.nudge import left  # The first frame must not wait for it.

        texts = left(ask.place, ask.answer.uci, ask.about, coach)
    return tuple((act.sentence(text, "nudge:program", ask.place),) for text in texts)


# -- words -------------------------------------------------------------------------------------------------


def said(act: Act, turn: Turn) -> str:
    """A move as it is shown; the voice says it in words."""
    language = act.state.sheet.language
    return say(turn.before.board(), chess.Move.from_uci(turn.uci), language=language).shown


def here_we_go_on(act: Act, ask: Ask) -> str:
    return f"Here we go on with {said(act, ask.answer)}." if ask.answer is not None else "Here we go on."


def the_answer(act: Act, ask: Ask) -> str:
    if ask.answer is not None:
        return f"The answer is {said(act, ask.answer)}."
    return (
        f"The answer is {' and '.join(ask.answers)}."
        if ask.kind == "square"
        else f"The answer: {ask.answers[0]}."
    )


def invitation(act: Act, asked: Asked) -> str:
    if asked.tries <= 1:
        return "Try again, if you like."
    if not (asked.ask.nudges or own_nudges(act, asked.ask)):
        return "Try again, or say 'tell me'."
    return "Try again, ask for a nudge, or say 'tell me'."


def find(replies: tuple[Reply, ...], meant: str) -> Reply | None:
    return next((reply for reply in replies if meant in reply.answers), None)


# -- questions that are not about a move ---------------------------------------------------------------------


def judge(act: Act, asked: Asked, text: str) -> None:
    """An answer that is a square, a number, a choice or words."""
    ask = asked.ask
    heard = taken(ask, text, act.state.sheet.language, act.state.sheet.words if ask.kind == "words" else ())
    if heard.note:
        act.note(heard.note, "board" if heard.proved else "program")
        return
    meant = heard.meant
    if reasoning.held_back(act, asked, text):
        return
    if is_right(ask, meant):
        right(act, asked, text, " ".join(meant))
        return
    key = " ".join(meant)
    also = find_given(ask, ask.also, meant)
    if also is not None:
        attempt(act, asked, text, key, grade(act, asked, "also"), tried=True)
        words = (*also.track, act.sentence(the_answer(act, ask), "goes-on:program", ask.place))
        act.edit(asked=replace(asked, answered=True))
        act.push("reply", words, ask.place, then="go on")
        return
    asked = wrong(act, asked, text, key)
    coach = find_given(ask, ask.replies, meant)
    track: Track = coach.track if coach is not None else ask.otherwise
    if not track:
        track = (act.sentence(*not_so(ask, meant), ask.place),)
    track = (*track, act.sentence(invitation(act, asked), "invitation:program", ask.place))
    act.push("reply", track, ask.place, then="ask")


__all__ = ["NotAMove", "answer", "learnt", "nudge", "reveal", "settle_which", "standing_question", "try_move"]
