"""The site's settings for the tests: no collected static files, fast passwords, a data folder of their own."""

import os
import tempfile

os.environ.setdefault("CATALOGUE_DEBUG", "yes")
os.environ.setdefault("CATALOGUE_SECRET_KEY", "for-tests-only")
os.environ.setdefault("CATALOGUE_DATA_FOLDER", os.path.join(tempfile.gettempdir(), "catalogue-tests"))

from catalogue.settings import *  # noqa: E402, F403

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
