"""A label's evidence in a walk: one witness, kept in the address, counted once, and never the last word."""

from html import unescape

import pytest

from identification.engine.reasons import signed_words
from tests.reading import data, read_caution, text, words

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("caution_read")]
BLO = "/which/BLO/"
BODY_57 = "cuff=tab_button&flap_fastening=button_hidden&reinforcement=self&shoulder_strap=none&weave=herringbone"


@pytest.fixture
def caution_read(client, demo):
    read_caution(client, "BLO")


def chances(client, query: str) -> dict[str, float]:
    return dict(data(client, f"/which/BLO.json?_accepted=yes&{query}")["posterior"])


def test_a_number_on_the_label_raises_every_version_that_carries_it_alike(client, demo):
    without, with_it = chances(client, ""), chances(client, "_label_number=C/14/61")

    assert with_it["BLO-57"] > without["BLO-57"]
    assert with_it["BLO-57"] / with_it["BLO-64G"] == pytest.approx(without["BLO-57"] / without["BLO-64G"])
    assert with_it["BLO-86"] < without["BLO-86"]


def test_a_label_never_excludes_a_version(client, demo):
    posterior = chances(client, "_label_number=27-114-10&_label_year=1989&_label_maker=GAR")

    assert max(posterior, key=posterior.get) == "BLO-86"
    assert min(posterior.values()) > 0


def test_the_form_of_the_number_is_not_counted_beside_the_number(client, demo):
    """The form of a number and the number are one thing on one label: the answer only shares the witness's doubt."""
    number = chances(client, "_label_number=27-114-10")
    both = chances(client, "_label_number=27-114-10&label_kind=printed_nylon&stock_no=stores")
    twice = chances(client, "label_kind=printed_nylon&stock_no=stores")
    before = chances(client, "")
    odds = lambda p: p["BLO-86"] / p["BLO-52"]  # noqa: E731 - one line of arithmetic

    assert odds(both) < odds(number) * odds(twice) / odds(before)


def test_what_the_label_says_stands_in_for_and_against(client, demo):
    said = words(text(client, f"{BLO}?_stop=yes&_label_number=C/14/61&_label_year=1962&weave=herringbone"))

    assert "✓ for: number C/14/61" in said
    assert "one witness" in said


def test_the_label_stays_in_the_address_of_every_next_question(client, demo):
    page = text(client, f"{BLO}?_label_number=C/14/61&_label_year=1962&_label_maker=DUN&_label_sewn=same")

    assert "_label_number=C%2F14%2F61" in page
    assert "_label_year=1962" in page


@pytest.mark.parametrize(
    "query", ["_label_number=", "_label_year=19", "_label_number=%00", "_label_maker=" + "x" * 300]
)
def test_what_cannot_be_a_label_s_evidence_is_left_out(client, demo, query):
    assert client.get(f"{BLO}?{query}").status_code == 200


def test_a_body_of_one_version_with_a_label_of_another_is_said(client, demo):
    said = words(text(client, f"{BLO}?_stop=yes&{BODY_57}&_label_number=27-114-12&_label_year=1997"))

    assert "Body of one version, label of another" in said


def test_a_label_that_fits_its_body_is_not_called_moved(client, demo):
    said = words(text(client, f"{BLO}?_stop=yes&{BODY_57}&_label_number=C/14/61&_label_year=1962"))

    assert "label of another" not in said


def test_a_number_that_was_read_has_told_its_form_already(client, demo):
    """Whoever reads 27-114-10 has read a number in the stores form: to answer so as well says nothing more, while an
    answer that contradicts the number does."""
    label = "_label_number=27-114-10&_label_year=1988"

    assert chances(client, f"{label}&stock_no=stores") == pytest.approx(chances(client, label))
    assert chances(client, f"{label}&stock_no=none") != pytest.approx(chances(client, label))


def test_how_the_size_is_written_shares_the_doubt_of_its_label(client, demo):
    """The size system is read off the label: with a label in the address it can say no more than the label may."""
    odds = lambda p: p["BLO-86"] / p["BLO-52"]  # noqa: E731 - one line of arithmetic
    answers, number = "size_system=cm&label_kind=printed_nylon", "_label_number=27-114-10"
    alone, label, both = chances(client, answers), chances(client, number), chances(client, f"{number}&{answers}")

    assert odds(both) < odds(label) * odds(alone) / odds(chances(client, ""))


