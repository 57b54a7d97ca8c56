"""Scans and photographs of sources: a member puts one in, one moderator lets it be shown, and it can be taken back."""
