"""Finding pieces by their code or by what stands on their labels."""

from django.db.models.functions import Length

from catalogue.member_examples.addresses import gallery_address
from catalogue.member_examples.filters import SHORTEST_IN_A_LABEL, code_or_label, visible_to
from catalogue.member_examples.gallery import row_of, with_particulars
from catalogue.member_examples.gates import is_member, is_moderator
from catalogue.member_examples.models import Example
from catalogue.member_examples.models.particulars import bare_text
from catalogue.member_examples.words import NameOnLabel

MOST = 8


def found_examples(query: str, person) -> dict:
    """Rows for the search page, how many there are, and the address of all of them."""
    query = query.strip()
    if not query:
        return {"rows": [], "number": 0, "more": False}
    member = is_member(person)
    found = visible_to(person if member else None, moderator=is_moderator(person)).filter(code_or_label(query))
    number = found.count()
    rows = with_particulars(found).prefetch_related("labels").order_by(Length("code"), "code")[:MOST] if number else []
    return {
        "rows": [row_of(example) | {"why": why(example, query)} for example in rows],
        "number": number,
        "more": number > MOST,
        "address": gallery_address(q=query),
    }


def why(example: Example, query: str) -> str:
    """Where it stands on a label; nothing where the code was asked for, or where a name is not yet masked."""
    bare = bare_text(query)
    if (
        len(bare) < SHORTEST_IN_A_LABEL
        or example.code.casefold() == query.casefold()
        or example.name_on_label == NameOnLabel.TO_MASK
    ):
        return ""
    for label in example.labels.all():
        if bare in label.bare:
            lines = [line for line in label.text.splitlines() if bare in bare_text(line)]
            return f"on a label: {lines[0] if lines else label.text.replace(chr(10), ' / ')}"
    return ""
