"""What this slice knows of a person: pieces held, pieces looked for, invitations, how they joined."""

from django.utils import timezone

from catalogue.accounts.actions.people import forget_how_they_joined
from catalogue.accounts.sections import MemberPart, register


def holdings(member) -> dict:
    return {"rows": list(member.holdings.with_subjects())}


def shown_holdings(member) -> dict | None:
    rows = list(member.holdings.with_subjects().shown())
    return {"rows": rows} if rows else None


def wants(member) -> dict:
    return {"rows": list(member.wants.with_subjects().select_related("spare"))}


def shown_wants(member) -> dict | None:
    rows = list(member.wants.with_subjects().select_related("spare").shown())
    return {"rows": rows} if rows else None


def invitations(member) -> dict:
    return {"rows": list(member.invitations.select_related("used_by"))}


def export_account(member) -> dict:
    return {
        "display name": member.username,
        "role": member.role,
        "admitted": member.admitted_at,
        "in the society since": member.joined_year,
        "about": member.about,
        "account made": member.date_joined,
        "last signed in": member.last_login,
        "e-mail addresses": [
            {"address": one.email, "verified": one.verified} for one in member.emailaddress_set.order_by("pk")
        ],
        "second factors": [
            {"kind": one.get_type_display(), "added": one.created_at, "last used": one.last_used_at}
            for one in member.authenticator_set.order_by("pk")
        ],
        "roles given to me": [changed_role(one) for one in member.role_changes.select_related("by", "member")],
        "roles I gave": [changed_role(one) for one in member.role_changes_made.select_related("by", "member")],
    }


def changed_role(change) -> dict:
    return {
        "of": change.member.username,
        "before": change.before,
        "after": change.after,
        "by": change.by.username,
        "at": change.at,
        "reason": change.reason,
    }


def export_joining(member) -> dict:
    return {
        "requests": [
            {
                "made": one.made_at,
                "my words": one.words,
                "state": one.state,
                "decided": one.decided_at,
                "decided by": one.decided_by.username if one.decided_by else None,
                "reason": one.reason,
            }
            for one in member.join_requests.select_related("decided_by")
        ],
        "requests I decided": [
            {"of": one.member.username, "state": one.state, "decided": one.decided_at, "reason": one.reason}
            for one in member.join_requests_decided.select_related("member")
        ],
        "invitations": [
            {
                "made": one.made_at,
                "for": one.email,
                "note": one.note,
                "state": one.state(),
                "used by": one.used_by.username if one.used_by else None,
            }
            for one in member.invitations.select_related("used_by")
        ],
    }


def export_holdings(member) -> list[dict]:
    return [
        subject_words(row)
        | {"how many": row.number, "note": row.note, "shown to others": row.is_shown, "added": row.added_at}
        for row in member.holdings.with_subjects()
    ]


def export_wants(member) -> list[dict]:
    return [
        subject_words(row)
        | {
            "condition at least": row.condition_at_least or "any",
            "offers": row.offers,
            "spare": row.spare.code if row.spare else None,
            "since": row.since,
            "note": row.note,
            "shown to others": row.is_shown,
        }
        for row in member.wants.with_subjects().select_related("spare")
    ]


def subject_words(row) -> dict:
    kind = "version" if row.version_id else "garment type"
    return {kind: row.subject.code, "name": row.subject.name}


register(MemberPart(name="account", heading="My account", export=export_account))
register(
    MemberPart(
        name="holdings",
        heading="Pieces I hold",
        template="accounts/own_holdings.html",
        public_template="accounts/shown_holdings.html",
        own=holdings,
        public=shown_holdings,
        export=export_holdings,
        forget=lambda member: member.holdings.all().delete(),
    )
)
register(
    MemberPart(
        name="wants",
        heading="Pieces I look for",
        template="accounts/own_wants.html",
        public_template="accounts/shown_wants.html",
        own=wants,
        public=shown_wants,
        export=export_wants,
        forget=lambda member: member.wants.all().delete(),
    )
)
register(
    MemberPart(
        name="joining",
        heading="Invitations",
        template="accounts/own_invitations.html",
        own=invitations,
        export=export_joining,
        forget=lambda member: forget_how_they_joined(member, timezone.now()),
    )
)
