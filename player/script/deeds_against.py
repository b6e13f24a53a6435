"""Words in a brace against its move, further: steps, shades, castling, kinds of check, and what is denied."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

import chess

from player.script.movefacts import MoveFacts
from player.script.vocabulary import Vocabulary

Wrong = tuple[str, str, str]
_STEPS = re.compile(
    r"\b(?P<count>one|two|three|four|five|six|seven|a single|single|double|[1-7]) (?:squares?|steps?)\b(?!"
    r" (?:from|behind|in"
    r" front|nearer|away|short|of|to))",
    re.IGNORECASE,
)
_NO_CHECK = re.compile(
    r"\b(?P<no>no|not|not a|isn't|without|without a|not even) (?P<what>check|mate)\b", re.IGNORECASE
)
_ONLY_CHECK = re.compile(r"\b(?:just|only|merely) (?:a )?check\b", re.IGNORECASE)
_NO_CAPTURE = re.compile(
    r"\b(?:takes? nothing|taking nothing|no capture|without (?:taking|capturing|a capture)|quiet (?:little"
    r" )?move|(?:do|does|did|will) not (?:take|capture)(?: back| it| him| anything)?"
    r"(?=$|[,.;:!?]| and\b| but\b)|(?:declines|refuses) to (?:take|capture))\b",
    re.IGNORECASE,
)
_GOES_TO = re.compile(
    r"\b(?:(?:pawn|knight|bishop|rook|queen|king|goes|moves|steps|jumps|hops|slides|comes|drops|retreats|travels|out|"
    r"back|home|up|down|over|across)(?: once more| once again| again| straight)? (?:to|onto)|"
    r"(?:lands|arrives|settles)(?: again| safely)? on) (?P<square>[a-h][1-8])\b",
    re.IGNORECASE,
)
_SUBJECT = re.compile(
    r"(?:^|[,;.] |\b(?:the|a|an|his|her|our|my|your|their|own|white|black|that|this|and|"
    r"only|first|second|other) )"
    r"(?P<man>pawn|knight|bishop|rook|queen|king) (?:(?:simply|just|now|then|itself|quietly) )?"
    r"(?:takes|recaptures|captures|(?:goes|moves|steps|jumps|hops|comes|slides|retreats|drops|to|back to)"
    r"(?: to)? [a-h][1-8])\b",
    re.IGNORECASE,
)
_PAWN_OF = re.compile(r"\b(?P<file>[a-h])-pawn\b[^,;.]*$", re.IGNORECASE)
_STALEMATE = re.compile(r"\bstalemates?\b", re.IGNORECASE)
_KIND_OF_CHECK = re.compile(r"\b(?P<kind>double|discovered) check\b", re.IGNORECASE)
_CASTLES = re.compile(
    r"\b(?:(?:White|Black|king|sides?|we|and|both) )?castles?\b(?! (?:later|next|soon))", re.IGNORECASE
)
_CASTLING = re.compile(r"\bcastl\w+ (?P<how>long|short)\b", re.IGNORECASE)
_SHADE = re.compile(r"\b(?P<shade>light|dark)(?:-squared)? (?:squared )?bishop\b", re.IGNORECASE)
_BORN = re.compile(r"\b(?P<half>king|queen)'s (?P<kind>knight|bishop|rook)\b", re.IGNORECASE)
_COUNTS = {
    word: number for number, word in enumerate(["one", "two", "three", "four", "five", "six", "seven"], 1)
} | {
    "double": 2,
    **{str(number): number for number in range(1, 8)},
}
_KINDS = {"knight": chess.KNIGHT, "bishop": chess.BISHOP, "rook": chess.ROOK}


def deeds_against(words: str, deeds: Sequence[MoveFacts], said: Vocabulary) -> Iterator[Wrong]:
    """The part of the words that is not so, a fault's code, and what to say of it, with {move} and {text}."""
    yield from _own_words(words, deeds, said) if said.words else _english(words, deeds, said)


def _english(words: str, deeds: Sequence[MoveFacts], said: Vocabulary) -> Iterator[Wrong]:
    yield from _denials(words, deeds)
    yield from _steps(words, deeds)

    def unless(
        pattern: re.Pattern[str], so: Callable[[re.Match[str], MoveFacts], bool]
    ) -> Iterator[re.Match[str]]:
        for found in pattern.finditer(words):
            if not said.is_denied(words, found) and not any(so(found, deed) for deed in deeds):
                yield found

    for found in unless(_SUBJECT, lambda found, deed: _moves(found["man"], deed)):
        if not any(_takes_part(found["man"], deed) for deed in deeds):
            continue  # that is told of every man named
        yield found["man"], "other-man", "In {move} it is no {text} that moves there."
    for found in unless(_GOES_TO, _goes_there):
        yield found["square"], "other-square", "{move} does not go to {text}."
    for found in unless(_STALEMATE, lambda _, deed: deed.stalemates):
        yield found[0], "no-stalemate", "{move} is not stalemate."
    for found in unless(_KIND_OF_CHECK, lambda found, deed: _such_check(found["kind"].lower(), deed)):
        yield found[0], "no-check", "{move} is no {text}."
    for found in unless(_CASTLES, lambda _, deed: deed.castles):
        yield found[0], "no-castling", "{move} is not castling."
    for found in unless(
        _CASTLING, lambda found, deed: not deed.castles or _short(deed) == (found["how"].lower() == "short")
    ):
        yield found[0], "other-wing", "{move} castles on the other side."
    for found in unless(
        _SHADE, lambda found, deed: _is_light(deed.target) == (found["shade"].lower() == "light")
    ):
        yield found[0], "other-man", "{move} stays on squares of the other colour."
    for found in unless(_BORN, _born_there):
        yield found[0], "other-man", "{move} does not move the {text}."


