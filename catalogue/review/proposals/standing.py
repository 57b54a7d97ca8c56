"""A version as rows that can be compared and kept as JSON, read from the tables; and rows written back as a record."""

from collections.abc import Iterable

from django.core.exceptions import ValidationError
from django.db.models import Max, QuerySet

from catalogue.accounts.models import Member
from catalogue.member_examples.actions import NotDone
from catalogue.member_examples.models import Example
from catalogue.reference.codes import validate_code
from catalogue.reference.models import (
    Colourway,
    Cut,
    FeatureState,
    GarmentType,
    Issuer,
    IssueVersion,
    Maker,
    NumberForm,
    ProfileCell,
    SizeLength,
    Source,
    StockNumber,
    TypeFeature,
    VersionAncestor,
    VersionName,
    VersionRecord,
    VersionSuccessor,
)
from catalogue.reference.number_forms import fits
from catalogue.reference.numbers import bare_number, by_years
from catalogue.reference.reviewed import Number, Particulars, write_reviewed
from catalogue.reference.size_tables import in_a_table
from catalogue.reference.spreadsheets.profiles import FIELDS, Cells, cells_of_record
from catalogue.reference.uncertain_dates import fault_in_date
from catalogue.reference.words import (
    LONGEST_MARK,
    LONGEST_MM,
    AncestorRole,
    HazardKind,
    Measured,
    NameBy,
    Restriction,
    Stance,
    VersionKind,
)
from catalogue.review.proposals.composing import BY_CODE
from catalogue.review.proposals.rules import against_of, line_of, row_of
from catalogue.review.proposals.words import FEATURE, FIELD_WORDS
from identification.dating.size_marks import bare_mark

Rows = dict[str, object]
LONGEST_NUMBER = 80
# As the spreadsheets take them.
YEARS = range(1000, 2101)
PLAIN = (
    "name", "kind", "date", "certainty", "reason", "note", "rarity", "abundance", "piece_seen", "hazard_kind", "hazard",
)  # fmt: skip


def rows_of_version(version: IssueVersion) -> Rows:
    """Every row of a version as the tables have it now; a feature that is not recorded has none."""
    version = versions_to_read().get(pk=version.pk)
    return fields_of(version) | rows_of_record(version.current_record)


def versions_to_read() -> QuerySet[IssueVersion]:
    """Versions with all that `fields_of` reads, in as many queries for many as for one."""
    return IssueVersion.objects.select_related("current_record", "cut", "colourway", "issuer").prefetch_related(
        "other_names",
        "citations__source",
        "ancestors__ancestor",
        "successors__successor",
        "makers",
        "size_lengths__source",
        "passes_for",
        "stock_numbers__form",
        "stock_numbers__citations__source",
    )


def fields_of(version: IssueVersion) -> Rows:
    """The rows of a version of `versions_to_read`, without its features."""
    fields = {name: getattr(version, name) for name in PLAIN}
    lists = {
        "retired": version.retired_why,
        "other_names": [one.name for one in version.other_names.all() if one.used_by == NameBy.MEMBERS],
        **{name: one.code if (one := getattr(version, name)) else "" for name in BY_CODE},
        "sources": cited(version, Stance.SUPPORTS),
        "contradicting_sources": cited(version, Stance.CONTRADICTS),
        "continues": [one.ancestor.code for one in version.ancestors.all() if one.role == AncestorRole.CONTINUES],
        "made_from": [one.ancestor.code for one in version.ancestors.all() if one.role == AncestorRole.MADE_FROM],
        "makers": sorted(one.code for one in version.makers.all()),
        "passes_for": sorted(one.code for one in version.passes_for.all()),
        "restrictions": sorted(version.restrictions),
        "stock_numbers": numbers_in_order(number_of(one) for one in version.stock_numbers.all()),
        "sizes": [length_of(one) for one in in_order(version.size_lengths.all())],
        "became": [one.successor.code for one in version.successors.all()],
    }
    found = fields | lists
    return {name: found[name] for name in FIELD_WORDS}


def rows_of_record(record: VersionRecord | None) -> Rows:
    """The features of a record, each with its cells in the order of the feature's states."""
    rows: Rows = {}
    if record is None:
        return rows
    cells = record.cells.select_related("state__feature").prefetch_related("makers", "citations__source")
    for cell in cells.order_by("state__feature__position", "state__feature__code", "state__position", "state__code"):
        rows.setdefault(f"{FEATURE}{cell.state.feature.code}", []).append(cell_of(cell))
    return rows


def in_order(lengths: Iterable[SizeLength]) -> list[SizeLength]:
    return sorted(lengths, key=lambda one: in_a_table(one.mark, one.what))


