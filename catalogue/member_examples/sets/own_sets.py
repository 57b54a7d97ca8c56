"""The sets that a member made: for their own page, their export, and the day they leave."""

from catalogue.accounts.models import Member
from catalogue.accounts.names import without_name
from catalogue.member_examples.models import Example, ExampleSet
from catalogue.member_examples.sets.page import set_row

IN_SECTION = 6


def latest(member: Member) -> dict | None:
    """A few of them, the newest first; nothing for who has no piece and no set."""
    found = list(ExampleSet.objects.filter(made_by=member).order_by("-made_at", "-pk")[: IN_SECTION + 1])
    if not found and not Example.objects.filter(owner=member).exists():
        return None
    return {"rows": [set_row(one) for one in found[:IN_SECTION]], "more": len(found) > IN_SECTION}


def exported(member: Member) -> list[dict]:
    made = ExampleSet.with_dissolved.filter(made_by=member).prefetch_related("places__example").order_by("pk")
    return [
        {
            "code": one.code,
            "name": one.name,
            "originally together": one.together,
            "fasten to each other": one.fasten,
            "grounds": one.grounds,
            "pieces": [place.example.code for place in one.places.all()],
            "made on": one.made_at,
            "dissolved on": one.dissolved_at,
        }
        for one in made
    ]


def forget(member: Member) -> None:
    """When a member leaves: what nobody else sees goes; a set that others read stays, under no name."""
    accepted = Example.objects.accepted()
    for one in ExampleSet.with_dissolved.filter(made_by=member):
        if one.dissolved_at or one.places.filter(example__in=accepted).count() < 2:
            one.delete()
            continue
        one.name, one.grounds = (without_name(text, member.username) for text in (one.name, one.grounds))
        one.save(update_fields=["name", "grounds"])
