"""The two doors into the society: an invitation, and a request that is decided."""

from django.conf import settings
from django.core import signing
from django.db import models
from django.db.models import Q
from django.utils import timezone

PERSON = settings.AUTH_USER_MODEL
SALT = "catalogue.accounts.invitation"


class InvitationQuerySet(models.QuerySet):
    def open_at(self, now):
        """What can still be used: by nobody yet, not taken back, in time, and from somebody who is still a member."""
        return self.filter(
            used_at__isnull=True,
            revoked_at__isnull=True,
            expires_at__gt=now,
            inviter__left_at__isnull=True,
            inviter__admitted_at__isnull=False,
            inviter__is_active=True,
        )

    def by_token(self, token: str):
        """The invitation of an address, if the address was made by this site. Raises DoesNotExist."""
        try:
            number = signing.Signer(salt=SALT).unsign(token.replace("~", ":"))
        except signing.BadSignature as problem:
            raise self.model.DoesNotExist from problem
        return self.select_related("inviter").get(nonce=number)


class Invitation(models.Model):
    """Lets one person in. The address is signed with the site's secret and not kept: a copy of the database opens
    no door, and the inviter can be shown it again."""

    inviter = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="invitations")
    nonce = models.CharField(max_length=32, unique=True, editable=False)
    email = models.EmailField(blank=True, default="")
    note = models.CharField(max_length=200, blank=True, default="")
    made_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, blank=True)
    used_at = models.DateTimeField(null=True, blank=True)
    used_by = models.OneToOneField(
        PERSON, on_delete=models.PROTECT, null=True, blank=True, related_name="invitation_used"
    )

    objects = InvitationQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(used_at__isnull=True, used_by__isnull=True)
                | Q(used_at__isnull=False, used_by__isnull=False, revoked_at__isnull=True),
                name="invitation_used_by_one_and_not_revoked",
            ),
            models.CheckConstraint(condition=Q(expires_at__gt=models.F("made_at")), name="invitation_lasts_a_while"),
        ]

    def __str__(self):
        return f"Invitation {self.pk}"

    @property
    def token(self) -> str:
        return signing.Signer(salt=SALT).sign(self.nonce).replace(":", "~")

    def state(self, now=None) -> str:
        """used, revoked, expired or open."""
        if self.used_at:
            return "used"
        if self.revoked_at:
            return "revoked"
        return "open" if self.expires_at > (now or timezone.now()) else "expired"

    @property
    def is_open(self) -> bool:
        return self.state() == "open"


class JoinRequestQuerySet(models.QuerySet):
    def waiting(self):
        """What a moderator may decide: the person's e-mail address is verified."""
        return (
            self.filter(state=JoinRequest.State.WAITING, member__emailaddress__verified=True, member__is_active=True)
            .distinct()
            .order_by("made_at", "pk")
        )


class JoinRequest(models.Model):
    """Somebody asks to join; a moderator or the secretary admits them, or declines with a reason. Decided once."""

    class State(models.TextChoices):
        WAITING = "waiting", "Waiting"
        ADMITTED = "admitted", "Admitted"
        DECLINED = "declined", "Declined"
        WITHDRAWN = "withdrawn", "Withdrawn"

    member = models.ForeignKey(PERSON, on_delete=models.PROTECT, related_name="join_requests")
    words = models.TextField(blank=True, default="", max_length=1000)
    made_at = models.DateTimeField()
    state = models.CharField(max_length=10, choices=State.choices, default=State.WAITING)
    decided_by = models.ForeignKey(
        PERSON, on_delete=models.PROTECT, null=True, blank=True, related_name="join_requests_decided"
    )
    decided_at = models.DateTimeField(null=True, blank=True)
    reason = models.TextField(blank=True, default="", max_length=1000)

    objects = JoinRequestQuerySet.as_manager()

    class Meta:
        ordering = ["-made_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["member"], condition=Q(state="waiting"), name="one_waiting_request_for_each_person"
            ),
            models.CheckConstraint(
                condition=Q(state__in=["waiting", "withdrawn"], decided_by__isnull=True, decided_at__isnull=True)
                | Q(state="admitted", decided_by__isnull=False, decided_at__isnull=False)
                | (Q(state="declined", decided_by__isnull=False, decided_at__isnull=False) & ~Q(reason="")),
                name="join_request_is_decided_by_somebody",
            ),
            models.CheckConstraint(
                condition=Q(decided_by__isnull=True) | ~Q(decided_by=models.F("member")),
                name="join_request_is_decided_by_somebody_else",
            ),
        ]

    def __str__(self):
        return f"Request {self.pk}: {self.state}"
