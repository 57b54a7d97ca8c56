"""Members of the society."""

from django.contrib.auth.models import AbstractUser
from django.db import models

__all__ = ["Member"]


class Member(AbstractUser):
    """A person with an account. `username` is the name shown to others; no real name is asked for."""

    class Role(models.TextChoices):
        MEMBER = "member", "Member"
        AUTHOR = "author", "Author"
        MODERATOR = "moderator", "Moderator"
        SECRETARY = "secretary", "Secretary"

    first_name = None
    last_name = None
    role = models.CharField(max_length=12, choices=Role.choices, default=Role.MEMBER)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=models.Q(role__in=["member", "author", "moderator", "secretary"]),
                name="member_role_is_known",
            )
        ]

    def get_full_name(self) -> str:
        return self.username

    def get_short_name(self) -> str:
        return self.username

    @property
    def is_admitted(self) -> bool:
        """Whoever has an account so far was given it by the secretary."""
        return True

    @property
    def lacks_second_factor(self) -> bool:
        """The society asks for none so far."""
        return False
