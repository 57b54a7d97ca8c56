"""An open question is decided by two people, its history stays readable, and members hold views of their own."""

import re
from string import ascii_uppercase

import pytest
from django.db import IntegrityError, transaction
from django.urls import reverse

from catalogue.accounts.models import Member
from catalogue.accounts.sections import parts_of_a_person
from catalogue.reference.actions import import_reference
from catalogue.reference.models import OpenQuestion, QuestionView, ReferenceState
from catalogue.reference.spreadsheets.exporting import export_reference
from catalogue.review.models import Notice, Proposal, ViewDecision
from catalogue.review.notices.actions import wish_for_mail
from catalogue.review.proposals.actions import (
    NotDone,
    begin_on_question,
    decide_on_proposal,
    revoke_approval,
    save_draft,
    send_proposal,
    withdraw_proposal,
)
from catalogue.review.questions import actions
from catalogue.review.questions.actions import add_view, change_view, disown_view
from catalogue.review.questions.lettering import next_letter
from tests import reading

ADD, BEGIN = "/my/views-on-questions/add/?question=", "/proposals/open-question/?question="


def text(client, address: str) -> str:
    """The words of a page, one blank between them."""
    words = re.sub(r"<[^>]+>", " ", reading.text(client, address)).split()
    return re.sub(r" ([,.:])", r"\1", " ".join(words))


def person(name: str) -> Member:
    return Member.objects.get(username=name)


def question(code: str = "D1") -> OpenQuestion:
    return OpenQuestion.objects.get(code=code)


def sent(code: str, by: str = "Plover", **rows) -> Proposal:
    made = begin_on_question(by=person(by), question=question(code))
    made = save_draft(
        proposal=made, by=person(by), revision=made.revision, wanted=made.base | rows, grounds="So it is.", sources=[]
    )
    return send_proposal(proposal=made, by=person(by))


def approve(proposal: Proposal, *names: str) -> None:
    for name in names:
        decide_on_proposal(
            proposal=proposal, decider=person(name), decision="approved", reason="Agreed.", sending=proposal.times_sent
        )


def test_two_people_beside_its_author_settle_a_question_and_its_page_tells_who_and_why(client, demo):
    made = sent("D1", decided="B", moderator_note="One pattern, as long as no label turns up")
    approve(made, "Dunlin")
    assert not question().settled

    approve(made, "Whimbrel")

    assert question().settled
    assert question().views.get(stands=True).letter == "B"
    page = text(client, "/open-questions/D1/")
    assert "Settled. One pattern, as long as no label turns up." in page
    assert "Settled for view B the standing decision, by Dunlin and Whimbrel" in page
    assert "proposed by Plover" in page
    assert "View A, held by Turnstone: it did not stand" in page


def test_a_decision_is_revoked_by_two_and_both_stay_readable(client, demo):
    made = sent("D1", decided="A")
    approve(made, "Dunlin", "Whimbrel")
    for name in ("Whimbrel", "Dunlin"):
        revoke_approval(proposal=made, decider=person(name), reason="The label was misread.", sending=made.times_sent)

    assert not question().settled
    assert not question().views.filter(stands=True).exists()
    page = text(client, "/open-questions/D1/")
    assert "Open: an earlier decision was revoked, by Whimbrel and Dunlin" in page
    assert "Settled for view A revoked since, by Dunlin and Whimbrel" in page


def test_a_question_settled_for_another_view_lets_the_first_one_lie_down(demo):
    approve(sent("D2", decided="A"), "Dunlin", "Whimbrel")

    assert list(question("D2").views.filter(stands=True).values_list("letter", flat=True)) == ["A"]


def test_what_would_settle_it_takes_one_person(demo):
    approve(sent("D1", by="Turnstone", would_settle="A sealed sample of 1964"), "Dunlin")

    assert question().would_settle == "A sealed sample of 1964"


