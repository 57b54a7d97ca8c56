"""Every page of the book, read as a browser reads it: well formed, named, and with no door that leads nowhere."""

import re
from urllib.parse import urldefrag, urljoin, urlsplit

import pytest
from django.conf import settings
from django.contrib.staticfiles import finders

from catalogue.accounts.models import Member
from catalogue.review.models import Proposal
from tests.demo_pages import ADDRESSES, BEHIND_THE_CAUTION, every_record
from tests.html_reading import Page, read_html
from tests.reading import read_caution

pytestmark = pytest.mark.django_db
LEFT_OVER = re.compile(r"\{\{|\}\}|\{%|%\}|\[\]|\bnan\b|\bTrue\b|\bFalse\b")
# "None" is also an answer in words, which begins a sentence or stands alone.
NO_VALUE = re.compile(r"[^\s.:;(]\s*\bNone\b|\bNone\b\s*[\d–-]")
# A percentage or share with two decimals, and any number with so many that nobody can have measured it.
TOO_EXACT = re.compile(r"\d\.\d{2,}(?=\s*(?:%|percent|(?:in|of|out of) (?:100|1,000|ten)\b))|\b\d+\.\d{4,}")
LISTS = {
    "/": "The reference is empty",
    "/garment-types/": "No garment type is recorded yet",
    "/issue-versions/": "The reference holds no version yet",
    "/features/": "No feature is recorded yet",
    "/sources/": "No source is recorded yet",
    "/makers/": "No maker is recorded yet",
    "/open-questions/": "No question is recorded",
    "/which/": "No garment type has a recorded version yet",
    "/which/any-garment/": "The reference holds no version of any garment yet",
    "/compare/": "Two to four versions side by side",
    "/search/?q=smock": "Nothing on record is called “smock”",
}


def read(client, address: str) -> Page:
    response = client.get(address)
    assert response.status_code == 200, f"{address}: {response.status_code}"
    return read_html(response.content.decode())


def faults_of(page: Page) -> list[str]:
    """What is wrong with one page, in words."""
    faults = list(page.faults)
    faults += [f"id {one} stands twice" for one in sorted({i for i in page.ids if page.ids.count(i) > 1})]
    faults += [f"{one} is pointed to, but is no id" for one in page.labelled if one not in page.ids]
    faults += [] if len(page.headings) == 1 and page.headings[0].strip() else [f"first headings: {page.headings}"]
    faults += [] if re.fullmatch(r"\S.* · \S.*", page.title.strip(), re.DOTALL) else [f"title: {page.title!r}"]
    faults += [f"a link to {a.address} without words" for a in page.links if not (a.words.strip() or a.label)]
    left_over = [text for text in page.texts if LEFT_OVER.search(text) or NO_VALUE.search(text)]
    left_over += [value for value in page.values if LEFT_OVER.search(value) or re.search(r"(^|=)None$", value)]
    faults += [f"two full stops: {text[-200:]}" for text in page.texts if re.search(r"[^.\s]\.\.(?!\.)", text)]
    return faults + [f"left over: {' '.join(text.split())[:200]}" for text in left_over]


def too_exact(client, addresses: list[str]) -> dict[str, list[str]]:
    """By page what it tells to more decimals than anybody has measured."""
    return {
        address: found
        for address in dict.fromkeys(addresses)
        if (found := [text[-80:] for text in read(client, address).texts if TOO_EXACT.search(text)])
    }


def test_no_page_of_the_demo_tells_a_share_to_more_than_one_decimal(client, demo):
    sent = Proposal.objects.exclude(state="draft").values_list("pk", flat=True)
    read_caution(client, *BEHIND_THE_CAUTION)
    for_everybody = too_exact(client, [*ADDRESSES, *every_record()])
    client.force_login(Member.objects.get(username="Dunlin"))

    assert for_everybody | too_exact(client, ["/health/", *(f"/proposals/{pk}/" for pk in sent)]) == {}
    assert TOO_EXACT.search("it is 12.34 % of them")


def test_every_page_of_the_demo_is_well_formed_and_its_links_and_forms_lead_somewhere(client, demo):
    read_caution(client, *BEHIND_THE_CAUTION)
    pages = {address: read(client, address) for address in dict.fromkeys(ADDRESSES + every_record())}

    assert {address: faults for address, page in pages.items() if (faults := faults_of(page))} == {}
    assert broken_doors(client, pages) == {}


def broken_doors(client, pages: dict[str, Page]) -> dict[str, str]:
    """Addresses within the site that do not answer, or that lack the place pointed to; each with a page naming it.

    Of the many comparisons of two versions every tenth is visited.
    """
    named: dict[str, str] = {}
    for address, page in pages.items():
        doors = [link.address for link in page.links]
        doors += [action for method, action in page.forms if method == "get"] + page.files
        for door in doors:
            named.setdefault(urljoin(address, door), address)
    comparisons = sorted(door for door in named if door.startswith("/compare/?"))
    for door in set(comparisons) - set(comparisons[::10]):
        del named[door]
    ids = {address: set(page.ids) for address, page in pages.items()}
    broken = {}
    for door, where in named.items():
        if urlsplit(door).netloc:
            continue
        if door.startswith(settings.STATIC_URL):
            if not finders.find(door.removeprefix(settings.STATIC_URL)):
                broken[door] = f"no such file, named on {where}"
            continue
        target, place = urldefrag(door)
        if target not in ids:
            response = client.get(target, follow=True)  # a door for members leads a visitor to the sign-in
            if response.status_code != 200:
                broken[door] = f"{response.status_code}, named on {where}"
                continue
            html = "html" in response["Content-Type"]
            ids[target] = set(read_html(response.content.decode()).ids) if place and html else set()
        if place and place not in (ids[target] or read(client, target).ids):
            broken[door] = f"no such place, named on {where}"
    return broken


@pytest.mark.parametrize(("address", "words"), LISTS.items())
def test_an_empty_book_says_what_would_begin_it(client, db, address, words):
    page = read(client, address)

    assert faults_of(page) == []
    assert words in page.text


def test_the_doors_of_an_empty_book_lead_somewhere(client, db):
    assert broken_doors(client, {address: read(client, address) for address in LISTS}) == {}


@pytest.mark.parametrize(
    ("spoiled", "said"),
    [
        ("<p><b>x</p></b>", "</p> within <b>, line 1"),
        ("<ul><li>x</ul>", "</ul> within <li>, line 1"),
        ("<p>x", "<p> is never closed"),
        ("<p id='a' id='b'>x</p>", "an attribute twice on <p>, line 1"),
        ("<a href='/'>x<a href='/'>y</a></a>", "a link within a link, line 1"),
        ("<p id='a'></p><p id='a'></p>", "id a stands twice"),
        ("<label for='q'>x</label>", "q is pointed to, but is no id"),
        ("<h1>again</h1>", "first headings: ['One', 'again']"),
        ("<a href='/'> </a>", "a link to / without words"),
        ("<p>made in None</p>", "left over: made in None"),
        ("<p>[]</p>", "left over: []"),
        ("<a href='/?maker=None'>x</a>", "left over: /?maker=None"),
    ],
)
def test_this_reader_of_pages_notices_what_is_wrong(spoiled, said):
    page = read_html(f"<title>A page · A society</title><h1>One</h1>{spoiled}")

    assert said in faults_of(page)
