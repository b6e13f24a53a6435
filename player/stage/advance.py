"""The running lesson as a pure function: a state and an input give a state and happenings."""

from __future__ import annotations

from dataclasses import replace

from player.cues.naming import renamed
from player.cues.sheet import Sheet
from player.facts.place import Place
from player.stage import asking, inquiring, reasoning, wandering
from player.stage.act import Act
from player.stage.commands import HANDLERS
from player.stage.happenings import Happening
from player.stage.inputs import Did, Finished, Heard, Input, Learnt, Typed, Woke
from player.stage.state import Frame, State, Telling
from player.stage.understand import near_verb, understand
from player.wording.hear import NotAMove, hear


def begin(sheet: Sheet, telling: Telling) -> State:
    """A lesson about to be told; `Did("start")` begins it."""
    if telling.naming != "letters":
        sheet = renamed(sheet, telling.naming)
    place = sheet.steps[0].before if sheet.steps else Place()
    flip = sheet.steps[0].flip if sheet.steps else False
    return State(sheet, telling, (Frame("lesson", sheet.steps, 0, len(sheet.steps), place),), flip=flip)


def advance(state: State, given: Input) -> tuple[State, tuple[Happening, ...]]:
    """What follows from this input. Pure; never raises; inputs about things past are ignored."""
    act = Act(state)
    if isinstance(given, Heard):
        heard(act, given)
    elif isinstance(given, Finished):
        finished(act, given)
    elif isinstance(given, Woke):
        woke(act, given)
    elif isinstance(given, Learnt):
        asking.learnt(act, given)
    elif isinstance(given, Typed):
        typed(act, given.text)
    else:
        did(act, given)
    return act.state, tuple(act.out)


def heard(act: Act, news: Heard) -> None:
    """So much of a saying has been heard: its words are marked, its cues land."""
    frames = act.state.frames
    for index in range(len(frames) - 1, -1, -1):
        frame = frames[index]
        if frame.saying != news.saying or not news.saying:
            continue
        if index == len(frames) - 1:
            stopped = frame.doing != "saying"
            act.edit(word=begun(frame, news), ms=news.ms if stopped else None)
            act.land(act.top.word)
        else:
            left = replace(frame, word=begun(frame, news), ms=news.ms)
            act.set(frames=(*frames[:index], left, *frames[index + 1 :]))
        return


def begun(frame: Frame, news: Heard) -> int:
    """How many words of the frame's step have begun by now."""
    say = frame.step.say if frame.step is not None else None
    return min(max(frame.word, news.word), len(say.words) if say is not None else 0)


def finished(act: Act, news: Finished) -> None:
    frame = act.top
    if frame.saying != news.saying or frame.doing != "saying" or not news.saying:
        return
    step = frame.step
    if step is None:
        return
    words = len(step.say.words) if step.say is not None else 0
    act.edit(word=words, saying=0, ms=None)
    act.land(None)
    if not act.finish(step):
        act.next_step()


def woke(act: Act, news: Woke) -> None:
    if news.wake != act.state.wake or not news.wake:
        return
    act.set(wake=0)
    if act.top.doing == "resting":
        act.next_step()
    elif act.top.doing == "asked":
        asking.reveal(act, "passed")


def typed(act: Act, text: str) -> None:
    """The learner's words: the answer to "which?" first, then an action, an answer, a move."""
    which = act.state.which
    if which is not None and text.strip():
        move = asking.settle_which(act, which, text)
        if move is not None:
            act.set(which=None)
            asked = asking.standing_question(act) if not which.what_if else None
            if which.what_if or asked is None:
                wandering.walk(act, (move,))
            else:
                asking.try_move(act, asked, move, text)
            return
    held = reasoning.heard(act, text)
    if held is not None:
        if held:
            asking.answer(act, held)
        return
    did(act, understand(act.state, text))


def did(act: Act, deed: Did) -> None:
    """An action of the registry, or words that may be an answer or a move ("say")."""
    verb, words = deed.verb, deed.with_
    if verb == "again":
        verb, words = act.state.last
        if not verb:
            act.note("There is nothing to do again yet.")
            return
    elif verb not in ("start", "resume"):
        act.set(last=(verb, words))
    held = reasoning.skipped(act) if verb == "go on" else None
    if held is not None:
        if held:
            asking.answer(act, held)
        return
    if verb in ("say", "undo", "what if"):
        wandering.end_note(act)
    if verb == "say":
        spoken_to(act, words)
        return
    handler = HANDLERS.get(verb)
    if handler is None:
        act.note(f"'{verb}' is nothing I can do. Say 'help' for what you can say here.")
        return
    if verb in ("tell me", "nudge"):
        put_early(act)
    if verb not in ("ask", "look", "where", "examine", "ideas", "help", "transcript"):
        act.set(which=None)
    handler(act, words)


def put_early(act: Act) -> None:
    """A question that is answered, or helped with, while it is being asked stands from now on."""
    frame = act.top
    step = frame.step
    if step is None or step.ask is None or frame.why not in ("lesson", "aside") or frame.asked is not None:
        return
    if frame.doing == "saying" or (frame.doing == "held" and frame.was == "saying"):
        act.hush()
        act.put(step)


def spoken_to(act: Act, words: str) -> None:
    """Words that are no action: an answer at a question, else a move to try."""
    put_early(act)
    state = act.state
    asked = state.asked if state.top.why != "what-if" else None
    if asked is not None and asked.ask.kind != "move":
        asking.answer(act, words)
        return
    place = asked.ask.place if asked is not None else state.place
    if not place.playable:
        act.note("Nobody can move on this imagined board. Say 'go on', or 'help' for what you can say.")
        return
    heard_words = hear(place.board(), words, language=state.sheet.language, freely=asked is not None)
    if not isinstance(heard_words, NotAMove):
        if asked is not None:
            asking.answer(act, words)
        else:
            wandering.what_if(act, words)
        return
    # Imported when it is needed: the first frame must not wait for it.
    from player.wording.asked import looks_asked, query_of

    if query_of(words) is not None:
        inquiring.ask(act, words)
        return
    verb = near_verb(words)
    if heard_words.points:
        act.note(heard_words.sentence)
        return
    if looks_asked(words) and (verb is None or " " in words.strip()):
        inquiring.ask(act, words)
    elif verb is not None:
        act.note(f"'{words}' is no move and no command. Did you mean '{verb}'?")
    else:
        act.note(heard_words.sentence)
