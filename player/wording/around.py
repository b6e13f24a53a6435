"""What people say around a move: that it is best, and why; and notation that belongs to another language."""

from __future__ import annotations

import re
from collections.abc import Iterator

import chess

from player.wording.languages import Language, codes, language
from player.wording.san import in_letters

_BEST = re.compile(
    r"[,;]?\s+(?:is|looks|seems|feels|must be|has to be|should be|would be|might be)(?: like)?"
    r"(?: the| a| my| very| quite| probably| clearly)*\s+"
    r"(?:best|good|right|correct|strong(?:est)?|better|natural|move|answer|choice|idea|one|plan|nice|fine|logical"
    r"|obvious)(?: move| here| now| one| answer| choice| idea)*$",
    re.IGNORECASE,
)
_ASKS = re.compile(
    r"^(?:is it|is the answer|is it maybe|would it be|could it be|might it be|do (?:i|we) play|"
    r"does (?:he|white|black) play|should (?:i|we|he|white|black) play|may i play|can i play)\s+",
    re.IGNORECASE,
)
_TAG = re.compile(
    r",?\s+(?:right|correct|ok|okay|no|yes|maybe|perhaps|isn'?t it|or not|is that (?:it|right)|is it)$",
    re.IGNORECASE,
)
_REASONS = {
    "en": r"because|cause|'cause|since|so that|so i|in order to|as it|as this|as that|which|"
    r"to (?:attack|guard|protect|defend|stop|win|get|free|develop|open|make|prepare|hit|threaten|keep|prevent"
    r"|support|gain|fork|pin)",
    "de": r"weil|denn|da er|da sie|damit|um",
    "fr": r"parce que|parce qu'|car|pour|afin de|puisque",
    "es": r"porque|ya que|para|pues",
}
_NAMES = {"de": "German", "en": "English", "es": "Spanish", "fr": "French"}
_SEVERAL = re.compile(
    r"(?:^|[\s.,])(?:[KQRBN][a-h]?[1-8]?x?[a-h][1-8]|[a-h](?:x[a-h])?[1-8]|[O0]-[O0](?:-[O0])?)[+#!?]*(?=$|[\s,.;])"
)
_SAN = re.compile(r"([A-ZÄÖÜ])[a-h]?[1-8]?x?[a-h][1-8](?:=?[A-Z])?[+#!?]*")


def without_reason(said: str, code: str) -> Iterator[str]:
    """The words without the praise or the reason that follows the move, where there is one."""
    shorter = _BEST.sub("", said.strip(" .!"))
    reason = re.search(rf"[,;:]?\s+(?:{_REASONS.get(code, '(?!)')})\b.*$", shorter, re.IGNORECASE | re.DOTALL)
    if reason:
        shorter = _BEST.sub("", shorter[: reason.start()])
    if shorter and shorter != said.strip(" .!"):
        yield shorter


def asked_move(said: str) -> str:
    """The move in a question such as "is it Nd2?" or "Nd2, right?"; "" where it is put in no such way."""
    bare = _ASKS.sub("", _TAG.sub("", said.strip(" .!?")))
    return bare if bare and bare != said.strip(" .!") else ""


def is_several(said: str) -> bool:
    """Whether the words are a row of moves in notation."""
    return len(_SEVERAL.findall(said)) > 1


def foreign(board: chess.Board, said: str, words: Language) -> str:
    """A sentence that says which move this is in another language's letters or words; "" where it is none."""
    from player.wording.hear import MoveHeard, hear

    bare = said.strip(" .!?")
    if len(bare) > 40:
        return ""
    for code in codes():
        other = language(code)
        if other.name == words.name:
            continue
        heard = hear(board, bare, language=code, script=True)
        if isinstance(heard, MoveHeard):
            san = in_letters(board.san(heard.move), words)
            return f'In {_NAMES.get(code, other.name)} "{bare}" is {san}. Say it so, if you mean it.'
    if _SAN.fullmatch(bare) and bare[0].lower() not in words.by_letter:
        letters = ", ".join(f"{words.letters[kind]} the {words.pieces[kind]}" for kind in range(2, 7))
        return f'"{bare[0]}" is no letter of a man here; they are {letters}.'
    return ""
