"""A label that was read goes into the form for a piece: shown first, kept only then, without a name unless wished."""

import re
from html import unescape

import pytest

from catalogue.member_examples.models import Example, Label
from catalogue.reference.models import Maker

LABEL = "NAME: A. WREN\nSMOCK FELL\nSIZE M\nDUNSALLOW 1974"
FORM = re.compile(r'<form method="post" action="/my-pieces/new/">(.*?)</form>', re.DOTALL)
FIELD = re.compile(r'name="([^"]+)" value="([^"]*)"')


@pytest.fixture
def dunsallow(society):
    return Maker.objects.create(code="DUN", name="Dunsallow Works", mark="DUNSALLOW")


def form_for(browser, text: str, **more) -> dict[str, str]:
    """What the page of the label would send into the form for a piece."""
    page = browser.post("/label/", {"text": text, **more}).content.decode()
    fields = {name: unescape(value) for name, value in FIELD.findall(FORM.search(page)[1])}
    return {name: value for name, value in fields.items() if name != "label-keep_name" and "no_name" not in name}


def begin(browser, shown: dict[str, str], **more) -> Example:
    """The form is shown with the label, then sent."""
    page = browser.post("/my-pieces/new/", shown | more)
    assert page.status_code == 200
    assert not Example.objects.exists()
    html = page.content.decode()
    carried = {name: unescape(value) for name, value in FIELD.findall(html) if name == "token" or "label-" in name}
    answer = browser.post("/my-pieces/new/", {"garment_type": "SMK", **carried})
    assert browser.post("/my-pieces/new/", {"garment_type": "SMK", **carried}).url == answer.url
    return Example.objects.get()


def test_a_label_fills_the_form_and_is_kept_with_the_draft_once(ada, dunsallow):
    example = begin(ada, form_for(ada, LABEL, sewn="empty_row"))
    label = Label.objects.get()

    assert (example.maker, example.label_year) == (dunsallow, 1974)
    assert (label.kind, label.attachment) == ("main", "sewn")
    assert label.remark == "A second row of needle holes lies empty beside it"
    assert label.text == LABEL.replace("A. WREN", "[name]")
    assert example.hidden_names.get().name == ""


def test_a_name_is_kept_where_the_member_says_so(ada, dunsallow):
    example = begin(ada, form_for(ada, LABEL), **{"label-keep_name": "yes"})

    assert Label.objects.get().text == LABEL
    assert not example.hidden_names.exists()


def test_a_name_in_an_address_made_by_hand_is_masked_too(ada, dunsallow):
    shown = ada.get(
        "/my-pieces/new/", {"_type": "SMK", "label-attachment": "sewn", "label-text": LABEL}
    ).content.decode()

    assert "WREN" not in shown
    assert "NAME: [name]" in unescape(shown)
    assert (
        "WREN"
        in ada.get(
            "/my-pieces/new/",
            {"_type": "SMK", "label-attachment": "sewn", "label-text": LABEL, "label-keep_name": "yes"},
        ).content.decode()
    )


def test_two_labels_become_two_and_what_waits_to_be_confirmed_fills_nothing(ada, dunsallow):
    example = begin(ada, form_for(ada, "MFD 3/84\n---\nDO NOT BLEACH"))

    assert example.label_year is None
    assert list(Label.objects.values_list("kind", "text")) == [("main", "MFD 3/84"), ("other", "DO NOT BLEACH")]


def test_a_forged_label_fills_what_a_person_could_have_typed_and_no_more(ada, society):
    forged = {"label-text": "X", "label-label_year": "84", "label-maker": "NOBODY", "label-attachment": "magic",
              "label-size_mark": "M" * 400, "label-contract": "T/1", "label-owner": society.ben.pk}  # fmt: skip
    ada.post("/my-pieces/new/", {"garment_type": "SMK", "token": "", **forged})
    example = Example.objects.get()

    assert (example.label_year, example.maker, example.size_mark, example.owner) == (None, None, "", society.ada)
    assert not Label.objects.exists()


def test_a_visitor_is_told_that_members_can(client, society):
    page = client.post("/label/", {"text": LABEL}).content.decode()

    assert FORM.search(page) is None
    assert "and read the label again" in page
    assert client.cookies == {}


def test_a_verdict_hands_the_label_of_its_walk_to_the_form(ada, dunsallow):
    walk = "/which/SMK/?_stop=yes&closure=zip&_label_number=27-114-06&_label_year=1974&_label_maker=DUN"
    page = unescape(ada.get(walk).content.decode())
    address = re.search(r'href="(/my-pieces/new/\?[^"]+)"', page)[1]
    shown = ada.get(address)

    assert shown.context["label"].fields["label_year"] == 1974
    assert shown.context["label"].labels[0]["text"] == "27-114-06\n1974"
    assert not shown.context["notes"]
    assert shown.context["form"].initial["garment_type"] == "SMK"
    assert Example.objects.count() == 0
    plain = unescape(ada.get("/which/SMK/?_stop=yes&closure=zip").content.decode())
    assert "label-" not in re.search(r'href="(/my-pieces/new/\?[^"]+)"', plain)[1]


