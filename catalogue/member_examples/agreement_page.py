"""How far members agree who looked at the same features of the same pieces."""

from collections import defaultdict

from catalogue.member_examples.agreement import agreement_of_looks, cohens_kappa
from catalogue.member_examples.evidence import Said, last_looks
from catalogue.member_examples.models import Example, Observation
from catalogue.member_examples.words import Answer
from catalogue.reference.models import Feature
from catalogue.reference.snapshots import KeptForState

keep_agreement = KeptForState(most=4)
# Fewer pieces give no figure worth printing. Ours; no source.
FEWEST = 10
# Landis & Koch 1977, Biometrics 33:159 (from memory): their words for kappa, which they call arbitrary themselves.
WORDS = ((0.81, "almost perfect"), (0.61, "substantial"), (0.41, "moderate"), (0.21, "fair"), (0.0, "slight"))


def agreement_context(*, number: int) -> dict:
    return keep_agreement(("agreement",), read_agreement, number=number)


def read_agreement() -> dict:
    cases = looks_by_feature()
    features = Feature.objects.filter(code__in=cases).order_by("position", "code")
    rows = [feature_row(feature, cases[feature.code]) for feature in features]
    return {"rows": [row for row in rows if row], "fewest": FEWEST}


def looks_by_feature() -> dict[str, list[list[tuple[bool, str]]]]:
    """Of accepted pieces seen by two or more: by feature one list of (is the owner, state) for each piece."""
    told: dict[tuple[str, int], list[Said]] = defaultdict(list)
    owners = dict(Example.objects.accepted().values_list("pk", "owner_id"))
    rows = (
        Observation.objects.filter(example__state="accepted")
        .order_by("pk")
        .values_list("example_id", "observer_id", "feature__code", "answer", "state__code")
    )
    for example, observer, feature, answer, state in rows:
        told[feature, example].append(Said(observer, answer, state or ""))
    cases: dict[str, list[list[tuple[bool, str]]]] = defaultdict(list)
    for (feature, example), said in told.items():
        last = [(one.observer == owners[example], one.state) for one in last_looks(said) if one.answer == Answer.SEEN]
        if len([state for _, state in last if state]) > 1:
            cases[feature].append([pair for pair in last if pair[1]])
    return cases


def feature_row(feature: Feature, cases: list[list[tuple[bool, str]]]) -> dict | None:
    if len(cases) < FEWEST:
        return None
    answers = [[state for _, state in case] for case in cases]
    alike = sum(len(set(row)) == 1 for row in answers)
    # Two raters with a part each: the owner, and whoever looked second.
    pairs = [(own[0], other[0]) for case in cases if (own := said_by(case, True)) and (other := said_by(case, False))]
    kappa = agreement_of_looks(answers)
    return {
        "name": feature.name,
        "pieces": len(cases),
        "alike": alike,
        "fleiss": figure(kappa),
        "cohen": figure(cohens_kappa(pairs)) if len(pairs) >= FEWEST else "",
        "words": next((words for least, words in WORDS if kappa is not None and kappa >= least), "" if kappa is None
                      else "worse than chance"),
    }  # fmt: skip


def said_by(case: list[tuple[bool, str]], owner: bool) -> list[str]:
    return [state for is_owner, state in case if is_owner == owner]


def figure(kappa: float | None) -> str:
    return "" if kappa is None else f"{kappa:.2f}".replace("-", "−")
