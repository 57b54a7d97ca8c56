"""What accepted examples show, for the pages of the reference."""

from django import template

from catalogue.member_examples.addresses import gallery_address
from catalogue.member_examples.finding import found_examples
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.snapshots import keep_for_state

register = template.Library()


@register.inclusion_tag("member_examples/seen_on.html")
def seen_on(facts, version, feature: str, number: int):
    """On how many of the version's examples the recorded states of a feature are seen, and what else is."""
    rows = keep_for_state(("seen on", version.code), lambda: seen_rows(facts, version, number), number=number)
    return rows[feature]


def seen_rows(facts, version, number: int) -> dict[str, dict]:
    """What `seen_on` shows of each feature of a record: worked out together, since a page asks for all of them."""
    evidence = evidence_of(facts.code, number=number)
    return {feature: seen_row(facts, version, feature, evidence) for feature in version.cells}


def seen_row(facts, version, feature: str, evidence) -> dict:
    shown = evidence.of(version.code, feature)
    recorded = [cell.state for cell in version.cells.get(feature, ())]
    others = {state: codes for state, codes in shown.by_state.items() if state not in recorded}
    return {
        "pieces": shown.pieces,
        "showing": shown.showing(recorded),
        "address": showing_address(version.code, feature, recorded),
        "others": [state_row(facts, version, feature, state, len(codes)) for state, codes in others.items()],
    }


@register.simple_tag(takes_context=True)
def kept_profile(context) -> str:
    """The rows of a version's profile as its page has them. They say the same to everybody until the reference or its
    evidence changes, and writing them anew was half of what a visit to the page cost."""
    rows = context.template.engine.get_template("reference/profile.html")
    key = ("rows of a profile", context["version"].code)
    return keep_for_state(key, lambda: rows.render(context), number=context["number"])


@register.inclusion_tag("member_examples/seen_unrecorded.html")
def seen_unrecorded(facts, version, number: int):
    """What examples of the version show of features that its record does not speak of."""
    evidence = evidence_of(facts.code, number=number)
    rows = []
    for code, feature in facts.features.items():
        shown = evidence.of(version.code, code)
        if shown.pieces and not version.cells.get(code):
            states = [state_row(facts, version, code, state, len(c)) for state, c in shown.by_state.items()]
            rows.append({"name": feature.name, "pieces": shown.pieces, "states": states})
    return {"rows": rows}


@register.inclusion_tag("member_examples/of_version.html")
def examples_of(facts, version, number: int):
    """How many accepted examples are kept as this version, with the way to them."""
    pieces = evidence_of(facts.code, number=number).by_version.get(version.code, ())
    return {"number": len(pieces), "address": gallery_address(version=version.code)}


@register.inclusion_tag("member_examples/of_version.html")
def examples_of_type(facts, number: int):
    """How many accepted examples there are of a garment type, with the way to them."""
    return {
        "number": len(evidence_of(facts.code, number=number).pieces),
        "address": gallery_address(type=facts.code),
    }


@register.simple_tag
def examples_like(query: str, user) -> dict:
    """The pieces that a search finds by their code or by what stands on a label, as far as this person may read."""
    return found_examples(query, user)


def state_row(facts, version, feature: str, state: str, number: int) -> dict:
    return {
        "label": facts.features[feature].label_of(state),
        "number": number,
        "address": showing_address(version.code, feature, [state]),
    }


def showing_address(version: str, feature: str, states: list[str]) -> str:
    """The pieces of the version that show one of these states."""
    return gallery_address(version=version, shows=[f"{feature}:{state}" for state in states])
