"""What accepted pieces of a version were taken for, and what was taken for it: counted, beside what is predicted."""

from catalogue.member_examples.addresses import example_address
from catalogue.member_examples.taken_for import Pieces, attributed_anew, offered_as
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.snapshots import keep_for_state, type_of_version
from identification.mistakes.apart import told_apart

NAMED_PIECES = 4


def counted(facts: TypeFacts, version: VersionFacts, *, number: int) -> dict:
    """What the page says of sellers' words and of members' first ones: six queries at most, once for each state."""
    offered, anew = offered_as(number=number), attributed_anew(number=number)
    return {
        "offered": one_count(facts, version, offered, number),
        "anew": one_count(facts, version, anew, number),
    }


def counted_for(facts: TypeFacts, version: VersionFacts, *, number: int) -> dict:
    """The same, kept until the reference changes."""
    key = ("mistakes counted", version.code)
    return keep_for_state(key, lambda: counted(facts, version, number=number), number=number)


def one_count(facts: TypeFacts, version: VersionFacts, taken, number: int) -> dict:
    """`wrong`: pieces of the version that were taken for another, each once, though it may have been for several."""
    rows = counted_rows(facts, version, taken.of(version.code), number)
    return {
        "pieces": taken.pieces.get(version.code, 0),
        "wrong": len({piece for row in rows for piece in row["all"]}),
        "rows": rows,
        "as_it": counted_rows(facts, version, taken.as_it(version.code), number),
    }


def counted_rows(facts: TypeFacts, version: VersionFacts, pieces: Pieces, number: int) -> list[dict]:
    """A row for each other version in force, of whatever garment type, most pieces first."""
    rows = []
    for code, codes in sorted(pieces.items(), key=lambda one: (-len(one[1]), one[0])):
        home = type_of_version(code, number=number)
        if home is not None:
            named = [{"code": one, "address": example_address(one)} for one in codes[:NAMED_PIECES]]
            row = {"number": len(codes), "all": codes, "named": named, "unnamed": len(codes) - len(named)}
            rows.append(row | told_apart(facts, version, home, code))
    return rows