def test_the_data_tells_what_the_label_contributed(client, demo):
    label = data(client, "/which/BLO.json?_accepted=yes&_label_number=C/14/61&_label_year=1962&stock_no=ledger")[
        "label"
    ]

    assert (label["number"], label["year"], label["belongs"]) == ("C/14/61", 1962, 0.95)
    assert max(label["decibans"], key=label["decibans"].get) == "BLO-57"
    assert label["aspects"]["BLO-57"]["number"] > 0 > label["aspects"]["BLO-86"]["year"]
    assert label["answers_in_it"] == ["stock_no"]
    assert label["moved"] is None
    assert data(client, "/which/BLO.json?_accepted=yes&weave=herringbone")["label"] is None


def test_the_data_says_so_when_a_label_came_from_another_piece(client, demo):
    told = data(client, f"/which/BLO.json?_accepted=yes&{BODY_57}&_label_number=27-114-12&_label_year=1997")

    body = chances(client, BODY_57)

    assert told["label"]["moved"]["label"] == "BLO-94"
    assert body[told["label"]["moved"]["body"]] == max(body.values())


def test_how_the_label_is_sewn_in_is_asked_before_what_stands_on_it_counts(client, demo):
    """It is a question of the site's own, for every type and without a record that names it."""
    label = "_label_number=C/14/61&_label_year=1962"
    first = data(client, f"/which/BLO.json?_accepted=yes&{label}")["next"]
    page = text(client, f"{BLO}?{label}")

    assert (first["feature"], list(first["states"])[-1]) == ("_label_sewn", "same")
    assert "How is the label sewn in?" in words(page)
    assert 'name="_label_sewn" value="empty_row"' in page
    assert 'name="_label_sewn" value="cannot-tell"' in page
    assert '<input type="hidden" name="_label_year" value="1962">' in page
    for answer in ("same", "cannot-tell"):
        after = data(client, f"/which/BLO.json?_accepted=yes&{label}&_label_sewn={answer}")["next"]
        assert after["page"] == "question"
        assert after["feature"] != "_label_sewn"
    assert data(client, "/which/BLO.json?_accepted=yes&_label_sewn=same")["next"]["feature"] != "_label_sewn"


def test_how_it_is_sewn_in_moves_what_the_label_can_say(client, demo):
    label = "_label_number=27-114-12&_label_year=1997"
    chance = {
        sewn: chances(client, f"{label}&_label_sewn={sewn}")["BLO-94"]
        for sewn in ("same", "cannot-tell", "other", "empty_row", "other_label")
    }

    assert list(chance.values()) == sorted(chance.values(), reverse=True)
    assert chance["cannot-tell"] == pytest.approx(chances(client, label)["BLO-94"])
    assert chance["other_label"] > chances(client, "")["BLO-94"]


def test_an_empty_row_of_holes_tells_body_and_label_apart_sooner_and_stands_in_the_verdict(client, demo):
    """One detail of the body leaves the label its word; with the holes beside it that does not."""
    few = "weave=herringbone&_label_number=27-114-12&_label_year=1997&_stop=yes"
    same = words(text(client, f"{BLO}?{few}&_label_sewn=same"))
    holes = words(text(client, f"{BLO}?{few}&_label_sewn=empty_row"))

    assert "label of another" not in same
    assert "Body of one version, label of another" in holes
    assert "a second row of needle holes lies empty beside it" in holes


def test_what_weakens_a_label_that_fits_is_said_too(client, demo):
    told = words(text(client, f"{BLO}?_stop=yes&{BODY_57}&_label_number=C/14/61&_label_year=1962&_label_sewn=other"))

    assert "its thread or stitch is not that of the garment. So what stands on it counts for less" in told
    assert "Look again how it is sewn in" in told


def test_it_is_not_asked_where_the_label_may_or_can_not_be_looked_at(client, demo):
    """Pictures without the label; the hood, which must stay closed; and all garments, among which the hood is."""
    for address in ("HOO.json?_accepted=yes", "any-garment.json?_accepted=yes", "BLO.json?_accepted=yes&_views=front"):
        told = data(client, f"/which/{address}&_label_year=1962&_ask=_label_sewn")
        assert told["next"].get("feature") != "_label_sewn"


def of_type_in_any(client, query: str, home: str) -> float:
    posterior = dict(data(client, f"/which/any-garment.json?_accepted=yes&{query}")["posterior"])
    return sum(chance for code, chance in posterior.items() if code.startswith(home))


def test_the_walk_over_all_garments_weighs_the_label_and_says_so(client, demo):
    read_caution(client, "any-garment")
    assert of_type_in_any(client, "_label_number=27-114-10", "BLO") > 2 * of_type_in_any(client, "", "BLO")
    assert "From its label: number 27-114-10" in words(text(client, "/which/any-garment/?_label_number=27-114-10"))