def test_the_words_of_a_decision_take_two_as_the_decision_does(client, demo):
    approve(sent("D1", moderator_note="Struck out"), "Dunlin")
    assert question().moderator_note != "Struck out"
    with pytest.raises(NotDone, match="author"), transaction.atomic():
        sent("D1", by="Turnstone", moderator_note="Struck out")

    client.force_login(person("Turnstone"))
    page = client.get(client.post(BEGIN + "D2").url).content.decode()
    assert 'name="would_settle"' in page
    assert 'name="moderator_note"' not in page
    assert 'name="decided"' not in page


def test_members_propose_no_decision_and_nobody_one_for_a_view_that_is_not_there(demo):
    with pytest.raises(NotDone, match="author"), transaction.atomic():
        sent("D1", by="Turnstone", decided="A")
    with pytest.raises(NotDone, match="There is no view Q of this question"), transaction.atomic():
        sent("D1", decided="Q")
    assert not question().settled


def test_a_question_decided_meanwhile_is_a_clash_settled_row_by_row(client, demo):
    first, second = sent("D1", decided="A"), sent("D1", by="Dunlin", decided="B")
    approve(first, "Whimbrel", "Dunlin")

    with pytest.raises(NotDone, match="The question changed since this was written"):
        approve(second, "Whimbrel")
    client.force_login(person("Whimbrel"))
    page = text(client, f"/proposals/{second.pk}/")
    assert "The question changed since this was written" in page
    assert "As it stands now: Settled for view A" in page


def test_a_draft_is_written_on_its_own_page_and_keeps_what_was_typed(client, demo):
    client.force_login(person("Plover"))
    begun = client.post(BEGIN + "D1")
    page = client.post(begun.url, {"decided": "A", "would_settle": "A label", "cites": "NONE", "revision": 0})
    assert "A label" in page.content.decode()
    assert "This is not saved yet" in page.content.decode()

    saved = client.post(begun.url, {"decided": "A", "would_settle": "A label", "cites": "S05", "revision": 0})

    made = Proposal.objects.get(question__code="D1", by__username="Plover")
    assert saved.url == f"/proposals/{made.pk}/"
    assert (made.rows["decided"], made.weight, made.sources) == ("A", "weighty", ["S05"])
    assert "Question D1: decision, " in text(client, saved.url)


def test_a_view_is_added_changed_and_taken_back_by_its_member_alone(client, demo):
    client.force_login(person("Turnstone"))
    given = {"holder": "Turnstone", "text": "Two mills wove it", "cites": "S05"}
    client.post(ADD + "D1", given)
    client.post(ADD + "D1", given)  # the second tap

    view = QuestionView.objects.get(question__code="D1", letter="C")
    page = text(client, "/open-questions/D1/")
    assert "View C, held by Turnstone Two mills wove it." in page
    assert "Change your view C" in page
    own = reverse("questions:change_view", args=[view.pk])
    client.post(own, {"holder": "Turnstone", "text": "Three mills wove it", "cites": "", "revision": 0})
    late = client.post(own, {"holder": "Turnstone", "text": "Four mills", "cites": "", "revision": 0})
    assert "This view was changed elsewhere" in late.content.decode()
    assert "Four mills" in late.content.decode()

    client.force_login(person("Plover"))
    assert client.get(own).status_code == 404
    client.force_login(person("Turnstone"))
    client.post(own, {"withdraw": "yes"})
    assert not QuestionView.objects.filter(pk=view.pk).exists()


def test_a_view_of_somebody_else_says_who_wrote_it_down(client, demo):
    actions.add_view(question=question(), by=person("Turnstone"), holder="Whimbrel", text="So", sources=[])

    page = text(client, "/open-questions/D1/")
    assert "View C, held by Whimbrel as told by Turnstone So. Entered by Turnstone, not by Whimbrel." in page


