"""The site's settings for the tests: no collected static files, fast passwords, a data folder of their own.

`CATALOGUE_DATABASE_URL` is kept, so that the same tests run on PostgreSQL.
"""

import atexit
import os
import shutil
import tempfile

if os.environ.get("CATALOGUE_SECRET_KEY") != "for-tests-only":  # a worker of pytest-xdist inherits these
    for name in [name for name in os.environ if name.startswith("CATALOGUE_") and name != "CATALOGUE_DATABASE_URL"]:
        del os.environ[name]
    folder = tempfile.mkdtemp(prefix="catalogue-tests-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    os.environ |= {
        "CATALOGUE_DEBUG": "yes",
        "CATALOGUE_SECRET_KEY": "for-tests-only",
        "CATALOGUE_DATA_FOLDER": folder,
    }

# Processes that run tests beside each other write pictures each into a folder of its own, and count them there.
worker = os.environ.get("PYTEST_XDIST_WORKER", "")
if worker and os.path.basename(os.environ["CATALOGUE_DATA_FOLDER"]) != worker:
    os.environ["CATALOGUE_DATA_FOLDER"] = os.path.join(os.environ["CATALOGUE_DATA_FOLDER"], worker)
    os.makedirs(os.environ["CATALOGUE_DATA_FOLDER"], exist_ok=True)

from catalogue.settings import *  # noqa: E402, F403

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
STATIC_ROOT.mkdir(exist_ok=True)  # noqa: F405 - whitenoise warns of a missing folder, and a warning fails a test
