"""What comparing pieces says, as plain sentences: what a state goes with, and the tape against the size mark."""

from collections.abc import Mapping, Sequence

from identification.dating.goes_with import Factor, Link, ShadeFindings, Standing
from identification.dating.size_marks import AgainstMark, Basis, Compared, Reading, same_mark
from identification.dating.words import NO_NAMES, counted, listed

MEANING = {
    Factor.YEAR: "it changed in the course of production",
    Factor.MAKER: "a maker's habit or a batch, no version",
    Factor.SIZE: "it belongs to the size, no version",
    Factor.WEAR: "wear or fading, no version",
}
WITHIN = {
    Factor.YEAR: "among pieces of one maker too",
    Factor.MAKER: "among pieces of the same five years too",
    Factor.SIZE: "among pieces of one maker and time too",
    Factor.WEAR: "among pieces of one maker and time too",
}
# Where more marks than these would do, the measurements tell nothing of the right one.
MOST_FITTING = 3
LENGTH_NAMES = {"back_length": "back"}


def link_sentences(found: Sequence[Link], what: str, makers: Mapping[str, str] = NO_NAMES) -> list[str]:
    """What a state (named by `what`) goes with; or that nothing is shown; or what cannot be separated."""
    sentences = [goes_sentence(link, what, makers) for link in found if link.standing is Standing.GOES]
    stuck = [link for link in found if link.standing is Standing.NOT_SEPARATED]
    explained = [link for link in found if link.standing is Standing.EXPLAINED]
    if sentences:
        return sentences
    if len(stuck) > 1:
        pair = listed([link.factor.value for link in stuck])
        pieces = counted(max(link.pieces for link in stuck), "piece")
        return [f"{pair.capitalize()} cannot be separated here ({pieces}): {what} goes with them only taken together."]
    if stuck:
        link = stuck[0]
        alone = counted(link.within.pieces, "piece")
        return [
            f"{what} seems to go with the {link.factor.value}, but {WITHIN[link.factor].removesuffix(' too')} "
            f"too few are left to say ({alone})."
        ]
    if explained:
        pair = listed([link.factor.value for link in explained])
        return [f"{what} differs with the {pair} only because something else does; no more than that is shown."]
    if all(link.standing is Standing.TOO_FEW for link in found):
        return [f"Too few to say what {what} goes with: {counted(max(link.pieces for link in found), 'piece')}."]
    told = [link for link in found if link.standing is Standing.NO_SIGN]
    tried = listed([f"the {link.factor.value}" for link in told])
    return [f"{what} is not shown to go with {tried} ({counted(max(link.pieces for link in told), 'piece')})."]


def link_sentences_unchanged(found: Sequence[Link], what: str, makers: Mapping[str, str] = NO_NAMES) -> list[str]:
    """As `link_sentences`, of a detail whose history shows no change: its years were weighed with all details of the
    type, so what the state alone says of them is no claim."""
    goes = [link for link in found if link.standing is Standing.GOES]
    year = next((link for link in goes if link.factor is Factor.YEAR), None)
    if year is None:
        return link_sentences(found, what, makers)
    when = "earlier" if year.less else "later"
    alone = (
        f"{what} is met more with {when} years ({counted(year.pieces, 'piece')}), but not clearly enough among all the "
        "details that were tried to call it a change."
    )
    return [alone, *(goes_sentence(link, what, makers) for link in goes if link is not year)]


def goes_sentence(link: Link, what: str, makers: Mapping[str, str]) -> str:
    less = "less" if link.less else "more"
    end = {
        Factor.YEAR: "with earlier years" if link.less else "with later years",
        Factor.MAKER: f"{less} often or strongly at {makers.get(link.more, link.more)} than at others",
        Factor.SIZE: "with smaller sizes" if link.less else "with larger sizes",
        Factor.WEAR: "with less wear" if link.less else "with more wear",
    }[link.factor]
    pieces = counted(link.pieces, "piece")
    return f"{what} goes {end}, {WITHIN[link.factor]} ({pieces}): {MEANING[link.factor]}."