def test_a_view_of_invisible_signs_alone_is_refused_in_words(client, demo):
    client.force_login(person("Turnstone"))
    sent_back = client.post(ADD + "D1", {"holder": "\u202e", "text": "\u200f\u202e", "cites": ""})

    assert sent_back.status_code == 400
    assert "Say who holds this view." in sent_back.content.decode()
    assert "Write the view down." in sent_back.content.decode()


def test_a_view_stays_once_a_decision_for_it_is_proposed(demo):
    held = actions.add_view(question=question(), by=person("Turnstone"), holder="Turnstone", text="So", sources=[])
    sent("D1", decided="C")

    with pytest.raises(NotDone, match="Proposal .* asks for a decision for this view"):
        actions.withdraw_view(view=held, by=person("Turnstone"))


def test_who_leaves_is_named_by_no_view(demo):
    turnstone = person("Turnstone")
    actions.add_view(question=question(), by=turnstone, holder="Turnstone", text="So", sources=[])

    next(part for part in parts_of_a_person() if part.name == "views").forget(turnstone)

    assert question().views.get(letter="C").holder == "a former member"


def test_who_leaves_is_named_by_no_view_that_came_with_a_spreadsheet_either(demo):
    view = question().views.filter(by=None).first()
    QuestionView.objects.filter(pk=view.pk).update(holder="Turnstone")
    next(part for part in parts_of_a_person() if part.name == "views").forget(person("Turnstone"))

    view.refresh_from_db()
    assert view.holder == "a former member"


def test_who_leaves_is_not_kept_as_the_writer_of_a_view_that_somebody_else_holds(demo):
    """Comparisons keep the views ready for as long as the reference stands still."""
    actions.add_view(question=question(), by=person("Turnstone"), holder="Whimbrel", text="So", sources=[])
    before = ReferenceState.current_number()

    next(part for part in parts_of_a_person() if part.name == "views").forget(person("Turnstone"))

    assert ReferenceState.current_number() > before


def test_visitors_write_nothing(client, demo):
    view = actions.add_view(question=question(), by=person("Turnstone"), holder="T", text="So", sources=[])
    for address in (ADD + "D1", BEGIN + "D1", reverse("questions:change_view", args=[view.pk])):
        answer = client.post(address, {"holder": "x", "text": "y"})
        assert answer.status_code == 302
        assert "/account/login/" in answer.url
    assert "Write down another view" not in text(client, "/open-questions/D1/")


def test_a_disputed_row_of_a_profile_leads_to_its_question(client, demo):
    assert "Colour was disputed: D5" in text(client, "/issue-versions/BLO-71/")
    assert "What would settle it A legible label of 1964" in text(client, "/open-questions/D1/")


# ---- what a view rests on, and what rests on it


def view_of(by: str = "Turnstone", text: str = "So", code: str = "D1") -> QuestionView:
    return actions.add_view(question=question(code), by=person(by), holder=by, text=text, sources=[])


def change(view: QuestionView, text: str = "Otherwise", by: str = "Turnstone") -> None:
    view.refresh_from_db()
    actions.change_view(view=view, by=person(by), holder=by, text=text, sources=[], revision=view.revision)


@pytest.mark.parametrize("ending", ["declined", "returned", "withdrawn"])
def test_a_proposal_of_which_nothing_came_leaves_a_view_to_its_member(demo, ending):
    held = view_of()
    made = sent("D1", decided="C")
    with pytest.raises(NotDone, match="asks for a decision"), transaction.atomic():
        change(held)

    if ending == "withdrawn":
        withdraw_proposal(proposal=made, by=person("Plover"))
    else:
        decide_on_proposal(
            proposal=made, decider=person("Dunlin"), decision=ending, reason="Not so.", sending=made.times_sent
        )

    change(held)
    held.refresh_from_db()
    assert held.text == "Otherwise"
    actions.withdraw_view(view=held, by=person("Turnstone"))
    assert not QuestionView.objects.filter(pk=held.pk).exists()


