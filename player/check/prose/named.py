"""Names, years and results in a lesson against its `game:` line."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence

import chess
from rapidfuzz.distance import OSA

from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.facts.material import VALUES
from player.script.faults import Fault
from player.script.model import Header
from player.script.told import Told, ToldBeat, ToldGame
from player.wording.claim_words import number_of
from player.wording.lexicon import unsure

_YEAR = re.compile(r"(?<![\d.,:])(?:1[5-9]|20)\d\d(?![\d:]|\.\d)")
_YEAR_SAID = re.compile(
    r"\b(?:two thousand(?: and)? (?P<unit>[a-z]+(?:-[a-z]+)?)|"
    r"(?P<century>fifteen|sixteen|seventeen|eighteen|nineteen|twenty)"
    r"[ -](?:hundred(?: and)? )?(?P<rest>(?:oh |o' ?)?[a-z]+(?:-[a-z]+)?))\b",
    re.IGNORECASE,
)
_WORD = re.compile(r"(?<![\w'])[A-Z][\w'’]*[\w]")
_NAME = r"[A-Z][\w'’]+(?: [A-Z][\w'’]+)?"
_IS = re.compile(
    rf"\b(?P<side>White|Black) (?:is|was) (?P<name>{_NAME})|(?P<name2>{_NAME})"
    r" (?:has|had|is|was|plays|played|takes) (?:the )?(?P<side2>White|Black|white|black)\b(?!"
    r" [a-z-]+(?:s|n|p)\b)"
)
_TITLED = re.compile(r"\b(?:Mr|Mrs|Miss|Ms|Dr)\.? (?P<name>[A-Z]\w+(?:['’](?!s\b)\w+)?(?: [A-Z]\w+)?)")
_WON = re.compile(
    r"\b(?P<name>[A-Z]\w+(?: [A-Z]\w+)?) (?:won|wins|lost|loses|resigned|resigns) (?:the|this|his|her|that)"
    r" game\b"
)


_MEN = re.compile(
    rf"\b(?P<name>{_NAME}) (?:has|had|plays|played|takes|took|leads|led|sits behind|sat behind) the"
    r" (?P<side>white|black) (?:men|pieces|side|army)\b"
)
_RESIGNS = re.compile(r"(?:^|[.;!?] )(?P<side>White|Black) (?:resigns|resigned|stopped the clocks?)\b")


class Names:
    """The players of a lesson's games, and other names it introduces."""

    def __init__(self, header: Header, elements: Sequence[Told], source: str) -> None:
        self.games = [one for one in elements if isinstance(one, ToldGame)]
        self.players: dict[str, bool] = {}
        for game in self.games:
            for full, white in ((game.white, True), (game.black, False)):
                for word in full.split():
                    if word in self.players and self.players[word] != white:
                        self.players.pop(word)
                    else:
                        self.players.setdefault(word, white)
        self.full = {game.white for game in self.games} | {game.black for game in self.games}
        words = [word for game in self.games for word in f"{game.white} {game.black} {game.site}".split()]
        self.known = {*words, *header.coach.split(), *header.pronounce} - {""}
        self.years = {game.year for game in self.games if game.year}
        self.titled: dict[str, int] = {}
        for found in _TITLED.finditer(source):
            name = found["name"].split()[-1]
            self.titled[name] = self.titled.get(name, 0) + 1
        self.pairs: dict[str, dict[str, int]] = {}
        for first, second in re.findall(r"(?<![\w'-])(?=([A-Z]\w{3,}) ([A-Z]\w+))", source):
            if first not in ("White", "Black"):
                self.pairs.setdefault(first, {}).setdefault(second, 0)
                self.pairs[first][second] += 1
        counted: dict[str, int] = {}
        for word in re.findall(r"\w+", source):
            counted[word] = counted.get(word, 0) + 1
        self.counted: Mapping[str, int] = counted


