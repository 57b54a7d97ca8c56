"""What a seller called a piece, beside what the society holds it to be."""

from catalogue.member_examples.models import Example
from catalogue.reference.snapshots import type_of_version


def sold_as_another(example: Example, *, number: int) -> bool:
    """Whether its seller named a version that the society does not hold it to be; what a version was since split or
    merged into is no other."""
    sold, held = example.sold_as_version, example.held_as
    if sold is None or held is None or sold == held:
        return False
    if not sold.retired_why:
        return True
    home = type_of_version(held.code, number=number)
    return home is None or not home.is_now(sold.code, held.code)