def test_a_view_that_a_decision_was_once_for_stays_as_it_was_read_also_when_that_was_revoked(demo):
    held = view_of()
    made = sent("D1", decided="C")
    approve(made, "Dunlin", "Whimbrel")
    for name in ("Whimbrel", "Dunlin"):
        revoke_approval(proposal=made, decider=person(name), reason="Misread.", sending=made.times_sent)

    with pytest.raises(NotDone, match="stays as it was read then"):
        change(held)


def test_a_letter_that_a_proposal_names_is_never_given_to_another_view(demo):
    held = view_of()
    made = sent("D1", decided="C")
    withdraw_proposal(proposal=made, by=person("Plover"))
    actions.withdraw_view(view=held, by=person("Turnstone"))

    assert view_of(text="Another").letter == "D"


def test_letters_go_on_after_z_and_stand_in_that_order_and_a_member_has_some_of_them(client, demo):
    QuestionView.objects.bulk_create(
        QuestionView(question=question(), letter=letter, holder="Curlew", text="So") for letter in ascii_uppercase[2:]
    )
    letters = [view_of(text=f"So {number}").letter for number in range(6)]
    assert letters == ["AA", "AB", "AC", "AD", "AE", "AF"]
    assert [one.letter for one in question().views.all()] == [*ascii_uppercase, *letters]

    with pytest.raises(NotDone, match="You have written 6 views of this question down"), transaction.atomic():
        view_of(text="So 7")
    client.force_login(person("Turnstone"))
    answer = client.post(ADD + "D1", {"holder": "Turnstone", "text": "So 7", "cites": ""})
    assert answer.status_code == 400
    assert "You have written 6 views" in answer.content.decode()
    assert "So 7</textarea>" in answer.content.decode()
    assert view_of(by="Plover").letter == "AG"


def test_every_letter_is_given_once_and_then_none(demo):
    assert [next_letter(()), next_letter("A"), next_letter("CA"), next_letter("Z")] == ["A", "B", "D", "AA"]
    assert [next_letter({"A", "AZ"}), next_letter({"ZZ"}), next_letter({"?"})] == ["BA", "", "A"]


# ---- views that moderators take out


def take_out(view: QuestionView, by: str = "Dunlin", reason: str = "It is about a person, not the blouse."):
    return actions.take_out_view(view=view, moderator=person(by), reason=reason)


def test_a_moderator_takes_a_view_out_and_the_reason_stays_in_the_history(client, demo):
    held = actions.add_view(question=question(), by=person("Turnstone"), holder="Curlew", text="Spam", sources=[])
    client.force_login(person("Dunlin"))
    page = client.get("/open-questions/D1/").content.decode()
    address = reverse("questions:moderate_view", args=[held.pk])
    assert f'href="{address}"' in page
    assert "Spam" in text(client, address)

    assert client.post(address, {"reason": "\u200b"}).status_code == 400
    answer = client.post(address, {"reason": "Curlew holds no such view."}, follow=True)

    assert "View C is taken out." in answer.content.decode()
    held.refresh_from_db()
    assert (held.text, held.taken_out) == ("Spam", "Curlew holds no such view.")
    client.logout()
    page = text(client, "/open-questions/D1/")
    assert "View C was taken out by Dunlin" in page
    assert "Curlew holds no such view." in page
    assert "Spam" not in page
    client.force_login(person("Plover"))
    assert "Spam" not in text(client, "/open-questions/D1/")
    for name in ("Turnstone", "Whimbrel"):
        client.force_login(person(name))
        assert "What view C said Held by Curlew: Spam" in text(client, "/open-questions/D1/")


def test_who_wrote_the_view_down_is_told_on_their_page_and_by_mail(
    client, demo, mailoutbox, django_capture_on_commit_callbacks
):
    held = view_of()
    wish_for_mail(member=person("Turnstone"), how="at_once")
    with django_capture_on_commit_callbacks(execute=True):
        take_out(held)

    client.force_login(person("Turnstone"))
    page = text(client, "/my/notices/")
    assert "Question D1: Your view C was taken out – Dunlin" in page
    assert "It is about a person, not the blouse." in page
    assert "Question D1" in mailoutbox[0].body
    assert "Your view was taken out" in mailoutbox[0].body
    assert "It is about a person" not in mailoutbox[0].body


