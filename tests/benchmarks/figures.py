"""CPU of composing every figure of the demo beside a plain template, and the weight of drawings. Prints, never fails.

Run from the project's folder: `.venv/bin/python -m tests.benchmarks.figures [rounds]`.

A figure is one view of a version with its call-outs. Composed anew: nothing of whole drawings is kept, paths of parts
are, as in a process that has been drawing for a while. The very first: nothing at all is kept. The plain template is a
list of the same record's rows, rendered by Django.
"""

import gzip
import sys
import time
from statistics import median

from tests.benchmarks.demo_pieces import load_demo

PLAIN = (
    "<h1>{{ version.name }}</h1><dl>{% for row in rows %}<div><dt>{{ row.number }} {{ row.name }}</dt>"
    "<dd>{{ row.label }}</dd></div>{% endfor %}</dl>"
)


def main(rounds: int) -> None:
    load_demo()
    from catalogue.figures.figure import draw_version
    from catalogue.figures.parts import all_parts
    from catalogue.figures.profiles import shown_of
    from catalogue.figures.spots import spot
    from catalogue.reference.snapshots import all_types

    versions = [(facts, version) for facts in all_types() for version in facts.versions.values()]
    first, anew, kept, plain, whole, spots = [], [], [], [], [], []
    for facts, version in versions:
        forget()
        forget_paths()
        first.append(per_figure(draw_version, facts, version))
    for _ in range(rounds):
        for facts, version in versions:
            forget()
            anew.append(per_figure(draw_version, facts, version))
            kept.append(per_figure(draw_version, facts, version))
            plain.append(cpu(render_plainly, facts, version)[0])
    for facts, version in versions:
        whole.append((weight("".join(figure.svg for figure in draw_version(facts, version))), version.code))
        answers = {code: shown.state for code, shown in shown_of(facts, version).items()}
        asked = [(spot(facts, feature, answers), feature.code) for feature in facts.features.values()]
        spots += [(weight(figure.svg), f"{version.code} {code}") for figure, code in asked if figure]
    print(f"{len(versions)} versions, {rounds} rounds, CPU of this process (judged: median of a figure at most 3 ms)")
    for words, costs in (
        ("a figure composed anew", anew),
        ("a figure, the very first time", first),
        ("a figure whose drawing is kept", kept),
        ("a plain template of the same record", plain),
    ):
        in_order = sorted(costs)
        print(f"{words}: median {median(costs):.2f} ms, 95 % under {in_order[int(len(costs) * 0.95)]:.2f} ms")
    parts = [(weight(small_picture(*key)), ":".join(key)) for key in all_parts()]
    for words, weights, limit in (
        ("all views of a version with call-outs", whole, 8000),
        ("the flat of a question", spots, 3000),
        ("an answer's part with its svg tag", parts, 500),
    ):
        most, which = max(weights)
        middle = median(size for size, _ in weights)
        print(f"{words}: {middle:.0f} bytes gzipped in the middle, most {most} ({which}); limit {limit}")


def cpu(act, *given) -> tuple[float, object]:
    """Milliseconds of CPU, and what came of it."""
    began = time.process_time()
    found = act(*given)
    return (time.process_time() - began) * 1000, found


def per_figure(draw_version, facts, version) -> float:
    cost, figures = cpu(draw_version, facts, version)
    return cost / max(len(figures), 1)


def forget() -> None:
    from catalogue.figures.composing import kept_drawing

    kept_drawing.cache_clear()


def forget_paths() -> None:
    from catalogue.figures import extents, halves, pen

    for kept in (pen.mapped, extents.reach, halves.mirrored, halves.closed, halves.across, halves.aslant):
        kept.cache_clear()


def render_plainly(facts, version) -> str:
    from django.template import Context, Engine

    rows = [
        {"number": number, "name": facts.features[code].name, "label": version.cells[code][0].label}
        for code, number in facts.row_numbers(version).items()
        if code in version.cells
    ]
    template = TEMPLATES.setdefault("plain", Engine.get_default().from_string(PLAIN))
    return template.render(Context({"version": version, "rows": rows}))


TEMPLATES: dict[str, object] = {}


def small_picture(feature: str, state: str) -> str:
    from catalogue.figures.composing import picture
    from catalogue.templatetags.drawings import small

    return small(picture(feature, state))


def weight(svg: str) -> int:
    return len(gzip.compress(svg.encode(), 9))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
