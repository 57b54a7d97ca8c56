"""A passkey in a real Chromium, with the browser's own virtual authenticator (W3C Web Authentication, section 11)."""

import pytest

from catalogue.accounts.demo import DEMO_PASSWORD
from tests.site_server import Server

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def own_site(new_folder):
    """A demo site of its own, to be written to."""
    server = Server(new_folder("passkeys", "demo"))
    server.start()
    yield f"http://localhost:{server.port}"  # a passkey belongs to a name: a number will not do
    server.stop()


def with_authenticator(page):
    """Plug in a device that knows its owner's finger."""
    devtools = page.context.new_cdp_session(page)
    devtools.send("WebAuthn.enable")
    options = {
        "protocol": "ctap2",
        "transport": "internal",
        "hasResidentKey": True,
        "hasUserVerification": True,
        "isUserVerified": True,
        "automaticPresenceSimulation": True,
    }
    found = devtools.send("WebAuthn.addVirtualAuthenticator", {"options": options})
    return devtools, found["authenticatorId"]


def sign_in(page, site, name):
    page.goto(f"{site}/account/login/")
    page.fill("[name=login]", name)
    page.fill("[name=password]", DEMO_PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()


def add_passkey(page, site, *, alone):
    page.goto(f"{site}/account/second-factor/webauthn/add/")
    page.fill("[name=password]", DEMO_PASSWORD)
    page.get_by_role("button", name="Go on").click()
    page.wait_for_url("**/webauthn/add/")
    page.fill("[name=name]", "My phone")
    page.set_checked("[name=passwordless]", alone)
    page.get_by_role("button", name="Add it").click()
    page.wait_for_url("**/recovery-codes/")


def sign_out(page, site):
    page.goto(f"{site}/account/logout/")
    page.get_by_role("button", name="Sign out").click()
    page.wait_for_url(f"{site}/")


def test_a_passkey_is_added_and_signs_in_alone(own_site, browser_page):
    devtools, device = with_authenticator(browser_page)
    sign_in(browser_page, own_site, "Avocet")
    add_passkey(browser_page, own_site, alone=True)
    assert len(devtools.send("WebAuthn.getCredentials", {"authenticatorId": device})["credentials"]) == 1
    browser_page.goto(f"{own_site}/account/second-factor/webauthn/")
    assert "My phone" in browser_page.text_content("main")
    assert "signs in alone" in browser_page.text_content("main")
    sign_out(browser_page, own_site)

    browser_page.goto(f"{own_site}/account/login/")
    browser_page.get_by_role("button", name="Sign in with a passkey").click()
    browser_page.wait_for_url("**/my/")

    assert "Avocet" in browser_page.text_content("header")


def test_a_passkey_is_the_second_factor_after_the_password(own_site, browser_page):
    with_authenticator(browser_page)
    sign_in(browser_page, own_site, "Lapwing")
    add_passkey(browser_page, own_site, alone=False)
    sign_out(browser_page, own_site)

    sign_in(browser_page, own_site, "Lapwing")
    browser_page.wait_for_url("**/second-factor/authenticate/")
    browser_page.get_by_role("button", name="Use a passkey").click()
    browser_page.wait_for_url("**/my/")

    assert "Lapwing" in browser_page.text_content("header")


def test_a_device_that_does_not_know_the_finger_opens_nothing_and_says_so(own_site, browser_page):
    devtools, device = with_authenticator(browser_page)
    sign_in(browser_page, own_site, "Ruff")
    add_passkey(browser_page, own_site, alone=True)
    sign_out(browser_page, own_site)
    devtools.send("WebAuthn.setUserVerified", {"authenticatorId": device, "isUserVerified": False})

    browser_page.goto(f"{own_site}/account/login/")
    browser_page.get_by_role("button", name="Sign in with a passkey").click()

    browser_page.get_by_text("It was not done, or took too long. Try again.").wait_for()
    browser_page.goto(f"{own_site}/my/")
    assert "/account/login/" in browser_page.url
