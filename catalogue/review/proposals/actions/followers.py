"""What a decision on versions does to accepted pieces: they follow, go back, or wait as doubtful."""

from collections.abc import Iterable, Sequence

from django.utils import timezone

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import move_pieces
from catalogue.member_examples.models import Attribution, Example
from catalogue.member_examples.words import AttributedBy, ExampleState
from catalogue.reference.models import Feature, FeatureState, IssueVersion
from catalogue.review.models import Decision, FollowedPiece
from catalogue.review.notices.telling import tell
from catalogue.review.proposals.merged import Follower


def let_follow(decision: Decision, followers: Sequence[Follower], deciders: Sequence[Member], reason: str) -> None:
    """Move each to its new version with a dated note, which says so where the year on its label led it, tell its owner,
    and put the doubtful among those that wait."""
    codes = {one.to for one in followers} | {one.piece.version for one in followers}
    versions = {one.code: one for one in IssueVersion.objects.filter(code__in=codes)}
    moving = {one.piece.code: versions[one.to] for one in followers if one.moves}
    by_year = {
        one.piece.code: f"Its label says {one.led_by}, which lies within the dates of {one.to} alone."
        for one in followers
        if one.led_by is not None
    }
    moved = move_pieces(to=moving, deciders=deciders, reason=reason, more=by_year)
    held = {made.example.code: attribution for made, attribution in moved}
    examples = {one.code: one for one in Example.objects.filter(code__in=[one.piece.code for one in followers])}
    words = DoubtWords(followers)
    FollowedPiece.objects.bulk_create(
        FollowedPiece(
            decision=decision,
            example=examples[one.piece.code],
            before=versions[one.piece.version],
            after=versions[one.to],
            attribution=held.get(one.piece.code),
            doubt=words.of(one),
        )
        for one in followers
        if one.piece.code in held or not one.moves
    )
    for made, _ in moved:
        tell(made.example.owner, decision=made)


class DoubtWords:
    """Why a piece is doubtful, in the words of the day."""

    def __init__(self, followers: Iterable[Follower]):
        features = {feature for one in followers for feature in one.against}
        self.names = dict(Feature.objects.filter(code__in=features).values_list("code", "name"))
        states = FeatureState.objects.filter(feature__code__in=features)
        self.labels = {(f, s): label for f, s, label in states.values_list("feature__code", "code", "label")}

    def of(self, one: Follower) -> str:
        """Empty where nothing speaks against it, and something for it alone."""
        said = []
        if one.or_as_well:
            said.append(f"It could be {one.to} or {one.or_as_well}: nothing seen on it tells the two apart.")
        if one.outside is not None:
            said.append(f"Its label says {one.outside}, outside the dates of {one.to}.")
        seen = [
            f"{self.names[feature]}: {self.labels[feature, one.piece.states[feature]]}".replace("\n", " ")
            for feature in one.against
        ]
        if seen:
            said.append(f"Seen otherwise than the record has it. {'; '.join(seen)}.")
        return " ".join(said)


def take_back(decision: Decision, approved: Decision, deciders: Sequence[Member], reason: str) -> list[str]:
    """Bring the pieces that followed `approved` back to where they were, but those on which somebody decided since;
    codes of all that went back."""
    followed = approved.followed.filter(attribution__isnull=False, example__state=ExampleState.ACCEPTED)
    rows = list(followed.select_related("example", "before", "after"))
    last = dict(
        Attribution.objects.filter(example__in=[one.example_id for one in rows], by=AttributedBy.SOCIETY)
        .order_by("made_at", "pk")
        .values_list("example_id", "pk")
    )
    back = [one for one in rows if last[one.example_id] == one.attribution_id]
    moved = move_pieces(to={one.example.code: one.before for one in back}, deciders=deciders, reason=reason)
    held = {made.example_id: attribution for made, attribution in moved}
    FollowedPiece.objects.bulk_create(
        FollowedPiece(
            decision=decision, example=one.example, before=one.after, after=one.before,
            attribution=held[one.example_id],
        )
        for one in back
    )  # fmt: skip
    for made, _ in moved:
        tell(made.example.owner, decision=made)
    return [one.example.code for one in back]


def settle_doubts(approved: Decision, by: Member) -> None:
    """What was doubtful by a decision is so no longer once that is revoked."""
    waiting = approved.followed.exclude(doubt="").filter(settled_at__isnull=True)
    waiting.update(settled_at=timezone.now(), settled_by=by)
