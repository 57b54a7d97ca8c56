"""The health of the reference: what the page says, what is worked out again, and error rates that are taken."""

import html
import re

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import add_attribution, add_observations
from catalogue.member_examples.models import Example
from catalogue.reference.models import Feature, ReferenceState, Source
from catalogue.reference.snapshots import forget_everything
from catalogue.review.health import keeping
from catalogue.review.health.actions import take_error_rate, undo_error_rate
from catalogue.review.models import ErrorRateTaken, Proposal, TypeHealth
from tests.catalogue.member_examples.pieces import accepted, look, make_society
from tests.making import make_member, make_type, make_version, record


@pytest.fixture
def society(db):
    return make_society()


def page(client, address: str = "/health/") -> str:
    answer = client.get(address)
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def test_an_empty_book_says_that_there_is_nothing_to_separate(client, db):
    assert "No version is on record yet" in page(client)


def test_separated_versions_can_be_identified_and_inseparable_ones_are_named_with_what_settles_them(client, society):
    assert "2 of 2 versions (100 %) can be identified" in page(client)

    record(society.new, {society.closure: "buttons"})

    text = page(client)
    assert "0 of 2 versions (0 %) can be identified" in text
    assert "SMK-61 and SMK-76" in text
    assert "Recording <strong>Feature cuff</strong> for" in text
    assert '<strong>Feature cuff</strong> of <a href="/issue-versions/SMK-76/">' in text


def test_three_pieces_that_agree_against_the_record_are_a_proposal_and_two_are_not(client, society):
    for _ in range(2):
        accepted(society, society.old, closure="zip")
    assert "A proposal waiting to be written" not in page(client)

    accepted(society, society.old, closure="zip")

    text = page(client)
    assert "<strong>Zip</strong> on 3 of 3 pieces, recorded as Buttons. <a" in text


def lines(client, name: str, address: str = "/health/") -> list[str]:
    """The lines of a section of the page, without the markup."""
    found = re.search(rf'<section class="health" id="{name}">(.*?)</section>', page(client, address))
    return re.findall(r"<li>(.*?)</li>", found[1]) if found else []


def led_by(line: str, words: str) -> str:
    """Where the words of a line lead."""
    return html.unescape(next(to for to, said in re.findall(r'href="([^"]*)"[^>]*>(.*?)</a>', line) if words in said))


def begun_from(client, line: str, words: str) -> Proposal:
    """The draft that an author gets who follows the line and presses its button."""
    client.force_login(Member.objects.get(username="Plo"))
    at = led_by(line, words)
    assert "Begin a draft with this" in page(client, at)
    answer = client.post(at, {"kind": "offered"})
    assert answer.status_code == 302
    client.get(answer.url)
    return Proposal.objects.get(pk=answer.url.split("/")[2])


@pytest.fixture
def author(society):
    return make_member("Plo", role="author")


def test_the_proposal_that_waits_to_be_written_is_prefilled_and_can_be_sent_as_it_is(client, society, author):
    for _ in range(3):
        accepted(society, society.old, closure="zip")
    accepted(society, society.old, closure="buttons")
    [line] = lines(client, "against")

    made = begun_from(client, line, "A proposal waiting")

    zip_, buttons = ({c["state"]: c for c in made.rows["feature:closure"]}[s] for s in ("zip", "buttons"))
    assert (zip_["how_often"], zip_["certainty"], buttons["how_often"]) == ("usually", "observed", "sometimes")
    assert "3 of 4 accepted pieces" in made.grounds
    assert (made.state, made.weight, made.kind) == ("draft", "weighty", "change")
    # Who follows the line again goes on with the same draft.
    assert begun_from(client, line, "A proposal waiting").pk == made.pk
    client.post(f"/proposals/{made.pk}/send/")
    made.refresh_from_db()
    assert made.state == "open"


