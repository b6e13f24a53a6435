"""Answers that are no moves: whether what was meant is right, and what is true of a wrong one."""

from __future__ import annotations

import chess

from player.cues.sheet import Ask, Reply
from player.stage.taken import fits_words


def is_right(ask: Ask, meant: tuple[str, ...]) -> bool:
    if ask.kind == "square":
        return set(meant) == set(ask.answers)
    if ask.kind == "words":
        wrong = [answer for reply in ask.replies for answer in reply.answers]
        return fits_words(meant[0], ask.answers, wrong)
    return meant[0].casefold() in {one.casefold() for one in ask.answers} | choice_numbers(ask)


def find_given(ask: Ask, replies: tuple[Reply, ...], meant: tuple[str, ...]) -> Reply | None:
    """The coach's word for what was meant, as a whole or a part of it."""
    if ask.kind == "words":
        return next((reply for reply in replies if fits_words(meant[0], reply.answers)), None)
    wanted = (" ".join(meant), *meant)
    return next((reply for one in wanted for reply in replies if one in reply.answers), None)


def choice_numbers(ask: Ask) -> set[str]:
    """Choices whose number stands as the answer."""
    picked = {one for one in ask.answers if one.isdigit()}
    return (
        {c.casefold() for i, c in enumerate(ask.choices, 1) if str(i) in picked}
        if ask.kind == "choice"
        else set()
    )


def not_so(ask: Ask, meant: tuple[str, ...]) -> tuple[str, str]:
    """What is true of a wrong answer, and the key that tells whose word it is; the answer is not
    given away.
    """
    if ask.kind == "square":
        fits = [one for one in meant if one in ask.answers]
        odd = [one for one in meant if one not in ask.answers]
        yes = f" But {' and '.join(fits)}, yes." if fits else ""
        if not odd:
            return f"{' and '.join(fits)}, yes; and there is more.", "reply:program"
        board = ask.place.board()
        from player.wording.asked.computed import true_of

        known = [true_of(board, ask.text, chess.parse_square(one)) for one in odd[:3]]
        return f"Not {' or '.join(odd)}. {' '.join(known)}{yes}", "reply:board"
    if ask.kind == "count" and len(ask.answers) == 1 and ask.answers[0].isdigit() and meant[0].isdigit():
        way = "more" if int(ask.answers[0]) > int(meant[0]) else "fewer"
        return f"Not {meant[0]}: there are {way}.", "reply:program"
    return f"Not {meant[0]}; the coach has said no more about that.", "reply:unknown"
