"""The second factor, as the society's pages show it."""

from allauth.mfa.adapter import DefaultMFAAdapter
from django.conf import settings


class SecondFactorAdapter(DefaultMFAAdapter):
    error_messages = DefaultMFAAdapter.error_messages | {
        "incorrect_code": "That code is not right. Codes change every half minute; type the one shown now.",
        "unverified_email": "First verify your e-mail address; then a second factor can be added.",
    }

    def _get_site_name(self):
        """What an authenticator app and a passkey call this site."""
        return settings.SOCIETY_NAME

    def generate_authenticator_name(self, user, type):
        number = user.authenticator_set.filter(type=type).count() + 1
        return "My passkey" if number == 1 else f"My passkey {number}"