def test_the_walk_over_all_garments_hands_the_label_over(client, demo):
    label = "_label_number=27-114-10&_label_year=1988"
    read_caution(client, "any-garment")
    told = data(client, f"/which/any-garment.json?_accepted=yes&{label}&_stop=yes")
    page = text(client, f"/which/any-garment/?{label}&_stop=yes")

    assert told["next"]["types"][0][0] == "BLO"
    assert '"/which/BLO/?_label_number=27-114-10&_label_year=1988&_from=any-garment"' in page


def test_the_label_can_be_left_out_again(client, demo):
    page = text(client, f"{BLO}?weave=herringbone&_label_number=C/14/61")

    assert 'href="?weave=herringbone">Leave it out' in page


SIZE_CM = "_label_says=size_system:cm"


def test_how_the_size_on_the_label_is_written_speaks_through_each_version_s_profile(client, demo):
    without, with_it = chances(client, ""), chances(client, SIZE_CM)

    assert with_it["BLO-86"] > without["BLO-86"]
    assert with_it["BLO-57"] < without["BLO-57"]
    assert min(with_it.values()) > 0
    assert with_it["BLO-86"] / with_it["BLO-94"] == pytest.approx(without["BLO-86"] / without["BLO-94"], rel=0.02)


def test_a_size_read_on_the_label_and_answered_by_eye_counts_once(client, demo):
    number = "_label_number=27-114-10"
    by_eye = chances(client, f"{number}&size_system=number")

    assert chances(client, f"{number}&size_system=number&{SIZE_CM}") == pytest.approx(by_eye)
    assert chances(client, f"{number}&size_system=cannot-tell&{SIZE_CM}") == pytest.approx(
        chances(client, f"{number}&{SIZE_CM}")
    )


def test_a_label_that_says_nothing_of_a_state_changes_nothing(client, demo):
    label = "_label_number=C/14/61&_label_year=1962"

    assert chances(client, f"{label}&_label_says=") == chances(client, label)
    assert chances(client, f"{label}&_label_says=size_system:nonsense,weave") == chances(client, label)
    page = words(text(client, f"{BLO}?{label}&_label_says=size_system:nonsense"))
    assert "“size_system:nonsense” is nothing that a label says: left out." in page


def test_the_order_of_what_a_label_says_does_not_matter(client, demo):
    first = chances(client, "_label_says=size_system:cm,size_system:letters&weave=herringbone&_label_year=1990")
    second = chances(client, "_label_year=1990&weave=herringbone&_label_says=size_system:letters,size_system:cm")

    assert first == pytest.approx(second)


def test_what_a_doubtful_label_says_weighs_little(client, demo):
    odds = lambda p: p["BLO-86"] / p["BLO-57"]  # noqa: E731 - one line of arithmetic
    before = odds(chances(client, ""))
    trusted = odds(chances(client, f"{SIZE_CM}&_label_sewn=same"))
    doubted = odds(chances(client, f"{SIZE_CM}&_label_sewn=other_label"))

    assert before < doubted < trusted / 3


def test_what_a_label_says_of_the_cloth_counts_until_somebody_looks(client, demo):
    """A state of the body: the label's word shares its doubt, so it says less than the eye, and gives way to it."""
    odds = lambda p: p["BLO-57"] / p["BLO-52"]  # noqa: E731 - one line of arithmetic
    by_label = chances(client, "_label_says=weave:herringbone")
    by_eye = chances(client, "weave=herringbone")

    assert odds(chances(client, "")) < odds(by_label) < odds(by_eye)
    assert chances(client, "weave=herringbone&_label_says=weave:ripstop") == pytest.approx(by_eye)


def test_the_size_on_the_label_stands_among_the_reasons_and_in_the_data(client, demo):
    asked = words(text(client, f"{BLO}?{SIZE_CM}&_label_sewn=same"))
    said = words(text(client, f"{BLO}?_stop=yes&{SIZE_CM}&weave=ripstop"))
    label = data(client, f"/which/BLO.json?_accepted=yes&{SIZE_CM}")["label"]

    assert "From its label: size marking: Height / girth in cm" in asked
    assert "size marking: Height / girth in cm" in said
    assert label["says"] == {"size_system": ["cm"]}
    assert label["aspects"]["BLO-86"]["inside"] > 0 > label["aspects"]["BLO-57"]["inside"]


