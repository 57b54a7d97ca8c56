"""Forms of the sign-in, in the site's words. What is typed stands under a label, never in the field as a hint."""

import struct

from allauth.account import forms as account
from allauth.mfa.base import forms as second
from allauth.mfa.totp import forms as totp
from allauth.mfa.webauthn import forms as webauthn
from django import forms
from django.db import IntegrityError, transaction
from django.utils import timezone

from catalogue.accounts.actions import ask_to_join, take_invitation
from catalogue.accounts.refusals import CannotDo
from catalogue.typed_words import WordsField

PASSWORD_HELP = "At least 8 signs, not only figures, and none of the passwords everybody uses. Longer is better."  # noqa: S105
CODE_HELP = "The six figures that your authenticator app shows now, or one of your recovery codes."


class InOwnWords:
    """Labels and helps by field; the library's placeholders are left out."""

    labels: dict[str, str] = {}
    helps: dict[str, str] = {}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        for name, field in self.fields.items():
            field.widget.attrs.pop("placeholder", None)
            field.label = self.labels.get(name, field.label)
            field.help_text = self.helps.get(name, "")


class SignInForm(InOwnWords, account.LoginForm):
    labels = {"login": "E-mail address or display name", "password": "Password"}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["login"].widget.attrs |= {"autocomplete": "username webauthn", "autocapitalize": "none"}


class JoiningForm(InOwnWords, account.SignupForm):
    """An account: made whole, or not at all."""

    labels = {"username": "Display name", "email": "E-mail address", "password1": "Password"}
    helps = {
        "username": "What others see beside your pieces and decisions. No real name is needed; at most 40 signs.",
        "email": "Seen by nobody but you. A code is sent there.",
        "password1": PASSWORD_HELP,
    }

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["username"].widget.attrs["autocomplete"] = "nickname"
        self.fields["username"].widget.attrs.pop("maxlength", None)

    def save(self, request):
        """Raises CannotDo when the name was taken, or the invitation used, while the form lay open."""
        try:
            with transaction.atomic():
                return super().save(request)
        except IntegrityError as problem:
            raise CannotDo("Somebody took that name in this moment. Choose another.") from problem


class AskToJoinForm(JoiningForm):
    words = WordsField(
        required=False,
        max_length=1000,
        label="A few words for the moderators",
        widget=forms.Textarea(attrs={"rows": 4}),
    )
    helps = JoiningForm.helps | {
        "words": "What you collect, or who of the society knows you. Only moderators and the secretary read it."
    }
    field_order = ["username", "email", "password1", "words"]

    def signup(self, request, user):
        ask_to_join(member=user, words=self.cleaned_data["words"], now=timezone.now())


class InvitedForm(JoiningForm):
    field_order = ["username", "email", "password1"]

    def __init__(self, *args, invitation, **kwargs):
        self.invitation = invitation
        super().__init__(*args, **kwargs)

    def signup(self, request, user):
        take_invitation(invitation=self.invitation, member=user, now=timezone.now())


class ChangeAddressForm(InOwnWords, account.AddEmailForm):
    labels = {"email": "New e-mail address"}
    helps = {"email": "A code is sent there; until you type it, the present address stays."}


class ChangePasswordForm(InOwnWords, account.ChangePasswordForm):
    labels = {
        "oldpassword": "Present password",
        "password1": "New password",
        "password2": "New password once more",
    }
    helps = {"password1": PASSWORD_HELP}


class ForgottenPasswordForm(InOwnWords, account.ResetPasswordForm):
    labels = {"email": "E-mail address"}


class NewPasswordForm(InOwnWords, account.ResetPasswordKeyForm):
    labels = {"password1": "New password", "password2": "New password once more"}
    helps = {"password1": PASSWORD_HELP}


class ConfirmPasswordForm(InOwnWords, account.ReauthenticateForm):
    labels = {"password": "Password"}


class AddressCodeForm(InOwnWords, account.ConfirmEmailVerificationCodeForm):
    labels = {"code": "Code from the message"}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["code"].widget.attrs |= {"autocomplete": "one-time-code", "autocapitalize": "characters"}


class FiguresOnly:
    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["code"].widget.attrs |= {"autocomplete": "one-time-code", "inputmode": "numeric"}


class CodeForm(FiguresOnly, InOwnWords, second.AuthenticateForm):
    labels = {"code": "Code"}
    helps = {"code": CODE_HELP}


class ConfirmCodeForm(FiguresOnly, InOwnWords, second.ReauthenticateForm):
    labels = {"code": "Code"}
    helps = {"code": CODE_HELP}


class ActivateCodeForm(FiguresOnly, InOwnWords, totp.ActivateTOTPForm):
    labels = {"code": "Code shown by the app"}


class UnreadablePasskey:
    """What a browser did not make is refused in words. The library lets some of it through to a fault of the site."""

    def full_clean(self):
        try:
            super().full_clean()
        except (LookupError, TypeError, ValueError, AttributeError, ArithmeticError, struct.error):
            self.add_error("credential", "That passkey could not be read. Try again, or use an authenticator app.")


class PasskeyForm(UnreadablePasskey, webauthn.AuthenticateWebAuthnForm):
    """After the password."""


class PasskeyAloneForm(UnreadablePasskey, webauthn.LoginWebAuthnForm):
    """Instead of a password."""


class ConfirmPasskeyForm(UnreadablePasskey, webauthn.ReauthenticateWebAuthnForm):
    """Before something that matters."""


class AddPasskeyForm(UnreadablePasskey, InOwnWords, webauthn.AddWebAuthnForm):
    labels = {"name": "What you call it", "passwordless": "Sign in with it alone, without a password"}
    helps = {
        "name": "For yourself, so that you know it in a list.",
        "passwordless": "Asks the device for a fingerprint, a face or its PIN.",
    }

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["name"].max_length = 60
        self.fields["name"].widget.attrs["maxlength"] = "60"


class RenamePasskeyForm(InOwnWords, webauthn.EditWebAuthnForm):
    labels = {"name": "What you call it"}

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self.fields["name"].widget.attrs["maxlength"] = "60"
