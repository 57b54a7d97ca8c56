"""What the page of one proposal shows: the change in words and drawn, what it does, what was said and decided."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from uuid import uuid4

from django.urls import reverse

from catalogue.accounts.models import Member
from catalogue.accounts.roles import REVIEW_REFERENCE, ROLES_THAT_MAY, may
from catalogue.figures.figure import draw_version
from catalogue.member_examples.addresses import example_address
from catalogue.reference.addresses import address_of
from catalogue.reference.changes import changes
from catalogue.reference.facts import TypeFacts, VersionFacts
from catalogue.reference.models import GarmentType
from catalogue.reference.snapshots import type_facts
from catalogue.review.backing import standing as backing
from catalogue.review.deputies.standing_in import may_decide, stood_in_for
from catalogue.review.examples_queue.rank import waiting_words, waits_long
from catalogue.review.features.pages import record_like
from catalogue.review.models import Proposal
from catalogue.review.proposals import rules
from catalogue.review.proposals.actions.deciding import reason_and_place
from catalogue.review.proposals.before_deciding import comes_back, goes_with_it, labels_outside, why_gone
from catalogue.review.proposals.composing import bare_version, with_rows
from catalogue.review.proposals.deciders import cited, titles_of
from catalogue.review.proposals.forms import DecisionForm, RevokeForm, WordForm
from catalogue.review.proposals.gathering import title_of
from catalogue.review.proposals.merge_page import merge_context
from catalogue.review.proposals.retire_page import retire_context
from catalogue.review.proposals.split_page import parts_of_split, split_context
from catalogue.review.proposals.standing import Rows
from catalogue.review.proposals.subjects import (
    is_of_backing,
    is_of_feature,
    is_of_question,
    is_of_scan,
    is_of_version,
    is_small,
    is_split,
    row_in_words,
    row_name,
    sort_of,
    stands_now,
)
from catalogue.review.proposals.weighing import effect_of
from catalogue.review.proposals.words import (
    DECIDERS_NEEDED,
    FEATURE,
    DecisionOn,
    ProposalKind,
    ProposalState,
    Weight,
)
from catalogue.review.records.addresses import record_address
from catalogue.review.scans.actions import may_blur
from catalogue.review.scans.gates import sees_unshown

UNDECIDED = (ProposalState.DRAFT, ProposalState.OPEN, ProposalState.RETURNED)
SHOWN_PAIRS = 12


def proposal_context(proposal: Proposal, person: Member, *, number: int, now: datetime) -> dict:
    """Everything the template needs but the forms that were sent."""
    home = type_facts(proposal.garment_type.code, number=number)
    features = {code: feature.name for code, feature in home.features.items()}
    decisions = list(proposal.decisions.select_related("by", "in_place_of", "record__version", "feature_record"))
    waits = proposal.state in UNDECIDED
    stands = stands_now(proposal) if waits and proposal.base else proposal.base
    clashing = rules.clashes(proposal.base, proposal.rows, stands) if waits else []
    gone = why_gone(proposal, stands) if waits else None
    merging = merge_context(proposal, home, stands, waits=waits) if proposal.other else {}
    splitting = split_context(proposal, home, stands, waits=waits) if is_split(proposal) else {}
    applied = next((one for one in decisions if one.kind == DecisionOn.APPROVED), None)
    before, after = (applied.before, applied.after) if applied else (proposal.base, proposal.rows)
    decides = may(person, REVIEW_REFERENCE) if is_of_scan(proposal) else may_decide(person)
    agreed = [one for one in decisions if one.kind == DecisionOn.AGREED and one.sending == proposal.times_sent]
    undo = [one for one in decisions if one.kind == DecisionOn.UNDO_AGREED]
    return {
        "proposal": proposal,
        "title": title_of(proposal, features),
        "facts": home,
        "version_address": address_of("version", proposal.version.code) if proposal.version else "",
        "based_on": based_on(proposal),
        "stale": waits and bool(rules.changed_rows(proposal.base, stands)),
        "gone": gone,
        "comes_back": comes_back(proposal, stands) if waits else False,
        "sort": sort_of(proposal),
        "of_feature": is_of_feature(proposal),
        "of_question": is_of_question(proposal),
        "of_scan": is_of_scan(proposal),
        "of_backing": is_of_backing(proposal),
        **(backing_context(proposal) if is_of_backing(proposal) else {}),
        "source_address": address_of("source", proposal.scan.source.code) if proposal.scan else "",
        "may_blur": may_blur(person, proposal.scan) if proposal.scan else False,
        "sees_scan": bool(proposal.scan) and (proposal.scan.shown or sees_unshown(person, proposal.scan)),
        "question_address": address_of("open_question", proposal.question.code) if proposal.question else "",
        "feature": feature_told(proposal),
        "asked_of": asked_of(proposal) if is_of_feature(proposal) else [],
        "clashes": [clash_row(key, proposal, stands, home) for key in clashing],
        "rows": [
            change_row(proposal, key, before, after, home) for key in rules.changed_rows(before, {**before, **after})
        ],
        "drawn": drawn(proposal, home, before, after) if is_of_version(proposal) and not splitting else None,
        "effect": effect(proposal, home, number=number) if waits and not clashing and not gone else None,
        "cited": cited(proposal.sources, titles_of(proposal.sources)),
        "decisions": [decision_row(one) for one in decisions],
        "words": proposal.words.select_related("by"),
        "needed": DECIDERS_NEEDED[Weight(proposal.weight)],
        "agreed": agreed,
        "undo_agreed": undo,
        "is_author": proposal.by_id == person.pk,
        "may_decide": decides,
        "stands_in_for": [one.username for one in stood_in_for(person)],
        "waiting": waiting_words(proposal.sent_at, now) if proposal.state == ProposalState.OPEN else "",
        "waits_long": proposal.state == ProposalState.OPEN and waits_long(proposal.sent_at, now),
        "may_settle": proposal.by_id == person.pk or may(person, REVIEW_REFERENCE),
        "why_not": why_not(proposal, person) if decides else "",
        "too_few": too_few(proposal) if proposal.state == ProposalState.OPEN else False,
        "form": DecisionForm(weight=proposal.weight, agreed=len(agreed), initial={"sending": proposal.times_sent}),
        "revoking": RevokeForm(initial={"sending": proposal.times_sent}),
        "labels_outside": labels_outside(proposal, stands) if waits and not gone else [],
        "goes_with_it": goes_with_it(applied) if proposal.state == ProposalState.APPROVED and decides else [],
        "word_form": WordForm(initial={"token": uuid4()}),
        **merging,
        **splitting,
        **retire_context(proposal, home, waits=waits),
    }


def backing_context(proposal: Proposal) -> dict:
    """Where what versions rest on is read, and what names it."""
    held = backing.found(proposal.backing, proposal.backing_code)
    has_page = held is not None and proposal.backing != "numberform"
    return {
        "backing_address": address_of(proposal.backing, proposal.backing_code) if has_page else "",
        "rests": backing.named_by(held) if held else [],
    }


def based_on(proposal: Proposal) -> dict | None:
    if is_of_feature(proposal):
        return record_like(proposal.about_code, proposal.base, on=proposal.made_at)
    if not proposal.based_on:
        return None
    number = proposal.based_on.number
    return {"number": number, "address": record_address(proposal.based_on.version.code, number)}


def why_not(proposal: Proposal, person: Member) -> str:
    """Why this person does not decide now; empty where they may."""
    decision = {ProposalState.OPEN: DecisionOn.APPROVED, ProposalState.APPROVED: DecisionOn.REVOKED}.get(proposal.state)
    if decision is None:
        return ""
    return reason_and_place(proposal, person, decision, reason="asked", sending=proposal.times_sent)[0] or ""


def too_few(proposal: Proposal) -> bool:
    """Whether the society has fewer people than are needed who could decide this."""
    roles = [str(role) for role in ROLES_THAT_MAY[REVIEW_REFERENCE]]
    able = Member.objects.admitted().filter(role__in=roles).exclude(pk=proposal.by_id).count()
    return able < DECIDERS_NEEDED[Weight(proposal.weight)]


def change_row(proposal: Proposal, key: str, before: Rows, after: Rows, home: TypeFacts) -> dict:
    """A changed row, as it stood and as it is wanted."""
    names = {code: feature.name for code, feature in home.features.items()}
    return {
        "name": row_name(proposal, key, names),
        "before": row_in_words(proposal, key, before, home),
        "after": row_in_words(proposal, key, {**before, **after}, home),
        "small": is_small(proposal, key, before, after),
    }


def clash_row(key: str, proposal: Proposal, stands: Rows, home: TypeFacts) -> dict:
    """A row that others changed meanwhile: as it was, as it stands now, as it is wanted."""
    names = {code: feature.name for code, feature in home.features.items()}
    return {
        "key": key,
        "name": row_name(proposal, key, names),
        "was": row_in_words(proposal, key, proposal.base, home),
        "now": row_in_words(proposal, key, stands, home),
        "wanted": row_in_words(proposal, key, {**proposal.base, **proposal.rows}, home),
    }


def asked_of(proposal: Proposal) -> list[str]:
    """The garment types of which the feature would be asked, by name."""
    codes = {**proposal.base, **proposal.rows}.get("types", [])
    homes = GarmentType.objects.filter(code__in=codes).order_by("position", "code")
    return list(homes.values_list("name", flat=True))


def feature_told(proposal: Proposal) -> dict | None:
    """The feature that it is about, with where it and its history are read."""
    if not proposal.feature:
        return None
    code = proposal.feature.code
    return {
        "name": proposal.feature.name,
        "address": reverse("reference:feature_group", args=[code]),
        "history": reverse("feature_records:history", args=[code]),
    }


def versions_of(proposal: Proposal, home: TypeFacts) -> tuple[VersionFacts | None, Sequence[VersionFacts]]:
    """The version as it stands, None where it is not there yet, and what would stand in its place: nothing for one that
    is retired, two for one that is split."""
    if proposal.kind == ProposalKind.NEW:
        return None, [with_rows(home, bare_version(proposal.new_code), proposal.rows)]
    code = proposal.version.code
    now = home.versions.get(code)
    if is_split(proposal):
        return now, parts_of_split(proposal, home) if now else []
    # An import proposes a retirement as a change of its row; a draft of one has not said why yet.
    if proposal.kind == ProposalKind.RETIRE or rules.row_of({**proposal.base, **proposal.rows}, "retired"):
        return now, []
    known = now or home.retired.get(code)
    return now, [with_rows(home, known, proposal.rows)]


def effect(proposal: Proposal, home: TypeFacts, *, number: int) -> dict | None:
    """What it does to identification; None where it touches nothing that identifies."""
    if proposal.weight == Weight.SMALL or not is_of_version(proposal):
        return None
    now, then = versions_of(proposal, home)
    if now is None and not then:
        return None
    found = effect_of(home, now, then, key=("effect", proposal.pk, proposal.revision), number=number,
                      goes=proposal.other.code if proposal.other else "")  # fmt: skip
    return {
        "found": found,
        "separable": found.separable[:SHOWN_PAIRS],
        "more_separable": max(0, len(found.separable) - SHOWN_PAIRS),
        "inseparable": found.inseparable[:SHOWN_PAIRS],
        "more_inseparable": max(0, len(found.inseparable) - SHOWN_PAIRS),
        "otherwise": [
            {"code": one.code, "before": one.before, "after": one.after, "address": example_address(one.code)}
            for one in found.otherwise[:SHOWN_PAIRS]
        ],
        "more_otherwise": max(0, len(found.otherwise) - SHOWN_PAIRS),
    }


def drawn(proposal: Proposal, home: TypeFacts, before: Rows, after: Rows) -> dict | None:
    """What the figures need: two versions with the changed features marked, or the one that is new."""
    changed = [key.removeprefix(FEATURE) for key in after if key.startswith(FEATURE)]
    if not changed:
        return None
    code = proposal.version.code if proposal.version else proposal.new_code
    known = home.versions.get(code) or home.retired.get(code) or bare_version(code)
    new = with_rows(home, known, {**before, **after})
    if proposal.kind == ProposalKind.NEW:
        return {"figures": draw_version(home, new)}
    old = with_rows(home, known, before)
    done = proposal.state in (ProposalState.APPROVED, ProposalState.REVOKED)
    old, new = titled(old, f"{code}, before"), titled(new, f"{code}, {'approved' if done else 'proposed'}")
    return {
        "homes": [home, home],
        "versions": [old, new],
        "differing": frozenset(changed),
        "notes": changes(home, old, new).notes,
    }


def titled(version: VersionFacts, code: str) -> VersionFacts:
    """For the titles of two figures of one version on one page."""
    return replace(version, code=code)


def decision_row(one) -> dict:
    address = record_address(one.record.version.code, one.record.number) if one.record else ""
    if one.feature_record:
        address = reverse("feature_records:record", args=[one.feature_record.code, one.feature_record.number])
    written = one.record or one.feature_record
    return {
        "what": DecisionOn(one.kind).label,
        "by": one.decider,
        "on": one.made_at,
        "reason": one.reason,
        "record": written.number if written else None,
        "address": address,
    }
