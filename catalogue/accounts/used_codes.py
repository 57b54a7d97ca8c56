"""A code of an authenticator app opens once."""

from allauth.mfa.models import Authenticator
from allauth.mfa.signals import authenticator_added
from allauth.mfa.totp.internal.auth import TOTP
from django.dispatch import receiver


@receiver(authenticator_added)
def use_up_the_first_code(request, authenticator, **_) -> None:
    """A code is taken once (RFC 6238, 5.2), so the one with which the app was set up opens nothing afterwards; the
    library itself counts only those of a sign-in."""
    if authenticator.type == Authenticator.Type.TOTP:
        TOTP(authenticator).validate_code(request.POST.get("code", ""))
