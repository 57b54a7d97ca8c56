"""A person with an account, and how their role came about."""

from datetime import datetime

from django.conf import settings
from django.contrib.auth.models import AbstractUser, UserManager
from django.core.exceptions import ValidationError
from django.db import models
from django.urls import reverse
from django.utils import timezone
from django.utils.functional import cached_property

from catalogue.accounts import names, roles


def validate_display_name(name: str) -> None:
    if refusal := names.reason_not_to_take(name):
        raise ValidationError(refusal)


class MemberManager(UserManager):
    """People, as the society asks for them."""

    def create_superuser(self, username, email=None, password=None, **fields):
        """The secretary, made at the terminal of the server: admitted, and the address counts as verified."""
        fields = {"role": Member.Role.SECRETARY, "admitted_at": timezone.now()} | fields
        member = super().create_superuser(username, email, password, **fields)
        if member.email:
            member.emailaddress_set.create(email=member.email.lower(), verified=True, primary=True)
        return member

    def admitted(self):
        return self.filter(admitted_at__isnull=False, left_at__isnull=True, is_active=True)

    def secretaries(self):
        return self.admitted().filter(role=Member.Role.SECRETARY)

    def called(self, name: str):
        """Whose display name looks like this one."""
        return self.filter(name_key=names.look_alike_key(name))


class Member(AbstractUser):
    """A person with an account. `username` is the display name, shown to others; no real name is asked for.

    Who has an account is a visitor until `admitted_at` is set. `is_active` only says whether the account opens at all:
    it never stands for admission. Who has left keeps a row without anything personal, so that decisions stay signed.
    """

    class Role(models.TextChoices):
        MEMBER = "member", "Member"
        AUTHOR = "author", "Author"
        MODERATOR = "moderator", "Moderator"
        SECRETARY = "secretary", "Secretary"

    first_name = None
    last_name = None
    username = models.CharField(
        "display name",
        max_length=150,  # the form asks for less; so long a name may stand from before
        unique=True,
        validators=[validate_display_name],
        error_messages={"unique": "Somebody has that name already."},
    )
    # Asked for at the server's terminal too: without one nobody signs in. Who has left has none.
    email = models.EmailField("e-mail address")
    name_key = models.CharField(max_length=600, unique=True, editable=False)
    role = models.CharField(max_length=12, choices=Role.choices, default=Role.MEMBER)
    admitted_at = models.DateTimeField(null=True, blank=True)
    joined_year = models.PositiveSmallIntegerField("in the society since", null=True, blank=True)
    about = models.TextField(blank=True, default="", max_length=1000)
    left_at = models.DateTimeField(null=True, blank=True)
    former_number = models.PositiveIntegerField(null=True, blank=True, unique=True)

    objects = MemberManager()

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=models.Q(role__in=["member", "author", "moderator", "secretary"]),
                name="member_role_is_known",
            ),
            models.CheckConstraint(
                condition=models.Q(left_at__isnull=True, former_number__isnull=True)
                | models.Q(left_at__isnull=False, former_number__isnull=False, is_active=False, email=""),
                name="member_who_left_keeps_nothing_personal",
            ),
        ]

    def save(self, *args, **kwargs):
        """The key follows the name whatever way it is written, so that the database can refuse look-alikes."""
        self.name_key = names.look_alike_key(self.username)
        if (fields := kwargs.get("update_fields")) and "username" in fields:
            kwargs["update_fields"] = {*fields, "name_key"}
        super().save(*args, **kwargs)

    def get_full_name(self) -> str:
        return self.username

    def get_short_name(self) -> str:
        return self.username

    def get_absolute_url(self) -> str:
        return reverse("accounts:person", args=[self.username])

    @property
    def is_admitted(self) -> bool:
        return self.admitted_at is not None and self.left_at is None

    @property
    def has_left(self) -> bool:
        return self.left_at is not None

    @cached_property
    def lacks_second_factor(self) -> bool:
        """Whether the society asks one of those who decide, and this person has none."""
        return settings.SECOND_FACTOR == "required" and not self.authenticator_set.exists()

    @property
    def role_words(self) -> str:
        """The role that counts now, as pages say it."""
        return "Former member" if self.has_left else roles.role_of(self).capitalize()

    def admit(self, *, at: datetime) -> None:
        """From now on a member; the year is kept where one is known already."""
        self.admitted_at = at
        self.joined_year = self.joined_year or at.year
        self.save(update_fields=["admitted_at", "joined_year"])


class RoleChange(models.Model):
    """A role given to somebody by somebody else, for a reason. Written once."""

    member = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="role_changes")
    before = models.CharField(max_length=12, choices=Member.Role.choices)
    after = models.CharField(max_length=12, choices=Member.Role.choices)
    by = models.ForeignKey(Member, on_delete=models.PROTECT, related_name="role_changes_made")
    at = models.DateTimeField()
    reason = models.TextField(max_length=1000)

    class Meta:
        ordering = ["-at", "-pk"]
        constraints = [
            models.CheckConstraint(condition=~models.Q(before=models.F("after")), name="role_change_changes"),
            models.CheckConstraint(condition=~models.Q(member=models.F("by")), name="role_is_given_by_somebody_else"),
            models.CheckConstraint(condition=~models.Q(reason=""), name="role_change_has_a_reason"),
        ]

    def __str__(self):
        return f"{self.member}: {self.before} to {self.after}"
