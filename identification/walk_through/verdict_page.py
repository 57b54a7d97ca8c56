"""What the verdict page shows: codes from the engine turned into words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from urllib.parse import urlencode

from catalogue.member_examples.submitting.from_label import PREFIX
from catalogue.reference.facts import FeatureFacts, TypeFacts
from catalogue.reference.words import PART_MISSING
from identification import engine
from identification.engine.reasons import signed_words
from identification.labels_on_pages.into_piece import how_fixed
from identification.profiles_from_catalogue import engine_answers
from identification.walk_through.accepted_pieces import nearest_pieces
from identification.walk_through.address import Walk
from identification.walk_through.any_garment import ANY_GARMENT
from identification.walk_through.photographs import message, photographs
from identification.walk_through.piece_years import piece_years
from identification.walk_through.question_page import answer_words, answered_rows, asking, candidate_rows, given_words
from identification.walk_through.steps import may_ask
from identification.walk_through.words import (
    CANNOT_SAY_WORDS,
    GROUP_NOUN,
    RARITY_WORDS,
    kind_words,
    likely,
    listed,
    percent,
)

SHOWN_CHECKS = 4
# Some three lines of a heading on a screen 360 wide.
LONGEST_HEADING = 48
NUMBERS = {2: "two", 3: "three", 4: "four", 5: "five", 6: "six"}
WORDS_OF_MARK = {"for": "speaks for it", "against": "speaks against it", "neither": "says little"}


@dataclass(frozen=True)
class Headline:
    """The two answers: what kind of piece, and which version; `why` is the sentence below them.

    `names`: the versions, where `version` names several.
    """

    version: str
    kind: str
    why: str
    names: tuple[str, ...] = ()

    @property
    def is_long(self) -> bool:
        """Whether the names would fill a phone if they stood in the heading."""
        return len(self.names) > 1 and len(self.version) > LONGEST_HEADING

    @property
    def title(self) -> str:
        many = NUMBERS.get(len(self.names), str(len(self.names)))
        return f"One of {many} versions" if self.is_long else self.version


def verdict_context(facts: TypeFacts, pack: engine.Pack, walk: Walk, number: int) -> dict:
    """Everything the verdict template needs."""
    answers = engine_answers(walk.answers, facts.features)
    allowed = may_ask(facts, walk)
    verdict = engine.verdict(pack, answers, allowed=allowed)
    named = [facts.versions[code] for code in verdict.named]
    reasons = reason_rows(facts, walk, verdict.for_and_against, verdict.leader)
    told = {row["feature"] for row in reasons}
    wanted = photographs(facts, pack, walk, number)
    answered = answered_rows(facts, walk, verdict.belief.left_out if verdict.belief else {})
    return {
        "verdict": verdict,
        "headline": headline(facts, verdict),
        "named": [named_version(facts, verdict, code) for code in verdict.named],
        "questions": questions_of(named),
        "hazards": [version for version in named if version.hazard_words],
        "restricted": list({version.restrictions: version for version in named if version.restrictions}.values()),
        "reasons": reasons,
        "against": facts.versions[verdict.second].name if verdict.second else "",
        "leader": facts.versions[verdict.leader] if verdict.leader else None,
        "nearest": nearest_rows(facts, walk, verdict),
        "pieces": nearest_pieces(facts, walk, verdict.named, number),
        "years": piece_years(facts, walk, named, number),
        "not_seen": [facts.versions[code] for code in verdict.not_seen],
        "submit_query": submit_query(facts, walk),
        "submits_label": facts.code != ANY_GARMENT and bool(label_pairs(walk)),
        "resting": facts.features[verdict.rests_on] if verdict.rests_on else None,
        "closed_checks": [facts.features[code] for code in verdict.not_allowed_checks[:SHOWN_CHECKS]],
        "photographs": wanted,
        "message": message(facts, wanted),
        "contradicting": [facts.features[code] for code in verdict.contradicting],
        "answered": [row for row in answered if row["feature"] not in told],
        "candidates": candidate_rows(pack, verdict.belief, facts) if verdict.belief else [],
        "kind_shares": [
            {
                "name": "a version not in the reference" if kind == "unrecorded" else GROUP_NOUN[kind],
                "percent": percent(s),
            }
            for kind, s in verdict.kind_shares.items()
        ],
    } | still_to_look_at(facts, pack, walk, verdict)


def still_to_look_at(facts: TypeFacts, pack: engine.Pack, walk: Walk, verdict: engine.Verdict) -> dict:
    """The lists of what is still worth a look, their places numbered through, and above which the flat stands with the
    numbers: the first that has any."""
    # Nothing is held off a piece that fits no version; each that is near stands there with what disagrees.
    held_off = [] if verdict.status == "not_in_reference" else by_chance(pack, verdict)[:SHOWN_CHECKS]
    lists = {
        "unchecked": [unchecked_row(facts, pack, walk, one, verdict) for one in held_off],
        "checks": [check_row(facts, walk, code) for code in verdict.next_checks[:SHOWN_CHECKS]],
        "untold_checks": [check_row(facts, walk, code) for code in verdict.untold_checks[:SHOWN_CHECKS]],
    }
    shown = {name: rows for name, rows in lists.items() if walk.answers or name != "unchecked"}
    places = numbered_places(*shown.values())
    above = next((name for name, rows in shown.items() if any("n" in row for row in rows)), "")
    return lists | {"to_look_at": places, "flat_above": above}


def submit_query(facts: TypeFacts, walk: Walk) -> str:
    """The answers as the form for members' pieces takes them: the type, and of each question the last word."""
    if facts.code == ANY_GARMENT:
        return ""
    last = [(code, texts[-1]) for code, texts in walk.answers.items()]
    return "?" + urlencode([("_type", facts.code), *last, *label_pairs(walk)], safe=",")


