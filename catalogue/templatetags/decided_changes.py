"""What was decided on a source or a version, for its page in the reference: the changes that cite the source, how a
version came to be retired, and what was taken back."""

from django import template

from catalogue.review.records import citing, standing_again

register = template.Library()


@register.simple_tag
def changes_citing(source) -> dict[str, list[dict]]:
    """The approved changes that a source was cited for, the latest first: those that stand, and those revoked since."""
    rows = citing.changes_citing(source.code)
    return {
        "stand": [one for one in rows if one["revoked_on"] is None],
        "revoked": [one for one in rows if one["revoked_on"] is not None],
    }


@register.simple_tag
def how_retired(version, number: int) -> dict | None:
    """By what decision a version was retired; None where by none."""
    return standing_again.how_retired(version.code, number=number)


@register.simple_tag
def taken_back_of(version, number: int) -> list[dict]:
    """Merges and splits of a version in force that were revoked, so that it stands again."""
    return standing_again.taken_back(version.code, number=number)


@register.filter
def but_withdrawn(linked: list[dict], number: int) -> list[dict]:
    """Of retired versions those that are not only the parts of a split that was revoked."""
    gone = standing_again.withdrawn(number=number)
    return [one for one in linked if one["code"] not in gone]