def cited(claim: IssueVersion | StockNumber | ProfileCell, stance: Stance) -> list[str]:
    """The sources for a version, a stock number or a cell, or those against it."""
    return [one.source.code for one in claim.citations.all() if one.stance == stance]


def numbers_in_order(numbers: Iterable[Rows]) -> list[Rows]:
    """By their years, as on every database."""
    return sorted(numbers, key=lambda one: by_years(one["first_year"], one["number"]))


def number_of(one: StockNumber) -> Rows:
    """A stock number, as a row has it."""
    plain = {name: getattr(one, name) for name in ("number", "first_year", "last_year", "misprint_of", "note")}
    return {
        **plain,
        "form": one.form.code if one.form else "",
        "sources": cited(one, Stance.SUPPORTS),
        "against": cited(one, Stance.CONTRADICTS),
    }


def length_of(one: SizeLength) -> dict[str, object]:
    """One length of a size table, as a row has it."""
    return {"mark": one.mark, "what": one.what, "mm": one.mm, "source": one.source.code}


def cell_of(cell: ProfileCell) -> dict[str, object]:
    """A cell with codes in place of keys."""
    return {
        "state": cell.state.code,
        **{name: getattr(cell, name) for name in FIELDS},
        "sizes": cell.sizes,
        "makers": sorted(maker.code for maker in cell.makers.all()),
        "sources": cited(cell, Stance.SUPPORTS),
        **against_of(cited(cell, Stance.CONTRADICTS)),
    }


class Known:
    """The records that rows may name, by code. Raises NotDone with the words for what is not there any more."""

    def __init__(self, garment_type: GarmentType, *, to_be: Iterable[str] = ()):
        """`to_be`: codes of versions that are made together, which may name each other before they are there."""
        self.features = dict(
            TypeFeature.objects.filter(garment_type=garment_type).values_list("feature__code", "feature__name")
        )
        self.states = {
            (feature, code): pk
            for feature, code, pk in FeatureState.objects.filter(
                feature__garment_types=garment_type
            ).values_list("feature__code", "code", "pk")
        }  # fmt: skip
        self.makers = dict(Maker.objects.values_list("code", "pk"))
        self.sources = dict(Source.objects.values_list("code", "pk"))
        self.cuts, self.colourways, self.issuers, self.types = (
            dict(table.objects.order_by().values_list("code", "pk")) for table in (Cut, Colourway, Issuer, GarmentType)
        )
        self.forms, self.patterns = {}, {}
        for code, pk, pattern in NumberForm.objects.values_list("code", "pk", "pattern"):
            self.forms[code], self.patterns[code] = pk, pattern
        self.own_type = garment_type.code
        self.versions = dict.fromkeys(to_be) | dict(IssueVersion.objects.values_list("code", "pk"))

    def keys(self, what: str, codes) -> list[int]:
        table = getattr(self, what)
        gone = [code for code in dict.fromkeys(codes) if code not in table]
        if len(gone) > 1:
            raise NotDone(f"The {what} {', '.join(gone)}, which this names, are not there any more.")
        if gone:
            raise NotDone(f"The {what[:-1]} {gone[0]}, which this names, is not there any more.")
        return [table[code] for code in codes]

    def key(self, what: str, code: str) -> int | None:
        """Of what a row may leave empty."""
        return self.keys(what, [code])[0] if code else None

    def number(self, one: Rows) -> Number:
        """A stock number of a row, as a record is written from it."""
        plain = {name: one[name] for name in ("number", "first_year", "last_year", "misprint_of", "note")}
        sources, against = (self.keys("sources", one[name]) for name in ("sources", "against"))
        return Number(**plain, form=self.key("forms", one["form"]), sources=sources, against=against)

    def cells(self, key: str, cells) -> Cells:
        """The cells of a row of a feature, as a record is written from them."""
        code = key.removeprefix(FEATURE)
        if code not in self.features and cells:
            raise NotDone(f"The feature {code} does not belong to this garment type any more.")
        found: Cells = {}
        for cell in cells:
            if (code, cell["state"]) not in self.states:
                raise NotDone(f"{self.features[code]} has no state {cell['state']} any more.")
            found[self.states[code, cell["state"]]] = (
                tuple(cell[name] for name in FIELDS),
                cell["sizes"],
                frozenset(self.keys("makers", cell["makers"])),
                tuple(self.keys("sources", cell["sources"])),
                tuple(self.keys("sources", cell.get("against", ()))),
            )
            if both := set(cell["sources"]) & set(cell.get("against", ())):
                raise NotDone(f"The source {min(both)} contradicts {cell['state']}: it cannot support it as well.")
        return found