def shade_sentences(found: ShadeFindings, makers: Mapping[str, str] = NO_NAMES) -> list[str]:
    """First what light did within the pieces, then what the protected places say of each other."""
    if not found.pieces:
        return ["No piece has been measured in both places."]
    number = counted(found.pieces, "piece")
    if found.within.p <= 0.05:
        which = "lighter" if found.within.side > 0 else "darker"
        lighter = found.lighter if found.within.side > 0 else found.pieces - found.lighter
        said = [
            f"Where light falls {lighter} of {number} are {which} than under a flap "
            f"(typically {found.median_difference:.1f} units of colour): fading, so only protected places are compared."
        ]
    else:
        said = [f"The exposed and the protected place do not differ in a steady way ({number})."]
    for link in found.fading:
        if link.standing is Standing.GOES:
            said.append(goes_sentence(link, "The difference of the two places", makers))
    goes = {link.factor for links in found.protected.values() for link in links if link.standing is Standing.GOES}
    for factor in Factor:
        axes = [
            (axis, link)
            for axis, links in found.protected.items()
            for link in links
            if link.factor is factor and link.standing is Standing.GOES
        ]
        if axes:
            what = f"The protected shade ({listed([axis for axis, _ in axes])})"
            said.append(protected_sentence(what, axes[0][1], makers))
    stuck = {
        link.factor: link
        for links in found.protected.values()
        for link in links
        if link.standing is Standing.NOT_SEPARATED
    }
    if not goes and len(stuck) > 1:
        pair = listed([factor.value for factor in Factor if factor in stuck])
        said.append(
            f"{pair.capitalize()} cannot be separated here ({number}): the protected shade goes with them only taken "
            "together."
        )
    elif not goes:
        said.append(f"The protected shade is not shown to go with year, maker or wear ({number}).")
    return said


def protected_sentence(what: str, link: Link, makers: Mapping[str, str]) -> str:
    end = f"at {makers.get(link.more, link.more)}" if link.factor is Factor.MAKER else f"with the {link.factor.value}"
    return f"{what} differs {end}, {WITHIN[link.factor]} ({counted(link.pieces, 'piece')}): {MEANING[link.factor]}."


def mark_sentences(found: AgainstMark) -> list[str]:
    """`Marked 4, back 6 cm short of 9 others marked 4: …; look at the hem.`"""
    if found.reading is Reading.TOO_FEW:
        most = max((one.others for one in found.compared), default=0)
        return [f"Too few to compare with: {counted(most, 'other piece')} marked {found.mark or 'with nothing'}."]
    told = [one for one in found.compared if one.expected is not None]
    if found.reading is Reading.AGREES:
        names = listed([length_name(one) for one in told])
        agree = "agrees" if len(told) == 1 else "agree"
        return [f"Marked {found.mark}: {names} {agree} with {others_words(told[0], found.mark)}."]
    off = [one for one in told if one.off_by]
    lengths = listed([f"{length_name(one)} {centimetres(one)}" for one in off])
    look = f"; look at {listed(found.look_at)}" if found.look_at else ""
    said = [f"Marked {found.mark}, {lengths} {others_words(off[0], found.mark, than=True)}: {meaning(found)}{look}."]
    if 0 < len(found.fits) <= MOST_FITTING:
        where = "In the table its" if off[0].basis is Basis.TABLE else "Its"
        said.append(f"{where} measurements agree with those marked {' or '.join(found.fits)}.")
    return said


def table_sentences(found: AgainstMark, marks: Sequence[str]) -> list[str]:
    """The piece against a size table that has `marks`, in their order; that its mark is none of them, if so."""
    if not marks:
        return []
    if not any(same_mark(mark, found.mark) for mark in marks):
        has = f"only {marks[0]}" if len(marks) == 1 else f"{marks[0]} to {marks[-1]}"
        return [f"Marked {found.mark}: the size table has no such mark, it has {has}."]
    return [] if found.reading is Reading.TOO_FEW else mark_sentences(found)


def length_name(one: Compared) -> str:
    return LENGTH_NAMES.get(one.length, one.length.replace("_", " "))


def centimetres(one: Compared) -> str:
    """`6 cm short`, from the nearest half centimetre: a tape tells no more."""
    halves = max(1, round(abs(one.off_by) / 5))
    return f"{halves / 2:g} cm {'short' if one.off_by < 0 else 'more'}"


def others_words(one: Compared, mark: str, *, than: bool = False) -> str:
    link = ("of " if one.off_by < 0 else "than ") if than else ""
    if one.basis is Basis.SAME_MARK:
        return f"{link}{one.others} others marked {mark}"
    if one.basis is Basis.TABLE:
        return f"{link}what the size table gives"
    return f"{link}what {one.others} pieces with other marks make one expect"


def meaning(found: AgainstMark) -> str:
    return {
        Reading.SHORTENED: "shortened, shrunk or re-marked",
        Reading.SHRUNK_OR_REMARKED: "shrunk or re-marked",
        Reading.LARGER_THAN_MARKED: "re-marked, or let out",
        Reading.NOT_ALIKE: "altered, or a label that is not its own",
    }[found.reading]
