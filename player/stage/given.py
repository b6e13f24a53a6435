"""Answers that are no moves: what was meant, whether it is right, and what is true of a wrong one."""

from __future__ import annotations

import re

import chess

from player.cues.sheet import Ask
from player.script.answers import NUMBERS

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def understood(ask: Ask, text: str) -> tuple[str, ...] | None:
    """What was meant: squares, one number, one choice, or the words themselves; None where it is neither."""
    low = text.casefold().strip().strip(".!?")
    if ask.kind == "square":
        rest = re.sub(
            r"\b(and|on|the|at|square|squares|king|queen|rook|bishop|knight|pawn|it is|it's|is)\b|,", " ", low
        )
        found = rest.split()
        if found and all(re.fullmatch(r"[a-h][1-8]", one) for one in found):
            return tuple(dict.fromkeys(found))
        from player.wording.asked.computed import man_meant

        square = man_meant(ask.place.board(), text)
        return None if square is None else (chess.SQUARE_NAMES[square],)
    if ask.kind == "count":
        number = re.search(r"\d+", low)
        if number:
            return (str(int(number.group())),)
        names = [word for word in re.findall(r"[a-z]+", low) if word in NUMBERS]
        return (NUMBERS[names[0]],) if len(names) == 1 else None
    if ask.kind == "choice":
        return chosen(ask, low)
    return (low,) if low else None


def off_board(text: str) -> str | None:
    """A word that is shaped like a square and names none."""
    found = re.search(r"\b[a-z]\d\b", text.casefold())
    return found.group() if found else None


def chosen(ask: Ask, low: str) -> tuple[str, ...] | None:
    """One of the choices by number, ordinal or its own words; None where none or several fit."""
    words = low.removeprefix("number ").removeprefix("the ").removesuffix(" one") if low != "one" else low
    for index, choice in enumerate(ask.choices):
        ordinal = ORDINALS[index] if index < len(ORDINALS) else ""
        if NUMBERS.get(words, words) in (str(index + 1), ordinal) and words not in ("no", "none"):
            return (choice,)
    exact = [choice for choice in ask.choices if choice.casefold().strip(".") == low]
    if exact:
        return (exact[0],)
    from rapidfuzz import fuzz

    near = sorted(((fuzz.token_set_ratio(low, c.casefold()), c) for c in ask.choices), reverse=True)
    if near and near[0][0] >= 85 and (len(near) == 1 or near[0][0] - near[1][0] >= 10):
        return (near[0][1],)
    return None


def is_right(ask: Ask, meant: tuple[str, ...]) -> bool:
    if ask.kind == "square":
        return set(meant) == set(ask.answers)
    if ask.kind == "words":
        from rapidfuzz import fuzz

        return any(fuzz.token_set_ratio(meant[0], one.casefold()) >= 85 for one in ask.answers)
    return meant[0].casefold() in {one.casefold() for one in ask.answers} | choice_numbers(ask)


def choice_numbers(ask: Ask) -> set[str]:
    """Choices whose number stands as the answer."""
    picked = {one for one in ask.answers if one.isdigit()}
    return (
        {c.casefold() for i, c in enumerate(ask.choices, 1) if str(i) in picked}
        if ask.kind == "choice"
        else set()
    )


def what_is_wanted(ask: Ask) -> str:
    if ask.kind == "square":
        return "A square is asked for, such as e4; or several."
    if ask.kind == "count":
        return "A number is asked for."
    if ask.kind == "choice":
        return "One of these, by number or in its words: " + "; ".join(
            f"{i}: {choice}" for i, choice in enumerate(ask.choices, 1)
        )
    return "An answer in words is asked for."


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
