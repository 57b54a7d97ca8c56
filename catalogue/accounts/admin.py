from django.contrib import admin
from django.contrib.auth.admin import UserAdmin

from catalogue.accounts.models import Member


@admin.register(Member)
class MemberAdmin(UserAdmin):
    """Sign-ins of the back office."""

    list_display = ["username", "role", "is_staff", "is_active"]
    list_filter = ["role", "is_staff", "is_active"]
    search_fields = ["username", "email"]
    fieldsets = (
        (None, {"fields": ("username", "password", "email", "role")}),
        ("May", {"fields": ("is_active", "is_staff", "is_superuser", "groups", "user_permissions")}),
        ("Dates", {"fields": ("last_login", "date_joined")}),
    )
