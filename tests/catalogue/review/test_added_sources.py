"""A member adds a source that is not listed while writing; it stands at once and can be taken back."""

import pytest
from django.contrib.auth.models import AnonymousUser
from django.db import IntegrityError, transaction

from catalogue.member_examples.actions import NotDone
from catalogue.reference.models import Citation, Source
from catalogue.review.models import Notice, SourceAddition
from catalogue.review.sources.actions import add_source, take_back
from tests.catalogue.review.proposing import decide, drafted, make_society, sent
from tests.reading import text, words

GIVEN = {
    "kind": "testimony", "title": "A storeman on zips", "date": "2014-02", "holder": "A former storeman",
    "shelf_mark": "Recording 14", "grade": "D", "personal_data": True, "note": "",
}  # fmt: skip
ADDRESS = "/proposals/source/?kind=testimony"


@pytest.fixture
def society(db):
    return make_society()


def told(**about) -> set[str]:
    return set(Notice.objects.filter(read_at__isnull=True, **about).values_list("member__username", flat=True))


def test_a_source_is_added_by_its_kind_and_can_be_cited_at_once(client, society):
    client.force_login(society.ben)
    kinds = text(client, "/proposals/source/")
    assert '<a href="?kind=testimony">Testimony</a>' in kinds
    shown = words(text(client, ADDRESS))
    assert "When it was told" in shown
    assert "Who told it, or where it is kept" in shown

    page = client.post(ADDRESS, GIVEN | {"personal_data": "on"}, follow=True).content.decode()

    made = Source.objects.get(code="S3")
    assert {name: getattr(made, name) for name in GIVEN} == GIVEN
    assert "S3 is on the list now. Write S3 where sources are cited." in words(page)
    assert "Added by Ben on" in words(page)
    assert told(source_added__source=made) == {"Mo", "Mia", "Max"}
    assert drafted(society.ben, society.one, {"name": "Smock of 1961"}, sources=["S3"]).sources == ["S3"]


def test_what_a_kind_cannot_be_found_again_without_is_asked_for_and_what_was_typed_is_kept(client, society):
    client.force_login(society.ben)
    answer = client.post(ADDRESS, GIVEN | {"date": "", "holder": "", "title": "Kept words"})
    page = words(answer.content.decode())
    assert "It cannot be found again without: when it was told." in page
    assert "Choose how good it is." in words(client.post(ADDRESS, GIVEN | {"grade": ""}).content.decode())
    assert "It cannot be found again without: who told it, or where it is kept." in page
    assert 'value="Kept words"' in answer.content.decode()

    album = {**GIVEN, "date": "", "grade": "C"}
    assert client.post("/proposals/source/?kind=photograph", album | {"holder": ""}).status_code == 400
    assert client.post("/proposals/source/?kind=photograph", album).status_code == 302
    assert "There is no kind of source “rumour”" in text(client, "/proposals/source/?kind=rumour")
    assert Source.objects.count() == 3


def test_tapped_twice_it_is_one_and_the_same_title_and_date_by_another_is_refused(society):
    first = add_source(by=society.ben, **GIVEN)
    assert add_source(by=society.ben, **GIVEN) == first
    with pytest.raises(NotDone, match="S3 has this title and date already"):
        add_source(by=society.ada, **GIVEN | {"title": "a STOREMAN on zips"})

    assert Source.objects.count() == 3


def test_numbers_go_on_as_the_society_writes_them_and_one_taken_back_is_not_given_again(society):
    Source.objects.create(code="S009", title="Long", kind="order", grade="A")
    Source.objects.create(code="Box", title="Odd", kind="order", grade="A")
    first = add_source(by=society.ben, **GIVEN)
    assert first.code == "S10"

    take_back(addition=first, by=society.ben, reason="Named twice.")

    assert add_source(by=society.ben, **GIVEN).code == "S11"


def test_a_moderator_takes_it_back_with_a_reason_that_its_adder_reads(client, society):
    made = add_source(by=society.ben, **GIVEN)
    client.force_login(society.mo)
    where = f"/proposals/sources-added/{made.pk}/take-back/"
    assert f'href="{where}"' in text(client, "/sources/S3/")
    assert "A decision needs a reason" in client.post(where, {"reason": " "}).content.decode()

    page = words(client.post(where, {"reason": "It names a private person."}, follow=True).content.decode())

    assert not Source.objects.filter(code="S3").exists()
    assert "taken back by Mo" in page
    assert "It names a private person." in page
    assert told() == {"Ben"}
    client.force_login(society.ben)
    assert "It was taken back" in text(client, "/my/notices/")


def test_who_neither_added_it_nor_moderates_takes_nothing_back(client, society):
    made = add_source(by=society.ben, **GIVEN)
    client.force_login(society.ada)
    assert client.post(f"/proposals/sources-added/{made.pk}/take-back/", {"reason": "x"}).status_code == 404
    assert "Take it back" not in text(client, "/sources/S3/")
    with pytest.raises(NotDone, match="who added it, or by a moderator"):
        take_back(addition=made, by=society.ada, reason="x")


@pytest.mark.parametrize("what", ["citation", "sent", "in a row", "approved"])
def test_one_that_something_rests_on_stays(society, what):
    made = add_source(by=society.ben, **GIVEN)
    if what == "citation":
        Citation.objects.create(source=made.source, version=society.one)
    elif what == "sent":
        sent(society.ada, society.one, {"name": "Smock of 1961"}, sources=["S3"])
    elif what == "in a row":
        sent(society.ada, society.one, {"sources": ["S3"]})
    else:
        decide(sent(society.ada, society.one, {"name": "Smock of 1961"}, sources=["S3"]), society.mo)

    with pytest.raises(NotDone, match="Something rests on this source"):
        take_back(addition=made, by=society.mo, reason="No.")

    assert Source.objects.filter(code="S3").exists()


def test_a_draft_that_cites_what_was_taken_back_is_told_so_when_it_is_sent(society):
    made = add_source(by=society.ben, **GIVEN)
    drafted(society.ben, society.one, {"name": "Smock of 1961"}, sources=["S3"])
    take_back(addition=made, by=society.mo, reason="No.")

    with pytest.raises(NotDone, match="The source S3, which this names, is not there any more"):
        drafted(society.ben, society.one, {"name": "Smock, 1961"}, sources=["S3"])


def test_the_database_keeps_why_one_is_gone(society):
    made = add_source(by=society.ben, **GIVEN)
    with pytest.raises(IntegrityError), transaction.atomic():
        SourceAddition.objects.filter(pk=made.pk).update(taken_back_by=society.mo)


def test_visitors_add_nothing(client, society):
    assert client.post(ADDRESS, GIVEN).status_code == 302
    with pytest.raises(NotDone, match="Sign in first"):
        add_source(by=AnonymousUser(), **GIVEN)
    assert Source.objects.count() == 2


def test_forms_that_cite_sources_lead_there(client, society):
    draft = drafted(society.ada, society.one, {"name": "Smock of 1961"})
    client.force_login(society.ada)
    for page in (f"/proposals/{draft.pk}/edit/", f"/proposals/{draft.pk}/edit/profile/", "/sources/"):
        assert 'href="/proposals/source/"' in text(client, page)
