"""What a garment type's page shows, worked out once for each state of the reference."""

from collections import Counter

from catalogue.reference.addresses import address_of, comparison_address
from catalogue.reference.all_pairs import AllPairs, all_pairs
from catalogue.reference.changes import steps_to
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.plurals import counted
from catalogue.reference.separation import NOTHING, Separation
from catalogue.reference.snapshots import keep_for_state
from catalogue.reference.words import UNREVIEWED, Certainty

# Sixty versions without a profile make 1,770 pairs; nobody reads them all.
MOST_HARD = 40
LATE = 9999  # a version without a year stands behind the dated ones


def type_context(facts: TypeFacts, *, number: int) -> dict:
    """Everything the template needs."""
    return keep_for_state(("type page", facts.code), lambda: make_context(facts), number=number)


def make_context(facts: TypeFacts) -> dict:
    versions = sorted(facts.versions.values(), key=in_time)
    pairs = all_pairs(facts, most_hard=MOST_HARD)
    return {
        "facts": facts,
        "issuer_address": address_of("issuer", facts.issuer) if facts.issuer else "",
        "versions": [version_row(facts, version) for version in versions],
        "one_version": len(versions) == 1,
        "sure": sure_words(versions),
        "pairs": pairs.number,
        "untold": pairs.untold,
        "telling": telling_rows(facts, pairs),
        "hard": [hard_row(facts, pair) for pair in pairs.hardest],
        "more_hard": max(0, pairs.hard - MOST_HARD),
    }


def in_time(version: VersionFacts) -> tuple[int, int]:
    return version.from_year or version.to_year or LATE, version.to_year or LATE


def version_row(facts: TypeFacts, version: VersionFacts) -> dict:
    return {
        "code": version.code,
        "name": version.name,
        "address": address_of("version", version.code),
        "kind": version.kind_words,
        "dates": version.date_words,
        "certainty": version.certainty_words.lower(),
        "seen": version.piece_seen,
        "unreviewed": version.standing in UNREVIEWED,
        "continues": " and ".join(a.version for a in version.ancestors if not a.made_from),
        "steps": steps_to(facts, version),
        "made_from": " or ".join(a.version for a in version.ancestors if a.made_from),
    }


def sure_words(versions: list[VersionFacts]) -> str:
    """How many versions, of which kinds, and how sure they are: "12 versions: 7 issue, 2 trial … 9 documented"."""
    kinds = Counter(version.kind_words.lower() for version in versions)
    sure = Counter(version.certainty for version in versions)
    parts = ", ".join(f"{number} {kind}" for kind, number in kinds.most_common())
    grounds = ", ".join(f"{sure[c.value]} {c.label.lower()}" for c in Certainty if sure[c.value])
    many = counted(len(versions), "version")
    return f"{many}: {parts}. On record: {grounds}." if versions else ""


def telling_rows(facts: TypeFacts, pairs: AllPairs) -> list[dict]:
    """The features that separate most pairs, with the share of the pairs for a bar."""
    return [
        {
            "name": feature.name,
            "number": number,
            "width": f"{number / pairs.number * 100:.0f}%",
            "seen": feature.seen_words.lower(),
            "place": feature.place_words,
        }
        for feature, number in pairs.most_telling(facts)
    ]


def hard_row(facts: TypeFacts, pair: Separation) -> dict:
    one, other = facts.versions[pair.one], facts.versions[pair.other]
    shared = [question for question in one.open_questions if question in other.open_questions]
    return {
        "one": pair.one,
        "other": pair.other,
        "address": comparison_address(pair.one, pair.other),
        "nothing": pair.words == NOTHING,
        "words": pair.words,
        "features": ", ".join(feature.name.lower() for feature in pair.features),
        "questions": [
            {"words": q.question, "settled": q.settled, "address": address_of("open_question", q.code)} for q in shared
        ],
    }
