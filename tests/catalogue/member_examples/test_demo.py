"""The demo society's pieces: loaded whole, once, without what each of them truly is; and the pages stand on them."""

import csv
import gzip
import re

import pytest
from django.db import connection
from django.db.models import F
from django.test.utils import CaptureQueriesContext

from catalogue.member_examples.actions import withdraw_example
from catalogue.member_examples.demo import PIECES, load_demo_examples
from catalogue.member_examples.models import (
    Attribution,
    Example,
    ExampleDecision,
    ExampleSet,
    Label,
    Measurement,
    Observation,
)
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import type_facts
from tests.identification.walk_through.test_weight import MOST_BYTES
from tests.reading import read_caution, text, words
from tests.test_query_counts import MOST

pytestmark = pytest.mark.django_db
TABLES = (Example, Label, Measurement, Observation, Attribution, ExampleDecision, ExampleSet)
# Columns of the society's key to what each piece is, which only tests and benchmarks may read.
SECRET = {"true_version", "odd", "odd_kind", "odd_note", "noise", "slips", "label_trap", "true_year", "donor"}


def lines(name: str) -> list[dict[str, str]]:
    with (PIECES / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_everything_in_the_files_is_in_the_tables_and_a_second_load_writes_nothing(demo_pieces):
    assert Example.objects.count() == len(lines("examples")) == 334
    assert Observation.objects.count() == len(lines("observations")) == 11_789
    assert Measurement.objects.count() == len(lines("measurements"))
    assert Label.objects.count() == len(lines("labels"))
    assert ExampleDecision.objects.count() == len(lines("decisions"))
    assert ExampleSet.objects.count() == len(lines("sets"))
    assert Example.objects.accepted().count() == Example.objects.filter(held_as__isnull=False).count() == 279
    before = {model: model.objects.count() for model in TABLES}

    with CaptureQueriesContext(connection) as asked:
        assert load_demo_examples() == 0
    assert [q["sql"] for q in asked if q["sql"].startswith(("INSERT", "UPDATE", "DELETE"))] == []
    assert {model: model.objects.count() for model in TABLES} == before


def test_a_piece_that_is_missing_comes_back_and_a_changed_one_stays_as_it_is(demo_pieces):
    Example.objects.filter(code="E002").update(provenance="found in a loft")
    ExampleDecision.objects.filter(example__code="E003").delete()
    Example.objects.get(code="E003").delete()

    assert load_demo_examples() == 1
    assert Example.objects.get(code="E002").provenance == "found in a loft"
    assert Example.objects.get(code="E003").observations.exists()


@pytest.mark.parametrize("path", sorted(PIECES.glob("*.csv")), ids=lambda path: path.stem)
def test_no_file_of_the_demo_says_what_a_piece_truly_is(path):
    with path.open(encoding="utf-8", newline="") as file:
        assert set(csv.DictReader(file).fieldnames) & SECRET == set()


def test_what_was_loaded_keeps_the_rules_and_altered_parts_are_no_evidence(demo_pieces):
    assert not ExampleDecision.objects.filter(moderator=F("owner")).exists()
    assert not Example.objects.accepted().exclude(held_as__garment_type=F("garment_type")).exists()
    assert not Observation.objects.exclude(state=None).exclude(state__feature=F("feature")).exists()

    # the buttons of a depot repair say nothing of its version
    repaired = evidence_of("BLO").by_code["E138"]

    assert repaired.version == "BLO-71"
    assert not {"button_fix", "button_material"} & set(repaired.states)
    assert repaired.states["front_closure"] == "buttons"


def test_the_demos_sets_and_altered_pieces_read_as_they_should(client, demo_pieces):
    for code, verdict in (("G1", "Matched"), ("G2", "Married"), ("G3", "Possible"), ("G4", "Possible")):
        assert f"Comparing the pieces says {verdict}:" in words(text(client, f"/sets/{code}/")), code
    for code, relation in (
        ("G3", "On record SMK-74L was worn with TRO-74L. Source: S15 Specification SF/P/74, Ling print"),
        ("G4", "On record BLO-57 was worn with TRO-57. Source: S03 Specification SF/C/57/2, blouse and trousers"),
    ):
        page = words(text(client, f"/sets/{code}/"))
        assert re.search(rf"\+ {re.escape(relation)}[^+]*\. speaks for it", page), page
    assert "said by “worn with” already" in words(text(client, "/sets/G3/"))
    assert "Blouse, working, Pattern 57, Stores series, buttons replaced" in text(client, "/examples/E138/")
    assert "Smock, fell, Pattern 74, Ling print, label cut off" in text(client, "/examples/E035/")


def queries(client, address: str) -> int:
    client.get(address)
    with CaptureQueriesContext(connection) as asked:
        assert client.get(address).status_code == 200, address
    assert [q["sql"] for q in asked if not q["sql"].startswith("SELECT")] == [], address
    return len(asked)


def test_a_question_for_a_measure_leads_to_the_pieces_of_each_band(client, demo_pieces):
    page = client.get("/which/SMK/?_ask=print_repeat").content.decode()

    assert page.count("/examples/?type=SMK&amp;shows=print_repeat%3A") == 2
    assert 'aria-label="1 piece: Under 52 cm"' in page


def test_with_pieces_pages_keep_to_their_queries_and_questions_to_their_weight(client, demo_pieces):
    read_caution(client, "BLO", "HOO")
    addresses = [f"/examples/{code}/" for code in ("E002", "E138", "E035", "E061", "E131", "E091")]
    addresses += [f"/issue-versions/{code}/" for code in ("BLO-86", "COA-85R", "HOO-60")]
    addresses += ["/examples/", "/examples/?type=BLO&shows=cuff:tab_button", "/examples/agreement/", "/sets/G1/"]
    addresses += ["/search/?q=27-114-06", "/which/BLO/?front_closure=buttons&_stop=yes"]
    counted = {address: queries(client, address) for address in addresses}
    assert {address: number for address, number in counted.items() if number > MOST} == {}

    heavy = {}
    for facts in map(type_facts, ("BLO", "HOO")):
        answered = "&".join(f"{code}={feature.states[0].code}" for code, feature in list(facts.features.items())[:12])
        for code in facts.features:
            address = f"/which/{facts.code}/?{answered}&_ask={code}"
            weight = len(gzip.compress(client.get(address).content, 6))
            if weight > MOST_BYTES:
                heavy[address] = weight
    assert heavy == {}


def test_withdrawing_one_piece_is_seen_on_its_versions_page_at_once(client, demo_pieces):

    before = text(client, "/issue-versions/BLO-86/")
    number = ReferenceState.current_number()
    example = Example.objects.get(code="E016")
    withdraw_example(example=example, member=example.owner)
    after = text(client, "/issue-versions/BLO-86/")

    assert ReferenceState.current_number() == number + 1
    assert ">33 examples</a>" in before
    assert ">32 examples</a>" in after
