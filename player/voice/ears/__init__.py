"""Hearing spoken answers offline.

`heard` says how a skin uses the ears and what they answer; `ears` judges clips; `ear` finds clips in the
frames of a microphone; `worker` does both aside; `vocabulary` makes what is listened for from a board and a
state.
"""
