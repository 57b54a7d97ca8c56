"""Pages that say when a detail changed, and what dated labels say of a version and of a piece."""

import csv
import re
from html import unescape
from io import StringIO

from catalogue.member_examples.detail_papers import RecordedChange, grounds_of
from catalogue.member_examples.models import Example
from catalogue.reference.facts import CitationFacts
from catalogue.reference.models import Issuer, IssueVersion, VersionAncestor
from tests.making import make_feature, make_type, make_version
from tests.reading import words


def page(client, address: str, status: int = 200) -> str:
    response = client.get(address)
    assert response.status_code == status, address
    return response.content.decode()


def test_slotted_buttons_replaced_sewn_ones_in_the_demo(client, demo_pieces):
    """The demo's makers fit slotted buttons from 1986, one of them from 1988. Copies and conversions date nothing."""
    text = page(client, "/garment-types/BLO/details/button_fix/")
    response = client.get("/garment-types/BLO/details/button_fix/dated.csv")
    rows = list(csv.DictReader(StringIO(response.content.decode())))

    assert "replaced “Sewn through 4 holes” about 198" in text
    assert 'class="band"' in text
    assert response["Content-Type"] == "text/csv; charset=utf-8"
    assert len(rows) == text.count("<tr><td>") > 40
    assert {"garment_type", "feature", "state", "year", "maker", "version", "example"} == set(rows[0])
    assert [row["year"] for row in rows] == sorted(row["year"] for row in rows)
    assert {row["version"] for row in rows} >= {"BLO-71", "BLO-86"}
    assert "BLO-CV" not in {row["version"] for row in rows}


def test_late_makers_and_odd_pieces_of_a_change_are_named(client, demo_pieces):
    """Garradine sewed until 1988, when the others had slotted buttons; E175 is far from the change (the demo's
    pieces)."""
    text = unescape(words(page(client, "/garment-types/BLO/details/button_fix/")))

    assert re.search(r"Made the earlier way after others had changed: [^.]*Garradine & Daughters \(198", text)
    assert re.search(r"Odd ones: [^.]*E175 \(", text)
    assert "Made the earlier way" not in words(page(client, "/garment-types/COA/details/lower_pockets/"))


def test_a_page_that_shows_no_change_claims_none_further_down(client, demo_pieces):
    """“Bellows” alone goes with later years; among all details of the coat that is not enough, as the page begins."""
    text = page(client, "/garment-types/COA/details/lower_pockets/")

    assert ": did it change? <span" in text
    assert "The examples do not show a change" in text
    assert "changed in the course of production" not in text
    assert "“Bellows” is met more with later years" in text
    assert "not clearly enough among all the details that were tried to call it a change." in text
    assert ": when it changed <span" in page(client, "/garment-types/BLO/details/button_fix/")


def test_the_details_of_a_type_stand_under_what_is_shown_of_them(client, demo_pieces):
    text = page(client, "/garment-types/BLO/details/")

    assert text.index("<h2>Changed</h2>") < text.index("How buttons are fixed") < text.index("<h2>No change shown</h2>")
    assert "/garment-types/BLO/details/button_fix/" in text


def test_what_is_not_known_is_not_found(client, demo):
    page(client, "/garment-types/BLU/details/", 404)
    page(client, "/garment-types/BLO/details/nonsense/", 404)
    page(client, "/garment-types/BLO/details/nonsense/dated.csv", 404)
    page(client, "/issuers/NOPE/details/", 404)
    page(client, "/issuers/SFS/details/nonsense/", 404)


def test_one_detail_of_all_types_stands_on_one_line_of_years(client, demo_pieces):
    text = page(client, "/issuers/SFS/details/size_system/")

    assert text.count("<svg") > 1
    assert "Working blouse" in text
    assert "Fell smock" in text
    assert "/issuers/SFS/details/size_system/" in page(client, "/issuers/SFS/details/")


def test_behind_a_detail_of_all_types_stand_orders_and_where_it_is_expected(client, demo_pieces):
    """Slotted buttons came in by the specification of Pattern 86 (S10) and of the Shingle print (S17); the record of
    Pattern 81 of the shirt has sewn ones until 1988 (the demo's profiles.csv)."""
    told = unescape(words(page(client, "/issuers/SFS/details/button_fix/")))

    assert "Slotted, held by a tape with Blouse, working, Pattern 86" in told
    assert "Ordered by Strandfell Service: Specification SF/C/86/1, blouse (December 1985, Circle archive)" in told
    expected = told.split("Expected, and not recorded")[1]
    assert "Warm-station shirt “Slotted, held by a tape” replaced “Sewn through 4 holes” on" in expected
    assert "first about 1983" in expected
    assert "No buttons anywhere" not in expected