def label_pairs(walk: Walk) -> list[tuple[str, str]]:
    """What the address says of the label, as that form takes a label: its number and year stand as its text."""
    lines = [*(one.strip() for one in walk.label_number.split(",") if one.strip()), str(walk.label_year or "")]
    fields = {
        "text": "\n".join(line for line in lines if line),
        "maker": walk.label_makers[0] if len(walk.label_makers) == 1 else "",
        "label_year": str(walk.label_year or ""),
        **how_fixed(walk.label_sewn),
    }
    return [(PREFIX + name, value) for name, value in fields.items() if value] if fields["text"] else []


def by_chance(pack: engine.Pack, verdict: engine.Verdict) -> list:
    """Look-alikes that are not ruled out, likeliest first."""
    chances = dict(zip(pack.version_codes, verdict.belief.posterior, strict=True)) if verdict.belief else {}
    return sorted(verdict.unchecked, key=lambda one: -chances.get(one.version, 0.0))


def headline(facts: TypeFacts, verdict: engine.Verdict) -> Headline:
    """The verdict in a line for each of its two questions."""
    names = [facts.versions[code].name for code in verdict.named]
    kind = kind_line(facts, verdict)
    chance = dict(verdict.short_list).get(verdict.leader, 0.0)
    if verdict.status == "not_in_reference":
        return Headline("Not in the reference", CANNOT_SAY_WORDS, NOT_IN_REFERENCE)
    if verdict.status == "open":
        return Headline("Too little to name a version", kind, OPEN if verdict.next_checks else OPEN_FOR_GOOD)
    if verdict.status == "inseparable":
        why = "Nothing on record tells them apart on present knowledge."
        why = look_alike_words(facts, verdict) if verdict.unchecked else why
        return Headline(listed(names, "or"), kind, why, tuple(names))
    if verdict.status == "narrowed" and len(names) == 1 and chance >= engine.PROBABLE and not verdict.rests_on:
        return Headline(f"Probably {names[0]}", kind, probable_words(facts, verdict, chance))
    if verdict.status == "narrowed":
        why = NARROWED if verdict.next_checks else NARROWED_FOR_GOOD
        return Headline(narrowed_words(names), kind, why, tuple(names))
    if verdict.unchecked:
        return Headline(f"It looks like {names[0]}", kind, look_alike_words(facts, verdict))
    return Headline(names[0], kind, f"This is {likely(chance)} right ({percent(chance)}){AS_RECORDED}.")


