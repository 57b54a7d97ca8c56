"""A garment type's page with far more versions than the demo has."""

import gzip

from tests.making import make_feature, make_type, make_version
from tests.reading import text, words


def test_a_type_of_sixty_bare_versions_lists_forty_hard_pairs_and_counts_the_rest(client, db):
    garment = make_type("SIX")
    for n in range(60):
        make_version(garment, f"SIX-{n:02}", date=f"{1920 + n}", from_year=1920 + n, to_year=1920 + n)
    page = text(client, "/garment-types/SIX/")

    assert page.count("nothing on record separates them") == 40
    assert "And 1730 more pairs." in words(page)  # 60 × 59 / 2 = 1770
    assert len(gzip.compress(page.encode())) <= 20_000


def test_pairs_that_nothing_separates_come_before_those_that_are_hard_to_tell(client, db):
    garment = make_type("PON")
    weak = make_feature("weak", types=[garment], error=0.4, seen="outside")
    for code, state in (("P-1", "yes"), ("P-2", "no"), ("P-3", "no")):
        make_version(garment, code, {weak: state})
    page = words(text(client, "/garment-types/PON/"))
    listed = page.split("Hard to tell, or not at all")[1]

    assert listed.index("P-2 and P-3") < listed.index("P-1 and P-2")
    assert "more pairs" not in page
