"""What this slice keeps of a person: scans stay when they leave, as the proposals do that brought them."""

from contextlib import suppress

from catalogue.accounts.sections import MemberPart, register
from catalogue.member_examples.photographs import keeping
from catalogue.member_examples.photographs.limits import SIZES
from catalogue.reference.models import SourceScan


def scans_of(member):
    return SourceScan.objects.filter(proposal__by=member).select_related("source", "proposal")


def exported(member) -> list[dict]:
    return [
        {
            "number": one.pk,
            "source": one.source.code,
            "proposal": one.proposal.pk,
            "shows": one.shows or one.proposal.rows.get("shows", ""),
            "shown": one.shown,
            "put in on": one.made_at,
        }
        for one in scans_of(member)
    ]


def exported_files(member):
    """The largest stored size of each that is kept."""
    for one in scans_of(member).exclude(key=""):
        with suppress(OSError):
            yield f"scan-{one.pk}.webp", keeping.read(one.key, SIZES[0])


register(MemberPart(name="scans", heading="Scans of sources", export=exported, files=exported_files))
