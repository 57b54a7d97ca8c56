"""Between the texts in which a walk's address keeps answers and the looks that stand in the tables."""

from collections.abc import Collection, Iterable, Mapping

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import Look
from catalogue.member_examples.models import Example, Observation
from catalogue.member_examples.queries import altered_features
from catalogue.member_examples.words import Answer
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.models import Feature
from catalogue.reference.words import ALTERED, CANNOT_TELL, NO_SUCH_PART, PART_MISSING

ANSWER_OF_TEXT = {
    CANNOT_TELL: Answer.CANNOT_TELL,
    PART_MISSING: Answer.PART_MISSING,
    ALTERED: Answer.ALTERED,
    NO_SUCH_PART: Answer.NO_SUCH_PART,
}
TEXT_OF_ANSWER = {answer: text for text, answer in ANSWER_OF_TEXT.items()}
PLAIN_WORDS = {
    CANNOT_TELL: "Cannot tell",
    PART_MISSING: "The part is missing now",
    ALTERED: "It has been altered",
    NO_SUCH_PART: "This piece has no such part",
}
MOST_SIGNS_OF_A_NOTE = 300


def look_of(feature: Feature, facts: FeatureFacts, text: str) -> Look:
    """The look that an answer's text stands for. Several states are no state: they are kept in the note."""
    if text in ANSWER_OF_TEXT:
        return Look(feature=feature, answer=ANSWER_OF_TEXT[text])
    if facts.is_measured and text.endswith("mm"):
        return Look(feature=feature, value=float(text.removesuffix("mm")))
    states = text.split(",")
    if len(states) > 1:
        words = " or ".join(facts.label_of(state) for state in states)
        return Look(feature=feature, answer=Answer.CANNOT_TELL, note=f"One of: {words}"[:MOST_SIGNS_OF_A_NOTE])
    return Look(feature=feature, state=text)


def looks_of(facts: TypeFacts, answers: Mapping[str, tuple[str, ...]]) -> list[Look]:
    """A look for each answer; of a question that was read back the last word."""
    rows = {feature.code: feature for feature in Feature.objects.filter(code__in=answers).prefetch_related("states")}
    return [
        look_of(rows[code], facts.features[code], texts[-1])
        for code, texts in answers.items()
        if code in rows and code in facts.features
    ]


def last_looks(example: Example, member: Member) -> dict[str, Observation]:
    """What a member said last of each feature of a piece, in the order in which it was first said."""
    rows = Observation.objects.filter(example=example, observer=member).select_related("feature", "state")
    found: dict[str, Observation] = {}
    for row in rows.order_by("pk"):
        found[row.feature.code] = row
    return found


def altered_on(example: Example) -> frozenset[str]:
    """Features of which an alteration of the piece says that they say nothing of the version any more."""
    return altered_features(Example.objects.filter(pk=example.pk)).get(example.pk, frozenset())


def answers_of(
    looks: Mapping[str, Observation], facts: TypeFacts, altered: Collection[str] = ()
) -> dict[str, tuple[str, ...]]:
    """The same as texts of an address, for the identification: what it cannot use is left out. `altered`: features
    that count as altered, whatever was seen there."""
    texts = {
        code: text_of(row)
        for code, row in looks.items()
        if code in facts.features and row.answer != Answer.NO_SUCH_PART
    }
    texts |= dict.fromkeys((code for code in facts.features if code in altered), ALTERED)
    return {code: (text,) for code, text in texts.items() if text}


def text_of(row: Observation) -> str:
    if row.answer != Answer.SEEN:
        return TEXT_OF_ANSWER[Answer(row.answer)]
    if row.state is not None and not (row.feature.kind == "measurement" and row.value):
        return row.state.code
    return f"{row.value:.1f}".rstrip("0").rstrip(".") + "mm" if row.value else ""


def words_of(row: Observation) -> str:
    """What was seen, as a person would say it."""
    if row.answer != Answer.SEEN:
        words = PLAIN_WORDS[TEXT_OF_ANSWER[Answer(row.answer)]]
        return f"{words} ({row.note})" if row.note else words
    number = "" if row.value is None else f"{row.value:g}{f' {row.feature.unit}' if row.feature.unit else ''}"
    label = row.state.label if row.state else ""
    return f"{label} ({number})" if label and number else label or number


def pairs_kept(pairs: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    """The pairs of a walk's address that are answers: names of the site's own begin with `_`."""
    return [(name, value) for name, value in pairs if not name.startswith("_")]
