"""The serial of a trial piece narrows a walk to versions that were trials in those years, as part of one witness."""

import pytest

from catalogue.reference.models import NumberForm
from tests.reading import data, read_caution, text, words

pytestmark = [pytest.mark.django_db]
STAMP = "SMOCK\nTRIAL 59 / No. 12\nSIZE 4"


def chances(client, query: str) -> dict[str, float]:
    return dict(data(client, f"/which/SMK.json?_accepted=yes&{query}")["posterior"])


def test_a_trial_s_serial_speaks_for_the_trial_and_excludes_no_version(client, demo):
    without, with_it = chances(client, ""), chances(client, "_label_serial=trial_serial")

    assert with_it["SMK-59X"] > 0.5 > without["SMK-59X"]
    assert with_it["SMK-61"] < without["SMK-61"]
    assert min(with_it.values()) > 0


def test_a_serial_of_another_time_speaks_for_no_trial_of_this_type(client, demo):
    assert chances(client, "_label_serial=laminate_serial") == pytest.approx(chances(client, ""))


def test_the_verdict_says_what_the_serial_speaks_for(client, demo):
    read_caution(client, "SMK")
    said = words(text(client, "/which/SMK/?_stop=yes&_label_serial=trial_serial&front_closure=toggles"))

    assert "serial of a trial piece: on such pieces of 1959–1960 alone" in said
    told = data(client, "/which/SMK.json?_accepted=yes&_label_serial=trial_serial")["label"]
    assert told["serial"] == "trial_serial"
    assert told["aspects"]["SMK-59X"]["serial"] > 0 > told["aspects"]["SMK-61"]["serial"]


def test_the_page_of_a_label_names_the_trial_and_leads_on_with_the_serial(client, demo):
    page = client.post("/label/", {"text": STAMP}).content.decode()

    assert "SMK-59X" in page
    assert "COA-99X" not in page  # its trial was forty years later
    assert "_label_serial=trial_serial" in page


def test_a_serial_beyond_those_that_were_given_out_speaks_for_nothing(client, demo):
    page = client.post("/label/", {"text": STAMP.replace("12", "77")}).content.decode()

    assert "breaks the rule" in page
    assert "_label_serial" not in page


def test_what_is_no_form_of_such_numbers_is_left_out_and_named(client, demo):
    read_caution(client, "SMK")
    said = words(text(client, "/which/SMK/?_stop=yes&_label_serial=ledger,nothing"))

    assert "“ledger” is no serial that tells a kind of version: left out." in said
    assert "“nothing” is no serial" in said


def test_the_kind_that_a_form_belongs_to_comes_in_with_the_spreadsheets(demo):
    assert set(NumberForm.objects.exclude(of_kind="").values_list("code", "of_kind")) == {
        ("trial_serial", "trial"),
        ("laminate_serial", "trial"),
    }