def test_where_every_piece_shows_it_the_prefilled_record_says_that_alone(client, society, author):
    Feature.objects.filter(pk=society.closure.pk).update(service_change="no")
    for _ in range(3):
        accepted(society, society.old, closure="zip")
    ReferenceState.mark_changed()

    made = begun_from(client, lines(client, "against")[0], "A proposal waiting")

    assert [(c["state"], c["how_often"]) for c in made.rows["feature:closure"]] == [("zip", "always")]


def test_of_what_changes_with_wear_the_prefilled_record_keeps_what_was_issued(client, society, author):
    Feature.objects.filter(pk=society.closure.pk).update(service_change="wear")
    for _ in range(3):
        accepted(society, society.old, closure="zip")
    ReferenceState.mark_changed()

    made = begun_from(client, lines(client, "against")[0], "A proposal waiting")

    cells = {(c["state"], c["how_often"]) for c in made.rows["feature:closure"]}
    assert cells == {("zip", "usually"), ("buttons", "sometimes")}
    assert "can change while a piece is worn" in made.grounds


def test_members_see_what_pieces_show_but_authors_propose_it_and_what_nobody_sees_is_said(client, society, author):
    for _ in range(3):
        accepted(society, society.old, closure="zip")
    at = led_by(lines(client, "against")[0], "A proposal waiting")
    assert client.get(at).status_code == 302  # a visitor signs in first

    client.force_login(society.ben)
    shown = page(client, at)
    assert "What accepted pieces show" in shown
    assert "Begin a draft with this" not in shown
    assert client.post(at, {"kind": "offered"}).status_code == 200
    client.force_login(author)
    for nothing in ("&state=buttons", "&state=none", "&state=x\x00"):
        odd = at.replace("&state=zip", nothing)
        assert "No accepted piece shows this any more" in page(client, odd)
        assert client.post(odd, {"kind": "offered"}).status_code == 200
    assert not Proposal.objects.exists()


def test_an_empty_cell_leads_to_its_pieces_or_begins_with_what_they_show(client, society, author):
    record(society.new, {society.closure: "buttons"})
    ReferenceState.mark_changed()
    cell = next(line for line in lines(client, "cells") if "SMK-76" in line)
    assert led_by(cell, "show one that you have") == "/my-pieces/new/"
    accepted(society, society.new, closure="buttons")
    cell = next(line for line in lines(client, "cells") if "SMK-76" in line)
    assert led_by(cell, "its pieces") == "/examples/?version=SMK-76"
    client.force_login(author)
    answer = client.post(led_by(cell, "propose what a paper says"), {"kind": "profile"})
    assert answer.url.endswith("?feature=cuff#feature")
    assert '<fieldset class="field feature" id="feature"><legend>Feature cuff' in page(client, answer.url)
    client.logout()

    accepted(society, society.new, closure="buttons", cuff="tab")

    cell = next(line for line in lines(client, "cells") if "SMK-76" in line)
    assert "1 of 1 accepted piece shows Tab" in cell
    made = begun_from(client, cell, "begin a proposal")
    assert [(c["state"], c["how_often"]) for c in made.rows["feature:cuff"]] == [("tab", "always")]
    client.logout()
    [pair] = lines(client, "apart")
    assert led_by(pair, "begin a proposal") == led_by(cell, "begin a proposal")


def test_where_no_empty_cell_helps_the_line_leads_to_a_new_feature(client, society, author):
    for version in (society.old, society.new):
        record(version, {society.closure: "buttons", society.cuff: "band"})
    ReferenceState.mark_changed()
    [pair] = lines(client, "apart")
    client.force_login(author)
    assert 'value="SMK" selected' in page(client, led_by(pair, "a new feature is needed"))


def test_three_label_years_outside_a_span_begin_a_proposal_with_wider_dates(client, society, author):
    society.old.from_year, society.old.to_year, society.old.date = 1961, 1976, "1961/1976"
    society.old.save()
    for year in (1978, 1979):
        Example.objects.filter(pk=accepted(society, society.old).pk).update(label_year=year)
    ReferenceState.mark_changed()
    [line] = lines(client, "years")
    assert "A proposal waiting" not in line
    assert led_by(line, "the span too short")
    Example.objects.filter(pk=accepted(society, society.old).pk).update(label_year=1960)
    ReferenceState.mark_changed()

    made = begun_from(client, lines(client, "years")[0], "A proposal waiting")

    assert made.rows == {"date": "1960/1979"}
    assert "1978 on E" in made.grounds


