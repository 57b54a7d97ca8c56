from allauth.account.models import EmailAddress
from allauth.mfa.models import Authenticator
from django.contrib import admin
from django.contrib.auth.models import Group

from catalogue.accounts.models import Member
from catalogue.back_office import PEOPLE


@admin.register(Member)
class MemberAdmin(admin.ModelAdmin):
    """Members, to look at only: roles, admission and leaving have pages of their own, where each change is recorded."""

    office_group, office_place = PEOPLE, 1
    office_about = "Who is a member, in what role and since when"
    search_help_text = "Name or e-mail address"
    list_display = ["username", "role", "admitted_at", "left_at", "is_active"]
    list_filter = ["role", "is_active"]
    search_fields = ["username", "email"]
    fields = [
        "username",
        "email",
        "role",
        "joined_year",
        "admitted_at",
        "left_at",
        "is_active",
        "last_login",
        "date_joined",
    ]

    def has_add_permission(self, request):
        return False

    def has_change_permission(self, request, obj=None):
        return False

    def has_delete_permission(self, request, obj=None):
        return False


# Secrets of second factors and addresses are nobody's to read here, and rights follow the role, not a group.
for model in (EmailAddress, Authenticator, Group):
    if admin.site.is_registered(model):
        admin.site.unregister(model)
