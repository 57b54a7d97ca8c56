"""A large garment type: what the first visit after a change works out grows with the record, not with its square."""

import sys
import tracemalloc
from functools import partial
from itertools import combinations

import pytest

from catalogue.reference.actions import import_matrix
from catalogue.reference.all_pairs import all_pairs
from catalogue.reference.models import IssueVersion
from catalogue.reference.separation import HARD, NOTHING, separation
from catalogue.reference.snapshots import type_facts
from identification.engine import CellState, Feature, Version, attainable, compile_pack, printed_key, told_apart
from identification.engine.printed_key import MOST_COUPLETS
from tests.benchmarks.simulated import simulate
from tests.reading import text

PAGES = ("/garment-types/{code}/", "/which/{code}/", "/issue-versions/{version}/", "/which/claim/?v={version}")
# Twice the versions: twice the calls is what reading them takes; looking at every pair would be four times.
MOST_TIMES = 2.4
MEGABYTE = 1_000_000


def calls_of(visit) -> int:
    """How many Python functions are called: a measure of work that is the same on every machine."""
    number = 0

    def count(frame, event, argument):
        nonlocal number
        number += event == "call"

    sys.setprofile(count)
    try:
        visit()
    finally:
        sys.setprofile(None)
    return number


@pytest.mark.django_db
def test_a_first_visit_of_a_type_with_twice_the_versions_takes_at_most_some_more_than_twice_the_work(client):
    for code, versions in (("WARM", 10), ("A", 50), ("B", 100)):
        made = simulate(versions, 16, 711)
        import_matrix(type_code=code, name=code, features=made.features, versions=made.full_versions)
    codes = {home: f"{home}-{made.versions[0].code}" for home in ("WARM", "A", "B")}
    assert IssueVersion.objects.filter(code__in=codes.values()).count() == 3

    visited = {home: [page.format(code=home, version=one) for page in PAGES] for home, one in codes.items()}
    calls = {home: [calls_of(partial(text, client, a)) for a in addresses] for home, addresses in visited.items()}

    assert [b / a for a, b in zip(calls["A"], calls["B"], strict=True) if b > MOST_TIMES * a] == []


def test_a_count_of_all_pairs_says_what_a_look_at_each_of_them_says(demo):
    for code in ("BLO", "SMK", "COA", "HOO", "VES"):
        facts = type_facts(code)
        pairs = [separation(a, b, facts.features.values()) for a, b in combinations(facts.versions.values(), 2)]
        found = all_pairs(facts, most_hard=1_000)

        assert (found.number, found.untold) == (len(pairs), sum(pair.words == NOTHING for pair in pairs))
        hard = sorted((pair for pair in pairs if pair.words in HARD), key=lambda pair: pair.words != NOTHING)
        assert found.hardest == tuple(hard)
        assert found.hard == len(hard)
        assert all_pairs(facts, most_hard=2).hardest == tuple(hard[:2])
        assert found.by_feature == {
            feature: sum(feature in [one.code for one in pair.features] for pair in pairs) for feature in facts.features
        }


@pytest.mark.parametrize("work", [told_apart, attainable])
def test_drawing_pieces_of_every_version_takes_no_more_memory_than_a_small_server_has(work):
    """Pieces times versions times features are numbers enough to end the process: 46 GB for 600 versions."""
    made = simulate(200, 30, 711)
    pack = compile_pack(made.features, made.versions, blanks="pooled")
    tracemalloc.start()
    try:
        told = work(pack)
        _, most = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()

    assert told
    assert most < 60 * MEGABYTE


def with_gaps(record) -> list[Version]:
    """Each feature is recorded for two versions alone, so that all others go down both of its branches."""
    return [Version(f"v{i}", {f"f{i // 2}": (CellState("yn"[i % 2]),)} if record else {}) for i in range(24)]


def test_a_key_that_would_fill_a_book_is_not_worked_out():
    """Twelve features with all but two versions on both branches: 2^12 - 1 couplets."""
    features = [Feature(f"f{i}", ("y", "n")) for i in range(12)]
    pack = compile_pack(features, with_gaps(record=True), blanks="pooled")

    calls = calls_of(lambda: printed_key(pack))

    assert printed_key(pack).tree is None
    assert MOST_COUPLETS < 2**12 - 1
    assert calls < 200 * MOST_COUPLETS
    assert printed_key(compile_pack(features, with_gaps(record=False), blanks="pooled")).tree is not None


@pytest.mark.django_db
def test_the_page_of_such_a_key_says_why_and_what_to_do_instead(client):
    features = [Feature(f"f{i}", ("y", "n")) for i in range(12)]
    import_matrix(type_code="BIG", name="Big", features=features, versions=with_gaps(record=True))

    page = text(client, "/which/BIG/key/")

    assert "would have more than 1000 couplets, too many for paper" in page
    assert "The questions one at a time" in page
    assert 'class="couplets"' not in page
