"""Addresses of the sign-in library, with our own door to join in place of its."""

from allauth.account.urls import urlpatterns as account_pages
from django.urls import include, path

from catalogue.accounts.views import joining

# Our own door to join; and mailed codes, which would sign in or confirm without a password, are not offered: whoever
# reads somebody's mail would pass the second factor too.
LEFT_OUT = {
    "account_signup",
    "account_confirm_login_code",
    "account_request_reauthentication_code",
    "account_confirm_reauthentication_code",
}
urlpatterns = [
    path("join/", joining.ask, name="account_signup"),
    path("account/", include([page for page in account_pages if page.name not in LEFT_OUT])),
    path("account/second-factor/", include("allauth.mfa.urls")),
]
