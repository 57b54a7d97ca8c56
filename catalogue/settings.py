"""All settings. Whatever a society may change is read from the environment; DEVELOPERS.md lists each name."""

import os
import secrets
from pathlib import Path

from catalogue import environment

# Each visit has a thread of its own. Products that spread over all cores besides wait for one another: on two cores
# with something else to do they took four times as long. Read by numpy's library when it is first loaded.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_FOLDER = Path(environment.text("CATALOGUE_DATA_FOLDER", str(BASE_DIR / ".data")))
DATA_FOLDER.mkdir(parents=True, exist_ok=True)


def kept_secret(path: Path) -> str:
    """The secret of this installation, made at the first start and readable by its owner only."""
    if not path.exists():
        path.touch(mode=0o600)
        path.write_text(secrets.token_urlsafe(50), encoding="utf-8")
    return path.read_text(encoding="utf-8")


DEBUG = environment.flag("CATALOGUE_DEBUG", default=False)
SECRET_KEY = environment.text("CATALOGUE_SECRET_KEY") or kept_secret(DATA_FOLDER / "secret_key")
ALLOWED_HOSTS = environment.words("CATALOGUE_HOSTS", "127.0.0.1,localhost,[::1]")
BEHIND_HTTPS = environment.flag("CATALOGUE_HTTPS", default=False)
# Where the site is read, for links in mails that no visit sends.
ADDRESS = environment.address("CATALOGUE_ADDRESS")
# Whom a stranger writes to who asks for a name to be removed: an address, or words.
CONTACT = environment.text("CATALOGUE_CONTACT", "")
SOCIETY_NAME = environment.text("CATALOGUE_SOCIETY_NAME", "Strandfell Clothing Circle")

INSTALLED_APPS = [
    "catalogue.back_office.BackOfficeConfig",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django_filters",
    "allauth",
    "allauth.account",
    "allauth.mfa",
    "catalogue",
    "identification",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.middleware.gzip.GZipMiddleware",
    "catalogue.site_pages.middleware.content_policy",
    "catalogue.site_pages.middleware.refuse_long_addresses",
    "catalogue.site_pages.middleware.no_nul_in_addresses",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "catalogue.site_pages.middleware.RefuseNulInForms",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "catalogue.accounts.unsent.remember_who_was_here",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "catalogue.site_pages.wrong_way.say_what_an_address_is_for",
    "catalogue.site_pages.disk_full.SayThatNothingCanBeWritten",
]

ROOT_URLCONF = "catalogue.urls"
WSGI_APPLICATION = "catalogue.wsgi.application"
AUTH_USER_MODEL = "catalogue.Member"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "catalogue.site_pages.context.society",
                "catalogue.accounts.context.whoever_asks",
            ],
        },
    },
]

# A read lock of SQLite cannot be upgraded, so a transaction that will write takes the write lock at once;
# WAL lets readers go on meanwhile. What is deleted is overwritten, since names are removed when somebody asks.
SQLITE_OPTIONS = {
    "transaction_mode": "IMMEDIATE",
    "timeout": 5,
    "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL; PRAGMA secure_delete=ON;",
}
DATABASES = {
    "default": environment.database(
        environment.text("CATALOGUE_DATABASE_URL", f"sqlite:///{DATA_FOLDER / 'catalogue.sqlite3'}"),
        SQLITE_OPTIONS,
    )
    | {"CONN_MAX_AGE": 60, "CONN_HEALTH_CHECKS": True}
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in (
        "UserAttributeSimilarityValidator",
        "MinimumLengthValidator",
        "CommonPasswordValidator",
        "NumericPasswordValidator",
    )
]

