"""Whatever several people propose and decide, in whatever order: records stay, and the decisions give the state."""

from datetime import timedelta
from io import BytesIO

import pytest
from django.db import transaction
from django.db.models import Count
from django.test import Client
from django.utils import timezone
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from catalogue.member_examples.actions import NotDone, attribute_anew
from catalogue.member_examples.models import Example
from catalogue.reference.models import Feature, IssueVersion, Maker, Source, SourceScan, VersionRecord
from catalogue.reference.snapshots import forget_everything
from catalogue.reference.uncertain_dates import year_span
from catalogue.review.backing import standing as backing
from catalogue.review.deputies.actions import go_on_leave
from catalogue.review.features.recording import faults_of_features, record_features
from catalogue.review.features.standing import rows_of
from catalogue.review.models import Decision, FeatureRecord, FollowedPiece, FurtherRecord, Proposal, RecordSeal
from catalogue.review.proposals.actions import (
    begin_change,
    begin_feature,
    begin_merge,
    begin_new_feature,
    begin_new_version,
    begin_on_backing,
    begin_split,
    revoke_approval,
    save_draft,
    send_proposal,
    settle_clashes,
    withdraw_proposal,
)
from catalogue.review.proposals.rules import clashes, row_of
from catalogue.review.proposals.standing import rows_of_version
from catalogue.review.proposals.subjects import stands_now
from catalogue.review.records.verifying import faults
from catalogue.review.scans.actions import begin_scan, take_out
from tests.catalogue.member_examples.submitting.forms_sent import picture
from tests.catalogue.review.proposing import cell, decide, make_society, piece_of, revoke

PLACE = st.integers(0, 7)
SPLIT_INTO = st.sampled_from([("SMK-90", "SMK-91"), ("SMK-1A", "SMK-1B"), ("SMK-2A", "SMK-2B"), ("SMK-1A", "SMK-61")])
SPLIT_BY = {
    "cuff": {"feature:cuff": [cell("tab")], "second:feature:cuff": [cell("plain")]},
    "dates": {"date": "1961/1966", "second:date": "1967/1969"},
    "cuff and dates": {"feature:cuff": [cell("tab")], "date": "1961/1966", "second:date": "1967/1972"},
    "nothing": {},
}
# Whether a split is left to others, decided at once, or revoked as well.
DECIDED = st.sampled_from([0, 1, 1, 2])
ROWS = st.dictionaries(
    st.sampled_from(["feature:closure", "feature:cuff", "name", "date", "stock_numbers", "contradicting_sources"]),
    PLACE,
    min_size=1,
)
NUMBER = {"number": "8415-61", "form": "", "first_year": 1961, "last_year": None, "misprint_of": "", "note": "",
          "sources": ["S1"], "against": []}  # fmt: skip
VALUES = {
    "feature:closure": [[], [cell("zip")], [cell("buttons", how_often="usually"), cell("zip", how_often="seldom")]],
    "feature:cuff": [[], [cell("tab", sources=["S1"])], [cell("plain")]],
    "name": ["Smock", "Fell smock", "Strand smock"],
    "date": ["", "1961/1974", "1962~"],
    "stock_numbers": [
        [],
        [NUMBER],
        [{**NUMBER, "last_year": 1974, "against": ["S2"]}, {**NUMBER, "number": "8415-62"}],
    ],
    "contradicting_sources": [[], ["S1"], ["S2", "S1"]],
}


ELASTIC = {"label": "Elastic", "low": None, "high": None, "drawing": "", "position": 2}
OF_A_FEATURE = {
    "question": ["How does it end?", "Which end?", "Is there a tab?"],
    "error_note": ["", "Wear looks alike.", "Look twice."],
    "state:elastic": [None, ELASTIC, {**ELASTIC, "label": "Elastic band"}],
    "state:tab": [None, {**ELASTIC, "label": "Strap", "position": 0}, {**ELASTIC, "label": "Tab", "position": 0}],
}


OF_BACKINGS = {
    ("maker", "M1"): {"first_year": ["", 1950, 1960], "mark": ["", "M&Co", "M"], "last_year": [1940, 1975, ""]},
    ("numberform", "CAT"): {"pattern": ["A 999", "A 9999", "A"], "years": ["", "1960~", "1971/1975"]},
}


