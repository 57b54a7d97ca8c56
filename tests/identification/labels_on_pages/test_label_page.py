"""The page that reads a label: what it shows, what it asks, where it leads, and that it keeps nothing."""

import re
from html import unescape

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalogue.reference.models import NumberForm, ReferenceState
from identification.label_reading import REASONS
from identification.labels_on_pages.words import REASON_WORDS, date_words
from tests.identification.labels_on_pages.label_page import LEDGER, PAGE, read, said, versions_in

pytestmark = pytest.mark.django_db


def test_a_label_is_shown_as_written_and_each_piece_explained(client, demo):
    html = read(client, LEDGER)

    assert 'href="#piece-1"' in html
    told = said(html)
    assert "Size 4 of the service's own numbers" in told
    assert "Dunsallow Clothing Works" in told
    assert "Names a garment: Working blouse." in told
    assert "Not understood" not in told
    assert "C = clothing" in told


def test_a_number_names_every_version_that_carries_it_and_says_what_fits(client, demo):
    html = read(client, LEDGER)

    assert versions_in(html) == ["BLO-57", "BLO-64G"]
    assert "as a misprint" not in html
    assert "/which/BLO/?_label_number=C%2F14%2F61&amp;_label_year=1961&amp;_label_maker=DUN" in html


def test_a_known_misprint_leads_to_the_right_version_and_says_why(client, demo):
    html = read(client, "27-141-10\n176/100\nCON 88-12\nEDDLEMUIR")

    assert versions_in(html)[0] == "BLO-86"
    assert "as a misprint of 27-114-10" in said(html)


def test_a_copied_bar_number_with_a_wrong_check_figure_is_shown_as_such(client, demo):
    html = read(client, "27131068\nS\nGULLHAVNE")

    assert versions_in(html) == ["COA-CC"]
    assert "breaks the rule that numbers of this form keep" in said(html)


def test_one_number_for_two_versions_names_both(client, demo):
    assert set(versions_in(read(client, "27-131-04\nT/88/127\nEDDLEMUIR"))) == {"COA-85", "COA-85R"}


def test_an_altered_piece_keeps_its_donor_s_number(client, demo):
    html = read(client, "27-114-06\nT/80/123\nGARRADINE 1980")

    assert versions_in(html) == ["BLO-71", "BLO-CV"]
    assert "kept from" in said(html)


def test_a_year_that_does_not_fit_the_number_is_said_and_the_version_still_named(client, demo):
    html = read(client, "C/14/55\nDUNSALLOW 1975")

    assert "BLO-52" in versions_in(html)
    assert "Known with this number, but something does not fit" in said(html)


def test_what_was_repaired_counts_only_once_it_is_confirmed(client, demo):
    text = "C/I4/61"
    html = read(client, text)
    assert "Please confirm" in html
    assert "Not used until confirmed: number" in said(html)
    assert versions_in(html) == []

    html = read(client, text, **{"confirm-number-0": "C/14/61"})
    assert versions_in(html) == ["BLO-57", "BLO-64G"]
    html = read(client, text, **{"confirm-number-0": "none"})
    assert versions_in(html) == []
    html = read(client, text, **{"confirm-number-0": "27-114-06"})
    assert versions_in(html) == []


def test_an_open_date_is_asked_for_with_every_reading(client, demo):
    html = read(client, "MFD 2/79")

    assert "February 1979" in html
    assert "second quarter of 1979" in html
    assert 'name="confirm-date" value="1979-34"' in html


def test_nothing_is_kept_and_nothing_is_cached(client, demo):
    with CaptureQueriesContext(connection) as asked:
        response = client.post(PAGE, {"text": "NAME: J. SMITH\nC/14/61"})
    written = [
        query["sql"]
        for query in asked
        if not query["sql"].lstrip().upper().startswith(("SELECT", "(SELECT", "SAVEPOINT"))
    ]

    assert [sql for sql in written if "SAVEPOINT" not in sql] == []
    assert "no-store" in response["Cache-Control"]
    assert response.cookies == {}
    assert "personal data" in said(response.content.decode())


def test_a_form_without_cookies_is_answered(demo):
    assert Client(enforce_csrf_checks=True).post(PAGE, {"text": LEDGER}).status_code == 200


