"""Small look-ups that several pages share."""

from difflib import get_close_matches

from catalogue.reference.contents import contents


def near_codes(code: str) -> str:
    """A sentence with version codes that are spelled nearly so, or nothing."""
    codes = [version for one in contents() for version, _ in one.versions]
    by_capitals = {known.upper(): known for known in codes}
    near = [by_capitals[found] for found in get_close_matches(code[:80].upper(), by_capitals, 3, 0.6)]
    return f" Did you mean {' or '.join(near)}?" if near else ""
