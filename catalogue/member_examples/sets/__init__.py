"""Pieces that belong together: what members say of them, and what comparing them says."""
