"""What was decided on a source or a version, for its page in the reference: the changes that cite the source, how a
version came to be retired, what was taken back, and what was changed of what versions rest on."""

from django import template

from catalogue.reference.backing_rows import BACKINGS
from catalogue.review.backing.told import told_of
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


@register.inclusion_tag("review/backing/changes.html", takes_context=True)
def changes_of(context, record, *, link: bool = True):
    """What was changed of a maker, a service, a source or a number form, and what waits; `link`: whether the way to
    propose a change stands below for who may."""
    table = record._meta.model_name
    told = told_of(table, record.code, context["request"].user)
    return told | {"sort": BACKINGS[table].sort, "link": link}
