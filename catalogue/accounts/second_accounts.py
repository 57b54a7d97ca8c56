"""Which accounts share a mailbox: one person counts once, however many accounts they have."""

from catalogue.accounts.mailboxes import same_person
from catalogue.accounts.models import Member


def addresses(member: Member) -> list[str]:
    """Every e-mail address of an account, verified or not."""
    return [member.email, *member.emailaddress_set.values_list("email", flat=True)]


def members_of_the_mailbox(asker: Member) -> list[Member]:
    """Those who were admitted already and whose mailbox this account has too."""
    own = addresses(asker)
    others = Member.objects.admitted().exclude(pk=asker.pk).prefetch_related("emailaddress_set").order_by("username")
    return [one for one in others if same_person(own, [one.email, *(of.email for of in one.emailaddress_set.all())])]
