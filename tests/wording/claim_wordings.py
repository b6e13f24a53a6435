"""Claims as a stranger to the page might word them, one a line."""

WORDED = """
White is up the exchange
White is the exchange up
Black is a pawn up
Black is one pawn up
Black is up one pawn
Black is up 2 pawns
White is two pawns ahead
White is ahead by two pawns
Black is a pawn down
White is down the exchange
White is down a piece for two pawns
White is a piece up for two pawns
White is up a piece for 2 pawns
White has an extra pawn
White has a pawn more
White has one more pawn
White has one extra pawn
White is a minor piece up
White is up a rook for a knight and a pawn
White is up a queen for two rooks
White is up a rook and a pawn for a bishop and a knight
Material is equal
The material is equal
material is balanced
material is even
White and Black have equal material
the sides have equal material
both sides have the same material
there is material equality
the material balance is equal
the e-file is half-open for White
the e-file is semi-open for White
the e file is half open for black
White has a half-open e-file
the open e-file
the knight on f6 is guarded twice
the knight on f6 is defended twice
the knight on f6 is protected two times
the knight on f6 is guarded by two men
the knight on f6 is guarded by 2 pieces
the knight on f6 is guarded by exactly two pieces
the knight on f6 is guarded exactly twice
the knight on f6 is guarded 0 times
the knight on f6 is not guarded
the knight on f6 is not defended
the knight on f6 is guarded
the knight on f6 is undefended
the knight on f6 is unprotected
the knight on f6 has no defenders
the knight on f6 has two defenders
the knight on f6 has two guards
the knight on f6 is defended by two
the knight on f6 is attacked
the knight on f6 is under attack
the knight on f6 is attacked twice
the knight on f6 is attacked by White
the knight on f6 is attacked by a pawn
the black knight on f6 is attacked
Black's knight on f6 is attacked
The Knight on F6 is attacked
the man on f6 is attacked
the piece on f6 is attacked
the pawn on e5 is attacked
the e5 pawn is attacked
e4 is an outpost for White
e4 is a White outpost
e4 is an outpost square for White
White has an outpost on e4
White has an outpost at e4
e4 is White's outpost
White attacks e5 3 times
White attacks e5 three times
White attacks the e5 square three times
White attacks the square e5 3 times
White attacks e5 with three men
White attacks e5 exactly three times
White attacks e5 once
White attacks e5 thrice
White attacks e5
White hits e5 twice
White attacks the pawn on e5 twice
e5 is attacked twice by White
e5 is attacked by White twice
e5 is attacked 2 times by White
three white men attack e5
it is mate in 2
it's mate in 2
mate in two
there is a mate in 2
there is mate in two moves
White has mate in two
White has a mate in two
White has a forced mate in 2
White mates in 2
White mates in two moves
White can force mate in two
White forces mate in 2
White can mate in 2
White to move mates in two
White to play and mate in 2
mate in 2 for White
it is mate in two for White
White gives mate in 2
checkmate in 2
the white king is inside the square of the pawn on a5
the black king is in the square of the pawn on a5
the king is within the square of the a5 pawn
Black's king is inside the square of the pawn on a5
the king on f4 is inside the square of the pawn on a5
the king is inside the square of the white pawn on a5
the enemy king is inside the square of the pawn on a5
the king stands inside the square of the pawn on a5
Black has the opposition
the opposition belongs to Black
Black holds the opposition
Black has taken the opposition
White has the direct opposition
White wins with best play
with best play White wins
White wins with best play by both sides
with best play, White wins
White is winning with best play
White is won with best play
the position is won for White
the position is drawn
the position is a draw
it is drawn
it is a draw
the position is drawn with best play
with best play the position is drawn
it's a draw with best play
the game is drawn
the ending is drawn
this is a theoretical draw
en passant is possible
en passant is legal
an en passant capture is possible
en passant capture is possible
White can capture en passant
White may take en passant
capturing en passant is possible
taking en passant is possible
the bishops are of opposite colours
opposite-coloured bishops
opposite-colored bishops
the bishops are opposite-coloured
there are opposite-coloured bishops
bishops of opposite colors
the bishops are on opposite colours
the bishops stand on squares of opposite colours
the bishops are of opposite color
the bishops are of different colours
White has the bishop pair
White has the pair of bishops
White has the two bishops
White owns the bishop pair
White may castle kingside
White can castle king-side
White may castle short
White may castle on the kingside
White may castle to the kingside
White can castle
White is allowed to castle kingside
White may castle long
White may castle queen side
Black has lost the right to castle
Black lost the right to castle
Black has lost castling rights
Black has lost its right to castle
Black can no longer castle
Black may no longer castle
Black cannot castle any more
Black has no castling rights
Black has lost all castling rights
the rooks of White are connected
White's rooks are connected
the white rooks are connected
White has connected rooks
White has connected the rooks
the rooks are connected for White
White has the move
it is White's move
it's White's turn
White to move
White is to move
White to play
it is White to move
the move is White's
it is White's turn to move
it is a repetition
this is a repetition
the position is a repetition
the position is repeated
this position has been repeated
it is a threefold repetition
the position has occurred three times
it is move 12 of fifty
it is move twelve of fifty
move 12 of the fifty
it is move 12 of 50
it is move 12 of the fifty moves
the position is the same as start
this is the same position as start
the position is the same as at the start
the e-file is open
the e-file is closed
e-file open
file e is open
g2-d5 is open
the line g2-d5 is open
the diagonal a1-h8 is open
the a1-h8 diagonal is closed
the line from g2 to d5 is open
g2 to d5 is open
the long diagonal g2-b7 is open
the pawn on d4 is passed
the pawn on d4 is a passed pawn
the d4 pawn is passed
d4 is a passed pawn
the pawn on d4 is isolated
the pawn on d4 is an isolated pawn
the pawn on d4 is doubled
the pawn on d4 is backward
White's pawn on d4 is passed
White has a passed pawn on d4
White has an isolated pawn on d4
Nf3 is legal
Nf3 is a legal move
Nf3 is possible
Nf3 can be played
White can play Nf3
Bb5 is check
Bb5+ is check
Bb5 gives check
Bb5 is a check
Bb5 checks
Bb5 checks the king
Qg7 is mate
Qg7# is mate
Qg7 is checkmate
Qg7 mates
Qg7 gives mate
Qg7 delivers mate
Qg6 is stalemate
Qg6 is a stalemate
Qg6 leads to stalemate
Nf6 is double check
Nf6 is a double check
Nf6 gives double check
Nf6 is a discovered check
Nf6 gives discovered check
Nc7 forks e8 and a8
Nc7+ forks the king on e8 and the rook on a8
Nc7 forks e8, a8
Nc7 is a fork of e8 and a8
Nf6 discovers an attack on a8
Nf6 discovers an attack on the rook on a8
Nf6 uncovers an attack on a8
Nf6 opens an attack on a8
Nf6 is a discovered attack on a8
Bg2 skewers d5 and b7
Bg2+ skewers the king on d5 and the queen on b7
Bg2 skewers d5 to b7
Bg2 is a skewer of d5 and b7
Bg5 threatens Bxf6
Bg5 threatens to play Bxf6
Bg5 threatens Qxh7#
Qh6 threatens mate
Qh6 threatens checkmate
Qh6 threatens to mate
Qh6 threatens mate on g7
Nc7 wins the exchange
Nc7 wins a piece
Nc7 wins a knight
Nc7 wins the queen
Nc7 wins a queen
Nc7 wins a pawn
Nc7 wins at least a pawn
Nc7 wins two pawns
Nc7 wins the rook
Nc7 wins material
Kf8 is the only legal move
Kf8 is the only move
Kf8 is Black's only legal move
Black's only legal move is Kf8
the only legal move is Kf8
Black has 4 legal moves
Black has four legal moves
Black has 4 moves
Black has exactly 4 legal moves
Black has no legal moves
Black has only one legal move
there are 4 legal moves
the king on e8 has 1 move
the king on e8 has one legal move
the king on e8 has no moves
the king on e8 has exactly 3 moves
White is in check
the white king is in check
the king on e1 is in check
White's king is in check
stalemate
it is stalemate
the position is stalemate
White is stalemated
this is a stalemate
Black is in stalemate
checkmate
it is checkmate
White is checkmated
White is mated
the knight on f6 is pinned
the knight on f6 is pinned to e8
the knight on f6 is pinned to the king
the knight on f6 is pinned to the king on e8
the knight on f6 is pinned to the queen on d8
the knight on f6 is pinned against e8
the f6 knight is pinned
after Nf3 Nc6, White has the move
after 1. Nf3 Nc6, White has the move
after 1.e4 e5 2.Nf3, Black has the move
after 1...Nf6, White has the move
After e4, e5, Nf3: Black to move
after e4 e5 Nf3 it is Black's move
after Nf3 and Nc6, White has the move
if White passes, Bd6 is legal
if White passes Bd6 is legal
if White passes, then Bd6 is legal
if White passed, Bd6 would be legal
if Black passes, Qxh7 is mate
after O-O, the rooks of White are connected
after 0-0, the rooks of White are connected
Black is up the exchange for a pawn
Black is up the exchange for two pawns
White is up a knight
White is up a bishop for three pawns
the rook on a1 is unguarded
Black has 0 legal moves
Black has one legal move
O-O is legal
0-0 is legal
castling kingside is legal for White
White has lost the right to castle kingside
e8=Q is mate
exd6 e.p. is legal
exd6 e.p. is check
the knight on f6 is guarded by the pawn on e5
the knight on f6 is guarded by the queen
it is check
"""