def test_a_view_taken_out_is_no_view_until_a_newer_decision_puts_it_back(client, demo):
    held = view_of()
    take_out(held)

    with pytest.raises(NotDone, match="There is no view C"), transaction.atomic():
        sent("D1", decided="C")
    with pytest.raises(NotDone, match="stays as it was read then"), transaction.atomic():
        change(held)
    with pytest.raises(NotDone, match="taken out already"), transaction.atomic():
        take_out(held, by="Whimbrel")
    assert view_of(text="Another").letter == "D"

    client.force_login(person("Whimbrel"))
    client.post(reverse("questions:moderate_view", args=[held.pk]), {"reason": "It is one.", "put_back": "yes"})

    page = text(client, "/open-questions/D1/")
    assert "View C, held by Turnstone So." in page
    assert "View C was taken out by Dunlin" in page
    assert "View C was put back by Whimbrel" in page
    sent("D1", decided="C")


def test_no_view_is_taken_out_on_which_something_rests_nor_by_who_does_not_moderate(demo):
    approve(sent("D2", decided="A"), "Dunlin", "Whimbrel")
    with pytest.raises(NotDone, match="The question is settled for this view"), transaction.atomic():
        take_out(question("D2").views.get(letter="A"))
    sent("D1", decided="A")
    with pytest.raises(NotDone, match="asks for a decision for this view"), transaction.atomic():
        take_out(question().views.get(letter="A"))
    for by, words in (("Plover", "Only moderators"), ("Turnstone", "Only moderators"), ("Knot", "Only moderators")):
        with pytest.raises(NotDone, match=words), transaction.atomic():
            take_out(question().views.get(letter="B"), by=by)
    with pytest.raises(NotDone, match="Write down why"), transaction.atomic():
        take_out(question().views.get(letter="B"), reason=" ")
    assert not QuestionView.objects.exclude(taken_out="").exists()


def test_a_moderator_neither_takes_out_their_own_view_nor_puts_it_back(demo):
    held = view_of(by="Dunlin")
    with pytest.raises(NotDone, match="take it back yourself"), transaction.atomic():
        take_out(held)
    take_out(held, by="Whimbrel")
    with pytest.raises(NotDone, match="put back by somebody else"), transaction.atomic():
        actions.put_back_view(view=held, moderator=person("Dunlin"), reason="It is mine.")


def test_the_database_keeps_what_moderators_did_to_views(demo):
    made = take_out(view_of())

    row = ViewDecision.objects.filter(pk=made.pk)
    for deed in (lambda: row.update(reason="x"), lambda: row._raw_delete("default")):
        with pytest.raises(IntegrityError, match="never changed nor deleted"), transaction.atomic():
            deed()


def test_a_view_taken_out_goes_out_and_comes_in_with_its_reason(demo, tmp_path):
    take_out(view_of())
    export_reference(tmp_path / "out")
    rows = (tmp_path / "out" / "question_views.csv").read_text()

    assert 'D1,C,Turnstone,So,,no,no,"It is about a person, not the blouse."' in rows


def test_a_decision_that_would_bring_back_a_view_taken_out_meanwhile_is_not_revoked(demo):
    view_of()
    approve(sent("D1", decided="C"), "Dunlin", "Whimbrel")
    second = sent("D1", decided="A")
    approve(second, "Dunlin", "Whimbrel")
    take_out(question().views.get(letter="C"))
    revoke_approval(proposal=second, decider=person("Whimbrel"), reason="Misread.", sending=second.times_sent)

    with pytest.raises(NotDone, match="There is no view C of this question"):
        revoke_approval(proposal=second, decider=person("Dunlin"), reason="Misread.", sending=second.times_sent)


