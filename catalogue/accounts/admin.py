from django.contrib import admin
from django.contrib.auth.admin import UserAdmin

from catalogue.accounts.models import Member
from catalogue.back_office import PEOPLE


@admin.register(Member)
class MemberAdmin(UserAdmin):
    """Sign-ins of the back office."""

    office_group, office_place = PEOPLE, 1
    office_about = "Accounts, their roles and what they may do"
    list_display = ["username", "role", "is_staff", "is_active"]
    list_filter = ["role", "is_staff", "is_active"]
    search_fields = ["username", "email"]
    search_help_text = "Name or e-mail address"
    fieldsets = (
        (None, {"fields": ("username", "password", "email", "role")}),
        ("May", {"fields": ("is_active", "is_staff", "is_superuser", "groups", "user_permissions")}),
        ("Dates", {"fields": ("last_login", "date_joined")}),
    )