def _denials(words: str, deeds: Sequence[MoveFacts]) -> Iterator[Wrong]:
    """What is denied of moves that all do it."""
    for found in _NO_CHECK.finditer(words):
        mate = found["what"].lower() == "mate"
        if all(deed.mates if mate else deed.checks for deed in deeds):
            yield found[0], "is-check", "{move} is mate." if mate else "{move} does give check."
    for found in _ONLY_CHECK.finditer(words):
        if all(deed.mates for deed in deeds):
            yield found[0], "is-check", "{move} is mate."
    for found in _NO_CAPTURE.finditer(words):
        if all(deed.captures for deed in deeds):
            yield found[0], "is-capture", "{move} does take something."


def _steps(words: str, deeds: Sequence[MoveFacts]) -> Iterator[Wrong]:
    """How far a pawn or a king goes; of other men's way words may say what they like."""
    for found in _STEPS.finditer(words):
        count = _COUNTS.get(found["count"].lower(), 1)
        named = _PAWN_OF.search(words, 0, found.start())
        meant = [deed for deed in deeds if named is None or _is_pawn_of(deed, named["file"].lower())]
        counted = [deed for deed in meant if deed.moved in (chess.PAWN, chess.KING) and not deed.castles]
        if (
            counted
            and len(counted) == len(meant)
            and not any(chess.square_distance(deed.origin, deed.target) == count for deed in counted)
        ):
            yield found[0], "other-steps", "{move} does not go {text}."


def _moves(man: str, deed: MoveFacts) -> bool:
    kind = chess.PIECE_NAMES.index(man.lower())
    return deed.moved == kind or (deed.castles and kind in (chess.KING, chess.ROOK))


def _takes_part(man: str, deed: MoveFacts) -> bool:
    kind = chess.PIECE_NAMES.index(man.lower())
    return any(kind == other for other, _ in deed.men)


def _is_pawn_of(deed: MoveFacts, file: str) -> bool:
    return deed.moved == chess.PAWN and chess.FILE_NAMES[chess.square_file(deed.origin)] == file


def _goes_there(found: re.Match[str], deed: MoveFacts) -> bool:
    """Whether a move goes there; of squares that are no end of it something else is said."""
    square = chess.parse_square(found["square"].lower())
    return square not in deed.squares or square != deed.origin


def _such_check(kind: str, deed: MoveFacts) -> bool:
    return deed.checkers > 1 if kind == "double" else deed.discovers or deed.checkers > 1


def _short(deed: MoveFacts) -> bool:
    return chess.square_file(deed.target) > 4


def _is_light(square: chess.Square) -> bool:
    return bool(chess.BB_SQUARES[square] & chess.BB_LIGHT_SQUARES)


def _born_there(found: re.Match[str], deed: MoveFacts) -> bool:
    """Whether a man still at home is the one of that half; of others nobody can tell."""
    home = chess.square_rank(deed.origin) == (0 if deed.mover else 7)
    if deed.moved != _KINDS[found["kind"].lower()] or not home:
        return True
    return (chess.square_file(deed.origin) > 3) == (found["half"].lower() == "king")


def _own_words(words: str, deeds: Sequence[MoveFacts], said: Vocabulary) -> Iterator[Wrong]:
    """Captures, castling and colours in the words of another language than English."""
    for found in said.words["take"].finditer(words):
        if not said.is_denied(words, found) and not any(deed.captures for deed in deeds):
            yield found[0], "no-capture", "{move} takes nothing."
    if said.words["castle"].search(words) or all(deed.castles for deed in deeds):
        short, long = said.words["kingside"].search(words), said.words["queenside"].search(words)
        castled = [deed for deed in deeds if deed.castles]
        if castled and bool(short) != bool(long):
            wing = short or long
            if wing and not any(_short(deed) == bool(short) for deed in castled):
                yield wing[0], "other-wing", "{move} castles on the other side."
    for white, name in ((True, "white"), (False, "black")):
        for found in said.words[name].finditer(words):
            first = re.fullmatch(r"(?:(?:les|las|die) )?", words[: found.start()], re.IGNORECASE)
            alone = first and not said.man.match(words, found.end() + 1)
            if alone and not any(deed.mover == white for deed in deeds):
                yield found[0], "other-side", "{move} is not a move of that side."
            man = said.man.match(words, found.end() + 1) or _before(said.man, words, found.start())
            if man and not any((said.kinds[man["man"].lower()], white) in deed.men for deed in deeds):
                yield found[0], "other-man", "In {move} no man of that colour and kind takes part."


def _before(pattern: re.Pattern[str], words: str, at: int) -> re.Match[str] | None:
    """The last match that ends right before a blank at this character."""
    return next((found for found in pattern.finditer(words, 0, at) if found.end() == at - 1), None)
