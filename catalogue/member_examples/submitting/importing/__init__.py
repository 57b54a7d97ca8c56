"""Bringing an existing collection in: a society's list with folders of photographs, as drafts of their owners."""
