"""Who may use the drawing board."""

from django.contrib.auth.decorators import user_passes_test

# For now those who may use the back office, where records are written.
author_required = user_passes_test(lambda member: member.is_active and member.is_staff, login_url="admin:login")
