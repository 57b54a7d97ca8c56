"""Somebody asks that a name be gone from a piece: where it may stand, removing it everywhere, the pages for it."""