SOURCES = st.sampled_from(["S1", "S2"])
FAR = st.sampled_from([0, 1, 1, 2, 3])
NAMES = st.sampled_from(["none", "none", "masked", "to_mask"])
PICTURES = st.sampled_from([picture(size=(90, 60), colour=colour) for colour in ("tan", "olive", "navy")])


class Proposing(RuleBasedStateMachine):
    """An author and a member propose; three moderators decide, one of whom is away with the secretary in their place,
    and an author who may not tries to."""

    def __init__(self):
        super().__init__()
        self.all = transaction.atomic()
        self.all.__enter__()
        forget_everything()
        self.society = make_society()
        self.authors = [self.society.ada, self.society.mo, self.society.ben]
        self.deciders = [self.society.mo, self.society.mia, self.society.max, self.society.ada, self.society.sue]
        today = timezone.localdate()
        go_on_leave(moderator=self.society.max, deputy=self.society.sue, begins=today, ends=today + timedelta(days=9))
        record_features(by=None, why="")
        self.features = {one.code: rows_of(one) for one in Feature.objects.all()}
        self.written = {}
        one, other = self.society.one, self.society.other
        for version, seen, year in (
            (one, "tab", 1964),
            (one, "tab", 1971),
            (other, "plain", None),
            (other, "tab", 1968),
        ):
            piece = piece_of(self.society, version, cuff=seen)
            Example.objects.filter(pk=piece.pk).update(label_year=year)
        Maker.objects.create(code="M1", name="Maker & Co", first_year=1955)
        self.backings = {key: backing.rows_of(*key) for key in OF_BACKINGS}
        self.start = {one.code: rows_of_version(one) for one in IssueVersion.objects.all()}
        self.refused = set()
        self.sealed = {}
        self.public = set()
        self.note()

    def teardown(self):
        try:
            self.every_address_once_public_answers()
        finally:
            transaction.set_rollback(True)
            self.all.__exit__(None, None, None)

    def attempt(self, act, *args, **kwargs):
        """What is refused is refused in words, and nothing of it is written: the invariants look."""
        try:
            with transaction.atomic():
                made = act(*args, **kwargs)
        except NotDone as refusal:
            self.refused.add(str(refusal))
            return None
        self.note()
        return made

    def note(self):
        for seal in RecordSeal.objects.exclude(pk__in=self.sealed).select_related("record__version"):
            self.sealed[seal.pk] = (seal.number, seal.body, seal.previous, seal.digest)
            code = seal.record.version.code
            self.public |= {
                f"/issue-versions/{code}/",
                f"/figures/{code}/front.svg",
                f"/issue-versions/{code}/history/{seal.record.number}/",
            }
        for one in FeatureRecord.objects.exclude(pk__in=self.written):
            self.written[one.pk] = (one.place, one.body, one.digest)
            self.public |= {f"/features/{one.code}/history/", f"/features/{one.code}/history/{one.number}/"}

    def one_of(self, place):
        found = list(Proposal.objects.order_by("pk"))
        return found[place % len(found)] if found else None

    @rule(author=PLACE, version=PLACE, rows=ROWS, retire=st.booleans(), became=PLACE)
    def somebody_proposes(self, author, version, rows, retire, became):
        versions = list(IssueVersion.objects.order_by("pk"))
        by = self.authors[author % len(self.authors)]
        made = self.attempt(begin_change, by=by, version=versions[version % len(versions)], retire=retire)
        if made:
            successor = [versions[became % len(versions)].code] if became % 4 else []
            wanted = (
                {"retired": "It is another.", "became": successor}
                if retire
                else {k: VALUES[k][v % 3] for k, v in rows.items()}
            )
            self.save_and_send(made, by, made.base | wanted)

    @rule(version=PLACE, became=PLACE, far=st.sampled_from([1, 1, 2]))
    def a_version_is_retired_into_another_and_perhaps_in_force_again(self, version, became, far):
        versions, by = list(IssueVersion.objects.order_by("pk")), self.society.ada
        made = self.attempt(begin_change, by=by, version=versions[version % len(versions)], retire=True)
        if made:
            successor = versions[became % len(versions)].code
            self.save_and_send(made, by, made.base | {"retired": "It is another.", "became": [successor]})
            for act in (decide, revoke)[:far]:
                for who in (self.society.mia, self.society.sue):
                    self.attempt(act, Proposal.objects.get(pk=made.pk), who)

    @rule(
        author=PLACE,
        code=st.sampled_from(["cuff", "closure"]),
        rows=st.dictionaries(st.sampled_from(list(OF_A_FEATURE)), PLACE, min_size=1),
        far=st.sampled_from([0, 1, 1, 2]),
    )
    def somebody_proposes_of_a_feature(self, author, code, rows, far):
        by, feature = self.authors[author % len(self.authors)], Feature.objects.get(code=code)
        if made := self.attempt(begin_feature, by=by, feature=feature):
            self.save_and_send(made, by, made.base | {key: OF_A_FEATURE[key][n % 3] for key, n in rows.items()})
            for act in (decide, revoke)[:far]:
                for who in (self.society.mia, self.society.sue):
                    self.attempt(act, Proposal.objects.get(pk=made.pk), who)

    @rule(
        author=PLACE,
        key=st.sampled_from(list(OF_BACKINGS)),
        values=st.lists(PLACE, min_size=3, max_size=3),
        far=st.sampled_from([0, 1, 1, 2]),
    )
    def somebody_proposes_of_what_versions_rest_on(self, author, key, values, far):
        by, new = self.authors[author % len(self.authors)], not backing.rows_of(*key)
        made = self.attempt(begin_on_backing, by=by, table=key[0], code=key[1], new=new, name="Number" if new else "")
        if made:
            wanted = {name: OF_BACKINGS[key][name][n % 3] for name, n in zip(OF_BACKINGS[key], values, strict=False)}
            self.save_and_send(made, by, {**made.base, **made.rows, **wanted})
            for act in (decide, revoke)[:far]:
                for who in (self.society.mia, self.society.sue):
                    self.attempt(act, Proposal.objects.get(pk=made.pk), who)

    @rule(author=PLACE)
    def somebody_proposes_a_new_feature(self, author):
        by = self.authors[author % len(self.authors)]
        made = self.attempt(begin_new_feature, by=by, garment_type=self.society.home, code="yoke", name="Yoke")
        if made:
            states = {f"state:{code}": {**ELASTIC, "label": code.title()} for code in ("cut", "none")}
            self.save_and_send(made, by, made.rows | {"question": "Is there a yoke?"} | states)
            for who in (self.society.mia, self.society.sue):
                self.attempt(decide, Proposal.objects.get(pk=made.pk), who)

    @rule(author=PLACE, name=st.sampled_from(["SMK-90", "SMK-91"]), copy=st.booleans())
    def somebody_proposes_a_new_version(self, author, name, copy):
        by = self.authors[author % len(self.authors)]
        of = self.society.one if copy else None
        made = self.attempt(begin_new_version, by=by, garment_type=self.society.home, code=name, name=name, copy_of=of)
        if made:
            self.save_and_send(made, by, made.rows)

    @rule(author=PLACE, stays=PLACE, goes=PLACE, whole=st.booleans(), decided=st.booleans())
    def somebody_proposes_a_merge(self, author, stays, goes, whole, decided):
        versions = list(IssueVersion.objects.in_force().order_by("pk")) or [self.society.one]
        by = self.authors[author % 2]
        one, other = versions[stays % len(versions)], versions[goes % len(versions)]
        if made := self.attempt(begin_merge, by=by, stays=one, goes=other):
            self.save_and_send(made, by, {**made.base, **(made.rows if whole else {})})
            if decided:
                for who in (self.society.mia, self.society.max):
                    self.attempt(decide, Proposal.objects.get(pk=made.pk), who)

    @rule(stays=st.sampled_from(["SMK-61", "SMK-76"]), whole=st.booleans(), undone=st.sampled_from([True, True, False]))
    def the_first_two_are_merged_and_perhaps_undone(self, stays, whole, undone):
        goes = "SMK-76" if stays == "SMK-61" else "SMK-61"
        one, other = (IssueVersion.objects.get(code=code) for code in (stays, goes))
        made = self.attempt(begin_merge, by=self.society.ada, stays=one, goes=other)
        if made is None:
            return
        self.save_and_send(made, self.society.ada, {**made.base, **(made.rows if whole else {})})
        for act in (decide, revoke)[: 1 + undone]:
            for who in (self.society.mia, self.society.max):
                self.attempt(act, Proposal.objects.get(pk=made.pk), who)

    @rule(author=PLACE, version=PLACE, codes=SPLIT_INTO, by=st.sampled_from([*SPLIT_BY]), decided=DECIDED)
    def somebody_proposes_a_split(self, author, version, codes, by, decided):
        versions = list(IssueVersion.objects.in_force().order_by("pk")) or [self.society.one]
        made = self.attempt(begin_split, by=self.authors[author % 2], version=versions[version % len(versions)],
                            codes=codes, names=codes)  # fmt: skip
        if made:
            self.split(made, by, decided)

    def split(self, made, by, decided):
        self.save_and_send(made, made.by, {**made.base, **made.rows, **SPLIT_BY[by]})
        for act in (decide, revoke)[:decided]:
            for who in (self.society.mia, self.society.max):
                self.attempt(act, Proposal.objects.get(pk=made.pk), who)

    @rule(codes=SPLIT_INTO, by=st.sampled_from(["cuff", "dates"]), decided=DECIDED)
    def the_one_with_most_pieces_is_split_and_perhaps_undone(self, codes, by, decided):
        most = IssueVersion.objects.in_force().annotate(pieces=Count("held_examples")).order_by("-pieces", "pk").first()
        made = most and self.attempt(begin_split, by=self.society.ada, version=most, codes=codes, names=codes)
        if made:
            self.split(made, by, decided)

    @rule(which=PLACE, version=PLACE)
    def a_moderator_keeps_a_piece_as_something_else(self, which, version):
        pieces, versions = list(Example.objects.order_by("pk")), list(IssueVersion.objects.order_by("pk"))
        piece = pieces[which % len(pieces)]
        self.attempt(attribute_anew, example=piece, moderator=self.society.mo, reason="Looked again.",
                     held_as=versions[version % len(versions)], believed=piece.held_as)  # fmt: skip

    @initialize(author=PLACE, source=SOURCES, picture_of=PICTURES, names=NAMES, far=FAR)
    def every_history_begins_with_a_scan(self, **given):
        self.somebody_puts_a_scan_in(**given)

    @rule(author=PLACE, source=SOURCES, picture_of=PICTURES, names=NAMES, far=FAR)
    def somebody_puts_a_scan_in(self, author, source, picture_of, names, far):
        """`far`: left to others, decided by a deputy and a moderator, revoked as well, or taken out by its author."""
        by, at = self.authors[author % len(self.authors)], Source.objects.get(code=source)
        made = self.attempt(begin_scan, by=by, source=at, file=BytesIO(picture_of))
        if made is None:
            return
        self.save_and_send(made, by, {"shows": "Page 3", "credit": by.username, "licence": "", "names": names})
        for act in (decide, revoke)[: min(far, 2)]:
            for who in (self.society.sue, self.society.mia):
                self.attempt(act, Proposal.objects.get(pk=made.pk), who)
        if far == 3:
            self.its_author_takes_a_scan_out(made.pk)

    @rule(which=PLACE)
    def its_author_takes_a_scan_out(self, which):
        scans = list(SourceScan.objects.exclude(key="").order_by("pk"))
        if scans:
            scan = scans[which % len(scans)]
            self.attempt(take_out, scan=scan, by=scan.proposal.by, seen=scan.key)

    def save_and_send(self, made, by, wanted):
        if self.attempt(
            save_draft, proposal=made, by=by, revision=made.revision, wanted=wanted, grounds="Seen.", sources=["S1"]
        ):
            self.attempt(send_proposal, proposal=made, by=by)

    @rule(
        which=PLACE, who=PLACE, decision=st.sampled_from(["approved", "approved", "approved", "returned", "declined"])
    )
    def somebody_decides(self, which, who, decision):
        if proposal := self.one_of(which):
            self.attempt(decide, proposal, self.deciders[who % len(self.deciders)], decision)

    @rule(which=PLACE, first=PLACE)
    def two_agree(self, which, first):
        for who in (first, first + 1):
            self.somebody_decides(which, who, "approved")

    @rule(which=PLACE, first=PLACE)
    def two_revoke(self, which, first):
        for who in (first, first + 1):
            if proposal := self.one_of(which):
                decider = self.deciders[who % len(self.deciders)]
                self.attempt(revoke_approval, proposal=proposal, decider=decider, reason="A slip.",
                             sending=proposal.times_sent)  # fmt: skip

    @rule(which=PLACE, choice=st.sampled_from(["ours", "theirs"]))
    def its_author_settles_and_sends_again(self, which, choice):
        proposal = self.one_of(which)
        if proposal and proposal.base:
            keys = clashes(proposal.base, proposal.rows, stands_now(proposal))
            self.attempt(settle_clashes, proposal=proposal, by=proposal.by, choices=dict.fromkeys(keys, choice),
                         revision=proposal.revision)  # fmt: skip
            self.attempt(send_proposal, proposal=proposal, by=proposal.by)

    @rule(which=PLACE)
    def its_author_withdraws(self, which):
        if proposal := self.one_of(which):
            self.attempt(withdraw_proposal, proposal=proposal, by=proposal.by)

    @invariant()
    def whoever_is_refused_is_told_why(self):
        assert "" not in self.refused

    @invariant()
    def no_record_ever_changes_and_the_chain_holds(self):
        now = {s.pk: (s.number, s.body, s.previous, s.digest) for s in RecordSeal.objects.all()}
        assert now == self.sealed
        assert list(faults()) == []

    @invariant()
    def replaying_the_decisions_from_the_start_gives_what_stands(self):
        stands = {code: dict(rows) for code, rows in self.start.items()}
        written = [
            *Decision.objects.filter(record__isnull=False).select_related("record__version"),
            *FurtherRecord.objects.select_related("record__version"),
        ]
        for made in sorted(written, key=lambda one: one.record_id):
            rows = stands.setdefault(made.record.version.code, {})
            assert {key: row_of(rows, key) for key in made.before} == made.before
            rows |= made.after
        for version in IssueVersion.objects.all():
            now, then = rows_of_version(version), stands[version.code]
            assert {k: row_of(then, k) for k in {*now, *then}} == {k: row_of(now, k) for k in {*now, *then}}

    @invariant()
    def no_record_of_a_feature_ever_changes_and_the_decisions_give_what_stands(self):
        assert {one.pk: (one.place, one.body, one.digest) for one in FeatureRecord.objects.all()} == self.written
        assert list(faults_of_features()) == []
        stands = {code: dict(rows) for code, rows in self.features.items()}
        for made in Decision.objects.filter(feature_record__isnull=False).order_by("feature_record_id"):
            rows = stands.setdefault(made.feature_record.code, {})
            assert {key: row_of(rows, key) for key in made.before} == made.before
            rows |= made.after
        for feature in Feature.objects.all():
            now, then = rows_of(feature), stands[feature.code]
            assert {k: row_of(then, k) for k in {*now, *then}} == {k: row_of(now, k) for k in {*now, *then}}

    @invariant()
    def the_decisions_give_what_stands_of_what_versions_rest_on(self):
        stands = {key: dict(rows) for key, rows in self.backings.items()}
        for made in Decision.objects.exclude(backing="").order_by("pk"):
            key = tuple(made.backing.split(":"))
            assert {name: row_of(stands[key], name) for name in made.before} == made.before
            stands[key] = {**stands[key], **made.after} if made.after else {}
        for key, then in stands.items():
            now = backing.rows_of(*key)
            assert {k: row_of(then, k) for k in {*now, *then}} == {k: row_of(now, k) for k in {*now, *then}}

    @invariant()
    def a_scan_is_shown_while_its_approval_stands_and_keeps_its_files_while_something_may_come_of_it(self):
        for scan in SourceScan.objects.select_related("proposal"):
            made, after = scan.proposal, {}
            for one in made.decisions.filter(scan=scan).order_by("pk"):
                assert one.by.role == "moderator"
                assert {key: row_of(after, key) for key in one.before} == one.before
                after = {**after, **one.after}
            taken_out = made.words.filter(text__startswith="I have taken the scan out").exists()
            assert scan.shown == (made.state == "approved" and not taken_out)
            assert bool(scan.key) == (made.state in ("draft", "open", "returned") or scan.shown)
            if scan.shown:
                assert {key: getattr(scan, key) for key in after} == after
                assert scan.names in ("none", "masked")
        kept = SourceScan.objects.exclude(key="").values_list("source", "sha256")
        assert len(kept) == len(set(kept))

    @invariant()
    def a_deputy_and_who_is_away_are_never_two_and_no_place_is_its_authors(self):
        for proposal in Proposal.objects.prefetch_related("decisions"):
            for kinds in (("agreed", "approved"), ("undo_agreed", "revoked")):
                took = [(d.sending, d.in_place_of_id or d.by_id) for d in proposal.decisions.all() if d.kind in kinds]
                assert len(took) == len(set(took))
                assert proposal.by_id not in {place for _, place in took}

    @invariant()
    def every_approved_record_has_its_decision_by_others_than_its_author(self):
        for made in Decision.objects.select_related("proposal"):
            assert made.by_id != made.proposal.by_id
        assert (
            VersionRecord.objects.filter(standing="approved").count()
            == Decision.objects.filter(record__isnull=False).count() + FurtherRecord.objects.count()
        )
        for proposal in Proposal.objects.filter(state__in=["approved", "revoked"]).prefetch_related("decisions"):
            who = {d.by_id for d in proposal.decisions.all() if d.kind in ("agreed", "approved")
                   and d.sending == proposal.times_sent}  # fmt: skip
            assert len(who) >= (2 if proposal.weight == "weighty" else 1)

    @invariant()
    def every_piece_has_exactly_one_standing_attribution_and_no_version_that_is_gone_holds_one(self):
        for piece in Example.objects.all():
            assert piece.attributions.filter(by="society").order_by("pk").last().version_id == piece.held_as_id
            assert piece.decisions.order_by("pk").last().held_as_id == piece.held_as_id
            assert not piece.held_as.successors.exists()
            assert not piece.held_as.retired_why

    @invariant()
    def no_split_left_a_label_nowhere_that_was_within_the_dates(self):
        splits = FollowedPiece.objects.filter(decision__proposal__kind="split", decision__kind="approved")
        for one in splits.filter(example__label_year__isnull=False).select_related("decision__proposal", "example"):
            made, year = one.decision.proposal, one.example.label_year
            both = {**made.base, **made.rows}
            now, *then = (
                not date or first <= year <= (last or year)
                for date in (made.base["date"], both["date"], both["second:date"])
                for first, last in [year_span(date) if date else (year, year)]
            )
            assert any(then) or not now

    @invariant()
    def only_what_is_retired_became_another_and_nothing_becomes_itself(self):
        for version in IssueVersion.objects.filter(successors__isnull=False):
            assert version.retired_why
            met, at = set(), {version.pk}
            while at:
                after = IssueVersion.objects.filter(predecessors__version__in=at).values_list("pk", flat=True)
                assert version.pk not in after
                at = set(after) - met
                met |= at

    def every_address_once_public_answers(self):
        forget_everything()
        client = Client()
        for address in self.public:
            assert client.get(address).status_code == 200, address
        for version in IssueVersion.objects.filter(successors__isnull=False):
            page = client.get(f"/issue-versions/{version.code}/").content.decode()
            for one in version.successors.select_related("successor"):
                assert f"/issue-versions/{one.successor.code}/" in page


@pytest.mark.fuzz
def test_no_history_of_proposals_breaks_the_laws(db):
    run_state_machine_as_test(
        Proposing,
        settings=settings(
            max_examples=6,
            stateful_step_count=18,
            deadline=None,
            derandomize=True,
            phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
        ),
    )
