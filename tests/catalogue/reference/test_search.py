"""One box finds names, other names, makers, sources and numbers, however they are typed, and says what matched."""

import re

import pytest

from catalogue.reference.search import LONGEST_QUERY, other_spelling, search
from catalogue.reference.spelling import singular, slips
from tests.making import make_type, make_version
from tests.reading import text

pytestmark = pytest.mark.django_db
EXACTLY = [
    ("Smock, fell, Pattern 61", "SMK-61", ""),
    ("smk-61", "SMK-61", ""),
    ("moss smock", "SMK-61", "also called moss smock"),
    ("Ling smock, late contract", "SMK-CC", "sold as Ling smock, late contract; no such garment was ever issued"),
    ("faulty smock", "SMK-76T", "sold as faulty smock"),
    ("wind smock", "SMK", "also called wind smock"),
    ("Garradine & Daughters", "GAR", ""),
    ("T.S.C. and full year", "THO", "on its labels: T.S.C. and full year"),
    ("S01", "S01", ""),
    ("Strandfell Service", "SFS", ""),
    ("D1", "D1", ""),
]
FORGIVEN = [
    ("smokc", "smock", "SMK-61"),
    ("blousse", "blouse", "BLO-71"),
    ("fell smok", "fell smock", "SMK"),
    ("fel smokc", "fell smock", "SMK"),
    ("ling smokc patern", "ling smock pattern", "SMK-74L"),
    ("garadine", "garradine", "GAR"),
    ("smokc garradine", "smock garradine", "SMK-61"),
    ("SMOKC, fell, Pattern 61", "smock, fell, pattern 61", "SMK-61"),
]


def found(query: str) -> list[str]:
    return [one.entry.code for one in search(query)]


def whys(query: str) -> dict[str, str]:
    return {one.entry.code: one.why for one in search(query)}


def page(client, query: str) -> str:
    """The words of the answer, without the elements around them."""
    return " ".join(re.sub(r"<[^>]*>", "", text(client, f"/search/?q={query}")).split())


def test_what_is_called_exactly_so_comes_first_and_says_what_matched(demo):
    first = [(query, search(query)[0]) for query, _, _ in EXACTLY]

    assert [(query, one.entry.code, one.why) for query, one in first] == EXACTLY


def test_a_stock_number_is_found_in_any_punctuation(demo):
    for query in ("27-114-06", "2711406", "27 114 06", "27.114/06", " 27–114–06 ", "２７１１４０６"):
        assert found(query)[0] == "BLO-71", query
        assert whys(query)["BLO-71"].startswith("stores number 27-114-06, on labels of 1971–1988"), query


@pytest.mark.parametrize(
    ("query", "code"),
    [("SMK61", "SMK-61"), ("smk 61", "SMK-61"), ("SMK/61", "SMK-61"), ("smk–61", "SMK-61"), ("s.m.k. 61", "SMK-61"),
     ("blo cc", "BLO-CC"), ("BLOCC", "BLO-CC"), ("hoo60", "HOO-60"), ("S 01", "S01"), ("d-1", "D1")],
)  # fmt: skip
def test_a_code_is_found_first_in_any_punctuation_and_needs_no_reason(demo, query, code):
    assert (found(query)[0], whys(query)[code]) == (code, "")


def test_part_of_a_number_finds_it_and_says_that_it_is_a_part(demo):
    assert whys("114-06")["BLO-71"].startswith("part of ")
    assert whys("1140")["BLO-71"].startswith("part of ")


def test_a_number_with_a_wrong_figure_is_offered_with_the_right_one(client, demo):
    said = page(client, "27-114-60")

    assert "Nothing on record is called “27-114-60”" in said
    assert "Spelled nearly so:" in said
    assert "27-114-06" in said


def test_an_empty_query_is_not_answered_with_everything(client, demo):
    for query in ("", "   ", "\t"):
        assert found(query) == []
        assert "A name, a nickname, a seller’s name" in page(client, query)


def test_a_query_of_thousands_of_characters_is_cut_and_answered(client, demo):
    said = text(client, f"/search/?q={'x' * 4_000}")

    assert f'value="{"x" * LONGEST_QUERY}"' in said
    assert "Nothing on record is called" in said


def test_a_query_of_ten_thousand_characters_is_refused_in_plain_words(client, demo):
    response = client.get("/search/", {"q": "smock " * 1_666})

    assert response.status_code == 414
    assert response["Content-Type"].startswith("text/plain")
    assert "too long" in response.content.decode()


def test_one_letter_or_one_sign_is_no_error_and_shows_no_more_than_a_page(client, demo):
    for query in ("s", "é", "7", "%", "_", "*", "“", "\\", "\0", "<b>"):
        said = client.get("/search/", {"q": query}).content.decode()

        assert "<h1>Search</h1>" in said, query
        assert said.count('<span class="code">') <= 60, query
        assert "<b>" not in said


def test_one_letter_says_how_many_are_left_out(client, demo):
    assert re.search(r"\d+ found; the last \d+ are left out: add a word", page(client, "s"))


@pytest.mark.parametrize("query", ["größe", "GRÖSSE", "Grosse", "gro\u0308ße"])
def test_accents_and_capitals_do_not_matter(db, query):
    make_version(make_type("X", name="Coat"), "X-1", name="Große Größe")

    assert found(query)[0] == "X-1"