def name_doubts(passage: Passage, names: Names) -> Iterator[Doubt]:
    """Doubts about names and years in a passage."""
    text = passage.text
    for found in _WORD.finditer(text):
        word = re.sub(r"['’]s?$", "", found[0])
        near = (
            _near(word, names.known, names.players if not names.counted.get(word.lower()) else ())
            if (names.counted.get(word, 0) < 2 or _inside(word, text, found.start(), names))
            and not _common(word, text, found.start(), names)
            else ""
        )
        if near and not (_begins(text, found.start()) and (not unsure(word) or len(near) < len(word) == 4)):
            yield Doubt(
                found.start(),
                found.start() + len(word),
                "prose-name",
                f"{word} is spelled {near} elsewhere.",
                near,
            )
    for found in re.finditer(r"(?<![\w'-])(?P<first>[A-Z]\w+) (?P<second>[A-Z]\w+)", text):
        usual = names.pairs.get(found["first"], {})
        most = max(usual, key=lambda one: usual[one]) if usual else ""
        second = re.sub(r"['’]s?$", "", found["second"])
        if len(usual) == 2 and usual.get(second) == 1 and usual[most] > 2 and most != second:
            message = f"It is {found['first']} {most} elsewhere."
            yield Doubt(found.start("second"), found.end("second"), "prose-name", message, most)
    if not names.games:
        return
    yield from _persons(text, names)
    for found in _YEAR.finditer(text):
        if names.years and found[0] not in names.years:
            yield Doubt(
                found.start(),
                found.end(),
                "prose-year",
                f"The game: line says {', '.join(sorted(names.years))}.",
            )
    for found in _YEAR_SAID.finditer(text):
        year = _year_said(found)
        if names.years and year and year not in names.years:
            message = f"The game: line says {', '.join(sorted(names.years))}."
            yield Doubt(found.start(), found.end(), "prose-year", message)
    for found in _RESIGNS.finditer(text):
        ours = [game for game in names.games if game.place.root == passage.before.root]
        lost = "0-1" if found["side"] == "White" else "1-0"
        told = passage.role == "told" and len(names.games) == 1 and passage.before.moves
        if told and ours and ours[0].result in ("1-0", "0-1") and ours[0].result != lost:
            message = f"The game: line says {ours[0].result}."
            yield Doubt(found.start("side"), found.end("side"), "prose-result", message)
    for found in _WON.finditer(text):
        won = "won" in found[0] or " wins" in found[0]
        white = names.players.get(found["name"].split()[-1])
        results = {game.result for game in names.games}
        if white is not None and results == {"0-1" if white == won else "1-0"}:
            yield Doubt(found.start(), found.end(), "prose-result", f"The game: line says {results.pop()}.")


def _year_said(found: re.Match[str]) -> str:
    """A year said in words, "twenty fourteen" or "two thousand and ten", as figures; "" where it is none."""
    oh = re.match(r"oh |o' ?", found["rest"] or "")
    number = number_of((found["unit"] or found["rest"][oh.end() if oh else 0 :]).lower())
    if number is None or number > 99 or (found["century"] and (oh is None) != (number > 9)):
        return ""
    return str((2000 if found["unit"] else 100 * (number_of(found["century"].lower()) or 0)) + number)


def _persons(text: str, names: Names) -> Iterator[Doubt]:
    for found in re.finditer(r"\b([A-Z]\w+) (?=([A-Z]\w+))", text):
        first, last = found[1], re.sub(r"['’]s?$", "", found[2])
        if first in names.players and last[:1].isupper() and f"{first} {last}" not in names.full:
            theirs = [full for full in names.full if first in full.split()]
            if len(theirs) == 1 and len(theirs[0].split()) > 1:
                yield Doubt(
                    found.start(), found.end(2), "prose-name", f"The game: line has {theirs[0]}.", theirs[0]
                )
        elif (
            last in names.players
            and re.search(r"[\w,] $", text[: found.start()])
            and first
            not in (
                "Mr",
                "Mrs",
                "Miss",
                "Ms",
                "Dr",
                "And",
                "But",
                "When",
                "If",
                "Then",
                "So",
                "White",
                "Black",
            )
        ):
            theirs = [full for full in names.full if last in full.split()]
            if (
                len(theirs) == 1
                and len(theirs[0].split()) > 1
                and f"{first} {last}" != theirs[0]
                and names.counted.get(first.lower(), 0) == 0
            ):
                yield Doubt(
                    found.start(), found.end(2), "prose-name", f"The game: line has {theirs[0]}.", theirs[0]
                )
    for found in _TITLED.finditer(text):
        name = found["name"].split()[-1]
        if (
            names.titled.get(name, 0) == 1
            and max(names.titled.values()) > 1
            and names.counted.get(name, 0) > 1
            and not any(full.split()[1:] and full.split()[-1] == name for full in names.full)
        ):
            most = max(names.titled, key=lambda one: names.titled[one])
            message = f"{name} is called so only here; {most} is elsewhere."
            yield Doubt(found.start("name"), found.end("name"), "prose-name", message)
            continue
        firsts = {full.split()[0] for full in names.full if len(full.split()) > 1}
        if name in firsts or (name not in names.known and names.counted.get(name, 0) < 2):
            yield Doubt(
                found.start("name"),
                found.end("name"),
                "prose-name",
                f"No {found['name']} is named in the game: line.",
            )
    for found in _MEN.finditer(text):
        whole = [game.white if found["side"] == "white" else game.black for game in names.games]
        word = found["name"].split()[-1]
        if word in names.players and not any(word in full.split() for full in whole):
            message = f"The game: line has {' and '.join(whole)} as {found['side'].capitalize()}."
            yield Doubt(found.start("side"), found.end("side"), "prose-name", message)
    for found in _IS.finditer(text):
        side, name = (found["side"], found["name"]) if found["side"] else (found["side2"], found["name2"])
        whole = [game.white if side.lower() == "white" else game.black for game in names.games]
        word = name.split()[0]
        if word in (
            "White",
            "Black",
            "He",
            "She",
            "It",
            "Who",
            "That",
            "This",
            "There",
            "Tonight",
            "Now",
            "Nobody",
        ):
            continue
        if found["side"] is None and word not in names.known:
            continue
        if not any(set(name.split()) & set(full.split()) for full in whole):
            yield Doubt(
                found.start(),
                found.end(),
                "prose-name",
                f"The game: line has {' and '.join(whole)} as {side.capitalize()}.",
            )


