"""Every public page of the demo society, by the name of its address: the one table for tests that visit them all."""

import csv

from catalogue.member_examples.submitting import urls as submitting
from tests.site_server import DEMO_FOLDER

WALK = "/which/SMK/"
PAGES: dict[str, list[str]] = {
    "site_pages:home": ["/"],
    "site_pages:cautions": ["/cautions/"],
    "site_pages:about": ["/about/"],
    "reference:search": ["/search/", "/search/?q=2711406", "/search/?q=smock", "/search/?q=no+such+thing"],
    "reference:compare": ["/compare/", "/compare/?v=BLO-71&v=BLO-86", "/compare/?v=BLO-71&v=COA-85&v=SMK-76&v=nope"],
    "reference:types": ["/garment-types/"],
    "reference:type": ["/garment-types/BLO/", "/garment-types/VES/"],
    "reference:versions": ["/issue-versions/", "/issue-versions/?kind=issue", "/issue-versions/?q=zzzz"],
    "reference:version": ["/issue-versions/BLO-86/", "/issue-versions/COA-85R/", "/issue-versions/VES-66G/"],
    "reference:sources": ["/sources/"],
    "reference:source": ["/sources/S01/"],
    "reference:makers": ["/makers/"],
    "reference:maker": ["/makers/VSK/"],
    "reference:issuer": ["/issuers/SFS/"],
    "reference:open_questions": ["/open-questions/"],
    "reference:open_question": ["/open-questions/D1/"],
    "reference:features": ["/features/"],
    "member_examples:gallery": [
        "/examples/",
        "/examples/?version=BLO-86",
        "/examples/?type=BLO&shows=cuff:tab_button&year_from=1970",
        "/examples/?type=BLO&shows=cuff:nonsense&year_to=soon",
    ],
    "member_examples:agreement": ["/examples/agreement/"],
    "member_examples:sets": ["/sets/"],
    "reference:feature_group": ["/features/closure/", "/features/cloth/"],
    "mistakes:version": ["/mistaken-for/SMK-61/", "/mistaken-for/BLO-CV/", "/mistaken-for/HOO-60/"],
    "walk_through:choose": ["/which/"],
    "walk_through:type": [
        WALK,
        f"{WALK}?_accepted=yes",
        f"{WALK}?_accepted=yes&front_closure=cannot-tell&waist_draw=cannot-tell",
        f"{WALK}?_accepted=yes&front_closure=nonsense&colour=red",
        f"{WALK}?_accepted=yes&front_closure=cannot-tell&_stop=yes",
        "/which/VES/?_accepted=yes",
        f"{WALK}?_accepted=yes&_views=front,back",
        f"{WALK}?_accepted=yes&_views=front&_stop=yes",
    ],
    "telling_apart:key": ["/which/SMK/key/", "/which/BLO/key/", "/which/HOO/key/", "/which/VES/key/"],
    "telling_apart:claim": [
        "/which/claim/",
        "/which/claim/?v=SMK-76",
        "/which/claim/?v=SMK-76&front_closure=neck_zip&cloth_pattern=ling&closure_cover=exposed&nonsense=1",
        "/which/claim/?v=BLO-57&_accepted=yes&weave=cannot-tell",
        "/which/claim/?v=BLO-94&_accepted=yes&shoulder_strap=none&reinforcement=self&sleeve_set=removed",
        "/which/claim/?v=HOO-60",
        "/which/claim/?v=Ling+smock",
        "/which/claim/?v=SMQ-77",
    ],
    "walk_through:any": ["/which/any-garment/", "/which/any-garment/?_accepted=yes"],
}
# Those of a submission are for members, each of whom sees their own; they have tests of their own.
NOT_PAGES = {
    *(f"submitting:{pattern.name}" for pattern in submitting.urlpatterns),
    "figures:version",
    "figures:drawing_board",  # for authors: tests/catalogue/figures/test_drawing_board.py
    "site_pages:robots",
    "walk_through:type_data",
    "walk_through:any_data",
    "telling_apart:claim_data",
    # Pieces are no part of the reference: tests/catalogue/member_examples visits these with pieces.
    "member_examples:example",
    "member_examples:set",
    "member_examples:differently",
    "member_examples:photograph",
}
WITH_FACETS = "/issue-versions/?"
ADDRESSES = [address for addresses in PAGES.values() for address in addresses]


def every_record() -> list[str]:
    """The page of every garment type and every version of the demo society."""
    return [f"/garment-types/{code}/" for code in codes("type")] + [
        f"/issue-versions/{code}/" for code in codes("version")
    ]


def codes(kind: str) -> list[str]:
    with (DEMO_FOLDER / f"{kind}s.csv").open(encoding="utf-8-sig", newline="") as file:
        return [row[kind] for row in csv.DictReader(file)]