def test_the_issuers_page_of_a_detail_has_the_figures_of_the_types_page_and_the_return(client, demo_pieces):
    """The last pattern of the blouse has sewn buttons again (its label years begin in 1995)."""
    of_type = unescape(words(page(client, "/garment-types/BLO/details/button_fix/")))
    of_all = unescape(words(page(client, "/garment-types/BLO/details/")))
    of_issuer = unescape(words(page(client, "/issuers/SFS/details/button_fix/")))
    about, held = re.search(r"“Slotted.*?” replaced “Sewn.*?” about (\d+) \(([^)]+)\)", of_type).groups()
    back, labels = re.search(r"“Sewn through 4 holes” came back in (\S+) \((\d+ labels)", of_type).groups()
    told = (
        f"Sewn through 4 holes, then Slotted, held by a tape about {about} ({held}), "
        f"then Sewn through 4 holes again in {back} ({labels})"
    )

    assert back.startswith("1995–")
    assert told in of_issuer
    assert told in of_all


def test_a_version_made_beside_the_main_line_is_no_change_of_the_type(client, db):
    """Of a jacket with buttons from 1971 to 1988 a fire district's has a zip from 1976 to 1981. So no zip is expected
    on the coat, which keeps its buttons; the jacket's later buttons of 1990 were not a change back either."""
    service = Issuer.objects.create(code="SVC", name="The Service")
    jacket, coat = make_type("JAC", name="Jacket", issuer=service), make_type("COT", name="Coat", issuer=service)
    front = make_feature("front", ("buttons", "zip"), types=[jacket, coat])
    main = make_version(jacket, "JAC-71", {front: "buttons"}, from_year=1971, to_year=1988)
    side = make_version(jacket, "JAC-76F", {front: "zip"}, from_year=1976, to_year=1981)
    later = make_version(jacket, "JAC-90", {front: "buttons"}, from_year=1989, to_year=1995)
    make_version(coat, "COT-70", {front: "buttons"}, from_year=1970, to_year=1995)
    for one in (side, later):
        VersionAncestor.objects.create(version=one, ancestor=main, role="continues")
    told = unescape(words(page(client, "/issuers/SVC/details/front/")))

    assert "Buttons, then Zip with Version JAC-76F" in told
    assert "made beside Version JAC-71, which kept “Buttons” until 1988: no change of the type" in told
    assert "Expected, and not recorded" not in told


def test_a_version_that_has_a_state_again_years_later_was_not_made_beside(client, demo_pieces):
    """BLO-76F without buttons was made from 1976 to 1981 beside BLO-71; BLO-94 has sewn ones again (profiles.csv)."""
    told = unescape(words(page(client, "/issuers/SFS/details/button_fix/")))
    beside = told.split("No buttons anywhere with Blouse, fire district, Pattern 76")[1].split("no change of the type")[
        0
    ]

    assert "made beside Blouse, working, Pattern 57, Stores series, which kept" in beside
    assert beside.rstrip(": ").endswith("until 1988")


def test_years_in_which_both_are_met_leave_out_the_odd_ones(client, demo_pieces):
    """E175 of 1991 is the only sewn one after 1988 (the demo's examples)."""
    told = unescape(words(page(client, "/garment-types/BLO/details/button_fix/")))

    assert "Odd ones: E175 (1991" in told
    assert "Both are met on labels of 1986–88" in told


def test_a_changeover_by_order_of_the_depot_is_a_change_of_the_type(client, demo_pieces):
    said = words(unescape(client.get("/issuers/SFS/details/zip_teeth/").content.decode()))

    assert "On record: Plastic coil, then Metal teeth with Smock, fell, 1976 changeover (November 1976" in said
    smock = said.split("then Metal teeth with Smock, fell, 1976 changeover")[1].split("On record:")[0]
    assert "Ordered by Strandfell Service: Depot Order 76/112" in smock
    assert "made beside" not in smock