@pytest.mark.parametrize("text", ["", "   ", "X" * 4001, "1984\n---\n" * 25])
def test_what_cannot_be_read_is_said_and_kept(client, demo, text):
    html = read(client, text)

    assert 'role="alert"' in html
    assert text.strip() in html


def test_signs_that_no_keyboard_types_are_left_out_and_counted(client, demo):
    told = said(read(client, "C/14\0/61\x07\n\u202eDUNSALLOW\0 1961"))

    assert "4 invisible characters left out" in told
    assert versions_in(read(client, "C/14\0/61")) == ["BLO-57", "BLO-64G"]


def test_signs_that_turn_the_reading_direction_turn_nothing_on_the_page(client, demo):
    html = read(client, "\u202eSIZE 4\u202c\nC/14/\u202e61\x07\n\u2067WORKING\u2069")

    page = html.split('id="written"')[1].split('id="type-it"')[0]
    shown = re.sub(r'<input type="hidden"[^>]*>', "", page)
    assert not set(shown) & set("\u202e\u202c\u2067\u2069\x07")
    assert "6 invisible characters left out" in said(html)
    assert "\u202eSIZE 4\u202c" in html  # what was typed stays in its field


def test_of_much_noise_some_pieces_are_named_and_the_rest_counted(client, demo):
    told = said(read(client, "\n".join(f"zorbl{'xyz'[n % 3] * n}" for n in range(1, 40))))

    assert "and 27 more pieces: all that is not underlined above" in told


def test_two_labels_that_name_different_things_are_taken_each_on_its_own(client, demo):
    """What one label says does not speak for a version that the other allows."""
    html = read(client, "27-114-06\nT/74/208\nDUNSALLOW 1974\n---\nC/14/61\nPELLOWRIGG 1961")
    first, second = html.split('id="label-2"')

    assert "What each label allows" in said(html)
    assert "BLO-71" in versions_in(html)
    assert "BLO-57" in versions_in(f'id="versions"{second}')
    assert "1974 (labels with this number" in said(first)
    assert "1961 (labels with this number" in said(second)
    assert "_label_number=27-114-06" not in second
    assert "_label_number=C%2F14%2F61&amp;_label_year=1961&amp;_label_maker=PEL" in second


def test_labels_that_add_to_one_another_are_taken_together(client, demo):
    html = read(client, "27-114-06\nSIZE 4\n---\nDUNSALLOW 1974")

    assert "Versions that this label allows" in said(html)
    assert "_label_number=27-114-06&amp;_label_year=1974&amp;_label_maker=DUN" in html


def test_what_is_confirmed_on_the_second_label_counts_for_that_one(client, demo):
    text = "27-114-06\nDUNSALLOW 1974\n---\n27-I14-10\nGARRADINE 1988"
    html = read(client, text)
    name = re.search(r'name="(confirm-number-\d)" value="27-114-10"', html)[1]
    confirmed = read(client, text, **{name: "27-114-10"}).split('id="label-2"')

    assert name == "confirm-number-1"
    assert "_label_number=27-114-10" in confirmed[1]
    assert "_label_number=27-114-10" not in confirmed[0]


def test_the_year_of_a_contract_is_only_the_earliest_in_which_the_piece_was_made(client, demo):
    """Of BLO-71, made until 1988, a contract of 1985 says little; of one made until 1970 it says that it is not."""
    html = read(client, "27-114-06\nT/85/208", sewn="same")
    told = said(html)

    assert "Its contract T/85/208 says only that it was not made before 1985" in told
    assert "contract of 1985, so made that year or later (labels with this number 1971–1988)" in told
    assert "_label_contract=1985&amp;_label_sewn=same" in html
    assert "_label_year" not in html
    assert "against: contract of 1991, so made that year or later" in said(read(client, "27-114-06\nT/91/208"))


def test_the_fiscal_year_of_a_contract_is_a_bound_too(client, demo):
    html = read(client, "27-114-06\nDLA100-85-C-0456")

    assert "not made before 1984" in said(html)
    assert "_label_contract=1984" in html


