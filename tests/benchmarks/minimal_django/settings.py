"""A Django project as small as it gets, to measure our pages beside.

`MINIMAL_STACK=ours` takes the site's own middleware; `default` takes what `startproject` writes, and whitenoise.
"""

import os
from pathlib import Path

from catalogue import settings as site

HERE = Path(__file__).resolve().parent
DEBUG = False
SECRET_KEY = "for-measuring-only"
ALLOWED_HOSTS = ["127.0.0.1"]
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "tests.benchmarks.minimal_django",
]
DEFAULT_STACK = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
]
# Without that of the sign-in library, which needs tables that a minimal project has not; ours is judged the stricter.
OUR_STACK = [name for name in site.MIDDLEWARE if not name.startswith("allauth.")]
MIDDLEWARE = OUR_STACK if os.environ.get("MINIMAL_STACK") == "ours" else DEFAULT_STACK
BASE_DIR = site.BASE_DIR  # where the site's middleware looks for its first-screen style
ROOT_URLCONF = "tests.benchmarks.minimal_django.urls"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [HERE / "templates"],
        "OPTIONS": {"context_processors": ["django.template.context_processors.request"]},
    }
]
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": os.environ["MINIMAL_DATABASE"],
        "OPTIONS": site.SQLITE_OPTIONS,
        "CONN_MAX_AGE": 60,
        "CONN_HEALTH_CHECKS": True,
    }
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
USE_I18N = False
USE_TZ = True
STATIC_URL = "static/"
STATIC_ROOT = os.environ["CATALOGUE_DATA_FOLDER"]
