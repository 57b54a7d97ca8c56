"""Photographs of members' pieces: taking them in, hiding parts of them, keeping them, finding near copies.

`intake` is what the rest of the site calls; files of strangers are opened only in the process that `child` runs.
"""