def test_whatever_was_repaired_is_confirmed_by_a_tap_and_then_says_so(client, demo):
    text = "SIZE 18O/104\n1O0% W00L\nC/I4/61"
    asked = said(read(client, text))
    answered = said(
        read(client, text, **{"confirm-size": "0", "confirm-fibres": "none", "confirm-number-1": "C/14/61"})
    )

    assert "Fibres: printed “ 1O0% ”. Is it… 100 % wool" in asked
    assert "Size: printed “ 18O/104 ”. Is it… Fits a wearer of height 180 cm, chest 104 cm" in asked
    assert "Not used until confirmed: number C/I4/61." in asked
    assert "18O/104 confirmed by you: Fits a wearer" in answered
    assert "1O0% set aside by you" in answered
    assert "C/I4/61 confirmed by you: C/14/61" in answered
    assert "please confirm" not in answered


def test_how_the_label_is_sewn_in_is_asked_of_every_label_that_says_something(client, demo):
    html = read(client, LEDGER)
    told = said(html)

    assert "Does it belong to the piece?" in told
    assert "How is the label sewn in?" in told
    assert 'name="sewn"' not in read(client, "100% COTTON")


def test_a_second_row_of_holes_weakens_what_the_label_says_and_goes_along(client, demo):
    html = read(client, LEDGER, sewn="empty_row")

    assert "a second row of needle holes lies empty beside it. The label may well come from another piece" in said(html)
    assert "&amp;_label_sewn=empty_row" in html
    assert 'value="empty_row" checked' in html
    assert "_label_sewn" not in read(client, LEDGER, sewn="no such answer")


def test_a_year_that_waits_to_be_confirmed_is_not_taken_from_the_contract(client, demo):
    told = said(read(client, "27-114-06\nT/74/208\nMFD 2/79"))

    assert "Not used until confirmed: date" in told
    assert "the label prints none" not in told


def test_markup_on_a_label_is_shown_and_never_run(client, demo):
    html = read(client, "<script>alert(1)</script>\n<b>C/14/61</b>")

    assert "<script>alert" not in html
    assert "&lt;script&gt;alert(1)" in html


def test_a_type_narrows_and_is_kept(client, demo):
    html = read(client, "DUNSALLOW 1961", type="CAP")

    assert all(code.startswith("CAP") for code in versions_in(html))
    assert '<option value="CAP" selected>' in html


def test_a_number_on_no_record_is_said_to_be_new(client, demo):
    assert "27-999-01 is on no record" in said(read(client, "27-999-01"))


@pytest.mark.parametrize(
    ("typed", "chosen"), [("C/80/60", ""), ("100% ASBESTOS\nDUNSALLOW 1962", ""), ("DUNSALLOW 1962", "HOO")]
)
def test_what_must_stay_closed_is_not_held_against_the_light(client, demo, typed, chosen):
    told = said(read(client, typed, type=chosen))

    assert "How is the label sewn in?" not in told
    assert told.index("Do not open") < told.index("The label as written")


def test_asbestos_is_warned_of_before_anything_else(client, demo):
    told = said(read(client, "100% ASBEST\nC/80/61"))

    assert told.index("The label names asbestos") < told.index("The label as written")
    assert "Peat-fire hood" in told


def test_two_labels_that_differ_are_said_to(client, demo):
    told = said(read(client, "27-114-06\nDUNSALLOW 1975\n---\nDUNSALLOW 1985"))

    assert "The two labels differ" in told


TWO = "BLOUSE WORKING\n27-114-06\nDUNSALLOW 1974\nCOAT STRAND\n27-131-04\nEDDLEMUIR 1988"


def test_two_labels_in_one_text_are_parted_and_the_page_says_where(client, demo):
    html = read(client, TWO)
    told = said(html)

    assert "This looks like two labels, with a maker and a number each. They were parted before “ COAT STRAND ”" in told
    assert "DUNSALLOW 1974\n---\nCOAT STRAND" in html
    assert "Label 1, maker: DUNSALLOW" in told
    assert "Label 2, maker: EDDLEMUIR" in told
    assert "made by Eddlemuir" not in said(html.split('id="label-1"')[1].split('id="label-2"')[0])


def test_both_makers_that_one_label_names_go_along(client, demo):
    assert "_label_maker=DUN,GAR" in read(client, "27-114-06\nDUNSALLOW for GARRADINE 1980")