def test_words_in_any_order_say_where_those_stand_that_the_row_does_not_show(demo):
    assert whys("garradine 1961 smock fell")["SMK-61"] == "made by Garradine & Daughters"
    assert whys("moss 61 garradine")["SMK-61"] == "also called moss smock; made by Garradine & Daughters"
    assert whys("pattern fell 61")["SMK-61"] == ""


def test_a_row_whose_title_shows_the_match_says_nothing_more(client, demo):
    assert "words" not in page(client, "pattern fell 61").split("found.")[1].split("All versions")[0]


def test_a_misspelt_word_is_forgiven_alone_and_among_others(client, demo):
    for query, meant, code in FORGIVEN:
        said = text(client, f"/search/?q={query}")

        assert f"Nothing on record is called “{query}”. This is what “{meant}” finds." in said
        assert f"/{code}/" in said
        assert f'value="{query}"' in said, "what was typed is kept"


def test_a_plural_finds_what_its_singular_finds_behind_what_is_spelled_so(demo):
    for many, one in (("smocks", "smock"), ("fell smocks", "fell smock"), ("caps", "cap"), ("Coats", "coat")):
        assert set(found(one)) <= set(found(many)), many
    assert "D2" in found("smocks"), "a question has the word itself"
    assert {code[:3] for code in found("trousers")[:5]} == {"TRO"}


def test_a_plural_is_no_misspelt_word(client, demo):
    for query in ("caps", "liners", "fell smocks"):
        said = page(client, query)
        assert "Nothing on record" not in said
        assert "Perhaps you look for" not in said


@pytest.mark.parametrize(
    ("word", "meant"),
    [("straps", "strap"), ("patches", "patch"), ("bodies", "body"), ("knives", "knife"), ("loaves", "loaf"),
     ("dress", "dress"), ("buses", "bus"), ("as", "as"), ("trousers", "trousers"), ("cuffs,", "cuff,")],
)  # fmt: skip
def test_plurals_by_their_ends(word, meant):
    """The usual ends of English plurals; common practice, no source."""
    known = dict.fromkeys(("strap", "patch", "body", "knife", "loaf", "dress", "bus", "cuff", "pas"), 1)

    assert singular(word, known) == meant


@pytest.mark.parametrize(
    ("query", "first", "said"),
    [
        ("a smokc from garradine", "SMK-61", "These have 2 of 3: smock, from, garradine."),
        ("fell smokc pattern sixty one", "SMK-61", "These have 3 of 5: fell, smock, pattern,"),
        ("zzzzqqq blousse", "BLO", "These have 1 of 2: zzzzqqq, blouse."),
    ],
)
def test_a_long_query_of_which_some_words_stand_nowhere_finds_what_has_most_of_them(client, demo, query, first, said):
    told = page(client, query)

    assert f"Nothing on record has all the words of “{query}”. {said}" in told
    assert f"/{first}/" in text(client, f"/search/?q={query}")


def test_a_word_that_finds_only_what_begins_with_it_is_offered_near_words_too(client, demo):
    said = text(client, "/search/?q=smok")

    assert "/garment-types/HOO/" in said, "the smoke hood"
    assert 'Perhaps you look for <a href="/search/?q=smock">smock</a>' in said


def test_a_query_of_known_words_is_offered_nothing_else(client, demo):
    for query in ("smock", "fell smock", "moss smock", "27-114", "2711406", "SMK-6", "smock pattern"):
        assert "Perhaps you look for" not in text(client, f"/search/?q={query}"), query


def test_the_words_that_are_offered_find_something(demo):
    for query in ("smok", "cot", "linn", "hod", "capp hil", "harbor vest", "strnd cot"):
        other = other_spelling(query, search(query))
        assert other, query
        assert search(other), (query, other)


@pytest.mark.parametrize(
    ("typed", "meant", "number"),
    [
        ("smock", "smock", 0),
        ("smokc", "smock", 1),
        ("smok", "smock", 1),
        ("smoock", "smock", 1),
        ("smick", "smock", 1),
        ("ca", "abc", 3),
        ("kitten", "sitting", 3),
        ("", "ab", 2),
    ],
)
def test_slips_are_counted_with_neighbours_swapped_as_one(typed, meant, number):
    """From memory: kitten and sitting, the usual example of the edit distance; ca and abc, that of its restricted
    form, which edits no part twice."""
    assert slips(typed, meant) == slips(meant, typed) == number


def test_nothing_near_says_so_and_what_can_be_done(client, demo):
    said = page(client, "zzzzqqq")

    assert "Nothing on record is called “zzzzqqq”" in said
    assert "begin with what it looks like" in said


def test_figures_that_may_stand_on_a_label_can_be_had_read_from_the_search(client, demo):
    """A contract's number is of no version; the label page says what it means."""
    page = text(client, "/search/?q=CON 94-12")
    form = re.search(r'<form method="post" action="(/label/)">.*?name="text" value="([^"]*)"', page, re.DOTALL)

    assert form.groups() == ("/label/", "CON 94-12")
    assert "contract" in client.post("/label/", {"text": "CON 94-12"}).content.decode().lower()
    assert "Does it stand on a label?" not in text(client, "/search/?q=smock")
