"""Copies into which a genuine label was sewn, walked as the site walks them: how often one of them ends as issued."""

from collections import Counter

import numpy as np

from catalogue.reference.words import CANNOT_TELL
from identification import engine
from identification.engine.label_witness import SEWN
from tests.benchmarks.demo_pieces import load_demo
from tests.benchmarks.drawn_pieces import DrawnPiece

MOST = 40


class WithMovedLabel:
    """The body of one version, and all that lies on the label from another."""

    def __init__(self, body: DrawnPiece, label: DrawnPiece, on_label: set[str]):
        self.body, self.label, self.on_label = body, label, on_label

    def __call__(self, code: str) -> str:
        answer = (self.label if code in self.on_label else self.body)(code)
        return ",".join(answer.states) if isinstance(answer, engine.States) else CANNOT_TELL


def moved_labels(more: bool = False) -> None:
    load_demo(also=lambda: walked(40 if more else 12))


# Whether the label's text is read, and how it is found to be sewn in: "as drawn" from the engine's own chances for
# labels that belong, or were moved; "same", the same thread and no holes, is a moved label sewn in without a trace.
WAYS = (("no", ""), ("yes", "not looked at"), ("yes", "as drawn"), ("yes", "same"))


def walked(each: int) -> None:
    print(f"\nCopies with a genuine label of what they imitate, {each} of each; issued pieces with their own,")
    print("a third as many; answers about the label are those of the genuine one, also where its text is not read")
    heads = ["pieces", "label read", "how it is sewn in", "n", "said issued", "probably issued", "said copy"]
    print(f"| {' | '.join([*heads, 'label of another said', 'questions'])} |")
    print("|---|---|---|---|---|---|---|---|---|")
    for group, words, number in (("copy", "copies", each), ("issued", "issued", each // 3)):
        for read, sewn in WAYS:
            found = walks(group, number, read == "yes", sewn)
            n = found["n"]
            shares = " | ".join(f"{found[key] / n:.1%}" for key in ("issued", "probably", "copy", "moved"))
            print(f"| {words} | {read} | {sewn} | {n} | {shares} | {found['questions'] / n:.1f} |", flush=True)


def walks(group: str, each: int, read: bool, sewn: str) -> Counter:
    """The same pieces, drawn from a fixed seed, with the text of the label read or not."""
    from catalogue.reference.models import ReferenceState
    from catalogue.reference.snapshots import all_types
    from identification.labels_on_pages.allowed import numbers_on_record
    from identification.walk_through.address import Walk
    from identification.walk_through.label_evidence import bare_pack, lies_on_label

    number = ReferenceState.current_number()
    on_record, random, found = numbers_on_record(number), np.random.default_rng(1952), Counter()
    for facts in all_types():
        if facts.must_stay_closed:
            continue
        pack = bare_pack(facts, Walk(), number)
        on_label = {code for code, feature in facts.features.items() if lies_on_label(feature)}
        for row, version in enumerate(pack.versions):
            copied = [one.version for one in facts.versions[version.code].ancestors]
            labels = [code for code in (copied if group == "copy" else [version.code]) if on_record.get(code)]
            if engine.KIND_GROUPS[version.kind] != group or not labels:
                continue
            for _ in range(each):
                draw = np.random.default_rng(int(random.integers(2**32)))
                code = labels[int(draw.integers(len(labels)))]
                of_label = DrawnPiece(pack, pack.version_place[code], draw)
                piece = WithMovedLabel(DrawnPiece(pack, row, draw), of_label, on_label)
                text = text_of_label(facts.versions[code], on_record[code], draw)
                text["label_sewn"] = found_sewn(sewn, moved=group == "copy", draw=draw)
                found += walk(facts, piece, Walk(accepted=True, **(text if read else {})), number)
    return found


def found_sewn(how: str, moved: bool, draw) -> str:
    """What is seen of how the label is sewn in."""
    if how != "as drawn":
        return "same" if how == "same" else CANNOT_TELL
    chances = [chance[moved] for chance in SEWN.values()]
    return str(draw.choice(list(SEWN), p=chances))


def walk(facts, piece: WithMovedLabel, address, number: int) -> Counter:
    from identification.profiles_from_catalogue import engine_answers
    from identification.walk_through.label_evidence import heard, moved, pack_with_label, seen_of
    from identification.walk_through.steps import may_ask

    allowed = may_ask(facts, address)
    while True:
        pack = pack_with_label(facts, address, number)
        answers = engine_answers(address.answers, facts.features)
        step = engine.next_step(pack, answers, allowed=allowed, limit=MOST)
        if isinstance(step, engine.Finish):
            break
        address = address.with_answer(step.feature, *address.answers.get(step.feature, ())[:1], piece(step.feature))
    said = engine.verdict(pack, answers, allowed=allowed)
    told = Counter(n=1, questions=len(answers), issued=said.kind == "issued", copy=said.kind == "copy")
    told["probably"] = said.probable_kind == "issued"
    told["moved"] = bool(seen_of(address) and moved(facts, address, heard(facts, address, number), number))
    return told


def text_of_label(version, carried, draw) -> dict:
    """What a genuine label of the version says: a number of it, a year of its use, one of its makers."""
    one = carried[int(draw.integers(len(carried)))]
    first = one.first_year or version.from_year
    last = one.last_year or version.to_year or first
    makers = [maker.code for maker in version.makers]
    return {
        "label_number": one.number,
        "label_year": int(draw.integers(first, last + 1)) if first else None,
        "label_maker": makers[int(draw.integers(len(makers)))] if makers else "",
    }