def check_rows(rows: Rows, known: Known, version: IssueVersion | None) -> None:
    """Raises NotDone in words where a row names what is not there, or what a version cannot be."""
    for key, value in rows.items():
        if key.startswith(FEATURE):
            known.cells(key, value)
    known.keys("sources", row_of(rows, "sources"))
    known.keys("makers", row_of(rows, "makers"))
    for name in BY_CODE:
        known.key(f"{name}s", str(row_of(rows, name)))
    known.keys("types", row_of(rows, "passes_for"))
    if known.own_type in row_of(rows, "passes_for"):
        raise NotDone(f"{known.own_type} is its own garment type: name the others that it may be taken for.")
    check_sizes(rows, known)
    check_numbers(rows, known)
    check_stances(rows, version)
    check_plain(rows)
    for named in ("continues", "made_from", "became"):
        known.keys("versions", row_of(rows, named))
    if (date := row_of(rows, "date")) and (fault := fault_in_date(date)):
        raise NotDone(f"The dates cannot be read: {fault}.")
    if "kind" in rows and rows["kind"] not in VersionKind.values:
        raise NotDone("Choose a kind of version.")
    if "name" in rows and not rows["name"]:
        raise NotDone("A version needs a name.")
    if version is not None:
        sold_as = set(
            VersionName.objects.filter(version=version, used_by=NameBy.SELLERS).values_list("name", flat=True)
        )
        if both := sold_as & set(row_of(rows, "other_names")):
            raise NotDone(f"“{min(both)}” stands among the sellers' names already.")


def check_stances(rows: Rows, version: IssueVersion | None) -> None:
    """No source is for a version and against it."""
    sides = {"sources": Stance.SUPPORTS, "contradicting_sources": Stance.CONTRADICTS}
    if not sides.keys() & rows.keys():
        return
    supports, contradicts = (
        set(rows[name]) if name in rows else set(cited(version, stance)) if version else set()
        for name, stance in sides.items()
    )
    if both := supports & contradicts:
        raise NotDone(f"The source {min(both)} contradicts this version: it cannot support it as well.")


def check_numbers(rows: Rows, known: Known) -> None:
    met = set()
    for one in row_of(rows, "stock_numbers"):
        number, right, years = one["number"], one["misprint_of"], (one["first_year"], one["last_year"])
        known.number(one)
        if not bare_number(number) or max(len(number), len(right)) > LONGEST_NUMBER:
            raise NotDone(f"A stock number has a letter or figure, and up to {LONGEST_NUMBER} signs: “{number[:99]}”.")
        if number in met:
            raise NotDone(f"The stock number {number} stands here twice.")
        met.add(number)
        if not all(year is None or year in YEARS for year in years):
            raise NotDone(f"{number}: a year has four figures, {YEARS[0]} to {YEARS[-1]}.")
        if None not in years and years[0] > years[1]:
            raise NotDone(f"{number}: the last year on labels lies before the first.")
        if right and bare_number(right) == bare_number(number):
            raise NotDone(f"{number} is no misprint of itself: write the right number, or nothing.")
        pattern = known.patterns.get(one["form"], "")
        if pattern and not right and not fits(pattern, number):
            raise NotDone(f"{number} is not written as {pattern}: choose another form, or none.")
        if both := set(one["sources"]) & set(one["against"]):
            raise NotDone(f"The source {min(both)} contradicts the number {number}: it cannot support it as well.")


def check_plain(rows: Rows) -> None:
    if row_of(rows, "rarity") not in range(1, 6):
        raise NotDone("How rare it is, is a whole number from 1, common, to 5, rare.")
    abundance = row_of(rows, "abundance")
    if abundance is not None and not (isinstance(abundance, int | float) and 0 <= abundance < float("inf")):
        raise NotDone("The relative number of pieces is a number from 0, or empty.")
    if row_of(rows, "piece_seen") not in (True, False):
        raise NotDone("Say whether a member has seen a piece.")
    if not set(row_of(rows, "restrictions")) <= set(Restriction.values):
        raise NotDone("Choose what the law may restrict from the list.")
    if row_of(rows, "hazard_kind") not in ("", *HazardKind.values):
        raise NotDone("Choose a kind of hazard, or none.")


def check_sizes(rows: Rows, known: Known) -> None:
    met = set()
    for one in row_of(rows, "sizes"):
        words = f"{one['mark']}, {one['what']}"
        if one["what"] not in Measured.values or not one["mark"] or len(one["mark"]) > LONGEST_MARK:
            raise NotDone(f"The size table has no such length: {words}.")
        if not 1 <= one["mm"] <= LONGEST_MM:
            raise NotDone(f"A length is from 1 to {LONGEST_MM} mm: {words}.")
        if (cell := (bare_mark(one["mark"]), one["what"])) in met:
            raise NotDone(f"The size table gives a length twice: {words}.")
        met.add(cell)
        known.keys("sources", [one["source"]])


