"""Moderators who are away, and who decides on proposals in their place meanwhile."""
