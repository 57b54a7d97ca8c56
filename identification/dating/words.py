"""What the figures of dating say, as plain sentences with the count they rest on."""

from collections.abc import Mapping, Sequence

from identification.dating.change_over import Change, Elsewhere, History, Shown
from identification.dating.piece_year import PieceYear
from identification.dating.spans import FEWEST_TO_TELL, VersionDates
from identification.dating.strays import StillMade

NO_NAMES: Mapping[str, str] = {}
SHOWN_WORDS = {
    Shown.WITH_MAKER: "year and maker cannot be separated",
    Shown.NO_CHANGE: "no change shown",
    Shown.ONE_STATE: "one state only",
    Shown.TOO_FEW: "too few to say",
}


def years_between(first: int, last: int) -> str:
    """`1986`, `1985–88`, `1998–2003`: the second year short within a century."""
    if first == last:
        return str(first)
    return f"{first}–{last % 100:02d}" if first // 100 == last // 100 else f"{first}–{last}"


# From so many labels on, evenly shared by two states of one maker, a change would show.
MANY = 12
# From so many labels of each different year on it is the years that are few, not the labels. Ours.
MANY_OF_A_YEAR = 3
# An interval so many times as long as the labels lie apart is called wide. Ours.
WIDE = 3


def counted(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"


def listed(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def span_sentences(dates: VersionDates, *, narrowing: bool = True, contracts: tuple[str, str] = ("", "")) -> list[str]:
    """The span seen; the interval, or that there are too few labels; what rules labels out; what would narrow it.

    Where papers name both ends they stand in place of the interval. `contracts`: on the earliest and on the latest
    label, as printed: their papers may say when making began and ended.
    """
    pieces = counted(dates.pieces, "dated label")
    different = "" if dates.distinct == dates.pieces else f", {counted(dates.distinct, 'different year')}"
    said = [f"Label years seen: {years_between(dates.first, dates.last)} ({pieces}{different})."]
    if dates.documented.first is not None and dates.documented.last is not None:
        return said + papers_sentences(dates)
    if dates.low is not None and dates.high is not None and dates.begin_told and dates.end_told:
        held = years_between(dates.low, dates.high)
        guess = ""
        if dates.about_first is not None and dates.about_last is not None:
            guess = f", best guess {years_between(dates.about_first, dates.about_last)}"
        said.append(f"Production probably lay within {held} ({level_words(dates)}){guess}.{wide_words(dates)}")
    else:
        said += half_told_sentences(dates)
    return said + against_sentences(dates) + (narrowing_sentences(dates, contracts) if narrowing else [])


def wide_words(dates: VersionDates) -> str:
    """That the interval is wide, where few years are seen and it is several times as long as they lie apart."""
    seen, held = dates.last - dates.first + 1, (dates.high or dates.last) - (dates.low or dates.first) + 1
    if dates.distinct >= FEWEST_TO_TELL or held <= WIDE * seen:
        return ""
    return f" That is wide: {counted(dates.distinct, 'different label year')} tell little."


def level_words(dates: VersionDates) -> str:
    """`95 %`, and which of the ends rest on papers."""
    known = [word for word, year in documented_words(dates) if year is not None]
    return f"{dates.level * 100:.0f} %" + (f"; {listed(known)} by papers" if known else "")


def half_told_sentences(dates: VersionDates) -> list[str]:
    """At least one end lies too far from the labels to be told, or none is: that in words, and the other end."""
    papers, sure = dates.documented, f"{dates.level * 100:.0f} %"
    missing = FEWEST_TO_TELL - dates.distinct
    # Many labels of few years may well be all the years there were: then more labels would hardly help.
    many = dates.pieces >= MANY_OF_A_YEAR * dates.distinct and dates.pieces >= FEWEST_TO_TELL
    few = "labels of too few different years" if many else "too few dated labels"
    wanted = missing > 0 and not many
    more = f"; labels of {counted(missing, 'more different year')} might allow it" if wanted else ""
    begun = f"in {papers.first}, by papers" if papers.first is not None else f"not before {dates.low} ({sure})"
    ended = f"in {papers.last}, by papers" if papers.last is not None else f"by {dates.high} ({sure})"
    if dates.begin_told:
        said = f"Production began {begun}; {few} to say how long it went on{more}."
    elif dates.end_told:
        said = f"Production ended {ended}; {few} to say when it began{more}."
    else:
        said = f"{few[:1].upper()}{few[1:]} to say how long it was made{more}."
    return [said, *limit_sentences(dates)]


def limit_sentences(dates: VersionDates) -> list[str]:
    """The limits of an end that is not told, with what stands behind them."""
    papers, ends = dates.documented, []
    if papers.not_before is not None and not dates.begin_told:
        ends.append(f"not before {papers.not_before}, {papers.why_not_before or 'by papers'}")
    if papers.not_after is not None and not dates.end_told:
        ends.append(f"not after {papers.not_after}, {papers.why_not_after or 'by papers'}")
    return [f"Sure is only: {'; '.join(ends)}."] if ends else []


def against_sentences(dates: VersionDates) -> list[str]:
    wrong = [str(year) for year in sorted(set(dates.against))]
    if not wrong:
        return []
    return [f"Labels of {listed(wrong)} lie outside the documented years: old stock, misread, or another version?"]


def papers_sentences(dates: VersionDates) -> list[str]:
    """Both ends by papers, how many of these years labels bear out, and the labels that lie outside them."""
    papers = dates.documented
    if papers.first is None or papers.last is None:
        return []
    wide = papers.last - papers.first + 1
    borne = dates.distinct - len(set(dates.against))
    if not borne:
        out = "no dated label is of these years"
    elif borne == wide:
        out = "labels of every one of these years are known" if wide > 1 else "a label of that year is known"
    else:
        out = f"labels of {borne} of these {wide} years are known"
    return [f"Papers name {years_between(papers.first, papers.last)}; {out}.", *against_sentences(dates)]


def documented_words(dates: VersionDates) -> list[tuple[str, int | None]]:
    """The ends that papers name. A limit that is only that of the service, or today, is no paper about the version."""
    papers = dates.documented
    return [
        ("the beginning", papers.first),
        ("the end", papers.last),
        ("no earlier beginning", None if papers.why_not_before else papers.not_before),
        ("no later end", None if papers.why_not_after else papers.not_after),
    ]


def narrowing_sentences(dates: VersionDates, contracts: tuple[str, str] = ("", "")) -> list[str]:
    found = dates.narrowing
    if found is None:
        return []
    ends, papers = [], []
    if found.open_before > 0:
        ends.append("before" if dates.first == dates.last and found.open_after > 0 else f"before {dates.first}")
        papers.append(contracts[0])
    if found.open_after > 0:
        ends.append(f"after {dates.last}")
        papers.append(contracts[1])
    if not ends:
        return []
    wanted = list(dict.fromkeys(one for one in papers if one))
    named = f", such as that of contract {' or '.join(wanted)}" if wanted else ""
    said = f"A dated label from {' or '.join(ends)}, or a paper that names the year{named}, would narrow it most"
    if found.labels and found.low is not None and found.high is not None and worth_it(dates, found.low, found.high):
        more = counted(found.labels, "more label year")
        said += f"; {more} in between would leave about {years_between(found.low, found.high)}"
    return [said + "."]


def worth_it(dates: VersionDates, low: int, high: int) -> bool:
    """Whether the interval is told, and the one that more labels would leave is narrower."""
    return dates.begin_told and dates.end_told and high - low < (dates.high or 0) - (dates.low or 0)


def history_sentences(
    history: History, labels: Mapping[str, str] = NO_NAMES, makers: Mapping[str, str] = NO_NAMES
) -> list[str]:
    """What dated pieces say of one feature. `labels`, `makers`: names by code; a code without one stands as it is."""
    number = counted(history.pieces, "dated label")
    if history.shown is Shown.TOO_FEW:
        if history.pieces >= MANY:  # then it is the other state that lacks pieces
            return [f"Too few show a second state, maker by maker, to say whether it changed ({number} in all)."]
        return [f"Too few to say whether it changed: {number}."]
    if history.shown is Shown.ONE_STATE:
        return [f"The examples show one state only ({number})."]
    if history.shown is Shown.NO_CHANGE:
        return [f"The examples do not show a change ({number})."]
    if history.shown is Shown.WITH_MAKER:
        pairs = [f"“{labels.get(one, one)}” and “{labels.get(other, other)}”" for one, other in history.confounded]
        told = f"Year and maker cannot be separated here ({number}): {listed(pairs)} differ in their years"
        return [told + ", but within single makers the examples do not show it."]
    return [sentence for change in history.changes for sentence in change_sentences(change, labels, makers)]


def change_sentences(
    change: Change, labels: Mapping[str, str] = NO_NAMES, makers: Mapping[str, str] = NO_NAMES
) -> list[str]:
    """The change in one sentence, then what does not go with it."""
    after, before = labels.get(change.after, change.after), labels.get(change.before, change.before)
    held = f"{years_between(change.first, change.last)}, {counted(change.pieces, 'label')}"
    said = f"“{after}” replaced “{before}” about {change.about} ({held})"
    for apart in change.makers_apart:
        name = makers.get(apart.maker, apart.maker)
        said += f"; {name} kept to the older until {apart.year}" if apart.late else f"; {name} began in {apart.year}"
    sentences = [said + "."]
    if change.both_from is not None and change.both_to is not None:
        met = years_between(change.both_from, change.both_to)
        sentences.append(f"Both are met on labels of {met}: old stock used up, or more than one hand.")
    sentences += elsewhere_sentence(change.already, f"“{after}” was met before it all", makers)
    sentences += elsewhere_sentence(change.again, f"“{before}” came back", makers)
    return sentences


def half_made_sentence(found: tuple[str, int, int] | None, makers: Mapping[str, str] = NO_NAMES) -> str:
    """What one maker of half of the pieces means for the year; nothing where there is none."""
    if found is None:
        return ""
    maker, number, of = found
    name = makers.get(maker, maker)
    return f"{name} made {number} of these {of}: if it changed in a year of its own, the year told here is its own."


def history_in_short(history: History, labels: Mapping[str, str] = NO_NAMES) -> str:
    """The same figures as `history_sentences` in one line of a list, a state that returned among them: `Sewn, then
    Slotted about 1986 (1985–88, 50 labels), then Sewn again in 1995–2006 (27 labels)`."""
    if history.shown is not Shown.CHANGED:
        return f"{SHOWN_WORDS[history.shown]}, {counted(history.pieces, 'label')}"
    steps: list[str] = []
    for change in history.changes:
        before, after = labels.get(change.before, change.before), labels.get(change.after, change.after)
        already = f"{after} already in {pieces_elsewhere(change.already)}" if change.already else ""
        held = f"{years_between(change.first, change.last)}, {counted(change.pieces, 'label')}"
        again = f"{before} again in {pieces_elsewhere(change.again)}" if change.again else ""
        first = "" if steps else before
        steps += [one for one in (already, first, f"{after} about {change.about} ({held})", again) if one]
    return ", then ".join(steps)


def pieces_elsewhere(found: Elsewhere) -> str:
    return f"{years_between(found.first, found.last)} ({counted(found.pieces, 'label')})"


def still_made_sentence(found: Sequence[StillMade], makers: Mapping[str, str] = NO_NAMES) -> str:
    """Who made the earlier state after the change; nothing where nobody did."""
    if not found:
        return ""
    who = [
        f"{makers.get(one.maker, one.maker)} ({years_between(one.first, one.last)}, {counted(one.pieces, 'label')})"
        for one in found
    ]
    return f"Made the earlier way after others had changed: {listed(who)}."


def elsewhere_sentence(found: Elsewhere | None, what: str, makers: Mapping[str, str]) -> list[str]:
    if found is None:
        return []
    names = [makers.get(maker, maker) for maker in found.makers]
    by = f", {listed(names)}" if names else ""
    return [f"{what} in {years_between(found.first, found.last)} ({counted(found.pieces, 'label')}{by})."]


def too_few_to_date(years: Sequence[int]) -> str:
    """Why a piece is not dated within its version."""
    if not years:
        return "Too few to say when within its version it was made: no other piece has a dated label."
    seen = listed([str(year) for year in sorted(set(years))])
    return f"Too few to say when within its version it was made: {counted(len(years), 'other dated label')} ({seen})."


def piece_sentences(
    found: PieceYear, features: Mapping[str, str] = NO_NAMES, *, labels: int = 0, papers: bool = False
) -> list[str]:
    """The year of one piece and what it rests on; `labels`: how many label years of others, where that is known;
    `papers`: whether papers give an end of the version."""
    others = counted(labels, "label year") if labels else "label years"
    named = {
        "label": "its own label",
        "contract": "the contract on its label",
        "maker": "the years its maker worked",
        "version": f"{others} of approved examples, not issue dates",
    }
    rests = [named.get(name) or features.get(name, name) for name in found.rests_on]
    if papers and "version" in found.rests_on:
        rests.insert(found.rests_on.index("version"), "the years that papers give")
    if found.rests_on == ("label",):
        fits = [] if found.against else [f"What else is known of it goes with that ({others} of approved examples)."]
        return [f"Its label says {found.about}.", *fits, *against_piece(found, named, features)]
    years = years_between(found.first, found.last)
    about = "" if found.first == found.last else f", about {found.about}"
    sentences = [f"Probably {years}{about}. It rests on {listed(rests)}."]
    return sentences + against_piece(found, named, features)


def against_piece(found: PieceYear, named: Mapping[str, str], features: Mapping[str, str]) -> list[str]:
    if not found.against:
        return []
    against = listed([named.get(name) or features.get(name, name) for name in found.against])
    return [f"That does not go with {against}: repaired, of another version, or the label is not its own?"]
