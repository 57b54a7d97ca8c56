"""How often somebody may type a wrong password. Counted tightly for one account from one place, loosely for a place:
many members may share one address of the network, as in a club-house, and one who errs must not lock out the others.

The numbers are the society's own; they bound guessing at 5 in five minutes for an account from one place, at 30 an hour
for an account from everywhere, and at 60 a minute for a place. DEVELOPERS.md says what that comes to.
"""

from allauth.account.models import EmailAddress
from allauth.core.internal import ratelimit

from catalogue.accounts.models import Member

OF_AN_ACCOUNT_HERE, OF_AN_ACCOUNT = "5/5m/key", "30/1h/key"
# Beyond so many in one place nobody there is locked out: each account has one attempt a minute from there.
OF_A_PLACE, THEN_FOR_EACH = "30/10m/ip", "1/1m/key"
TOO_MANY, SLOWLY = "too_many_login_attempts", "attempts_slowed"
APP = "catalogue.accounts"


def account_key(credentials: dict) -> str:
    """The same for an account however it is named, by address or by name; for an unknown one what was typed."""
    name, email = credentials.get("username", ""), credentials.get("email", "")
    found = (
        EmailAddress.objects.filter(email__iexact=email).values_list("user_id", flat=True).first() if email else None
    )
    if found is None and name:
        found = Member.objects.called(name).values_list("pk", flat=True).first()
    return f"account:{found}" if found is not None else f"typed:{(email or name).lower()}"


def count_attempt(request, credentials: dict) -> tuple[ratelimit.RateLimitUsage | None, str]:
    """Count an attempt that may turn out wrong. What was counted, to be rolled back should the password be right; or
    None and the key of the reason why it is not even tried."""
    account = account_key(credentials)
    here = f"{account}@{ratelimit.get_ip(request)}"
    counted = ratelimit.RateLimitUsage(usage=[])
    for name, rate, key in (("here", OF_AN_ACCOUNT_HERE, here), ("account", OF_AN_ACCOUNT, account)):
        if not (used := consumed(request, name, rate, key)):
            counted.rollback()
            return None, TOO_MANY
        counted.usage += used.usage
    used = consumed(request, "place", OF_A_PLACE) or consumed(request, "slowly", THEN_FOR_EACH, here)
    if not used:
        counted.rollback()
        return None, SLOWLY
    counted.usage += used.usage
    return counted, ""


def consumed(request, name: str, rate: str, key: str | None = None) -> ratelimit.RateLimitUsage | None:
    return ratelimit.consume(request, app=APP, action=name, config={name: rate}, key=key)


def forget_attempts(request, credentials: dict) -> None:
    """Whoever proved by mail whose account it is begins anew."""
    account = account_key(credentials)
    here = f"{account}@{ratelimit.get_ip(request)}"
    for name, rate, key in (
        ("here", OF_AN_ACCOUNT_HERE, here), ("account", OF_AN_ACCOUNT, account), ("slowly", THEN_FOR_EACH, here),
    ):  # fmt: skip
        ratelimit.clear(request, app=APP, action=name, config={name: rate}, key=key)
