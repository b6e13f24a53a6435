"""What to say to a question of no known form: which nearby question can be asked."""

from __future__ import annotations

import re

import chess

from player.wording.asked.forms import query_of
from player.wording.asked.spelled import spelled
from player.wording.asked.words import Man, Plain, plain_question

CAN_BE_ASKED = "You can ask, for example, 'what attacks e5' or 'can I castle'; 'what can I ask' says more."

_NEAR: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"zugzwang|plan|idea|better|best|good|bad|should|weak|strong", ()),
    (r"V", ("what happens after {move}", "is {move} safe")),
    (r"pinned|pin", ("is {man} pinned", "what is pinned")),
    (r"hanging|free|lose|losing", ("what is hanging", "what is undefended")),
    (r"stalemate|draw|repetition|fiftymove", ("is it a draw", "how many times has this position stood here")),
    (r"mate", ("is there a forced mate", "is mate threatened")),
    (r"castle|O-O", ("can I castle", "why can't I castle")),
    (r"check", ("which checks are there", "how do I get out of check")),
    (r"threat", ("what is threatened", "is mate threatened")),
    (r"fork", ("is there a fork", "what is threatened")),
    (r"safe|escape|run|trapped", ("which squares are safe for {man}", "is {man} trapped")),
    (r"guard|guarded|unguarded|guardians", ("what guards {square}", "what is undefended")),
    (r"attack|attacked|attackers", ("what attacks {square}", "what does {man} attack")),
    (r"take|capture|recapture|win|won", ("what can take on {square}", "which captures are there")),
    (r"passed|isolated|doubled|backward|promote|islands", ("which pawns are passed", "can a pawn promote")),
    (r"F|file|open|halfopen", ("which files are open", "who holds the d-file")),
    (r"material|ahead|points|worth", ("who is ahead in material", "what is the material")),
    (r"played|made|last|happen|happened", ("what was the last move", "what has been played")),
    (r"go|move|reach|square|jump", ("where can {man} go", "what is on {square}")),
    (r"enpassant", ("can I take en passant",)),
    (r"S|M", ("what attacks {square}", "what is on {square}")),
    (r"K", ("where can {man} go", "what does {man} attack")),
)


def nearby(words: str) -> str:
    """One sentence with a question or two that can be asked, near to these words where any is."""
    plain = plain_question(spelled(words))
    for keys, ways in _NEAR:
        if re.search(rf"(?:^|\s)(?:{keys})(?:\s|$)", plain.text) is None:
            continue
        said = [way for way in (_filled(way, plain) for way in ways) if query_of(way) is not None]
        if said:
            return f"That is not understood. Near it you can ask: {' or '.join(f'{one!r}' for one in said)}."
        break
    return f"That is not understood. {CAN_BE_ASKED}"


def _filled(way: str, plain: Plain) -> str:
    """A nearby question, about the square, man or move that was named, where one was."""
    square = next((int(thing) for tag, thing in plain.things if tag == "S" and isinstance(thing, int)), None)
    man = next((thing for _, thing in plain.things if isinstance(thing, Man)), None)
    move = next((str(thing) for tag, thing in plain.things if tag == "V"), "")
    if square is None and man is not None and man.square is not None:
        square = man.square
    return way.format(
        square=chess.SQUARE_NAMES[square] if square is not None else "e5",
        man=_man(man) if man is not None else "the queen",
        move=move or "knight f3",
    )


def _man(man: Man) -> str:
    kind = chess.piece_name(man.kind) if man.kind else "man"
    side = {"white": "white ", "black": "black ", "": ""}.get(man.side)
    whose = "my " if side is None and man.side == "me" else "the " if side is None else f"the {side}"
    where = "" if man.square is None else f" on {chess.SQUARE_NAMES[man.square]}"
    return f"{whose}{kind}{where}"
