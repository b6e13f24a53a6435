"""Prose against files: a file or its pawn that is named has to do with what is told, asked or shown there."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.check.prose import filing
from player.check.prose.doubt import Doubt
from player.check.prose.passages import Boards, Passage
from player.check.prose.words import KIND, SQUARE, denied, sentence
from player.facts.place import Place

_FILE = re.compile(r"(?<![\w-])(?P<file>[a-h])-(?P<what>pawn|file)s?\b")
_FAR = re.compile(
    r"\b(?:[Aa]n?|[Nn]o|[Aa]ny|[Ee]very|[Ee]ach|likes?|loves?|always|usually|often|next time|one day|later|"
    r"other games?|general|opening|rule|had|was|were|[Ii]n the end)\b"
)
_PAWN = r"(?:the|our|his|her|my|your|White's|Black's|only the) (?P<file>[a-h])-pawn"
_GOES = r"(?:go|move|advance|run|step|walk|be pushed)"

_RULES: tuple[tuple[re.Pattern[str], filing.Holds, str], ...] = tuple(
    (re.compile(pattern), holds, message)
    for pattern, holds, message in (
        (rf"(?P<it>\b(?:[Ii]t|[Hh]e|[Ss]he) stands )?\bin front of {_PAWN}\b", filing.front,
         "Nobody stands in front of the {file}-pawn here."),
        (rf"\bbehind {_PAWN}\b(?!s)", filing.behind,
         "The answer has nothing to do with the {file}-pawn."),
        (r"\b(?:[Tt]he|[Hh]is|[Hh]er|[Oo]ur) (?P<file>[a-h])-pawn (?:must [^.;,]*? to take|can take|may"
         r" take|has to"
         r" take|takes?|captures?|recaptures?)\b(?= (?:it|back|that|him)\b|$|[.,;:])", filing.takes,
         "The {file}-pawn has nothing to take here."),
        (rf"\btak\w+ (?:it |back )?(?:[^.;:,]*? )?with"
         rf" {_PAWN}\b", filing.takes,
         "The {file}-pawn does not take there."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} (?:(?:can|could) )?(?:still |ever )?(?:guards?|stands"
         rf" behind|supports?|"
         r"chases?|kicks?|bothers?|evicts?) (?:it|ours|him|that|her)\b", filing.stands_by,
         "The {file}-pawn comes nowhere near it."),
        (rf"\b(?:unblocks?|frees?|clears?|makes way for) {_PAWN}\b", filing.frees,
         "No move here steps out of the way of the {file}-pawn."),
        (rf"\bleaves? {_PAWN} free to (?:move|go|run|advance)\b", filing.free,
         "The {file}-pawn is not free."),
        (rf"\b{_PAWN} keeps its choice of one step or two\b", filing.free,
         "The {file}-pawn has no such choice."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} (?:cannot|can't|can not) {_GOES}\b", filing.stuck,
         "Nobody stands in the way of the {file}-pawn."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} has (?:just )?(?:jumped|passed|gone past|stepped|"
         rf"advanced)\b", filing.went,
         "The {file}-pawn has not moved."),
        (r"\b(?:[Ll]ook|[Ww]atch|[Tt]hink)(?: again)? (?:at|of|along|up|down) the"
         r" (?P<file>[a-h])-file\b", filing.answers,
         "The answer has nothing to do with the {file}-file."),
        (r"^[Tt]he (?P<file>[a-h])-pawn (?:takes a|goes|moves|steps|does|wants|is the one)\b", filing.answers,
         "The answer is no move on the {file}-file."),
        (r"\b[Tt]he (?P<kind>rook|queen|king)s? (?:steps?|walks?|goes|moves?|should leave|must leave|"
         r"leaves?)(?: off)?"
         r" the (?P<file>[a-h])-file\b", filing.leaves,
         "No {kind} stands on the {file}-file."),
        (r"\b(?P<file>[a-h])-pawn in front of (?:the|his|her|our|its) king\b", filing.before_king,
         "No king stands behind the {file}-pawn."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} (?:holding|holds|guards|covers) (?:it|the"
         rf" {KIND})\b", filing.guards,
         "The {file}-pawn guards nothing spoken of here."),
        (r"\btaken by (?:the|that|his|her|our)"
         r" (?P<file>[a-h])-pawn\b", filing.guards,
         "The {file}-pawn takes nothing there."),
        (r"\b(?:no pawns?(?: left)?|(?:isn't|is not) a pawn(?: left)?|not a pawn(?: left)?) on the"
         r" (?P<file>[a-h])-file\b", filing.bare,
         "There is a pawn on the {file}-file."),
        (r"\b(?P<who>White|Black) (?:is without|has no|is missing|has lost|lacks) (?:an?|the|his|her)?"
         r" ?(?P<file>[a-h])-pawn\b", filing.bare,
         "{who} has a pawn on the {file}-file."),
        (r"\b[Hh]alf-open (?P<file>[a-h])-file for (?P<who>White|Black)\b", filing.bare,
         "{who} has a pawn on the {file}-file."),
        (r"\b(?P<who>white|black|White's|Black's) (?P<file>[a-h])-pawn is gone\b", filing.bare,
         "There is such a pawn on the {file}-file."),
        (r"\b[Bb]oth (?P<file>[a-h])-pawns (?:are|have) (?:in the box|gone|off|left|been traded)\b",
         filing.bare,
         "There is a pawn on the {file}-file."),
        (r"\b[Tt]he (?P<file>[a-h])-pawn is (?:gone|off|in the"
         r" box)\b", filing.less,
         "Both {file}-pawns are there."),
        (r"\b(?:clears|vacates) the (?P<file>[a-h])-file\b|\bthe (?P<file2>[a-h])-file is"
         r" cleared\b", filing.vacated,
         "No move here leaves that file."),
        (rf"\b{_PAWN.replace('the|', '[Tt]he|')} is (?:already |now |still )?on"
         rf" (?P<square>{SQUARE})\b", filing.stands,
         "No {file}-pawn stands on {square}."),
        (r"\b(?:passed (?P<file>[a-h])-pawn|the (?P<file2>[a-h])-pawn, passed)\b", filing.passed,
         "No {file}-pawn is passed here."),
        (r"\b(?:the|his|her|our) (?P<file>[a-h])-pawn (?:is )?(?:marching|running|advancing|coming"
         r" down)\b", filing.marching,
         "The {file}-pawn has not moved."),
        (rf"\b(?P<kind>rook|queen) (?:has been|is|stands|sits|stood|goes|belongs) behind"
         rf" {_PAWN}\b", filing.kind_behind,
         "No {kind} stands behind the {file}-pawn."),
        (r"\b(?P<kind>rook|queen|king)s? (?:stands?|sits?|meets?|is|are|lives?)(?: [a-z]+){0,5} on the"
         r" (?P<file>[a-h])-file\b", filing.leaves,
         "No {kind} stands on the {file}-file."),
        (r"\b(?:[Hh]e|[Tt]he king) steps? (?:on)?to the (?P<file>[a-h])-file\b", filing.before_king,
         "No king is next to the {file}-file."),
        (r"\b[Nn]o (?P<file>[a-h])-pawns?\b(?! of\b)", filing.less, "Both sides have a {file}-pawn."),
        (r"\b[Tt]he (?P<file>[a-h])-file (?:now |then )?(?:opens|is (?:torn |blown )open|is"
         r" opened|comes open|falls open)\b(?! if| when)", filing.less,
         "Both sides have a pawn on the {file}-file."),
        (r"\b[Tt]he (?P<file>[a-h])-pawn (?:walks?|runs?|goes|slips?|marches|steps?|pushes) past\b",
         filing.next_to,
         "The {file}-pawn does not pass the man spoken of."),
    )
)  # fmt: skip
_TWINS = re.compile(r"\b(?:two|both|twins|doubled|pair)\b", re.IGNORECASE)


def file_doubts(passage: Passage, boards: Boards) -> Iterator[Doubt]:
    """Doubts about files and pawns named by their file."""
    if passage.role in ("idea", "part") or not _FILE.search(passage.text):
        return
    text = passage.text
    near = _near(passage)
    here = tuple(boards.of(place) for place in dict.fromkeys((passage.before, *passage.places(), *near)))
    moves = tuple(
        (boards.of(Place(one.root, one.moves[:-1])), chess.Move.from_uci(one.moves[-1])) for one in near
    )
    seen = filing.Filed(passage, boards, here, moves)
    for pattern, holds, message in _RULES:
        for found in pattern.finditer(text):
            group = "file" if found["file"] else "file2"
            if not denied(text, found.start()) and not holds(seen, found, "abcdefgh".index(found[group])):
                words = {name: word or "" for name, word in found.groupdict().items()}
                said = message.format(**{**words, "file": found[group]})
                yield Doubt(found.start(group), found.end(group) + 5, "prose-wing", said)
    for found in _FILE.finditer(text):
        file = "abcdefgh".index(found["file"])
        begin, _ = sentence(text, *found.span())
        pawns = boards.of(passage.at(found.start())).pawns & chess.BB_FILES[file]
        if chess.popcount(pawns) > 1 and _TWINS.search(text[slice(*sentence(text, *found.span()))]):
            continue
        if (passage.role == "told" and not passage.turns) or text.endswith("behind the ", 0, found.start()):
            continue
        if not _FAR.search(text[begin : found.start()]) and file not in _tied(seen, found):
            message = f"Nothing told right here has to do with the {found['file']}-{found['what']}."
            yield Doubt(found.start("file"), found.end("what"), "prose-wing", message)


def _near(passage: Passage) -> list[Place]:
    """The places whose last moves the words may be about; the answer's or the reply's first."""
    places = list(passage.replied)
    places += [passage.answer.after] if passage.answer and not passage.replied else []
    places += [turn.after for _, turn in passage.turns]
    places += [turn.after for turn in passage.ahead[:2]]
    places += [passage.moved] if passage.moved else []
    if passage.role in ("back", "title"):
        places += passage.near
    before = passage.before
    places += [Place(before.root, before.moves[:-back] if back else before.moves) for back in (0, 1)]
    return [place for place in dict.fromkeys(places) if place.moves]


def _tied(seen: filing.Filed, found: re.Match[str]) -> set[int]:
    """The files of moves, squares, marks and men near, for a pawn also those from which it takes."""
    passage = seen.passage
    squares = seen.targets() | {move.from_square for _, move in seen.moves}
    texts = [passage.text]
    asked = passage.question
    if asked is not None:
        other = [one for one in (asked.text, asked.because, asked.otherwise, *asked.nudges) if one]
        other += [reply.text for reply in (*asked.replies, *asked.also)]
        texts += [one.shown for one in other if one.shown != passage.text]
    marks = [one for _, mark in passage.marks for each in mark.marks for one in (each.square, each.to) if one]
    squares |= filing.named(" ".join((*texts, *marks)))
    files = {one % 8 for one in squares}
    files |= {"abcdefgh".index(one["file"]) for text in texts[1:] for one in _FILE.finditer(text)}
    for board in seen.here:
        for king in board.pieces(chess.KING, True) | board.pieces(chess.KING, False):
            files |= {king % 8 - 1, king % 8, king % 8 + 1}
        if found["what"] == "pawn":
            files |= {file for one in squares for file in _beside(board, one)}
            continue
        files |= {man % 8 for man in chess.SquareSet(board.queens | board.rooks)}
        if chess.popcount(board.occupied) < 7:
            for color in chess.COLORS:
                for man in board.pieces(chess.PAWN, color):
                    width = 7 - man // 8 if color else man // 8
                    files |= {man % 8 - width, man % 8 + width}
    return files


def _beside(board: chess.Board, square: chess.Square) -> Iterator[int]:
    """The files of pawns that guard or attack a square, or could after some steps."""
    for color in chess.COLORS:
        for man in board.pieces(chess.PAWN, color):
            ahead = (square // 8 - man // 8) * (1 if color else -1)
            if abs(man % 8 - square % 8) == 1 and ahead >= 1:
                yield man % 8
