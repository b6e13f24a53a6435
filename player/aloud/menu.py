"""All that can be done by taps, as items to be offered one at a time: a function of the lesson's state."""

from __future__ import annotations

from player.aloud.picking import Deed, Item, Items, men, moves, numbers, some_squares, squares
from player.aloud.picking import said as square_said
from player.stage.inputs import Did, Typed
from player.stage.seeking import length
from player.stage.state import Asked, State
from player.wording.asked.forms import query_of

_ASK_BOARD = (
    ("What is hanging?", "is anything hanging"),
    ("What is threatened?", "what is threatened"),
    ("Which checks are there?", "which checks are there"),
    ("Which captures are there?", "which captures are there"),
    ("What is pinned?", "what is pinned"),
    ("How is the material?", "what is the material"),
)
_WEIGHS: dict[str, tuple[str, ...]] = {
    "sure": ("Sure", "Fairly", "A guess"),
    "agreed": ("Yes", "Partly", "No"),
    "effort": ("At once", "With effort", "A guess"),
}


def top(state: State) -> Items:
    """What the menu begins with: at a question what answers it, then the rest in order of use."""
    asked = state.asked
    first: Items = ()
    if state.which is not None:
        first = _which(state)
    if asked is not None:
        first += _question(state, asked)
    if _trying(state):
        first += (_does("Take back the last move tried", "undo"), _does("Home, to the lesson", "home"))
    return (
        *first,
        Item("The position", leads=lambda: _position(state)),
        *((Item("Try moves", leads=lambda: _what_if(state)),) if _playable(state) else ()),
        Item("Another place in the lesson", leads=lambda: _places(state)),
        Item("How it is told", leads=lambda: _telling(state)),
        Item("Reasons, ideas, and what was said", leads=lambda: _told(state)),
        Item("Wait until I tap", (Did("hold"),), stays=True),
        Item("Leave", leads=lambda: _leaving(state)),
    )


def _does(words: str, verb: str, with_: str = "") -> Item:
    return Item(words, (Did(verb, with_),))


def _trying(state: State) -> bool:
    return any(frame.why == "what-if" for frame in state.frames)


def _playable(state: State) -> bool:
    return state.place.playable and any(state.place.board().legal_moves)


def _which(state: State) -> Items:
    """The moves that "which?" was asked about."""
    which = state.which
    asked = state.asked
    if which is None:
        return ()
    place = state.top.place if which.what_if or asked is None else asked.ask.place
    board = place.board()
    meant = [move for move in board.legal_moves if move.uci() in which.moves]
    naming = state.telling.naming
    return tuple(
        Item(
            f"From {square_said(move.from_square, naming)} to {square_said(move.to_square, naming)}",
            (Did("what if", move.uci()) if which.what_if else Typed(move.uci()),),
        )
        for move in meant
    )


def _question(state: State, asked: Asked) -> Items:
    wants = asked.wants
    if wants:
        said = tuple(Item(words, (Typed(words),)) for words in _WEIGHS.get(wants, ()))
        return (*said, _does("Leave that open", "go on"))
    # Among moves that are tried a move would be tried, too: first home, to the question.
    answers = () if _trying(state) else (Item("Answer", leads=lambda: _answers(state, asked)),)
    return (
        *answers,
        _does("Hear the question again", "repeat"),
        _does("A nudge", "nudge"),
        _does("Tell me the answer", "tell me"),
        _does("Skip the question", "skip"),
    )


def _answers(state: State, asked: Asked) -> Items:
    """Every answer that the question can have; of an answer in words only that one has it in mind."""
    ask, naming = asked.ask, state.telling.naming
    if ask.kind == "move":
        return moves(ask.place.board(), Typed, naming)
    if ask.kind == "square":
        return some_squares(Typed, naming)
    if ask.kind == "count":
        return numbers(Typed)
    if ask.kind == "choice":
        return tuple(
            Item(f"{number}: {choice}", (Typed(choice),)) for number, choice in enumerate(ask.choices, 1)
        )
    return (_does("I have my answer in mind: tell me", "tell me"),)