def kind_line(facts: TypeFacts, verdict: engine.Verdict) -> str:
    """What kind of piece it is: of the versions named, or of those that come into question."""
    group = verdict.probable_kind or verdict.kind
    if group == engine.CANNOT_SAY:
        return CANNOT_SAY_WORDS
    return kind_words(group, version_kinds(facts, verdict), probably=verdict.probable_kind is not None)


def version_kinds(facts: TypeFacts, verdict: engine.Verdict) -> tuple[str, ...]:
    """The kinds of the versions that the verdict names, or else of its short list, as far as they are of the kind of
    piece that it says; nothing where it says none."""
    group = verdict.probable_kind or verdict.kind
    codes = verdict.named or [code for code, _ in verdict.short_list]
    kinds = [facts.versions[code].kind for code in codes]
    return tuple(dict.fromkeys(kind for kind in kinds if engine.KIND_GROUPS[kind] == group))


# Of pieces of a copy that nobody had recorded a third are taken for issued with every check made (python -m
# tests.benchmarks.identification new_copies).
AS_RECORDED = ", as far as versions and copies are recorded"
NOT_IN_REFERENCE = (
    "No recorded version fits what you saw. Look again at the answers that disagree below: either one of them is a "
    "slip, or the piece is altered, or the society does not know it yet."
)
OPEN = "Answer more questions, or others: the list below is what remains."
OPEN_FOR_GOOD = "What is left to ask would tell little more: the list below is what remains."
NARROWED = "The answers narrow it down so far and no further. The checks below would narrow it more."
NARROWED_FOR_GOOD = "The answers narrow it down so far and no further, and what is left to ask would tell little more."


IN_THE_LIST = "that the list below names"
# The same where neither the list nor the checks follow.
ALONE = {
    OPEN: "Too few answers so far; more would narrow it.",
    OPEN_FOR_GOOD: "What is left to ask would tell little more.",
    NARROWED: "The answers narrow it down so far; more answers would narrow it further.",
    NOT_IN_REFERENCE: (
        "No recorded version fits what was seen: an answer is a slip, or the piece is altered, or the society does not "
        "know it yet."
    ),
}


def headline_alone(facts: TypeFacts, verdict: engine.Verdict) -> Headline:
    """The headline for pages that show no list and no checks below it."""
    said = headline(facts, verdict)
    return replace(said, why=ALONE.get(said.why, said.why).replace(IN_THE_LIST, "that is on record too"))


def probable_words(facts: TypeFacts, verdict: engine.Verdict, chance: float) -> str:
    """Why a single version is only probable."""
    if verdict.unchecked:
        return look_alike_words(facts, verdict)
    others = 1 - chance - verdict.unrecorded
    doubt = "that the society has not recorded" if verdict.unrecorded >= others else IN_THE_LIST
    return f"Nothing on record fits better ({percent(chance)}). What doubt is left is mostly of a version {doubt}."


def narrowed_words(names: list[str]) -> str:
    if len(names) == 1:
        return f"Perhaps {names[0]}"
    return listed(names, "or") if len(names) <= 3 else f"One of {len(names)} versions"


def look_alike_words(facts: TypeFacts, verdict: engine.Verdict) -> str:
    names = [facts.versions[one.version].name for one in verdict.unchecked]
    shown = listed(names[:3]) + (f" and {len(names) - 3} more" if len(names) > 3 else "")
    return f"{shown} would look the same in what you have answered so far."


def named_version(facts: TypeFacts, verdict: engine.Verdict, code: str) -> dict:
    version = facts.versions[code]
    chance = float(dict(verdict.short_list).get(code, 0.0))
    return {
        "version": version,
        "likely": likely(chance),
        "percent": percent(chance),
        "rarity": RARITY_WORDS[version.rarity],
    }


def questions_of(named) -> list:
    """Open questions that touch the versions named, each once."""
    found = {question.code: question for version in named for question in version.open_questions}
    return list(found.values())


