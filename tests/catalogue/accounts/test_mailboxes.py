"""However an address is written that a form takes, it is read as the one mailbox that gets its mail."""

import pytest
from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from hypothesis import given
from hypothesis import strategies as st

from catalogue.accounts.mailboxes import mailbox, same_person

LOCALS = st.text("abcdefghijklmnopqrstuvwxyz0123456789_-", min_size=1, max_size=12)
DOMAINS = st.sampled_from(["example.org", "bücher.example", "mail.straße.example", "x.example"])
WIDE = {ord(sign): ord(sign) + 0xFEE0 for sign in "abcdefghijklmnopqrstuvwxyz"}


def in_quotation_marks(local: str, domain: str) -> tuple[str, str]:
    return (local, domain) if local.startswith('"') else (f'"{local}"', domain)


def tagged(local: str, domain: str) -> tuple[str, str]:
    return (f'{local[:-1]}+coats"' if local.endswith('"') else f"{local}+coats"), domain


def dotted(local: str, domain: str) -> tuple[str, str]:
    return (local if len(local) < 2 or not local[:2].isalnum() else f"{local[0]}.{local[1:]}"), domain


# Each leaves the address with the person to whom it belongs.
WRITTEN_OTHERWISE = {
    "in capitals": lambda local, domain: (local.upper(), domain.upper().replace("SS", "ß")),
    "in quotation marks": in_quotation_marks,
    "with a tag": tagged,
    "with a dot in the local part": dotted,
    "the domain in ASCII": lambda local, domain: (local, domain.encode("idna").decode()),
    "the domain in wide letters": lambda local, domain: (local, domain.lower().translate(WIDE)),
    "an invisible sign in the domain": lambda local, domain: (local, f"{domain[:1]}\u00ad{domain[1:]}\u200b"),
}


def taken_by_a_form(address: str) -> bool:
    try:
        validate_email(address)
    except ValidationError:
        return False
    return True


@given(LOCALS, DOMAINS, st.lists(st.sampled_from(sorted(WRITTEN_OTHERWISE)), max_size=5))
def test_an_address_written_otherwise_is_the_same_mailbox(local, domain, ways):
    plain = f"{local}@{domain}"
    for way in ways:
        local, domain = WRITTEN_OTHERWISE[way](local, domain)

    assert mailbox(f" {local}@{domain} ") == mailbox(plain)
    assert mailbox(f"{local}@{domain}.") == mailbox(plain)
    assert same_person([plain], ["other@x.example", f"{local}@{domain}"])


@given(LOCALS, LOCALS, DOMAINS)
def test_two_names_at_one_host_are_two_people(one, other, domain):
    assert same_person([f"{one}@{domain}"], [f"{other}@{domain}"]) == (one == other)


@given(LOCALS)
def test_one_name_at_two_hosts_is_two_people(name):
    assert not same_person([f"{name}@example.org"], [f"{name}@x.example"])


@pytest.mark.parametrize("way", sorted(WRITTEN_OTHERWISE))
def test_every_such_way_of_writing_is_one_that_a_form_takes(way):
    local, domain = WRITTEN_OTHERWISE[way]("ada", "bücher.example")

    assert taken_by_a_form(f"{local}@{domain}")


# RFC 5233: what stands behind the + of a local part is a detail; RFC 5321 lets a host read capitals in the local part
# otherwise, which common practice does not. A sign that only looks like a letter, as that of the kelvin, is the letter.
@pytest.mark.parametrize(
    ("address", "meant"),
    [
        ("Ada+Coats@Example.ORG", "ada@example.org"),
        (" ada@example.org ", "ada@example.org"),
        ("ada@example.org.", "ada@example.org"),
        (r'"a\da"@example.org', "ada@example.org"),
        ("ada@xn--bcher-kva.example", "ada@xn--bcher-kva.example"),
        ("ada@Bücher.example", "ada@xn--bcher-kva.example"),
        ("\u212anot@example.org", "knot@example.org"),
        ("+a@x.y", "+a@x.y"),
        ("a+b+c@x.y", "a@x.y"),
        ("ada@[192.0.2.1]", "ada@[192.0.2.1]"),
        ("", ""),
        ("nobody", ""),
    ],
)
def test_an_address_is_read_as_the_mailbox_that_it_names(address, meant):
    assert mailbox(address) == meant


def test_nobody_shares_a_mailbox_by_having_none():
    assert not same_person(["", "nobody"], ["", "nobody"])
