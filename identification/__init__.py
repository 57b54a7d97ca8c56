"""Identification: which issue version is this piece? `engine` is pure Python and numpy and needs no site."""
