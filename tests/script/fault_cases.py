"""One or more scripts for each kind of fault and query; `golden/CODE.txt` keeps what is said of them."""

from __future__ import annotations

TOP = "script: 1\ntitle: The Reading Room\n\n"
OPENED = TOP + "Good evening. {Nf3} {d5} {g3}.\n\n"

CASES: dict[str, tuple[str, ...]] = {
    # Keys, and where they stand.
    "capital-key": (
        OPENED + "Aside: If Black hurries\n  {d4} and on.\n",
        OPENED + "Claim: g2-d5 is closed\n",
    ),
    "near-key": (OPENED + "clam: g2-d5 is open\n", OPENED + "asied: If Black hurries\n  {d4} and on.\n"),
    "key-in-sentence": (
        OPENED + "The bishop on g2 looks at\nshow: d5\n",
        OPENED + "Nothing has been decided and we\nalso have this: a long evening.\n",
    ),
    "unknown-key": (OPENED + "Remember: patience.\n\nremember: more patience.\n\nKettle: on.\n",),
    "key-with-words": (OPENED + "part two: The centre\n",),
    "key-without-blank": (OPENED + "show:d5\n",),
    "key-without-colon": (
        TOP + "side white\n\nGood evening. {Nf3}\n",
        OPENED + "part The centre\n\nGood evening.\n",
        OPENED + "question Where to?\n  nudge: It jumps.\n\n{Nf6}.\n",
        OPENED
        + "question: Where to?\n  reply e6 Too slow, and the colon is gone.\n  nudge It jumps.\n\n{Nf6}.\n",
        OPENED + "question: Where to?\nalso c5 Sound.\nnudge It jumps.\n\n{Nf6}.\n",
        OPENED + "idea the long diagonal A bishop on it wakes.\n",
        OPENED + "White stands well.\nclaim g2-d5 is open\n",
    ),
    "blank-before-colon": (OPENED + "show : d5\n",),
    "key-without-name": (OPENED + "idea: The long diagonal.\n",),
    "empty-key": (OPENED + "claim:\n\nquestion: Where to?\n  nudge:\n\n{Nf6}.\n",),
    "key-twice": (
        "script: 1\ntitle: One\ntitle: Two\n\nGood evening. {e4}\n",
        OPENED + "question: Where to?\n  think: 5s\n  think: 6s\n\n{Nf6}.\n",
    ),
    "header-late": (OPENED + "coach: Ines Calder\nlevel: club\n",),
    "back-outside": (OPENED + "back: And so to our game.\n",),
    "question-key-outside": (
        OPENED + "nudge: It jumps.\n",
        OPENED + "question: Where to?\nnudge: It jumps.\n\n{Nf6}.\n",
        OPENED + "question: Where to?\nalso c5: Sound.\n  reply e6: Slow.\n  nudge: It jumps.\n\n{Nf6}.\n",
    ),
    "not-in-question": (
        OPENED + "question: Where to?\n  nudge: It jumps.\n  {Nf6}. The knight.\n",
        OPENED + "question: Where to?\n  show: f6\n\n{Nf6}.\n",
    ),
    "question-wraps": (OPENED + "question: Where does the\n  knight go?\n\n{Nf6}.\n",),
    "not-in-retell": (OPENED + "mark: here\n\n{Nf6}.\n\nretell: here\n  And once more.\n",),
    "empty-block": (OPENED + "aside: If Black hurries\n\n{Nf6}.\n",),
    "block-not-indented": (
        OPENED + "aside: If Black hurries\n\n{d4} and on.\n{c3} next.\n\nback: Our game.\n\n{Nf6}.\n",
    ),
    "mixed-indent": (
        OPENED + "aside: If Black hurries\n    {d4} and on.\n\n\t{c3} next.\n",
        OPENED + "question: Where to?\n  reply e6: Slow.\n\tnudge: It jumps.\n\n{Nf6}.\n",
    ),
    "uneven-indent": (
        OPENED + "aside: If Black hurries\n    {d4} and on.\n\n  {c3} next.\n",
        OPENED + "  A paragraph with an indent.\n",
    ),
    "too-deep": (
        TOP + "".join("  " * depth + "aside: And then\n" for depth in range(31)) + "  " * 31 + "{e4}.\n",
    ),
    "empty-lesson": ("script: 1\ntitle: Nothing\n", ""),
    "no-title": ("Good evening. {e4}\n",),
    "control-character": (OPENED + "A bell \x07 rings.\n",),
    # The header's values.
    "unknown-version": ("script: 2\ntitle: Tomorrow\n\n{e4}.\n",),
    "unknown-language": ("script: 1\ntitle: Strange\nlanguage: xx\n\n{e4}.\n",),
    "bad-series": ("script: 1\ntitle: Six of Five\nseries: The Reading Room, 6 of 5\n\n{e4}.\n",),
    "bad-side": (
        "script: 1\ntitle: Sides\nside: green\n\n{e4}.\n",
        OPENED + "view: both\n",
    ),
    "recording-outside": ("script: 1\ntitle: Outside\nrecording: ../evening.wav\n\n{e4}.\n",),
    # Stamps.
    "bad-stamp": (OPENED + "[0:75] And then.\n", OPENED + "{Nf6 @1}.\n"),
    "key-in-line": (
        OPENED + "question: Which way? ask: count\n  answer: 3\n",
        OPENED + "question: Which? reply c4: Too slow.\n\n{Nf6}.\n",
    ),
    "stamp-back": (OPENED + "[0:30] And then.\n\n[0:20] {Nf6}.\n",),
    "stamp-in-line": (OPENED + "[0:10] First. [0:20] Then.\n",),
    "stamp-alone": (OPENED + "[0:10]\n\nFirst.\n",),
    "stamp-misplaced": (OPENED + "question: Where to?\n  [0:20] nudge: It jumps.\n\n{Nf6}.\n",),
    # Braces.
    "unclosed-brace": (
        OPENED + "Black answers {Nf6 and waits.\n",
        OPENED + "Black answers {Nf6: the knight comes out.\n",
        OPENED + "Black answers {Nf6 and White {Bg2}.\n",
    ),
    "stray-brace": (OPENED + "Black answers Nf6} and waits.\n",),
    "empty-brace": (OPENED + "Black answers {} and waits.\n",),
    "brace-without-move": (OPENED + "Black answers {: at once}.\n",),
    "brace-colon": (
        OPENED + "Then {Nf6 Bg2:a knight *, a bishop *}.\n",
        OPENED + "Black answers {Nf6:the knight}.\n",
    ),
    "brace-order": (OPENED + "Black answers {Nf6 @0:10 now}.\n",),
    "star-count": (
        OPENED + "{Nf6 Bg2: a knight *, a bishop}.\n",
        OPENED + "{Nf6: the knight * comes out *}.\n",
        OPENED + "{show d5: the pawn *}.\n",
    ),
    # Moves.
    "illegal-move": (OPENED + "Black answers {Bc5}.\n", OPENED + "{Nf6} {Bg2} {e6} {Nd2} {Qd3}.\n"),
    "not-a-move": (OPENED + "Black answers {with patience}.\n",),
    "ambiguous-move": (OPENED + "{Nf6} {Bg2} {e6} {d3} {Be7} {Nd2}.\n",),
    "two-moves": (
        OPENED + "{Nf6, Bg2, knight to c6, castles}.\n",
        OPENED + "Now {knight to f6 and the bishop goes to g2}.\n",
        OPENED + "{the knight goes to f6, bishop g2}.\n",
    ),
    "wrong-number": (OPENED + "{3...Nf6} is late, and {3.Bg2} is not.\n",),
    "impossible-board": (OPENED + "imagine: remove e1\n  {Nf6} is impossible.\n\n{Nf6}.\n",),
    "move-not-here": (
        OPENED + "question: Where to?\n  nudge: Not {Nc6}, for one.\n\n{Nf6}.\n",
        OPENED + "part: After {Nf6}\n",
    ),
    "move-outside": (OPENED + "Black plays Nf6 and waits.\n",),
    # Words against their move.
    "other-man": (OPENED + "{Nf6: the bishop comes out}.\n", OPENED + "{Nf6: the black pawn steps up}.\n"),
    "other-square": (OPENED + "{Nf6: a knight on c6}.\n",),
    "no-capture": (OPENED + "{Nf6: the knight takes the pawn}.\n",),
    "no-check": (
        OPENED + "{Nf6: with check}.\n",
        OPENED + "{Nf6: and that is mate}.\n",
        OPENED + "{Nf6 Bg2+ e6 O-O#}.\n",
    ),
    "other-wing": (OPENED + "{Nf6: on the queenside}.\n",),
    "other-side": (OPENED + "{Nf6: White brings a knight}.\n",),
    "other-file": (OPENED + "{Nf6: with an eye on the a-file}.\n",),
    "other-steps": (OPENED + "{e6: two squares}.\n",),
    "is-check": (
        OPENED + "{e6} {d3} {Bb4+: no check}.\n",
        "board: White Kg1 Ra1; Black Kh8 pg7 ph7; White to move\n\n{Ra8#: just a check}.\n",
    ),
    "is-capture": (OPENED + "{Nf6} {c4} {dxc4: a quiet move}.\n",),
    "no-stalemate": (OPENED + "{Nf6: stalemate}.\n",),
    "no-castling": (OPENED + "{Nf6: Black castles}.\n",),
    # Questions.
    "no-answer": (
        OPENED + "question: Where to?\n\npart: Next\n\n{Nf6}.\n",
        OPENED + "question: How many?\n  ask: count\n\n{Nf6}.\n",
        OPENED + "question: Where to?\n",
    ),
    "answer-not-told": (OPENED + "question: Where to?\n  answer: c6\n\n{Nf6}.\n",),
    "bad-answer": (
        OPENED + "question: Where?\n  ask: square\n  answer: j9\n\n{Nf6}.\n",
        OPENED + "question: How many?\n  ask: count\n  answer: plenty\n\n{Nf6}.\n",
        OPENED + "question: Which?\n  choice: yes\n  choice: no\n  answer: perhaps\n\n{Nf6}.\n",
    ),
    "bad-ask": (
        OPENED + "question: Where to?\n  ask: riddle\n\n{Nf6}.\n",
        OPENED + "question: Where to?\n  ask: move, reason first, reason after\n\n{Nf6}.\n",
        OPENED + "question: Where to?\n  ask: move, how nice\n\n{Nf6}.\n",
    ),
    "bad-key": (OPENED + "question: Where to?\n  key: perhaps\n\n{Nf6}.\n",),
    "no-choices": (OPENED + "question: Which?\n  ask: choice\n  choice: yes\n  answer: yes\n\n{Nf6}.\n",),
    "choice-not-asked": (
        OPENED + "question: Where?\n  ask: square\n  choice: yes\n  choice: no\n  answer: e4\n\n{Nf6}.\n",
    ),
    "reply-to-answer": (OPENED + "question: Where to?\n  reply Nf6: That is it.\n\n{Nf6}.\n",),
    "reply-twice": (OPENED + "question: Where to?\n  also c6: Sound.\n  reply c6: No.\n\n{Nf6}.\n",),
    "about-later": (OPENED + "question: Where to?\n  about: the lamp\n\n{Nf6}.\n\nidea the lamp: Light.\n",),
    # Asides, imagined positions, boards.
    "instead-without-move": (TOP + "instead: Before anything\n  {e4}.\n\n{d4}.\n",),
    "bad-imagine": (
        OPENED + "imagine: remove e4\n  Nothing there.\n",
        OPENED + "imagine: white dragon on e4\n  Strange.\n",
        OPENED + "imagine: e4 to e5\n  Nobody there.\n",
    ),
    "bad-fen": (TOP + "board: 8/8/8/8/8/8/8/9 w - - 0 1\n\nHm.\n",),
    "bad-board": (
        TOP + "board: White Kd5 Ra7; Black Ke8 Rd5; White to move\n\nHm.\n",
        TOP + "board: White Kd5 Xa7; Black Ke8\n\nHm.\n",
    ),
    "board-doubt": (TOP + "board: White Kd5 Ra7; Black Ke8\n\nHm.\n",),
    "unknown-board": (
        OPENED + "mark: the fork\n\nboard: the forc\n\nHm.\n",
        OPENED + "board: somewhere nice\n\nHm.\n",
    ),
    "after-not-told": (OPENED + "board: after 9.Nf3\n\nHm.\n",),
    "after-other-move": (OPENED + "board: after 1...Nf6\n\nHm.\n",),
    "back-too-far": (OPENED + "board: back 4 moves\n\nHm.\n",),
    "bad-mark": (OPENED + "mark: start\n",),
    "mark-twice": (OPENED + "mark: the fork\n\n{Nf6}.\n\nmark: The Fork\n",),
    "bad-retell": (OPENED + "retell: the fork\n", OPENED + "mark: the fork\n\nretell: the fork\n"),
    "bad-game": (OPENED + "game: Calder against Orme\n",),
    "game-late": (OPENED + "game: Calder - Orme, Reading Room 1998, 1-0\n\n{Nf6}.\n",),
    # Cues.
    "bad-show": (OPENED + "show: the door\n", OPENED + "{show e9: here}.\n", OPENED + "show: e4-e4\n"),
    "no-hit": (
        OPENED + "{show g2-c7 as line: The bishop} looks. {show g1-f3: The knight} came.\n",
        OPENED + "show: e5 to d4\n",
        OPENED + "{show d5 to c4, e5: the pawn} looks.\n",
    ),
    "bad-length": (OPENED + "pause: long\n", OPENED + "question: Where to?\n  think: long\n\n{Nf6}.\n"),
    "idea-twice": (OPENED + "idea the lamp: Light.\n\nidea The Lamp: More light.\n",),
}
