"""Packs and what is worked out from them, kept for one state of the reference."""

from catalogue.member_examples.evidence import Evidence
from catalogue.member_examples.queries import evidence_of
from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import ReferenceState
from catalogue.reference.snapshots import KeptForState, all_types, keep_for_state, type_facts
from identification import engine
from identification.profiles_from_catalogue import pack_of_any_garment, pack_of_type
from identification.walk_through.any_garment import AnyGarment, any_garment

keep_pack = KeptForState(most=256)
keep_count = KeptForState(most=4_096)


def state_number() -> int:
    return ReferenceState.current_number()


def facts_for(code: str, number: int) -> TypeFacts | None:
    return type_facts(code, number=number)


def garments_for(number: int) -> AnyGarment:
    return keep_for_state(("any garment",), lambda: any_garment(all_types(number=number)), number=number)


def pack_for(facts: TypeFacts, context: engine.Context, number: int) -> engine.Pack:
    key = ("pack", facts.code, context.maker, context.size, context.year)
    return keep_pack(key, lambda: pack_of_type(facts, context, evidence_for(facts, number)), number=number)


def evidence_for(facts: TypeFacts, number: int) -> Evidence:
    """The accepted examples that the type's pack counts."""
    return evidence_of(facts.code, number=number)


def any_pack(number: int) -> engine.Pack:
    return keep_pack(("any pack",), lambda: pack_of_any_garment(garments_for(number)), number=number)


def questions_left(pack: engine.Pack, key: tuple, answers, allowed, number: int) -> float:
    """Mean number of questions still to come, kept by `key` (type, answers and what may be asked)."""
    return keep_count(key, lambda: engine.expected_questions(pack, answers, allowed=allowed), number=number)


def information(pack: engine.Pack, key: tuple, answers, allowed, number: int) -> float:
    """Bits that all the allowed questions would give together, kept by `key`."""
    return keep_count(key, lambda: engine.expected_information(pack, answers, allowed=allowed), number=number)


def told_apart(pack: engine.Pack, key: tuple, allowed, number: int) -> tuple[str, ...]:
    """Versions that the allowed features can tell apart, kept by `key`."""
    return keep_count(key, lambda: engine.told_apart(pack, allowed=allowed), number=number)