def _common(word: str, text: str, at: int, names: Names) -> bool:
    """Whether a capital needs no name to explain it."""
    lower = names.counted.get(word.lower(), 0) > 0
    return word in names.known or (lower and _begins(text, at))


def _begins(text: str, at: int) -> bool:
    """Whether a sentence, or something quoted, begins at this character."""
    return at == 0 or bool(re.search(r"[.!?:;*]['\"”)]? $", text[:at])) or text[at - 1] in "*“\"'"


def _inside(word: str, text: str, at: int, names: Names) -> bool:
    """Whether an ordinary word has a capital inside a sentence, as if it were a name."""
    lower = names.counted.get(word.lower(), 0) > 0
    return lower and word != "I" and bool(re.search(r"[\w,] $", text[:at]))


def _near(word: str, known: set[str], people: Collection[str] = ()) -> str:
    for name in sorted(known):
        if len(name) > 2 and word != name and abs(len(word) - len(name)) <= 2:
            far = OSA.distance(word, name)
            if far == 2 and word[0] != name[0]:
                continue
            if far == 2 and 3 <= len(name) < 5 and word[0] == name[0] and len(word) == 4 and name in people:
                return name
            if (
                far <= (1 if len(name) < 5 else 2)
                and far < len(name) / 2
                and word.casefold() != name.casefold() + "s"
            ):
                return name
    return ""


def line_doubts(doubts: Sequence[Fault], names: Names) -> Iterator[Fault]:
    """A query at a `game:` line for each year or player of it that the prose speaks against."""
    for code, what in (("prose-year", "year"), ("prose-name", "player")):
        against = [one for one in doubts if one.code == code and one.message.startswith("The game: line")]
        if not against or len(names.games) != 1:
            continue
        spot = names.games[0].spot
        message = f"Line {against[0].line} names another {what}."
        yield Fault(spot.line, spot.column, spot.width, "query", "game-line", message)


def result_doubts(elements: Sequence[Told], boards: Boards) -> Iterator[Fault]:
    """A query where a `game:` line's result is not what its last told position shows."""
    for number, one in enumerate(elements):
        if not isinstance(one, ToldGame) or not one.result:
            continue
        board = None
        for later in elements[number + 1 :]:
            if isinstance(later, ToldGame):
                break
            if (
                isinstance(later, ToldBeat)
                and later.after.root == one.place.root
                and (
                    later.after.moves[: len(one.place.moves)] == one.place.moves
                    and len(later.after.moves) > 1
                )
            ):
                board = boards.of(later.after)
        if board is None:
            continue
        message = _against(board, one.result)
        if message:
            yield Fault(one.spot.line, one.spot.column, one.spot.width, "query", "game-result", message)


def _against(board: chess.Board, result: str) -> str:
    if board.is_checkmate():
        shown = "0-1" if board.turn else "1-0"
        return "" if result in (shown, "*") else f"The last position told is mate, so the result is {shown}."
    ahead = sum(
        value * (len(board.pieces(kind, chess.WHITE)) - len(board.pieces(kind, chess.BLACK)))
        for kind, value in VALUES.items()
        if kind != chess.KING
    )
    if (result == "1-0" and ahead <= -5) or (result == "0-1" and ahead >= 5):
        return "The side that lost by this result is far ahead in the last position told."
    return ""