def test_only_papers_stand_behind_what_was_ordered(client, demo_pieces):
    """Photographs and labels show a change, they order none."""
    for code in ("zip_teeth", "button_fix", "label_kind", "cuff", "size_system"):
        said = words(unescape(client.get(f"/issuers/SFS/details/{code}/").content.decode()))
        for behind in re.findall(r"Ordered by Strandfell Service: (.*?)(?=On record:|$)", said)[:-1]:
            assert not re.search(r"\b(?:photograph|label|Harbour day|Dated labels)\b", behind.split(").")[0]), behind


def test_a_change_is_ordered_inferred_or_guessed_by_what_its_record_cites():
    def grounds(certainty: str, *papers: str) -> str:
        cited = tuple(CitationFacts(code, code, "A") for code in papers)
        change = RecordedChange(("sewn",), ("slotted",), None, 1986, certainty, cited, "")
        return grounds_of(change, {"S1": "specification", "S2": "photograph"})

    assert grounds("documented", "S1", "S2") == "ordered"
    assert grounds("documented", "S2") == grounds("observed", "S1") == grounds("inferred") == "inferred"
    assert grounds("") == "guessed"


def test_charts_are_drawn_once_more_for_a_phone(client, demo_pieces):
    for address in ("/garment-types/BLO/details/button_fix/", "/issuers/SFS/details/size_system/"):
        text = page(client, address)

        assert 'class="timeline phone" viewBox="0 0 328 ' in text
        assert text.count('class="timeline wide"') == 1


def test_a_version_and_a_piece_are_dated(client, demo_pieces):
    text = page(client, "/issue-versions/BLO-94/")
    undated = Example.objects.accepted().filter(label_year=None, held_as__code="BLO-86").first()

    assert "Label years seen: 1995–" in text
    assert "Papers name 1994–2006; labels of " in text
    assert "Dated labels" not in page(client, "/issue-versions/VES-66G/")
    assert "It rests on" in page(client, f"/examples/{undated.code}/")


def test_three_dated_labels_and_the_years_of_the_service_give_an_interval(client, demo_pieces):
    """Labels of the liner of 2002 say 2005, 2008 and 2009; the service ended in 2009 (the demo's spreadsheets)."""
    text = page(client, "/issue-versions/LIN-02/")
    told = words(unescape(text))

    low = int(re.search(r"Production probably lay within (\d{4})–2009 \(95 %\)", told)[1])
    assert 1952 < low < 2005
    assert "That is wide: 3 different label years tell little." in told


def test_no_version_is_said_to_be_made_before_its_service_began_or_after_it_ended(client, demo_pieces):
    """The Strandfell Service gave clothing out from 1952 to 2009 (the demo's issuers.csv)."""
    told = {}
    for code in IssueVersion.objects.filter(issuer__code="SFS").values_list("code", flat=True):
        section = re.search(r'<h2 id="dated">.*?<figure', page(client, f"/issue-versions/{code}/"), re.DOTALL)
        if section:
            told[code] = [int(year) for year in re.findall(r"\b1[0-9]{3}\b|\b2[0-9]{3}\b", section.group())]

    assert len(told) > 30
    assert all(1952 <= year <= 2009 for years in told.values() for year in years), told


def test_a_version_whose_end_no_paper_names_says_what_would_narrow_it(client, demo_pieces):
    """Of Pattern 57 the record knows the beginning (September 1957); its end is estimated (the demo's versions.csv)."""
    text = unescape(words(page(client, "/issue-versions/BLO-57/")))

    assert "Production began in 1957, by papers; too few dated labels to say how long it went on" in text
    assert "Sure is only: not after 2009, when the Strandfell Service ended." in text
    assert "A dated label from after 19" in text
    assert "or a paper that names the year" in text


def test_the_pages_take_few_queries_once_they_were_read(client, demo_pieces, django_assert_max_num_queries):
    addresses = ["/garment-types/HOO/details/", "/garment-types/HOO/details/colour/", "/issue-versions/HOO-81/"]
    for address in addresses:
        page(client, address)

    for address in addresses:
        with django_assert_max_num_queries(3):
            page(client, address)


def test_a_type_without_examples_teaches_what_would_date_it(client, db):
    make_type("HAT")
    text = page(client, "/garment-types/HAT/details/")

    assert "No dated example shows a detail yet." in text


def test_only_reading_is_answered(client, demo):
    assert client.post("/garment-types/BLO/details/button_fix/").status_code == 405