def test_figures_that_an_earlier_program_kept_are_worked_out_anew(client, society):
    page(client)
    TypeHealth.objects.update(body={"type": "SMK"})
    forget_everything()
    assert "2 of 2 versions (100 %) can be identified" in page(client)


def test_every_line_of_the_demo_leads_to_a_page_that_is_there(client, demo_pieces):
    client.force_login(Member.objects.get(username="Plover"))
    text = page(client)
    places = {html.unescape(to).partition("#")[0] for to in re.findall(r'href="([^"]*)"', text.partition("<h1>")[2])}
    of_lines = {to for to in places if to.startswith("/") and "/static/" not in to}

    assert len(of_lines) > 60
    assert {to: code for to in of_lines if (code := client.get(to, follow=True).status_code) != 200} == {}


# The traps of the demo's story that a reference itself can see, each with the line that names it.
TRAPS = {
    "nothing separates BLO-57 and BLO-64G": (
        "",
        "apart",
        ("BLO-57 and BLO-64G", "Open question D1"),
    ),
    "the gap of 1964-66 is what to record next": ("", "cells", ("Button material", "BLO-64G")),
    "a label cut out is recorded as no label": ("", "errors", ("Kind of label", "for people err oftener")),
    "a reproduction with its label cut out": ("", "disputed", ("E288", "held as SMK-61", "SMK-RP")),
    "BLO-57 or BLO-71 with the label cut out": ("", "disputed", ("E275", "held as BLO-71", "BLO-57")),
    "the conversion that was sold as a vest": ("", "sources", ("S41", "warm-station vest")),
    "a cold zip replaced by a metal one": ("SMK/", "against", ("SMK-74L", "Metal teeth", "E282")),
    "a treated coat that lost its treatment label": ("COA/", "against", ("COA-85R", "Treatment or care label", "E237")),
}


@pytest.mark.parametrize("trap", TRAPS)
def test_a_trap_of_the_scenario_appears_without_having_been_written_there(client, demo_pieces, trap):
    of, section, words = TRAPS[trap]
    found = [re.sub("<[^>]+>", "", line) for line in lines(client, section, f"/health/{of}")]

    assert [line for line in found if all(word in html.unescape(line) for word in words)], found


def test_the_two_blouses_with_later_buttons_do_not_become_a_proposal(client, demo_pieces):
    """Depot repairs: two pieces are too few to say that the version has slotted buttons."""
    slotted = [line for line in lines(client, "against", "/health/BLO/") if "BLO-71</a>, How buttons are fixed" in line]
    assert not any("A proposal waiting" in line for line in slotted)


def test_label_years_disputes_uncited_sources_and_types_without_a_walk_stand_there(client, society):
    piece = accepted(society, society.old, closure="buttons")
    Example.objects.filter(pk=piece.pk).update(label_year=1990)
    society.old.from_year, society.old.to_year, society.old.date = 1961, 1976, "1961/1976"
    society.old.save()
    add_attribution(example=piece, member=society.ben, version=society.new, grounds="the cuff")
    Source.objects.create(code="S9", kind="order", title="Order nine", grade="A")
    make_version(make_type("HAT", name="Hat"), "HAT-1")
    ReferenceState.mark_changed()

    text = page(client)

    assert "1 piece with label year 1990" in text
    assert "Ben holds it to be <a" in text
    assert "Order nine" in text
    assert "no feature recorded to ask for" in text
    assert "Order nine" not in page(client, "/health/SMK/")


