"""Submitting a piece, step by step: every step keeps what it holds as a draft, and nothing has to be there but one
thing that a moderator can look at."""
