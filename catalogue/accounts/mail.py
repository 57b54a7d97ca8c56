"""Messages that the society sends of its own accord."""

import logging

from django.conf import settings
from django.core.mail import EmailMessage
from django.template.loader import render_to_string

logger = logging.getLogger(__name__)
# RFC 3834, section 5: nobody's out-of-office answer comes back to it.
SENT_BY_ITSELF = {"Auto-Submitted": "auto-generated"}


def send(name: str, to: str, **context) -> bool:
    """Send `accounts/mail/NAME.txt`, whose first line is the subject; whether it went out. A failure goes to the log.

    A line break in a name cannot begin another header: the subject is one line.
    """
    text = render_to_string(f"accounts/mail/{name}.txt", context | {"society_name": settings.SOCIETY_NAME})
    subject, _, body = text.strip().partition("\n")
    try:
        EmailMessage(subject.strip(), body.strip() + "\n", None, [to], headers=SENT_BY_ITSELF).send()
    except OSError:
        logger.exception("No mail could be sent")
        return False
    return True


def on_the_site(path: str) -> str:
    """The whole address of a page, for mails that no visit sends; nothing where the site does not know its own."""
    return f"{settings.ADDRESS}{path}" if settings.ADDRESS else ""


def address_of(member) -> str:
    """The verified address of a person, or nothing."""
    found = member.emailaddress_set.filter(verified=True).order_by("-primary", "pk").first()
    return found.email if found else ""