UNKNOWN = "SMOCK FELL\nMILLER\nQUILLON\nJ. WREN 4471203\nSIZE M"


def test_a_word_that_is_perhaps_a_name_is_asked_about_and_left_out_unless_ticked(ada, dunsallow):
    page = unescape(ada.post("/label/", {"text": UNKNOWN}).content.decode())
    offered = dict(re.findall(r'name="(label-no_name-\d)" value="([^"]+)"', page))

    assert list(offered.values()) == ["MILLER", "QUILLON"]
    ticked = next(name for name, word in offered.items() if word == "QUILLON")
    begin(ada, form_for(ada, UNKNOWN), **{ticked: "QUILLON"})
    assert Label.objects.get().text == "SMOCK FELL\n[name]\nQUILLON\n[name]\nSIZE M"


def test_to_keep_what_is_a_name_keeps_no_other_word(ada, dunsallow):
    begin(ada, form_for(ada, UNKNOWN), **{"label-keep_name": "yes"})

    assert Label.objects.get().text == "SMOCK FELL\n[name]\n[name]\nJ. WREN 4471203\nSIZE M"


WRITTEN = "SMOCK FELL\nNAME: A. WREN\nTarn Quillon his coat\nSIZE M\nDUNSALLOW 1974"


def test_a_word_that_the_reader_took_for_no_name_is_struck_out_by_hand_before_anything_is_kept(ada, dunsallow):
    fields = form_for(ada, WRITTEN)
    assert "Quillon" in fields["label-text"]

    shown = ada.post("/my-pieces/new/", fields | {"label-strike": "tarn  quillon"}).content.decode()
    assert "quillon" not in shown.lower()
    begin(ada, fields, **{"label-strike": "tarn  quillon"})

    assert Label.objects.get().text == "SMOCK FELL\nNAME: [name]\n[name] his coat\nSIZE M\nDUNSALLOW 1974"
    assert Example.objects.get().label_year == 1974


def test_what_is_struck_out_is_struck_though_names_be_kept_and_takes_no_other_name_out_of_the_readers_sight(
    ada, society
):
    fields = form_for(ada, WRITTEN)

    begin(ada, fields, **{"label-keep_name": "yes", "label-strike": "WREN, Quillon"})
    assert Label.objects.get().text.splitlines()[1:3] == ["NAME: A. [name]", "Tarn [name] his coat"]
    Example.objects.all().delete()
    begin(ada, fields, **{"label-strike": "NAME"})
    assert Label.objects.get().text.splitlines()[1] == "[name]: [name]"


def test_a_word_to_strike_out_that_does_not_stand_on_the_label_is_told_and_keeps_nothing(ada, dunsallow):
    fields = form_for(ada, WRITTEN)
    shown = unescape(ada.post("/my-pieces/new/", fields | {"label-strike": "Quilon, Tarn"}).content.decode())

    assert "“Quilon” does not stand on the label" in shown
    assert 'name="label-strike" value="Quilon"' in shown
    carried = {name: value for name, value in FIELD.findall(shown) if name == "token" or "label-" in name}
    sent = {"garment_type": "SMK", "sold_as": "A smock", **carried, "label-strike": "Quilon, "}
    refused = ada.post("/my-pieces/new/", sent)
    page = unescape(refused.content.decode())

    assert refused.status_code == 400
    assert not Example.objects.exists()
    assert "“Quilon” does not stand on the label" in page
    assert "A smock" in page
    ada.post("/my-pieces/new/", sent | {"label-strike": "Quillon"})
    assert "[name] [name] his coat" in Label.objects.get().text


def test_more_names_to_strike_out_than_the_field_takes_keep_nothing(ada, dunsallow):
    sent = {"garment_type": "SMK", "token": "", "label-text": WRITTEN, "label-attachment": "sewn"}

    assert ada.post("/my-pieces/new/", sent | {"label-strike": "Tarn," * 90 + "Quillon"}).status_code == 400
    assert not Example.objects.exists()


def test_both_pages_offer_to_strike_a_word_out_without_a_script(ada, dunsallow):
    page = ada.post("/label/", {"text": "SIZE M\nDUNSALLOW 1974"}).content.decode()
    shown = ada.post("/my-pieces/new/", form_for(ada, WRITTEN)).content.decode()

    assert 'name="label-strike"' in FORM.search(page)[1]
    assert 'name="label-strike"' in shown
    assert 'name="label-strike"' not in ada.get("/my-pieces/new/").content.decode()