def test_whoever_says_that_it_is_one_label_has_it_read_as_one(client, demo):
    parted = TWO.replace("\nCOAT", "\n---\nCOAT")
    html = read(client, parted, **{"one-label": "yes"})

    assert "This looks like two labels" not in said(html)
    assert "Label 2" not in said(html)
    assert 'name="one-label" value="yes" checked' in html


def test_a_depot_s_mark_of_a_repair_is_shown_as_one_and_goes_along_beside_the_maker(client, demo):
    html = read(client, "SHIRT WARM STN\n27-150-01\nDUNSALLOW 1977\n---\nHALLINSCAR REP.")
    told = said(html)

    assert "mended or altered the piece: it did not make it." in told
    assert "mark of Hallinscar Depot workshop, whose work it is" in told
    assert "_label_maker=DUN&amp;_label_repair=HAL" in html


def test_a_number_outside_its_years_on_record_is_a_conflict_with_the_years(client, demo):
    """27-114-06 stood on labels of 1971 to 1988 (the demo's stock_numbers.csv)."""
    told = said(read(client, "27-114-06\nGARRADINE 1990"))

    assert "Does not agree: Number 27-114-06 is on record for 1971–1988; the label says 1990." in told
    assert "label of another piece?" in told


def test_a_number_outside_the_years_of_its_form_is_a_conflict_where_nothing_is_on_record_of_it(client, demo):
    """Stores numbers were given from 1971 (the demo's number_forms.csv); nobody has recorded 27-114-99."""
    told = said(read(client, "27-114-99\nGARRADINE 1966"))

    assert "Numbers written as 27-114-99 were in use 1971–2009; the label says 1966." in told
    assert "were in use" not in said(read(client, "27-114-99\nGARRADINE 1970"))


def test_the_leeway_of_a_year_is_said_in_words(client, demo):
    told = said(read(client, "27-114-06\nGARRADINE 1989"))

    assert "1989, a year beyond (labels with this number 1971–1988): allowed for" in told
    assert "Does not agree" not in told
    assert "a year beyond" not in said(read(client, "27-114-06\nGARRADINE 1988"))


def test_line_ends_of_a_form_do_not_shift_the_pieces(client, demo):
    html = read(client, "BLOUSE\r\nC/14/61\r\nDUNSALLOW 1961")

    assert '<bdi class="printed">C/14/61</bdi>' in html


def test_an_empty_reference_still_reads_a_label(client, db):
    told = said(read(client, "8415-12-345-6789\n100% COTTON"))

    assert "Catalogued by Germany" in told
    assert "is on no record" in told


def test_every_reason_has_words_for_people():
    assert set(REASON_WORDS) == set(REASONS)


@pytest.mark.parametrize(
    ("edtf", "spoken"),
    [
        ("1984", "1984"),
        ("1984-03", "March 1984"),
        ("1984-03-05", "5 March 1984"),
        ("1984-34", "second quarter of 1984"),
        ("1960~", "about 1960"),
        ("197X", "the 1970s"),
        ("[1984,1985]", "1984 or 1985"),
        ("[1939..1945]", "1939 to 1945"),
        ("1984-06-04/1984-06-10", "4 June 1984 to 10 June 1984"),
        ("1984?", "1984, uncertain"),
    ],
)
def test_dates_are_said_as_people_say_them(edtf, spoken):
    assert date_words(edtf) == spoken


def test_a_number_with_a_figure_too_many_is_explained_and_a_tap_puts_the_likely_one_in(client, demo):
    html = read(client, "BLOUSE\n27-114-066\nDUNSALLOW 1974")
    told = said(html)
    part = html.split('id="look-again"')[1].split("</section>")[0]
    texts = [unescape(one) for one in re.findall(r'name="text" value="([^"]*)"', part)]

    assert "A stores number has 2 figures in part 3 (running number of the pattern), here are 3. Misread?" in told
    assert texts == ["BLOUSE\n27-114-06\nDUNSALLOW 1974", "BLOUSE\n27-114-66\nDUNSALLOW 1974"]
    # Until somebody looks again it is no number: the versions are those of the maker and the year.
    assert "number 27-114-06" not in told
    assert "number 27-114-06" in said(read(client, texts[0]))


