"""How much is written at once in a review. Imports nothing of ours."""

# Characters of a reason, of grounds, of a word in a thread.
LONGEST = 4_000
