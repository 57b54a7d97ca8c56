"""How the sign-in library behaves here: whose names are taken, where people are sent, what mail says."""

import logging

from allauth.account.adapter import DefaultAccountAdapter
from django.contrib import messages
from django.core.exceptions import ImproperlyConfigured, ValidationError
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme

from catalogue.accounts import attempts, names
from catalogue.accounts.actions import admit_invited
from catalogue.accounts.devices import browser_words
from catalogue.accounts.mail import SENT_BY_ITSELF
from catalogue.accounts.models import Member

logger = logging.getLogger(__name__)
WRONG = "That name or address and that password do not belong together. Nothing else is told, to protect members."


class SignInAdapter(DefaultAccountAdapter):
    error_messages = DefaultAccountAdapter.error_messages | {
        "email_password_mismatch": WRONG,
        "username_password_mismatch": WRONG,
        attempts.TOO_MANY: (
            "Too many attempts did not succeed. Wait five minutes, or set a new password with “Forgotten password”."
        ),
        attempts.SLOWLY: (
            "Too many wrong passwords were typed where you are, by whomever. So each name has one attempt a minute "
            "from there: wait a minute, then try again."
        ),
        "rate_limited": "That was asked for a moment ago. Wait a little, then try again.",
        "username_taken": "Somebody has that name, or one that looks like it. Choose another.",
        "incorrect_code": "That code is not right. Look again, or ask for a new one.",
        "incorrect_password": "That is not your password.",
        "enter_current_password": "That is not your present password.",
        "invalid_password_reset": "This link has been used, or is too old. Ask for a new one.",
    }

    def clean_username(self, username, shallow=False):
        """The tidied display name. Raises ValidationError with the reason why it will not do."""
        if refusal := names.reason_not_to_take(username):
            raise ValidationError(refusal)
        name = names.tidy(username)
        if not shallow and Member.objects.called(name).exists():
            raise self.validation_error("username_taken")
        return name

    def send_notification_mail(self, template_prefix, user, context=None, email=None):
        """Says by what browser it was done, in the words that the list of devices has."""
        browser = browser_words(self.get_http_user_agent(self.request))
        return super().send_notification_mail(template_prefix, user, {"browser": browser} | (context or {}), email)

    def confirm_email(self, request, email_address):
        """Who was invited is a member from the moment the address is verified."""
        confirmed = super().confirm_email(request, email_address)
        if confirmed:
            admit_invited(member=Member.objects.get(pk=email_address.user_id), now=timezone.now())
        return confirmed

    def is_safe_url(self, url):
        """Only pages of this site, under the name it was asked by."""
        return url_has_allowed_host_and_scheme(url, {self.request.get_host()}, require_https=self.request.is_secure())

    def get_client_ip(self, request):
        """The address that attempts are counted by; a visit that did not come through the proxies counts as itself."""
        try:
            return super().get_client_ip(request)
        except ImproperlyConfigured:
            return request.META.get("REMOTE_ADDR", "")

    def pre_authenticate(self, request, **credentials):
        """In place of the library's counts, which lock out everybody at one address of the network."""
        self._login_failed_rl_usage, refusal = attempts.count_attempt(request, credentials)
        if refusal:
            raise self.validation_error(refusal)

    def _delete_login_attempts_cached_email(self, request, **credentials):
        attempts.forget_attempts(request, credentials)

    def render_mail(self, template_prefix, email, context, headers=None):
        return super().render_mail(template_prefix, email, context, SENT_BY_ITSELF | (headers or {}))

    def send_mail(self, template_prefix, email, context):
        """A mail server that fails is told to the person and to the log, and stops no page."""
        try:
            super().send_mail(template_prefix, email, context)
        except OSError:
            logger.exception("No mail could be sent")
            messages.error(
                self.request,
                "The message could not be sent just now. Try again in a while; if it stays so, tell the secretary.",
            )
