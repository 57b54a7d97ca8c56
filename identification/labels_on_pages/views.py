"""The page that reads a label. What is typed is sent, answered and forgotten: a label may carry a person's name."""

from collections.abc import Sequence

from django.shortcuts import render
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_http_methods

from catalogue.reference.facts import TypeFacts
from catalogue.reference.models import ReferenceState
from catalogue.reference.numbers import bare_number
from catalogue.reference.snapshots import all_types
from identification.label_reading import LIMIT
from identification.labels_on_pages.allowed import MOST_SHOWN, numbers_on_record, versions_allowed, walk_addresses
from identification.labels_on_pages.as_meant import PARTING_LINE, AsMeant, read_as_meant
from identification.labels_on_pages.conflicts import label_conflicts
from identification.labels_on_pages.each_label import evidence_by_label
from identification.labels_on_pages.evidence import evidence_of, questions_of, settle
from identification.labels_on_pages.explained import pieces_of, segments_of, visible
from identification.labels_on_pages.into_piece import carried_on
from identification.labels_on_pages.named_garment import without_garments
from identification.labels_on_pages.photograph import can_read_photographs, read_photograph
from identification.labels_on_pages.said import said_by
from identification.labels_on_pages.sewn import WHERE, is_doubtful, sewn_choices, sewn_words
from identification.labels_on_pages.suggested import suggested
from identification.labels_on_pages.words import REASON_WORDS

NUL = "\0"
# A conflict that is told with the years of the maker; a year beyond them is allowed for.
SAID_WITH_YEARS = "outside_years_of_maker"
# So many pieces that were not understood are named; of more it is said where they stand.
MOST_UNREAD = 12


# Nothing is written and nobody's rights are used, so a form sent from elsewhere can do no harm; and a visitor without
# cookies can read a label.
@csrf_exempt
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def label_page(request):
    """Type a label; see what it says and which versions it allows."""
    number = ReferenceState.current_number()
    types = {facts.code: facts for facts in all_types(number=number)}
    chosen = types.get(request.POST.get("type", ""))
    context = {
        "types": [{"code": code, "name": facts.name, "given": facts is chosen} for code, facts in types.items()],
        "typed": request.POST.get("text", ""),
        "limit": LIMIT,
        "photographs": can_read_photographs(),
    }
    if request.FILES.get("photograph"):
        return render(request, "labels_on_pages/label.html", context | photograph_context(request))
    if request.method == "POST":
        # A form sends its line ends as CR LF; places are counted in the text as it is shown.
        text = context["typed"].replace("\r\n", "\n").replace(NUL, "")
        context |= {"typed": text} | reading_context(request, text, types, chosen, number)
        # No page may hold a NUL, so it goes before the reader could count it among the signs that it left out.
        context["removed"] = context.get("removed", 0) + request.POST.get("text", "").count(NUL)
    return render(request, "labels_on_pages/label.html", context)


# Text that was read by a machine may hold any sign; the reader leaves it out and says so, and nothing is stored.
label_page.reads_any_sign = True


def photograph_context(request) -> dict:
    """The text of a photograph, in the field for a person to correct; it says nothing until it is sent again. What was
    typed stays above it."""
    typed = request.POST.get("text", "").replace("\r\n", "\n").replace(NUL, "").rstrip()
    if not can_read_photographs():
        return {"typed": typed, "fault": "This site does not read photographs."}
    found = read_photograph(request.FILES["photograph"])
    if found.fault:
        return {"typed": typed, "fault": found.fault}
    text = "\n".join(part for part in (typed, found.text) if part)
    return {"typed": text, "from_photograph": True, "doubtful_lines": found.doubtful}


