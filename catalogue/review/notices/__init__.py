"""Notices: who is told of what, on their page and by mail, whichever part of the site it happened in."""
