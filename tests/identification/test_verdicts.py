"""What a verdict says at the edges. The rules are ours; no source."""

import pytest

from identification.engine import (
    CANNOT_TELL,
    Ask,
    CellState,
    Feature,
    Finish,
    States,
    Version,
    compile_pack,
    next_step,
    verdict,
)


def feature(code: str, *states: str, **more) -> Feature:
    return Feature(code=code, states=states or ("a", "b"), effort=1.0, error=more.pop("error", 0.03), **more)


def version(code: str, kind: str = "issue", **cells: str) -> Version:
    return Version(
        code=code,
        weight=1.0,
        kind=kind,
        cells={name: (CellState(state=state, share=1.0),) for name, state in cells.items()},
        piece_seen=True,
    )


def test_versions_that_nothing_recorded_separates_are_named_together_without_any_answer():
    pack = compile_pack([feature("cuff")], [version("A", cuff="a"), version("B", cuff="a")])

    assert isinstance(next_step(pack, {}), (Ask, Finish))
    for answers in ({}, {"cuff": States(("a",))}, {"cuff": CANNOT_TELL}):
        said = verdict(pack, answers)
        assert (said.status, set(said.named)) == ("inseparable", {"A", "B"})


def test_a_single_version_is_not_named_before_a_check_that_could_have_refuted_it():
    pack = compile_pack([feature("cuff"), feature("hem")], [version("A", cuff="a", hem="a")])

    assert verdict(pack, {}).status == "open"
    assert verdict(pack, {"cuff": CANNOT_TELL}).status == "open"
    assert isinstance(next_step(pack, {}), Ask)
    assert verdict(pack, {"cuff": States(("a",))}).named == ("A",)


def test_a_version_told_by_weak_features_only_can_still_be_refuted_by_them():
    pack = compile_pack(
        [feature("colour", error=0.2), feature("hand", error=0.2)],
        [version("A", colour="a", hand="a"), version("B", colour="b", hand="b")],
    )

    said = verdict(pack, {"colour": States(("a",)), "hand": States(("a",))})

    assert "A" in said.named


def test_one_weak_feature_never_rules_a_look_alike_out_and_two_of_them_may():
    features = [feature("colour", error=0.16), feature("hand", error=0.16), feature("cuff")]
    pack = compile_pack(
        features,
        [
            version("A", colour="a", hand="a", cuff="a"),
            version("C", kind="commercial_copy", colour="b", hand="b", cuff="a"),
        ],
    )

    one = verdict(pack, {"cuff": States(("a",)), "colour": States(("a",))})
    two = verdict(pack, {"cuff": States(("a",)), "colour": States(("a",)), "hand": States(("a",))})

    assert [other.version for other in one.unchecked] == ["C"]
    assert two.unchecked == ()


def test_reasons_weigh_the_leader_against_the_likeliest_version_that_is_not_named():
    pack = compile_pack(
        [feature("cuff"), feature("hem")],
        [version("A", cuff="a", hem="a"), version("twin", cuff="a", hem="a"), version("other", cuff="b", hem="b")],
    )

    said = verdict(pack, {"cuff": States(("a",)), "hem": States(("a",))})

    assert set(said.named) == {"A", "twin"}
    assert said.second == "other"
    assert all(reason.decibans > 0 for reason in said.for_and_against)


def test_what_speaks_against_the_leader_is_told_before_what_speaks_for_it():
    names = [f"f{i}" for i in range(5)]
    pack = compile_pack(
        [feature(name) for name in names],
        [version("A", **dict.fromkeys(names, "a")), version("B", **dict.fromkeys(names, "b"))],
    )

    said = verdict(pack, {name: States(("b" if name == "f3" else "a",)) for name in names})

    assert said.leader == "A"
    assert [reason.feature for reason in said.for_and_against][0] == "f3"
    assert [reason.decibans < 0 for reason in said.for_and_against] == [True, False, False, False, False]


@pytest.mark.parametrize("told", [True, False])
def test_a_check_that_could_not_be_told_is_offered_again_where_it_would_decide(told):
    pack = compile_pack(
        [feature("cuff"), feature("hem")],
        [version("A", cuff="a", hem="a"), version("C", kind="commercial_copy", cuff="a", hem="b")],
    )
    answers = {"cuff": States(("a",)), "hem": States(("a",)) if told else CANNOT_TELL}

    assert verdict(pack, answers).untold_checks == (() if told else ("hem",))