def reading_context(request, text: str, types: dict, chosen, number: int) -> dict:
    """What the label says, what must be confirmed, and which versions it allows."""
    read = read_as_meant(request.POST, text, types, chosen, number)
    answer, label, garments = read.answer, read.answer["label"], read.garments
    if read.is_unreadable:
        return {"fault": REASON_WORDS[label["reason"]]}
    pieces = pieces_of(answer, read.known)
    questions = questions_of(answer, request.POST)
    settle(pieces, questions)
    sewn = request.POST.get("sewn", "")
    sewn = sewn if sewn in dict(sewn_choices()) else ""
    evidence = evidence_of(answer, questions, sewn)
    within = [chosen] if chosen else list(types.values())
    groups = [
        versions_context(place, one, within, read.narrowing, types, number)
        for place, one in evidence_by_label(answer, questions, sewn)
    ]
    found = [version for group in groups for version in group["found"]]
    asbestos = bool(answer["cautions"])
    # How a label is sewn in is seen with the cloth held against the light: never asked of what must stay closed.
    closed = (
        asbestos
        or bool(chosen and chosen.must_stay_closed)
        or any(one.version.must_stay_closed for one in found if one.fits)
    )
    telling = any(group["telling"] for group in groups)
    conflict = answer["consistency"]
    unread = [left for one in not_explained(answer) if (left := without_garments(one, garments))]
    return {
        "read": True,
        "typed": read.text,
        "parted_before": parted_before(read),
        "one_label": read.one_label,
        "pieces": pieces,
        "segments": segments_of(read.text, pieces),
        "garments": [facts.name for facts in garments],
        "unread": unread[:MOST_UNREAD],
        "unread_more": max(0, len(unread) - MOST_UNREAD),
        "removed": label["removed"],
        "direction": label["direction"],
        "conflicts": [
            *(
                REASON_WORDS[reason]
                for reason in conflict.get("reasons") or [conflict.get("reason")]
                if reason and reason != SAID_WITH_YEARS
            ),
            *dict.fromkeys(said for group in groups for said in group["conflicts"]),
        ],
        "suggested": suggested(answer, read.text, numbers_on_record(number)),
        "questions": questions,
        "evidence": evidence,
        "named": [facts.name for facts in read.narrowing] if found else [],
        "sewn_choices": sewn_choices() if telling and not closed else [],
        "closed": closed,
        "sewn_where": WHERE,
        "sewn_said": sewn_words(evidence.seen.sewn),
        "sewn_doubtful": is_doubtful(evidence.seen.sewn),
        "groups": groups,
        "cautions": list(dict.fromkeys(hazard_words(one.version) for one in found if one.version.hazard_words)),
        "asbestos": asbestos,
        "personal": any(not one.get("perhaps") for one in answer["persons"]),
        "perhaps_personal": [visible(one["as_printed"]) for one in answer["persons"] if one.get("perhaps")],
        "chosen": chosen,
        "carried": carried_on(answer, read.text, evidence, only_type(chosen, found, types)),
    }


def parted_before(read: AsMeant) -> str:
    """The line with which the second of two labels begins; empty where it is one."""
    return visible(read.text[read.parted + len(PARTING_LINE) :].split("\n")[0].strip()) if read.parted else ""


def versions_context(place: int, evidence, within: list, named: Sequence[TypeFacts], types: dict, number: int) -> dict:
    """What one label allows, or all of them together where `place` is 0, and the walks that it leads to. Versions of
    the garments that the label names come first."""
    telling = bool(evidence.seen) or any(said_by(facts.features, evidence.signs) for facts in within)
    found = versions_allowed(within, evidence, number) if telling else []
    homes = {code for facts in named for code in facts.versions}
    found = sorted(found, key=lambda one: one.version.code not in homes) if named else found
    fitting = [one for one in found if one.fits]
    return {
        "place": place,
        "evidence": evidence,
        "telling": telling,
        "found": found,
        "conflicts": label_conflicts(evidence.numbers, evidence.seen, number),
        "unknown_numbers": unknown_numbers(evidence, number),
        "allowed": fitting[:MOST_SHOWN],
        "doubtful": [one for one in found if not one.fits][:MOST_SHOWN],
        "more": max(0, len(fitting) - MOST_SHOWN),
        "walks": walk_addresses(found, types, evidence) if found else [],
    }


def not_explained(answer: dict) -> list[str]:
    """What was not understood. Words before a country of making (`MADE IN OSTREVALD`), names of persons and
    words of a caution stay unread in the answer, and are explained all the same."""
    labels = answer.get("labels") or [answer]
    explained = tuple(one["as_printed"] for label in labels if "as_printed" in (one := label["made_in"]))
    flagged = [one["as_printed"] for label in labels for one in (*label["persons"], *label["cautions"])]
    left = [
        visible(piece).strip(" /")
        for piece in answer["label"]["unread"]
        if not piece.endswith(explained) and not any(one in piece for one in flagged)
    ]
    return [piece for piece in left if piece]


def only_type(chosen, found: list, types: dict) -> str:
    """The code of the garment type that was chosen, or of the only one whose versions the label allows."""
    if chosen:
        return chosen.code
    homes = {code for one in found for code, facts in types.items() if one.version.code in facts.versions}
    return homes.pop() if len(homes) == 1 else ""


def unknown_numbers(evidence, number: int) -> list[str]:
    """Numbers that no version on record carries."""
    known = {one.bare for rows in numbers_on_record(number).values() for one in rows}
    return [one for one in evidence.numbers if bare_number(one) not in known]


def hazard_words(version) -> str:
    return f"{version.name}: {version.hazard_words.lower()}{f' ({version.hazard})' if version.hazard else ''}."