# Sign-in. What counts failed attempts is shared by all processes: a table of the database. So many entries that a
# flood of them cannot push out a count that still stands.
CACHES = {
    "default": {
        "BACKEND": "django.core.cache.backends.db.DatabaseCache",
        "LOCATION": "catalogue_cache",
        "OPTIONS": {"MAX_ENTRIES": 200_000},
    }
}
SECOND_FACTOR = environment.choice("CATALOGUE_SECOND_FACTOR", "offered", ("offered", "required"))
AUTHENTICATION_BACKENDS = ["catalogue.accounts.sign_in_backend.SignInBackend"]
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "accounts:my_page"
ALLAUTH_TRUSTED_PROXY_COUNT = environment.number("CATALOGUE_TRUSTED_PROXIES", 0, 9)
ACCOUNT_ADAPTER = "catalogue.accounts.sign_in_adapter.SignInAdapter"
ACCOUNT_LOGIN_METHODS = {"email", "username"}
ACCOUNT_SIGNUP_FIELDS = ["username*", "email*", "password1*"]
ACCOUNT_FORMS = {
    name: f"catalogue.accounts.sign_in_forms.{form}"
    for name, form in {
        "login": "SignInForm",
        "signup": "AskToJoinForm",
        "add_email": "ChangeAddressForm",
        "change_password": "ChangePasswordForm",
        "reset_password": "ForgottenPasswordForm",
        "reset_password_from_key": "NewPasswordForm",
        "reauthenticate": "ConfirmPasswordForm",
        "confirm_email_verification_code": "AddressCodeForm",
    }.items()
}
ACCOUNT_EMAIL_VERIFICATION = "mandatory"
ACCOUNT_EMAIL_VERIFICATION_BY_CODE_ENABLED = True
ACCOUNT_EMAIL_VERIFICATION_SUPPORTS_CHANGE = True
ACCOUNT_EMAIL_VERIFICATION_SUPPORTS_RESEND = True
ACCOUNT_CHANGE_EMAIL = True
ACCOUNT_EMAIL_NOTIFICATIONS = True
ACCOUNT_EMAIL_SUBJECT_PREFIX = f"{SOCIETY_NAME}: "
# Wrong passwords are counted by catalogue/accounts/attempts.py; here what else the sign-in library counts: every
# attempt of a place, right or wrong, and wrong codes of the second factor by account.
ACCOUNT_RATE_LIMITS = {"login": "60/m/ip", "login_failed": "5/5m/key"}
ACCOUNT_LOGOUT_REDIRECT_URL = "site_pages:home"
ACCOUNT_SESSION_REMEMBER = True
ACCOUNT_REAUTHENTICATION_METHODS = ["password", "mfa"]  # the library's default takes a code sent by mail as well
MFA_SUPPORTED_TYPES = ["totp", "webauthn", "recovery_codes"]
MFA_ADAPTER = "catalogue.accounts.second_factor.SecondFactorAdapter"
MFA_PASSKEY_LOGIN_ENABLED = True
MFA_TOTP_ISSUER = SOCIETY_NAME
MFA_TOTP_TOLERANCE = 1
MFA_FORMS = {
    name: f"catalogue.accounts.sign_in_forms.{form}"
    for name, form in {
        "authenticate": "CodeForm",
        "reauthenticate": "ConfirmCodeForm",
        "activate_totp": "ActivateCodeForm",
        "add_webauthn": "AddPasskeyForm",
        "authenticate_webauthn": "PasskeyForm",
        "login_webauthn": "PasskeyAloneForm",
        "reauthenticate_webauthn": "ConfirmPasskeyForm",
        "edit_webauthn": "RenamePasskeyForm",
    }.items()
}
SESSION_COOKIE_AGE = 30 * 24 * 60 * 60
globals().update(environment.mail(environment.text("CATALOGUE_EMAIL_URL", "console:")))
DEFAULT_FROM_EMAIL = SERVER_EMAIL = environment.text("CATALOGUE_EMAIL_FROM", "catalogue@localhost")

# Whether what changes a version by import or by hand becomes a proposal; see catalogue/reference/review_state.py.
REVIEW = environment.choice("CATALOGUE_REVIEW", "begun", ("begun", "yes", "no"))

LANGUAGE_CODE = "en-gb"
TIME_ZONE = environment.text("CATALOGUE_TIME_ZONE", "UTC")
USE_I18N = False
USE_TZ = True

STATIC_URL = "static/"
STATIC_ROOT = DATA_FOLDER / "static"
# Members' pictures. No address leads there: a view asks first who may see what.
MEDIA_ROOT = DATA_FOLDER / "media"
# Pictures as they were sent in, only where the society says so. No view reads them at all.
KEEP_ORIGINALS = environment.flag("CATALOGUE_KEEP_ORIGINALS", default=False)
STATICFILES_DIRS = [BASE_DIR / "static"]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "originals": {
        "BACKEND": "django.core.files.storage.FileSystemStorage",
        "OPTIONS": {
            "location": DATA_FOLDER / "originals",
            "base_url": None,
            "file_permissions_mode": 0o600,
            "directory_permissions_mode": 0o700,
        },
    },
    "staticfiles": {
        "BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"
        if DEBUG
        else "whitenoise.storage.CompressedManifestStaticFilesStorage"
    },
}

# An address may hold at most 8 kB (refuse_long_addresses), hence at most 4,096 parameters: all of them are read,
# so that unknown ones can be named on the page instead of stopping it.
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4_200
# A hundred pictures chosen at once are answered picture by picture; more in one piece are not read at all.
DATA_UPLOAD_MAX_NUMBER_FILES = 200
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = BEHIND_HTTPS
if BEHIND_HTTPS:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "{asctime} {levelname} {name} {message}", "style": "{"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
}
