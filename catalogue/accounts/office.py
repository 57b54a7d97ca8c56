"""The back office opens to those who may maintain the reference, and is entered by the site's one sign-in."""

from functools import wraps

from django.core.exceptions import PermissionDenied
from django.shortcuts import redirect
from django.utils.http import url_has_allowed_host_and_scheme

from catalogue.accounts.roles import MAINTAIN_REFERENCE, may, needs_second_factor_first, to_sign_in, words_of_refusal
from catalogue.accounts.unsent import forget_once_sent
from catalogue.back_office import BackOffice as ArrangedOffice


class BackOffice(ArrangedOffice):
    def has_permission(self, request):
        return may(request.user, MAINTAIN_REFERENCE)

    def admin_view(self, view, cacheable=False):
        """What was typed into a form of the back office outlives a session as everywhere else."""
        guarded = super().admin_view(view, cacheable)

        @wraps(guarded)
        def kept(request, *args, **kwargs):
            if request.method == "POST" and not request.user.is_authenticated:
                return to_sign_in(request)
            forget_once_sent(request)
            return guarded(request, *args, **kwargs)

        return kept

    def login(self, request, extra_context=None):
        """No second sign-in beside the site's own, which counts failed attempts and asks for the second factor."""
        person = request.user
        if may(person, MAINTAIN_REFERENCE):
            wanted = request.GET.get("next", "")
            safe = url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure())
            return redirect(wanted if safe else "admin:index")
        if not person.is_authenticated:
            return to_sign_in(request)
        if needs_second_factor_first(person, MAINTAIN_REFERENCE):
            return redirect("accounts:second_factor_first")
        raise PermissionDenied(words_of_refusal(person, MAINTAIN_REFERENCE))
