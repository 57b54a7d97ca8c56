"""How to tell versions apart: the shortest checks, the printed key, and whether a claim holds."""