def told_of_views() -> list[tuple[str, int]]:
    new = Notice.objects.filter(view__isnull=False, read_at__isnull=True)
    return sorted(new.values_list("member__username", "sending"))


def test_a_member_is_told_of_a_view_entered_as_theirs_and_of_each_later_edition(demo):
    made = add_view(question=question(), by=person("Turnstone"), holder=" whimbrel ", text="So.", sources=[])
    add_view(question=question(), by=person("Turnstone"), holder="Turnstone", text="Mine.", sources=[])
    add_view(question=question(), by=person("Turnstone"), holder="A cook", text="Hot.", sources=[])
    assert told_of_views() == [("Whimbrel", 0)]

    change_view(view=made, by=person("Turnstone"), holder="Whimbrel", text="Not so.", sources=[], revision=0)
    assert told_of_views() == [("Whimbrel", 1)]
    change_view(view=made, by=person("Turnstone"), holder="Plover", text="Not so.", sources=[], revision=1)
    assert told_of_views() == [("Plover", 2)]


def test_who_is_named_says_in_one_step_that_a_view_is_not_theirs_and_that_is_read_wherever_it_stands(client, demo):
    made = add_view(question=question(), by=person("Turnstone"), holder="Whimbrel", text="So.", sources=["S05"])
    client.force_login(person("Whimbrel"))
    assert "View C was entered as yours; you may say that it is not" in text(client, "/my/notices/")
    assert "View C stands as yours, entered by Turnstone. Is it?" in text(client, "/open-questions/D1/")

    client.post(f"/views-on-questions/{made.pk}/whose/")

    said = "View C, said to be held by Whimbrel as told by Turnstone; Whimbrel says it is not theirs"
    assert said in text(client, "/open-questions/D1/")
    assert said[:1].lower() + said[1:] in text(client, "/sources/S05/")
    assert told_of_views() == []
    change_view(view=made, by=person("Turnstone"), holder="Whimbrel", text="So it is.", sources=[], revision=0)
    assert said in text(client, "/open-questions/D1/")
    client.post(f"/views-on-questions/{made.pk}/whose/", {"mine": "yes"})
    page = text(client, "/open-questions/D1/")
    assert "says it is not theirs" not in page
    assert "View C, held by Whimbrel as told by Turnstone" in page


def test_a_view_held_by_another_now_is_disowned_no_more(demo):
    made = add_view(question=question(), by=person("Turnstone"), holder="Whimbrel", text="So.", sources=[])
    disown_view(view=made, by=person("Whimbrel"), disowned=True)

    change_view(view=made, by=person("Turnstone"), holder="A cook", text="So.", sources=[], revision=0)

    assert not QuestionView.objects.get(pk=made.pk).disowned


@pytest.mark.parametrize("who", ["Plover", "Turnstone", "Dunlin"])
def test_nobody_else_says_whose_a_view_is_not_even_who_entered_it(client, demo, who):
    made = add_view(question=question(), by=person("Turnstone"), holder="Whimbrel", text="So.", sources=[])
    client.force_login(person(who))

    page = client.post(f"/views-on-questions/{made.pk}/whose/", follow=True).content.decode()

    assert "Only the member who is named as its holder" in page
    assert not QuestionView.objects.get(pk=made.pk).disowned


def test_a_view_that_came_with_the_reference_can_be_disowned_by_its_member_too_and_goes_out_so(client, demo, tmp_path):
    view = question().views.get(letter="A")
    client.force_login(person("Turnstone"))
    assert "View A stands as yours; it came with the reference. Is it?" in text(client, "/open-questions/D1/")
    client.post(f"/views-on-questions/{view.pk}/whose/")
    export_reference(tmp_path / "out")

    import_reference(folder=tmp_path / "out")

    assert QuestionView.objects.get(pk=view.pk).disowned
    assert "D1,A,Turnstone" in (tmp_path / "out/question_views.csv").read_text(encoding="utf-8")