def successors_by_code() -> dict[str, list[str]]:
    """What every retired version became, one step each."""
    found: dict[str, list[str]] = {}
    for version, successor in VersionSuccessor.objects.values_list("version__code", "successor__code"):
        found.setdefault(version, []).append(successor)
    return found


def ancestors_by_code() -> dict[str, list[str]]:
    """What every version continues or was made from, one step each."""
    found: dict[str, list[str]] = {}
    for version, ancestor in VersionAncestor.objects.values_list("version__code", "ancestor__code"):
        found.setdefault(version, []).append(ancestor)
    return found


def check_ancestors(code: str, whole: Rows) -> None:
    """Raises NotDone in words where a version would descend from itself, by however many steps."""
    own = [*row_of(whole, "continues"), *row_of(whole, "made_from")]
    if own and code in line_of(code, ancestors_by_code() | {code: own}):
        raise NotDone(f"{code} would descend from itself by way of {' and '.join(own)}: this would be a circle.")


def check_became(code: str, whole: Rows) -> None:
    """Raises NotDone in words where a version would have become another while it is in force, or itself by however many
    steps: two proposals that were sound alone can be so together."""
    became = list(row_of(whole, "became"))
    if became and not whole["retired"]:
        raise NotDone(
            f"{code} became {' and '.join(became)}: it is in force again once that is taken back too. Revoke the "
            "decision that retired it."
        )
    if became and code in line_of(code, successors_by_code() | {code: became}):
        raise NotDone(f"{code} would become itself by way of {' and '.join(became)}: this would be a circle.")


def reason_not_to_become(version: IssueVersion, became: Iterable[str]) -> str | None:
    """Why a mere change of its record may not say that this version became others: only a merge or a split takes its
    accepted pieces along, and both stay within a garment type."""
    became = list(became)
    if not became:
        return None
    elsewhere = IssueVersion.objects.filter(code__in=became).exclude(garment_type=version.garment_type_id)
    if other := elsewhere.values_list("code", flat=True).first():
        return f"{other} is a version of another garment type: a version becomes one of its own only."
    held = Example.objects.accepted().filter(held_as=version).count()
    if held:
        pieces = "1 accepted piece is" if held == 1 else f"{held} accepted pieces are"
        return f"{pieces} held as {version.code}: propose a merge or a split, which takes them along."
    return None


def reason_not_to_call_it(code: str) -> str | None:
    try:
        validate_code(code)
    except ValidationError as fault:
        return " ".join(fault.messages)
    if IssueVersion.objects.filter(code__iexact=code).exists():
        return f"There is a version {code} already. Propose a change of it, or choose another code."
    return None


def make_version(garment_type: GarmentType, code: str, rows: Rows) -> IssueVersion:
    """The row of a version that is new, last among its type's; what it says of itself comes with its record."""
    last = garment_type.versions.aggregate(last=Max("position"))["last"]
    return IssueVersion.objects.create(
        code=code,
        garment_type=garment_type,
        name=rows["name"],
        kind=rows["kind"],
        position=0 if last is None else last + 1,
    )


def write_rows(*, version: IssueVersion, rows: Rows, author: Member, why: str) -> VersionRecord:
    """The version with these rows changed, as an approved record; all others stay as they are."""
    known = Known(version.garment_type)
    check_rows(rows, known, version)
    whole = rows_of_version(version) | rows
    check_became(version.code, whole)
    check_ancestors(version.code, whole)
    record = IssueVersion.objects.select_related("current_record").get(pk=version.pk).current_record
    cells = cells_of_record(record)
    touched = {key.removeprefix(FEATURE) for key in rows if key.startswith(FEATURE)}
    gone = set(FeatureState.objects.filter(feature__code__in=touched).values_list("pk", flat=True))
    cells = {state: cell for state, cell in cells.items() if state not in gone}
    for key, value in rows.items():
        if key.startswith(FEATURE):
            cells |= known.cells(key, value)
    particulars = Particulars(
        **{name: whole[name] for name in (*PLAIN, "other_names")},
        retired_why=whole["retired"],
        sources=known.keys("sources", whole["sources"]),
        continues=known.keys("versions", whole["continues"]),
        made_from=known.keys("versions", whole["made_from"]),
        **{name: known.key(f"{name}s", whole[name]) for name in BY_CODE},
        restrictions=whole["restrictions"],
        contradicting_sources=known.keys("sources", whole["contradicting_sources"]),
        passes_for=known.keys("types", whole["passes_for"]),
        stock_numbers=[known.number(one) for one in whole["stock_numbers"]],
        makers=known.keys("makers", whole["makers"]),
        became=known.keys("versions", whole["became"]),
        sizes=[(one["mark"], one["what"], one["mm"], known.sources[one["source"]]) for one in whole["sizes"]],
    )
    return write_reviewed(version=version, particulars=particulars, cells=cells, author=author, why=why)