def test_the_page_of_the_label_hands_the_form_of_the_size_on(client, demo):
    page = client.post("/label/", {"text": "BLOUSE WORKING\n27-114-10\n176/100\nEDDLEMUIR", "type": "BLO"})

    assert "_label_says=size_system:cm" in page.content.decode()


def test_a_number_outside_its_years_stands_in_the_verdict_as_a_conflict_with_its_reasons(client, demo):
    said = words(text(client, f"{BLO}?_stop=yes&_label_number=27-114-06&_label_year=1995&weave=herringbone"))

    assert "The label does not agree with itself." in said
    assert "Number 27-114-06 is on record for 1971–1988; the label says 1995." in said
    assert "✗ against: 1995 on the label; labels with this number 1971–1988" in said
    agreed = words(text(client, f"{BLO}?_stop=yes&_label_number=27-114-06&_label_year=1980&weave=herringbone"))
    assert "does not agree with itself" not in agreed


def test_a_maker_that_did_not_work_in_the_label_s_year_is_a_conflict_with_its_years(client, demo):
    """Garradine & Daughters worked from 1961 to 1991 (the demo's makers.csv)."""
    said = unescape(words(text(client, f"{BLO}?_stop=yes&_label_maker=GAR&_label_year=1995&weave=herringbone")))

    assert "Garradine & Daughters worked 1961–1991; the label says 1995." in said
    fits = unescape(words(text(client, f"{BLO}?_stop=yes&_label_maker=GAR&_label_year=1992&weave=herringbone")))
    assert "does not agree with itself" not in fits


def test_every_maker_of_an_address_is_weighed_and_named(client, demo):
    one = chances(client, "_label_maker=DUN")
    both = chances(client, "_label_maker=DUN,GAR")

    assert both["BLO-71"] > one["BLO-71"]  # made by both; BLO-52 by the first alone
    assert both["BLO-52"] < one["BLO-52"]
    assert "maker Dunsallow Clothing Works, maker Garradine" in words(
        text(client, f"{BLO}?_label_maker=DUN,GAR&_label_sewn=same")
    )


def test_a_depot_s_mark_speaks_for_what_the_depot_altered_and_excludes_nothing(client, demo):
    def shirts(query: str) -> dict[str, float]:
        return dict(data(client, f"/which/SHI.json?_accepted=yes&{query}")["posterior"])

    label = "_label_number=27-150-01&_label_maker=DUN&_label_year=1977"
    plain, marked = shirts(label), shirts(f"{label}&_label_repair=HAL")

    odds = lambda chances: chances["SHI-DM"] / chances["SHI-68"]  # noqa: E731 - one line of arithmetic
    assert odds(marked) > 5 * odds(plain)
    assert marked["SHI-68"] > marked["SHI-81"] > 0  # any piece may have been mended


def test_the_form_of_a_number_that_was_read_is_neither_asked_nor_offered_as_a_check(client, demo):
    query = "_accepted=yes&_stop=yes&sleeve_set=set_in&cuff=tab_button"
    without = data(client, f"/which/BLO.json?{query}&stock_no=cannot-tell")["next"]
    labelled = data(client, f"/which/BLO.json?{query}&_label_number=27-114-06&_label_sewn=same")["next"]

    assert "stock_no" in without["untold_checks"]
    assert "stock_no" not in labelled["next_checks"]
    assert labelled["next_checks"]


def test_a_year_to_come_and_an_unknown_maker_in_an_address_are_left_out_and_named(client, demo):
    said = unescape(words(text(client, f"{BLO}?_stop=yes&_label_year=2400&_label_maker=ZZZ,DUN&_label_repair=QQ")))

    assert "“2400” lies outside 1900–" in said
    assert "“ZZZ” is no maker on record: left out." in said
    assert "“QQ” is no maker on record: left out." in said
    assert "label says 2400" not in said
    assert "year 2400" not in said
    assert "maker ZZZ" not in said
    assert "Dunsallow Clothing Works" in said


def test_what_tells_nothing_is_called_so_and_has_no_minus(client, demo):
    label = "_label_number=C/14/61&_label_year=1962&_label_says=size_system:cm"
    page = unescape(text(client, f"{BLO}?_stop=yes&{BODY_57}&{label}"))

    assert "-0.0" not in page
    assert "−0.0" not in page
    said = words(page)
    assert "unknown: size" not in said
    assert "size marking: Height / girth in cm" in said


@pytest.mark.parametrize(("decibans", "written"), [(-0.04, "0.0"), (0.0, "0.0"), (0.06, "+0.1"), (-3.21, "-3.2")])
def test_decibans_have_a_sign_only_where_they_say_something(decibans, written):
    assert signed_words(decibans) == written
