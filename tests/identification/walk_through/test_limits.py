"""States that a record limits to some makers, sizes or years, as the walk-through uses them."""

import pytest

from catalogue.reference.models import Maker, ProfileCell, ReferenceState, VersionRecord
from tests.making import make_feature, make_type, make_version
from tests.reading import data, text

pytestmark = pytest.mark.django_db


@pytest.fixture
def hats(db):
    """Two versions by two makers; the one has its narrow brim from one maker, in two sizes and some years only."""
    hat = make_type("HAT")
    brim = make_feature("brim", ("narrow", "wide"), types=[hat])
    first, second = make_version(hat, "HAT-1"), make_version(hat, "HAT-2", {brim: "wide"})
    dun, pel = (Maker.objects.create(code=code, name=code) for code in ("DUN", "PEL"))
    for version in (first, second):
        version.makers.add(dun, pel)
    made = VersionRecord.objects.create(version=first, number=1)
    narrow = brim.states.get(code="narrow")
    cell = ProfileCell.objects.create(
        record=made, state=narrow, how_often="always", sizes="1 2", first_year=1960, last_year=1964
    )
    cell.makers.add(dun)
    first.current_record = made
    first.save()
    ReferenceState.mark_changed()


def chance(client, query: str) -> float:
    return dict(data(client, f"/which/HAT.json?brim=narrow&{query}")["posterior"])["HAT-1"]


@pytest.mark.parametrize(
    ("inside", "outside"), [("_year=1962", "_year=1968"), ("_maker=DUN", "_maker=PEL"), ("_size=2", "_size=another")]
)
def test_a_state_counts_on_the_pieces_that_its_limit_names_and_on_no_others(client, hats, inside, outside):
    assert chance(client, inside) == pytest.approx(chance(client, ""))
    assert chance(client, outside) < chance(client, inside) - 0.05


def test_what_rules_a_limited_state_out_is_offered_beside_what_it_names(client, hats):
    page = text(client, "/which/HAT/")
    assert "PEL" in page
    assert "another" in page
