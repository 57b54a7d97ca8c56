"""Addresses of the sign-in library, with our own door to join in place of its."""

from allauth.account.urls import urlpatterns as account_pages
from django.urls import include, path

from catalogue.accounts.views import joining

OWN = {"account_signup"}
urlpatterns = [
    path("join/", joining.ask, name="account_signup"),
    path("account/", include([page for page in account_pages if page.name not in OWN])),
    path("account/second-factor/", include("allauth.mfa.urls")),
]
