"""Spreadsheets under review: an import writes proposals, one for each changed version."""