def _position(state: State) -> Items:
    naming, board = state.telling.naming, state.place.board()

    def on(verb: str, before: str = "") -> Items:
        def then(square: str) -> Item:
            return Item(square, (Did(verb, f"{before}{square}"),))

        return squares(then, naming)

    known = [(words, question) for words, question in _ASK_BOARD if query_of(question) is not None]
    asks = tuple(Item(words, (Did("ask", question),)) for words, question in known)
    return (
        _does("The position in a breath", "look", "gist"),
        _does("Where every man stands", "look", "pieces"),
        _does("Say it plainer", "plainer"),
        _does("What has changed", "look", "changed"),
        Item("What a man can do", leads=lambda: men(board, lambda square: Did("examine", square), naming)),
        Item("What stands round a square", leads=lambda: on("look", "around ")),
        Item("What attacks a square", leads=lambda: on("ask", "what attacks ")),
        *asks,
    )


def _what_if(state: State) -> Items:
    board = state.place.board()

    def act(uci: str) -> Deed:
        return Did("what if", uci)

    return moves(board, act, state.telling.naming)


def _places(state: State) -> Items:
    sheet = state.sheet
    asides = [(n, s) for n, s in enumerate(sheet.scopes) if s.kind in ("aside", "instead")]
    items = [_does("The sentence before", "back"), _does("Skip this", "skip")]
    if len(state.frames) > 1 or state.scopes:
        items.append(_does("Home, to the lesson", "home"))
    if asides:
        items.append(
            Item(
                "An aside",
                leads=lambda: tuple(
                    _does(f"{scope.title} It takes {length(sheet, index)}", "aside", str(number))
                    for number, (index, scope) in enumerate(asides, 1)
                ),
            )
        )
    if sheet.parts:
        items.append(
            Item(
                "A part",
                leads=lambda: tuple(
                    _does(f"{number}: {part.title}", "go to", f"part {number}")
                    for number, part in enumerate(sheet.parts, 1)
                ),
            )
        )
    if sheet.questions:
        items.append(
            Item(
                "A question",
                leads=lambda: tuple(
                    _does(f"Question {number}", "go to", f"question {number}")
                    for number in range(1, len(sheet.questions) + 1)
                ),
            )
        )
    items.append(_does("The start", "go to", "start"))
    return tuple(items)


def _telling(state: State) -> Items:
    telling = state.telling
    passing = (
        _does("Have questions pass by themselves", "wait", "off")
        if telling.wait
        else _does("Have questions wait for me", "wait", "on")
    )
    return (
        _does("Slower", "slower"),
        _does("Faster", "faster"),
        Item("A speed", leads=lambda: _scale("Speed", "speed", ("0.7", "0.85", "1", "1.25", "1.5", "2"))),
        Item(
            "Longer or shorter silences",
            leads=lambda: _scale(
                "Silences times", "silence", ("0.3", "0.5", "0.7", "1", "1.5", "2", "3", "5", "10")
            ),
        ),
        passing,
        Item(
            "How squares are named",
            leads=lambda: (
                _does("By letters", "squares", "letters"),
                _does("By names, such as Anna and Bella", "squares", "names"),
                _does("By the spelling alphabet", "squares", "alphabet"),
            ),
        ),
        Item(
            "Volume, from the next lesson on",
            leads=lambda: _scale("Volume", "set", ("0.25", "0.5", "0.75", "1"), "volume "),
        ),
        Item(
            "Voice, announcements and board",
            leads=lambda: (
                _does("Voice off" if telling.voice else "Voice on", "voice"),
                _does("Announcements off" if telling.ear else "Announcements on", "ear"),
                _does("Turn the board", "turn"),
            ),
        ),
        _does("Remember how it is told now", "remember"),
    )


def _scale(words: str, verb: str, values: tuple[str, ...], before: str = "") -> Items:
    return tuple(_does(f"{words} {value}", verb, f"{before}{value}") for value in values)


def _told(state: State) -> Items:
    return (
        _does("Why that move", "why"),
        _does("The ideas so far", "ideas"),
        _does("The last thing again", "again"),
        _does("All that was said so far", "transcript"),
        _does("All the words that can be said or typed", "help"),
        _does("The asides by name", "aside"),
    )


def _leaving(state: State) -> Items:
    there = (_does("Go to this question's lesson", "take me to it"),) if state.sheet.origins else ()
    return (
        _does("Leave now; the place is kept", "quit"),
        _does("Leave after this question", "enough"),
        *there,
    )