def test_only_the_type_that_changed_is_worked_out_again(client, society, monkeypatch):
    hat = make_type("HAT", name="Hat")
    make_version(hat, "HAT-1")
    page(client)
    before = dict(TypeHealth.objects.values_list("garment_type__code", "state"))
    worked = []
    real = keeping.worked_out
    monkeypatch.setattr(keeping, "worked_out", lambda codes, number: worked.append(list(codes)) or real(codes, number))

    accepted(society, society.old, closure="zip")
    assert "contradict their version" in page(client)

    after = dict(TypeHealth.objects.values_list("garment_type__code", "state"))
    assert worked == [["SMK"]]
    assert after["HAT"] == before["HAT"]
    assert after["SMK"] != before["SMK"]
    assert set(TypeHealth.objects.values_list("number", flat=True)) == {ReferenceState.current_number()}


def test_who_changes_something_works_the_figures_out_and_the_next_reader_waits_for_nothing(
    client, society, django_capture_on_commit_callbacks, monkeypatch
):
    def change():
        with django_capture_on_commit_callbacks(execute=True):
            accepted(society, society.old, closure="zip")
        client.get("/about/")  # the end of the visit in which it was done

    change()
    assert not TypeHealth.objects.exists()  # nobody has ever looked
    page(client)
    change()
    assert set(TypeHealth.objects.values_list("number", flat=True)) == {ReferenceState.current_number()}
    monkeypatch.setattr(keeping, "worked_out", lambda codes, number: pytest.fail("a reader waited"))
    assert "on 2 of 2 pieces" in page(client)


def test_a_fault_in_working_out_spoils_nobodys_visit(client, society, django_capture_on_commit_callbacks, monkeypatch):
    page(client)
    with django_capture_on_commit_callbacks(execute=True):
        accepted(society, society.old, closure="zip")
    with monkeypatch.context() as broken:
        broken.setattr(keeping, "worked_out", lambda codes, number: 1 / 0)
        assert client.get("/about/").status_code == 200

    assert "on 1 of 1 piece" in page(client)


@pytest.mark.parametrize("what", ["feature", "version", "look"])
def test_whatever_the_figures_rest_on_changes_the_digest_of_its_type(society, what):
    piece = accepted(society, society.old, closure="zip")
    types = {society.smock.pk: "SMK"}
    before = keeping.states_of_types(types)
    assert keeping.states_of_types(types) == before

    if what == "feature":
        Feature.objects.filter(pk=society.cuff.pk).update(error=0.2)
    elif what == "version":
        record(society.new, {society.closure: "buttons"})
    else:
        add_observations(example=piece, member=society.ben, looks=[look(society, "closure", "zip")])

    assert keeping.states_of_types(types) != before


@pytest.mark.parametrize("how_many", [1, 3])
def test_the_page_asks_as_often_for_one_type_as_for_three(client, society, how_many):
    for number in range(how_many):
        make_version(make_type(f"T{number}"), f"T{number}-1", {})
        accepted(society, society.old, closure="zip")
    page(client)

    with CaptureQueriesContext(connection) as asked:
        page(client)

    assert len(asked) <= 2


@pytest.fixture
def offered(society):
    """Twelve pieces on whose closure two people disagree half of the time."""
    society.closure.service_change = "no"
    society.closure.save()
    for number in range(24):
        piece = accepted(society, society.old, closure="buttons")
        seen = "zip" if number % 2 else "buttons"
        add_observations(example=piece, member=society.ben, looks=[look(society, "closure", seen)])
    return society


def form_of(client) -> dict:
    line = next(one for one in client.get("/health/").context["sections"] if one["id"] == "errors")["open"][0]
    return {"rate": str(line["rate"]), "in_use": str(line["in_use"])}


def test_a_moderator_takes_a_measured_rate_beside_the_unchanged_help_and_undoes_it(client, offered):
    client.force_login(offered.mo)
    sent = form_of(client)

    client.post(f"/health/error-rates/{offered.closure.pk}/take/", sent)

    offered.closure.refresh_from_db()
    assert offered.closure.error == float(sent["rate"])
    assert offered.closure.error_note == "", "what people are told beside the question stays as it was"
    taken = ErrorRateTaken.objects.get()
    assert "Error rates taken" in page(client)

    client.post(f"/health/error-rates/taken/{taken.pk}/undo/")
    client.post(f"/health/error-rates/taken/{taken.pk}/undo/")

    offered.closure.refresh_from_db()
    assert (offered.closure.error, offered.closure.error_note) == (0.05, "")
    assert ErrorRateTaken.objects.count() == 2