def unchecked_row(facts: TypeFacts, pack: engine.Pack, walk: Walk, one, verdict: engine.Verdict) -> dict:
    """A look-alike, with the check that would show it and what each record says of that check."""
    open_checks = [*one.would_show, *one.not_allowed]
    apart = pack.separating(verdict.leader, one.version)
    untold = [code for code in verdict.untold_checks if code in apart]
    step = next(iter([*open_checks, *untold]), None)
    telling = one.leads_to.get(step, step)
    return {
        "version": facts.versions[one.version],
        "feature": facts.features[step] if step else None,
        "detail": facts.features[telling] if telling != step else None,
        "query": asking(walk, step).query() if one.would_show or (untold and not open_checks) else "",
        "untold": bool(untold and not open_checks),
        "theirs": recorded_words(facts, one.version, telling) if telling else "",
        "leaders": recorded_words(facts, verdict.leader, telling) if telling else "",
        "answered": [facts.features[code].name for code in apart if code in walk.answers],
    }


def recorded_words(facts: TypeFacts, version: str, feature: str) -> str:
    """What the version's record says of a feature, in words."""
    cells = facts.versions[version].cells.get(feature, ())
    return " or ".join(cell.label for cell in cells) or "not recorded"


def reason_rows(facts: TypeFacts, walk: Walk, reasons: Iterable[engine.Reason], version: str | None) -> list[dict]:
    """What each answer says for the version, strongest first, with what its record says."""
    rows = []
    for reason in reasons:
        if reason.feature not in facts.features:
            continue
        feature = facts.features[reason.feature]
        texts = walk.answers.get(reason.feature)
        direction = reason.word.rsplit(" ", 1)[-1]
        explained = direction == "against" and may_explain(facts, feature, version, texts)
        rows.append(
            {
                "feature": feature.code,
                "change": asking(walk, feature.code).query() if texts else "",
                "undo": walk.without(feature.code).query() if texts else "",
                "name": feature.name,
                "answer": given_words(feature, texts) if texts else "there, as its detail shows",
                "word": reason.word if direction != "neither" else WORDS_OF_MARK["neither"],
                "direction": direction,
                "mark": {"for": "+", "against": "−"}.get(direction, "·"),
                "decibans": signed_words(reason.decibans),
                "recorded": recorded_words(facts, version, reason.feature),
                "note": feature.change_note if explained else "",
            }
        )
    return rows


def may_explain(facts: TypeFacts, feature: FeatureFacts, version: str | None, texts: Sequence[str] | None) -> bool:
    """Whether how the feature changes in service may explain an answer: what is oftener lost than added explains no
    part that is there against the record."""
    recorded = {cell.state for cell in facts.versions[version].cells.get(feature.code, ())} if version else set()
    said = set(texts[-1].split(",")) if texts else set()
    there_against_the_record = recorded == {feature.absent} and feature.absent not in said and PART_MISSING not in said
    return not (there_against_the_record and feature.loss > feature.gain)


def nearest_rows(facts: TypeFacts, walk: Walk, verdict: engine.Verdict) -> list[dict]:
    """The nearest versions with exactly what disagrees."""
    return [
        {
            "version": facts.versions[code],
            "disagreements": [
                {
                    "name": facts.features[one.feature].name,
                    "answer": answer_words(facts.features[one.feature], walk.answers[one.feature][-1]),
                    "recorded": " or ".join(facts.features[one.feature].label_of(state) for state in one.recorded),
                    "change": asking(walk, one.feature).query(),
                }
                for one in disagreements
                if one.feature in walk.answers
            ],
        }
        for code, disagreements in verdict.nearest
    ]


def numbered_places(*lists: list[dict]) -> list[dict]:
    """What is still worth a look, each feature once, in the order in which the page names it; a row that leads to one
    gets its number (`n`) in that list, so that the flat and the words agree."""
    numbers: dict[str, int] = {}
    found = []
    for row in (row for rows in lists for row in rows):
        if not row["query"]:
            continue
        code = row["feature"].code
        if code not in numbers:
            numbers[code] = len(numbers) + 1
            found.append(row)
        row["n"] = numbers[code]
    return found


def check_row(facts: TypeFacts, walk: Walk, code: str) -> dict:
    feature = facts.features[code]
    return {"feature": feature, "query": asking(walk, code).query()}
