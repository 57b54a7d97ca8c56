"""The one place where the catalogue's facts become the engine's input."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from catalogue.member_examples.evidence import Evidence
from catalogue.reference.facts import CellFacts, FeatureFacts, TypeFacts, VersionFacts
from catalogue.reference.words import ALTERED, CANNOT_TELL, NO_SUCH_PART, PART_MISSING, HowOften
from identification import engine

# Starting values of the society; no source. A counted abundance on the record wins over the word.
WEIGHT_OF_RARITY = {1: 8.0, 2: 5.0, 3: 3.0, 4: 1.5, 5: 0.5}
# Mosteller & Youtz 1990, Statistical Science 5:2-34: what such words mean on average over twenty studies
# (the figures are cited from memory). They are rescaled to 1 within a cell.
SHARE_OF_WORD = {
    HowOften.ALWAYS: 0.98,
    HowOften.USUALLY: 0.77,
    HowOften.SOMETIMES: 0.28,
    HowOften.SELDOM: 0.07,
}


# Chance of a version that the society has not recorded, before anything is seen. Ours; chosen by measuring: at 0.05 a
# quarter of the demo's pieces whose version was taken out are still named, at 0.10 fewer than one in six
# (python -m tests.benchmarks.identification left_out).
UNRECORDED = 0.10


def engine_feature(feature: FeatureFacts) -> engine.Feature:
    """A feature as the engine takes it; of a measurement the bands go along."""
    return engine.Feature(
        code=feature.code,
        states=tuple(state.code for state in feature.states),
        effort=feature.effort,
        error=feature.error,
        absent=feature.absent,
        loss=feature.loss,
        gain=feature.gain,
        parent=feature.parent,
        shown_when=feature.shown_when,
        bands=tuple((state.low or 0.0, state.high) for state in feature.states) if feature.is_measured else (),
        sd=feature.spread,
        seen=feature.seen,
        needs_opening=feature.needs_opening,
        needs_handling=feature.needs_handling,
        replaceable=feature.replaceable,
    )


def engine_cell(cells: Iterable[CellFacts]) -> tuple[engine.CellState, ...]:
    return tuple(
        engine.CellState(
            state=cell.state,
            share=cell.share if cell.share is not None else SHARE_OF_WORD[HowOften(cell.how_often)],
            sizes=cell.sizes,
            makers=cell.makers,
            first_year=cell.first_year,
            last_year=cell.last_year,
        )
        for cell in cells
    )


def weight_of(version: VersionFacts) -> float:
    """How common the version is, beside the others of its type."""
    return WEIGHT_OF_RARITY[version.rarity] if version.abundance is None else version.abundance


def engine_version(
    version: VersionFacts,
    features: Mapping[str, FeatureFacts],
    absent_parts: Iterable[str] = (),
    counts: Mapping[str, Mapping[str, int]] | None = None,
) -> engine.Version:
    """A version as the engine takes it; `absent_parts` are features that its garment type cannot have.

    `counts`: accepted examples of the version by feature and state, as `counted` gives them.
    """
    cells = {code: engine_cell(cells) for code, cells in version.cells.items() if code in features}
    cells |= {code: (engine.CellState(state=NO_SUCH_PART),) for code in absent_parts}
    return engine.Version(
        code=version.code,
        weight=weight_of(version),
        kind=version.kind,
        cells=cells,
        piece_seen=version.piece_seen,
        counts=counts or {},
    )


def counted(
    facts: TypeFacts,
    version: VersionFacts,
    evidence: Evidence | None,
    context: engine.Context | None = None,
    *,
    without: str = "",
) -> dict[str, dict[str, int]]:
    """Accepted examples of the version by feature and state, as far as they speak of the piece in hand.

    Left out are features that the record says never apply, and states that the record limits to other makers, sizes or
    years than those known: examples of every maker would bring them back. `without`: the example that is judged.
    """
    if evidence is None:
        return {}
    known = context or engine.Context()
    found = {}
    for code, by_state in evidence.counts(version.code, without=without).items():
        feature = facts.features.get(code)
        if feature is None or not facts.applies(version, feature):
            continue
        limited = {cell.state for cell in engine_cell(version.cells.get(code, ())) if not cell.may_occur(known)}
        found[code] = {state: number for state, number in by_state.items() if state not in limited}
    return found


def pack_of_type(
    facts: TypeFacts,
    context: engine.Context | None = None,
    evidence: Evidence | None = None,
    *,
    without: str = "",
) -> engine.Pack:
    """Everything about one garment type that identification needs, as plain numbers.

    `evidence`: its accepted examples; without it the records speak alone. `without`: an example that is judged with
    this pack, which must not bear witness for itself.
    """
    versions = [
        engine_version(version, facts.features, counts=counted(facts, version, evidence, context, without=without))
        for version in facts.versions.values()
    ]
    return compiled(facts, versions, context)


def pack_with_stranger(facts: TypeFacts, version: VersionFacts, evidence: Evidence | None = None) -> engine.Pack:
    """The pack of a type with one version of another type in it, which no walk takes into account."""
    stranger = replace(engine_version(version, facts.features), weight=0.0)
    own = [
        engine_version(one, facts.features, counts=counted(facts, one, evidence))
        for code, one in facts.versions.items()
        if code != version.code
    ]
    return compiled(facts, [*own, stranger])


def compiled(facts: TypeFacts, versions: list[engine.Version], context: engine.Context | None = None) -> engine.Pack:
    return engine.compile_pack(
        [engine_feature(feature) for feature in parents_kept(facts.features)],
        versions,
        unrecorded=UNRECORDED,
        blanks="borrowed",
        unanswered_parent="enabling",
        context=context or engine.Context(),
    )


def parents_kept(features: Mapping[str, FeatureFacts]) -> list[FeatureFacts]:
    """The features, a detail standing alone where its parent does not apply to the type."""
    return [
        feature
        if feature.parent is None or feature.parent in features
        else replace(feature, parent=None, shown_when=())
        for feature in features.values()
    ]


def engine_answers(answers: Mapping[str, tuple[str, ...]], features: Mapping[str, FeatureFacts]) -> dict[str, object]:
    """Answers as an address keeps them, as the engine takes them; a pair where a question was read back."""
    read = {code: tuple(engine_answer(features[code], text) for text in texts) for code, texts in answers.items()}
    return {code: pair if len(pair) == 2 else pair[0] for code, pair in read.items()}


def engine_answer(feature: FeatureFacts, text: str):
    plain = {CANNOT_TELL: engine.CANNOT_TELL, PART_MISSING: engine.PART_MISSING, ALTERED: engine.ALTERED}
    if text in plain:
        return plain[text]
    if text in feature.state_by_code:
        return engine.States((text,))
    if feature.is_measured:
        return engine.Measured(float(text.removesuffix("mm")))
    return engine.States(tuple(text.split(",")))


def pack_of_any_garment(garment) -> engine.Pack:
    """All versions of all types in one pack (identification.walk_through.any_garment.AnyGarment).

    The records speak alone here: this walk only has to find the garment type.
    """
    facts = garment.facts
    versions = []
    for version in facts.versions.values():
        home = garment.home_of[version.code]
        made = engine_version(version, facts.features, garment.lacking[home])
        whole = {"_worn": garment.worn.get(home), f"_outline_{garment.worn.get(home)}": garment.outline.get(home)}
        cells = {
            code: (engine.CellState(state=state),) for code, state in whole.items() if state and code in facts.features
        }
        versions.append(replace(made, cells={**made.cells, **cells}))
    return engine.compile_pack(
        [engine_feature(feature) for feature in facts.features.values()],
        versions,
        blanks="pooled",
        unanswered_parent="enabling",
        context=engine.Context(),
    )