def test_the_engine_counts_with_a_rate_that_was_taken_and_no_more_once_it_is_undone(client, offered):
    client.force_login(offered.mo)

    def chance() -> float:
        """Of the version with buttons, where a zip was seen: the likelier, the oftener people are held to err."""
        data = client.get("/which/SMK.json?closure=zip").json()
        return dict(data["posterior"])[offered.old.code]

    before = chance()
    client.post(f"/health/error-rates/{offered.closure.pk}/take/", form_of(client))
    taken = ErrorRateTaken.objects.get()
    with_rate = chance()
    client.post(f"/health/error-rates/taken/{taken.pk}/undo/")

    assert taken.after > taken.before
    assert with_rate > before * 1.5
    assert chance() == pytest.approx(before)
    history = client.get(f"/features/{offered.closure.code}/history/").content.decode()
    assert f"measured on {taken.looks} looks" in history
    assert "was put back" in history


def test_readers_get_the_same_page_without_the_moderators_forms_whoever_looked_before(client, offered):
    client.force_login(offered.mo)
    assert 'action="/health/error-rates/' in page(client)
    client.logout()
    read_by_a_visitor = page(client)
    assert "Features that people answer wrongly" in read_by_a_visitor
    assert 'action="/health/error-rates/' not in read_by_a_visitor
    assert page(client) == read_by_a_visitor

    Feature.objects.filter(pk=offered.closure.pk).update(name="<b>Fastening</b>")
    ReferenceState.mark_changed()
    assert "<strong>&lt;b&gt;Fastening&lt;/b&gt;</strong>" in page(client)


def test_nobody_else_takes_one_and_a_stale_or_second_form_writes_nothing(client, offered):
    address = f"/health/error-rates/{offered.closure.pk}/take/"
    sent = form_of(client)
    assert client.post(address, sent).status_code == 302
    client.force_login(offered.ada)
    assert client.post(address, sent).status_code == 403
    client.force_login(offered.mo)
    assert client.get(address).status_code == 405
    assert client.post(address, sent | {"rate": "0.9"}).status_code == 302
    assert ErrorRateTaken.objects.count() == 0

    client.post(address, sent)
    again = client.post(address, sent, follow=True)
    assert "one was taken already. Nothing changed." in again.content.decode()
    assert client.post("/health/error-rates/99999/take/", sent).status_code == 404
    assert client.post("/health/error-rates/taken/999/undo/").status_code == 404
    assert ErrorRateTaken.objects.count() == 1


def test_what_was_changed_since_is_not_undone(offered):
    taken = take_error_rate(feature=offered.closure, moderator=offered.mo, before=0.05, after=0.2, wrong=9.0, looks=48)
    Feature.objects.filter(pk=offered.closure.pk).update(error=0.3)

    with pytest.raises(Exception, match="was changed"):
        undo_error_rate(taken=taken, moderator=offered.mo)

    assert Feature.objects.get(pk=offered.closure.pk).error == 0.3


def test_the_demos_traps_stand_there_without_having_been_written_there(client, demo_pieces):
    text = page(client)

    # The scenario's own: nothing separates BLO-57 and BLO-64G, which is the open question D1; S41 is cited nowhere.
    assert "BLO-57 and BLO-64G" in text
    assert "Open question D1" in text
    assert "Market label: &#x27;warm-station vest" in text
    assert 'of <a href="/issue-versions/BLO-64G/">' in text
    assert "TRO-74L</a>, Weight and hand: <strong>Heavy, stiff</strong> on 4 of 10" in text
    # One piece of SMK-61 is held by a member to be the reproduction that it is often taken for.
    assert "SMK-RP" in text
    answer = client.get("/health/HOO/")
    assert answer.status_code == 200
