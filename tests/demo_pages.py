"""Every public page of the demo society, by the name of its address: the one table for tests that visit them all."""

import csv

from catalogue.member_examples.marked_photographs import urls as marked_photographs
from catalogue.member_examples.submitting import urls as submitting
from catalogue.review.backing import urls as backing
from catalogue.review.deputies import urls as deputies
from catalogue.review.examples_queue import urls as examples_queue
from catalogue.review.importing import urls as importing
from catalogue.review.notices import urls as notices
from catalogue.review.proposals import urls as proposals
from catalogue.review.questions import urls as questions
from catalogue.review.scans import urls as scans
from catalogue.review.sources import urls as added_sources
from catalogue.review.unreviewed import urls as unreviewed
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
    "records:history": [
        "/issue-versions/BLO-86/history/",
        "/issue-versions/VES-66G/history/?page=9",
        "/issue-versions/BLO-86/history/?on=soon",
    ],
    "records:record": ["/issue-versions/BLO-86/history/1/", "/issue-versions/SMK-76/history/1/?with=9"],
    "feature_records:history": [
        "/features/front_closure/history/",
        "/features/front_closure/history/?page=9",
        "/features/hanger/history/?on=1900-01-01",
    ],
    "feature_records:record": ["/features/front_buttons/history/1/", "/features/front_closure/history/1/?with=9"],
    "health:society": ["/health/"],
    "health:type": ["/health/BLO/", "/health/VES/"],
    "reference:sources": ["/sources/", "/sources/?kind=label&cited=no"],
    "reference:source": ["/sources/S01/"],
    "reference:makers": ["/makers/"],
    "reference:maker": ["/makers/VSK/"],
    "reference:issuer": ["/issuers/SFS/"],
    "reference:open_questions": ["/open-questions/"],
    "reference:open_question": ["/open-questions/D1/"],
    "reference:features": ["/features/"],
    "reference:feature_group": ["/features/closure/", "/features/cloth/"],
    "member_examples:gallery": [
        "/examples/",
        "/examples/?version=BLO-86",
        "/examples/?type=BLO&shows=cuff:tab_button&year_from=1970",
        "/examples/?type=BLO&shows=cuff:nonsense&year_to=soon",
    ],
    "member_examples:agreement": ["/examples/agreement/"],
    "member_examples:sets": ["/sets/"],
    "details:of_type": ["/garment-types/BLO/details/", "/garment-types/VES/details/"],
    "details:detail": ["/garment-types/BLO/details/button_fix/", "/garment-types/VES/details/colour/"],
    "details:issuer": ["/issuers/SFS/details/", "/issuers/OEA/details/"],
    "details:of_issuer": ["/issuers/SFS/details/button_fix/"],
    "mistakes:version": ["/mistaken-for/SMK-61/", "/mistaken-for/BLO-CV/", "/mistaken-for/HOO-60/"],
    "walk_through:choose": ["/which/"],
    "walk_through:type": [
        WALK,
        "/which/HOO/",
        f"{WALK}?front_closure=cannot-tell&waist_draw=cannot-tell",
        f"{WALK}?front_closure=nonsense&colour=red",
        f"{WALK}?front_closure=cannot-tell&_stop=yes",
        "/which/VES/",
        f"{WALK}?_views=front,back",
        f"{WALK}?_views=front&_stop=yes",
        f"{WALK}?_label_number=27-120-05&_label_year=1979",
    ],
    "telling_apart:key": ["/which/SMK/key/", "/which/BLO/key/", "/which/HOO/key/", "/which/VES/key/"],
    "telling_apart:claim": [
        "/which/claim/",
        "/which/claim/?v=SMK-76",
        "/which/claim/?v=SMK-76&front_closure=neck_zip&cloth_pattern=ling&closure_cover=exposed&nonsense=1",
        "/which/claim/?v=BLO-57&weave=cannot-tell",
        "/which/claim/?v=BLO-94&shoulder_strap=none&reinforcement=self&sleeve_set=removed",
        "/which/claim/?v=HOO-60",
        "/which/claim/?v=Ling+smock",
        "/which/claim/?v=SMQ-77",
    ],
    "account_signup": ["/join/"],
    "account_login": ["/account/login/", "/account/login/?next=/my/"],
    "account_inactive": ["/account/inactive/"],
    "account_reset_password": ["/account/password/reset/"],
    "account_reset_password_done": ["/account/password/reset/done/"],
    "account_reset_password_from_key": ["/account/password/reset/key/1-nothing/"],
    "account_reset_password_from_key_done": ["/account/password/reset/key/done/"],
    "accounts:person": ["/people/Curlew/", "/people/Whimbrel/"],
    "labels_on_pages:label": ["/label/"],
    "walk_through:any": ["/which/any-garment/"],
}
# Pages of those who are signed in, by the name of a member of the demo society. What each person gets at each address
# stands in tests/catalogue/accounts/test_every_address.py.
SIGNED_IN_PAGES = {
    "Turnstone": [
        "/my/",
        "/my/shown/",
        "/my/devices/",
        "/my/data/",
        "/my/leave/",
        "/my/invitations/new/",
        "/my/pieces/add/",
        "/my/wants/add/",
        "/sets/new/",
        "/my/second-factor-first/",
        "/people/Turnstone/",
        "/account/logout/",
        "/account/email/",
        "/account/password/change/",
        "/account/second-factor/",
        "/account/second-factor/totp/activate/",
        "/account/second-factor/webauthn/",
        "/account/second-factor/webauthn/add/",
        "/account/second-factor/recovery-codes/generate/",
    ],
    "Dunlin": [
        "/my/",
        "/society/requests/",
        "/pieces-that-wait/",
        "/pieces-that-wait/?state=returned",
        "/my/notices/",
        "/my/away/",
        "/proposals/",
        "/proposals/split/?version=COA-85",
        "/proposals/imports/",
        "/not-reviewed/",
        "/not-reviewed/?type=HAT",
    ],
    "Knot": ["/my/", "/society/", "/society/?q=nobody+at+all", "/society/requests/"],
}
NOT_PAGES = {
    "accounts:add",
    "accounts:change",
    "accounts:decide",
    "accounts:devices",
    "accounts:unsent",
    "accounts:invitation",
    "accounts:invited",
    "accounts:leave",
    "accounts:my_data",
    "accounts:my_page",
    "accounts:new_invitation",
    "accounts:remove",
    "accounts:requests",
    "accounts:revoke",
    "accounts:role",
    "accounts:second_factor_first",
    "accounts:shown",
    "accounts:society",
    "accounts:waiting",
    "account_change_password",
    "account_email",
    "account_email_verification_sent",
    "account_logout",
    "account_reauthenticate",
    "account_set_password",
    "mfa_activate_totp",
    "mfa_add_webauthn",
    "mfa_authenticate",
    "mfa_deactivate_totp",
    "mfa_download_recovery_codes",
    "mfa_edit_webauthn",
    "mfa_generate_recovery_codes",
    "mfa_index",
    "mfa_list_webauthn",
    "mfa_login_webauthn",
    "mfa_reauthenticate",
    "mfa_reauthenticate_webauthn",
    "mfa_remove_webauthn",
    "mfa_view_recovery_codes",
    # Those of a submission are for members, each of whom sees their own; they have tests of their own.
    *(f"submitting:{pattern.name}" for pattern in submitting.urlpatterns),
    "figures:type",
    "figures:version",
    # Of photographs that authors give features: tests/catalogue/member_examples/test_marked_photographs.py
    *(f"marked:{pattern.name}" for pattern in marked_photographs.urlpatterns),
    "figures:choose_drawing",  # for authors: tests/catalogue/figures/test_choosing_drawings.py
    "figures:drawing_board",  # for authors: tests/catalogue/figures/test_drawing_board.py
    "site_pages:robots",
    "walk_through:type_data",
    "walk_through:any_data",
    "telling_apart:claim_data",
    "details:csv",
    # Pieces are no part of the reference: tests/catalogue/member_examples visits these with pieces.
    "member_examples:example",
    "member_examples:set",
    "member_examples:new_set",
    "member_examples:change_set",
    "member_examples:add_to_set",
    "member_examples:take_out_of_set",
    "member_examples:dissolve_set",
    "member_examples:bring_back_set",
    "member_examples:names",
    "member_examples:ask_for_removal",
    "member_examples:settle_name",
    "member_examples:blur_name",
    "member_examples:altered",
    "member_examples:confirm_alteration",
    "member_examples:take_back_alteration",
    "member_examples:differently",
    "member_examples:photograph",
    "health:take",
    "health:undo",
    # For moderators, and each member's own: tests/catalogue/review.
    *(f"backing:{pattern.name}" for pattern in backing.urlpatterns),
    *(f"deputies:{pattern.name}" for pattern in deputies.urlpatterns),
    *(f"examples_queue:{pattern.name}" for pattern in examples_queue.urlpatterns),
    *(f"notices:{pattern.name}" for pattern in notices.urlpatterns),
    *(f"proposals:{pattern.name}" for pattern in proposals.urlpatterns),
    *(f"questions:{pattern.name}" for pattern in questions.urlpatterns),
    *(f"scans:{pattern.name}" for pattern in scans.urlpatterns),
    *(f"sources:{pattern.name}" for pattern in added_sources.urlpatterns),
    *(f"feature_records:{name}" for name in ("begin", "edit", "new")),
    *(f"imports:{pattern.name}" for pattern in importing.urlpatterns),
    *(f"unreviewed:{pattern.name}" for pattern in unreviewed.urlpatterns),
}
WITH_FACETS = "/issue-versions/?"
# Of these the page behind the caution is meant (tests.reading.read_caution); of the others with one the caution itself.
BEHIND_THE_CAUTION = ("any-garment", "BLO")
ADDRESSES = [address for addresses in PAGES.values() for address in addresses]


def every_record() -> list[str]:
    """The page of every garment type and every version of the demo society."""
    return [f"/garment-types/{code}/" for code in codes("type")] + [
        f"/issue-versions/{code}/" for code in codes("version")
    ]


def codes(kind: str) -> list[str]:
    with (DEMO_FOLDER / f"{kind}s.csv").open(encoding="utf-8-sig", newline="") as file:
        return [row[kind] for row in csv.DictReader(file)]