def test_a_number_that_lacks_a_figure_names_those_on_record_and_takes_none(client, demo):
    html = read(client, "BLOUSE\n27-114-1\nEDDLEMUIR")
    part = said(html.split('id="look-again"')[1].split("</section>")[0])

    assert "lacks a figure" in part
    assert "27-114-10" in part
    assert "<button" not in html.split('id="look-again"')[1].split("</section>")[0]
    assert "number 27-114-1" not in said(html)


def test_other_signs_between_the_figures_are_offered_as_the_service_writes_them(client, demo):
    told = said(read(client, "CON 1994-12\nLUMVIKAR"))

    assert "Nearly a contract number: CON 1994-12" in told
    assert "here are 4. Misread? Perhaps CON 94-12." in told
    assert "December 1994" not in told


def test_what_was_not_understood_has_no_strokes_of_the_lines_around_it(client, demo):
    assert "Not understood: “made for field use”." in said(
        read(client, "made for field use / SIZE 4 / C/14/61 / DUNSALLOW 1961")
    )


GUESSED = "BLOUSE W0RKING\n27-l14-O6\nSIZE 3\nT/8S/220\nDUNSALL0W 1984"


@pytest.mark.parametrize("answer", ["", "none"])
def test_a_guessed_contract_year_says_nothing_until_it_is_confirmed(client, demo, answer):
    told = said(read(client, GUESSED, **{"confirm-number-2": answer}))

    assert "T/85/220" in told
    assert "85: year of the contract" not in told
    assert "1985." not in told
    assert "before the year of the contract" not in told
    assert "contradicts something else on the label" not in told


def test_a_confirmed_contract_year_is_held_against_the_date(client, demo):
    told = said(read(client, GUESSED, **{"confirm-number-2": "T/85/220"}))

    assert "Does not agree: The date is before the year of the contract." in told


def test_the_year_of_a_contract_is_told_as_the_earliest_alone(client, demo):
    told = said(read(client, "T/88/269"))

    assert "Signed in 1988: the piece was not made before, perhaps years later." in told
    assert "So the year is" not in told


def test_two_numbers_of_one_form_are_asked_about_and_the_one_chosen_counts(client, demo):
    text = "27-114-06\n27-114-10"
    html = read(client, text)

    assert "Number: printed “ 27-114-06 and 27-114-10 ”. Is it…" in said(html)
    assert "Two different ones stand on the label." in said(html)
    assert "Not used until confirmed: number 27-114-06 and 27-114-10" in said(html)
    assert versions_in(html) == []
    of_the_second = read(client, text, **{"confirm-number-0": "27-114-10"})
    assert versions_in(of_the_second) == versions_in(read(client, "27-114-10"))
    assert said(of_the_second).count("confirmed by you: 27-114-10") == 2
    assert versions_in(read(client, text, **{"confirm-number-0": "none"})) == []


def test_what_is_explained_is_not_called_not_understood(client, demo):
    told = said(read(client, "BLOUSE WORKING QZX\nJ. WREN 4471203\nMILLER"))

    assert "Not understood: “QZX”" in told
    assert "J. WREN 4471203, note" in told
    assert "Perhaps a name: MILLER" in told


def test_a_word_that_nobody_knows_is_asked_about_as_a_name(client, demo):
    assert "Is this a person’s name? “MILLER”: no word that the society knows." in said(read(client, "MILLER"))
    for text in ("SMOCK FELL", "HOOD PEAT FIRE", "SHIRT WARM STN", "LING PRINT", "REPELLENT TREATED", "HALLINSCAR"):
        assert "Is this a person’s name?" not in said(read(client, text)), text


def test_a_word_of_a_caution_is_not_called_not_understood(client, demo):
    html = said(read(client, "ASBESTOS\nDUNSALLOW 1962"))

    assert "The label names asbestos." in html
    assert "Not understood" not in html


def test_a_year_within_another_number_is_told_and_not_weighed(client, demo):
    NumberForm.objects.filter(code="ledger").update(year_group=3)
    ReferenceState.mark_changed()
    html = read(client, "C/14/61")

    assert "The year in it is 1961. It is not taken for the year of making." in said(html)
    assert "_label_year" not in html