def test_no_check_is_offered_that_all_versions_in_question_answer_alike():
    """The hem is the same on A and B, which are left, and on C, the next; only D, as good as ruled out, has another."""
    pack = compile_pack(
        [feature("cuff"), feature("hem"), feature("vent"), feature("pocket", "none", "patch"),
         feature("flap", parent="pocket", shown_when=("patch",))],
        [version("A", cuff="a", hem="a", vent="a", pocket="patch", flap="a"),
         version("B", cuff="a", hem="a", vent="b", pocket="patch", flap="b"),
         version("C", cuff="b", hem="a", vent="a", pocket="none"),
         version("D", cuff="b", hem="b", vent="a", pocket="none")],
    )  # fmt: skip
    checks = verdict(pack, {"cuff": States(("a",))}).next_checks

    assert "hem" not in checks
    assert {"vent", "pocket"} <= set(checks)  # the pocket itself is alike, and the way to its flap


def test_a_look_alike_is_shown_by_the_detail_and_asked_for_by_its_part():
    features = [
        feature("pocket", "none", "patch"),
        feature("flap", "straight", "pointed", parent="pocket", shown_when=("patch",)),
        feature("hem"),
    ]
    pack = compile_pack(
        features,
        [
            version("A", pocket="patch", flap="straight", hem="a"),
            version("C", kind="commercial_copy", pocket="patch", flap="pointed", hem="a"),
            version("D", pocket="none", hem="b"),
        ],
    )

    said = verdict(pack, {"hem": States(("a",))})
    other = next(one for one in said.unchecked if one.version == "C")

    assert other.would_show == ("pocket",)
    assert dict(other.leads_to) == {"pocket": "flap"}


def test_a_part_is_not_asked_for_the_sake_of_a_detail_that_may_not_be_looked_at():
    features = [
        feature("pocket", "none", "patch"),
        feature("flap", "straight", "pointed", parent="pocket", shown_when=("patch",)),
        feature("lining", "a", "b", parent="pocket", shown_when=("patch",), error=0.01),
        feature("hem"),
    ]
    pack = compile_pack(
        features,
        [
            version("A", pocket="patch", flap="straight", lining="a", hem="a"),
            version("C", kind="commercial_copy", pocket="patch", flap="pointed", lining="b", hem="a"),
            version("D", pocket="none", hem="b"),
        ],
    )

    def other(closed: str):
        said = verdict(pack, {"hem": States(("a",))}, allowed=lambda one: one.code != closed)
        return next(one for one in said.unchecked if one.version == "C")

    assert dict(other("nothing").leads_to) == {"pocket": "lining"}
    assert dict(other("lining").leads_to) == {"pocket": "flap"}
    assert other("lining").not_allowed == ("lining",)


def test_a_probable_version_is_asked_on_only_while_the_questions_left_can_make_it_sure():
    names = ("f0", "f1", "f2", "f3")
    sure = compile_pack(
        [feature(name, "a", "b", "c") for name in names],
        [version(code, **dict.fromkeys(names, state)) for code, state in zip("ABC", "abc", strict=True)],
        unrecorded=0.10,
    )
    answers: dict[str, object] = {}
    while isinstance(step := next_step(sure, answers), Ask):
        answers[step.feature] = States(("a",))

    assert verdict(sure, answers).kind == "issued"
    assert verdict(sure, answers).probable_kind is None

    few = compile_pack(
        [feature("f0", "a", "b", "c"), feature("f1")],
        [version(code, f0=state, f1="a") for code, state in zip("ABC", "abc", strict=True)],
        unrecorded=0.10,
    )
    said = verdict(few, {"f0": States(("a",))})

    assert next_step(few, {"f0": States(("a",))}) == Finish("no gain")
    assert (said.kind, said.probable_kind, said.named) == ("cannot say", "issued", ("A",))


@pytest.mark.parametrize(("kinds", "status"), [(["issue"], "open"), (["issue", "commercial_copy"], "inseparable")])
def test_a_type_without_any_feature_has_a_verdict_and_nothing_to_ask(kinds, status):
    pack = compile_pack([], [version(f"V{i}", kind=kind) for i, kind in enumerate(kinds)])
    said = verdict(pack, {})

    assert isinstance(next_step(pack, {}), Finish)
    assert said.status == status
    assert said.kind == "cannot say"
