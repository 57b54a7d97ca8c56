"""Proposals: changes of the reference, written by members, decided by others, each with an address of its own."""
