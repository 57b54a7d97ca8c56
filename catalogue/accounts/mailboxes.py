"""Whose an e-mail address is, so that one person with two accounts counts as one. Pure, imports nothing of ours."""

import re
import unicodedata
from collections.abc import Iterable


def mailbox(address: str) -> str:
    """An address as far as it says whose it is; empty for none.

    The same however it is written: capitals and signs of another width, a local part in quotation marks (RFC 5321,
    4.1.2), a domain in its own script or in ASCII (RFC 3490, which drops what nobody sees in it), or ending in the dot
    of the root (RFC 1034, 3.1); without what stands behind a + (RFC 5233). Dots of the local part count for nothing:
    some hosts read it so (common practice, no source), and to take two people for one costs only that a third decides.
    """
    local, at, domain = unicodedata.normalize("NFKC", address).strip().lower().rpartition("@")
    if not at:
        return ""
    if len(local) > 1 and local[0] == local[-1] == '"':
        local = re.sub(r"\\(.)", r"\1", local[1:-1])
    return f"{(local.partition('+')[0] or local).replace('.', '')}@{in_ascii(domain)}"


def in_ascii(domain: str) -> str:
    """As name servers know it. What cannot be a name stays as it is."""
    try:
        return domain.rstrip(".").encode("idna").decode("ascii").lower()
    except UnicodeError:
        return domain


def same_person(one: Iterable[str], other: Iterable[str]) -> bool:
    """Whether two accounts share a mailbox. None has one after its owner has left, which is nobody's."""
    return bool(({mailbox(a) for a in one} & {mailbox(a) for a in other}) - {""})
