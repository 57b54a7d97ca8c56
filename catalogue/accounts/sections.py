"""What slices know of a person: a section of their own page, one of their public page, a part of their export, and
what has to go when they leave.

A slice that comes later registers its parts in its own module `member_parts`, named in `catalogue/member_parts.py`:

    register(MemberPart(name="submissions", heading="What I have submitted", template="member_examples/mine.html", …))
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field


def nothing(*args) -> None:
    return None


@dataclass(frozen=True)
class MemberPart:
    """Everything that one slice keeps of a person under one name.

    - `own(member)`: the context of `template` on the member's own page; None leaves the section out.
    - `public(member)`: the same for what they chose to show, with `public_template`; None when there is nothing.
    - `export(member)`: what belongs into their export: dicts, lists, texts, numbers, dates.
    - `files(member)`: pairs of a name and bytes to put beside it.
    - `forget(member)`: called in the transaction in which the member leaves.
    """

    name: str
    heading: str
    template: str = ""
    public_template: str = ""
    own: Callable = nothing
    public: Callable = nothing
    export: Callable = nothing
    files: Callable[..., Iterable[tuple[str, bytes]]] = field(default=lambda member: ())
    forget: Callable = nothing


registered: dict[str, MemberPart] = {}


def register(part: MemberPart) -> None:
    """Add a part. A second one of the same name is a fault."""
    if part.name in registered:
        raise ValueError(f"There is a part {part.name!r} already.")
    registered[part.name] = part


def parts_of_a_person() -> list[MemberPart]:
    """All parts, in the order in which slices registered them."""
    return list(registered.values())


@dataclass(frozen=True)
class Section:
    """A part as a page shows it."""

    name: str
    heading: str
    template: str
    context: dict


def own_sections(member) -> list[Section]:
    """What stands on a member's own page."""
    found = ((part, part.own(member)) for part in parts_of_a_person() if part.template)
    return [Section(p.name, p.heading, p.template, context) for p, context in found if context is not None]


def public_sections(member) -> list[Section]:
    """What a member shows to others."""
    found = ((part, part.public(member)) for part in parts_of_a_person() if part.public_template)
    return [Section(p.name, p.heading, p.public_template, context) for p, context in found if context is not None]
