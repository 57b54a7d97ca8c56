"""No form answers with a sentence of the framework's: whatever nonsense comes in is refused in the site's own words."""

import re
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

import pytest
from django import forms
from django.urls import Resolver404, resolve

from catalogue.accounts.models import Member
from tests.forms import Sent

STOCK = re.compile(
    r"Select a valid|available choices|This field (is required|cannot be)|Enter a |Ensure (this|that)|"
    r"is not a valid (choice|value)|No file was submitted|submitted file|Upload a valid|Null characters|ManagementForm"
)
NONSENSE = "no such thing & nothing"
BEGIN = {
    "Turnstone": ["/my/", "/my-pieces/new/", "/sets/new/", "/label/", "/examples/", "/open-questions/D1/"],
    "Plover": ["/my/", "/features/closure/", "/issue-versions/BLO-86/", "/figures/board/SMK/", "/proposals/"],
    "Dunlin": ["/my/", "/pieces-that-wait/", "/proposals/", "/not-reviewed/", "/my/away/", "/sources/S01/"],
    "Knot": ["/my/", "/society/", "/society/requests/"],
}
# Some of the forms that are met, so that a page whose links changed is missed.
MET = {
    "Turnstone": {"submitting:new", "member_examples:new_set", "submitting:new_alteration", "accounts:add"},
    "Plover": {"member_examples:differently", "feature_records:new", "figures:choose_drawing"},
    "Dunlin": {"examples_queue:piece", "deputies:away", "submitting:condition", "submitting:new_label"},
    "Knot": {"accounts:role", "member_examples:altered"},
}
# Where no form by POST stands, and none is led to that is not led to from elsewhere.
WITHOUT_FORMS = ("walk_through:", "telling_apart:", "details:", "mistakes:", "records:", "health:", "figures:version")


class Page(HTMLParser):
    """Links of the page itself, and of each form by POST its address and the names of what is chosen in it."""

    def __init__(self, page: str):
        super().__init__()
        self.links: list[str] = []
        self.forms: list[tuple[str, set[str]]] = []
        self.within = self.in_main = False
        self.feed(page)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.in_main = self.in_main or tag == "main"
        if tag == "form":
            self.within = given.get("method", "").lower() == "post"
            if self.within:
                self.forms.append((given.get("action", ""), set()))
        chosen = tag == "select" or (tag == "input" and given.get("type") in ("radio", "checkbox"))
        if self.within and chosen and given.get("name"):
            self.forms[-1][1].add(given["name"])
        if tag == "a" and self.in_main and given.get("href", "").startswith(("/", "?")):
            self.links.append(given["href"])

    def handle_endtag(self, tag):
        if tag == "form":
            self.within = False


def name_of(address: str) -> str:
    try:
        return resolve(urlsplit(address).path).view_name
    except Resolver404:
        return ""


def walked(client, begin: list[str], *, most: int = 400):
    """Pages of the site that can be reached, of each sort one: their address and what stands on them."""
    waiting, met = list(begin), set()
    while waiting and most:
        address = waiting.pop(0)
        name = name_of(address)
        if not name or name.startswith(("admin:", *WITHOUT_FORMS)) or name in met:
            continue
        met.add(name)
        most -= 1
        answer = client.get(address, follow=True)
        if answer.status_code != 200 or "html" not in answer.get("Content-Type", ""):
            continue
        here = answer.redirect_chain[-1][0] if answer.redirect_chain else address
        page = Page(answer.content.decode())
        waiting += [urljoin(here, link) for link in page.links]
        yield here, answer.content.decode(), page


@pytest.mark.parametrize("name", BEGIN)
def test_nonsense_in_every_choice_of_every_form_is_refused_in_our_own_words(client, demo_pieces, name):
    person = Member.objects.get(username=name)
    client.force_login(person)
    tried, stock = set(), {}
    for here, text, page in walked(client, BEGIN[name]):
        for action, chosen in page.forms:
            where = urljoin(here, action)
            if not chosen or name_of(where) in tried:
                continue
            tried.add(name_of(where))
            sent = Sent(text, of=action).sent | dict.fromkeys(chosen, NONSENSE)
            answer = client.post(where, sent)
            if found := STOCK.search(answer.content.decode()):
                around = answer.content.decode()[max(0, found.start() - 200) : found.end() + 100]
                stock[where] = around
            client.force_login(person)
    assert stock == {}
    assert MET[name] - tried == set()


@pytest.mark.parametrize(
    ("field", "given"),
    [
        (forms.CharField(), ""),
        (forms.CharField(max_length=2), "abc"),
        (forms.ChoiceField(choices=[("a", "A")]), NONSENSE),
        (forms.MultipleChoiceField(choices=[("a", "A")]), [NONSENSE]),
        (forms.MultipleChoiceField(choices=[("a", "A")]), NONSENSE),
        (forms.ModelChoiceField(Member.objects.all()), NONSENSE),
        (forms.ModelMultipleChoiceField(Member.objects.all()), [NONSENSE]),
        (forms.IntegerField(), NONSENSE),
        (forms.IntegerField(max_value=3), 4),
        (forms.IntegerField(min_value=3), 2),
        (forms.FloatField(), NONSENSE),
        (forms.DecimalField(max_digits=2, decimal_places=1), "1.234"),
        (forms.DateField(), NONSENSE),
        (forms.DateTimeField(), NONSENSE),
        (forms.EmailField(), NONSENSE),
        (forms.URLField(assume_scheme="https"), NONSENSE),
        (forms.UUIDField(), NONSENSE),
        (forms.FileField(), None),
        (forms.CharField(), "a\0"),
    ],
)
def test_every_kind_of_field_says_in_our_words_what_is_wrong(db, field, given):
    with pytest.raises(forms.ValidationError) as refused:
        field.clean(given)
    said = " ".join(refused.value.messages)
    assert said
    assert not STOCK.search(said), said
