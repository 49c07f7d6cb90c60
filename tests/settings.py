"""Settings of the tests: the site's own, with a data folder for each run and a quick password hasher."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

# Each run has its own database file and folder, so that two runs at once do not meet.
_folder = tempfile.mkdtemp(prefix="quotes-tests-")
atexit.register(shutil.rmtree, _folder, ignore_errors=True)
os.environ["DATA_DIR"] = _folder
os.environ["STATIC_ROOT"] = os.path.join(_folder, "static")
os.mkdir(os.environ["STATIC_ROOT"])
os.environ["SECRET_KEY"] = "only-for-tests-" + "k" * 40

from quotes.settings import *  # noqa: E402, F403
from quotes.settings import DATABASES, STORAGES  # noqa: E402

if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    # A test that loses power starts again: nothing waits for the disk.
    DATABASES["default"]["OPTIONS"]["init_command"] += "PRAGMA synchronous=OFF;"
    # A run puts the same few thousand statements to one connection: each is read and planned once.
    DATABASES["default"]["OPTIONS"]["cached_statements"] = 4000
else:
    # The test database can't be dropped while a pool holds on to it.
    DATABASES["default"]["OPTIONS"].pop("pool", None)

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
# The manifest needs collectstatic first; the pages under test do not.
STORAGES = {
    **STORAGES,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
    # A test that loses power starts again: nothing waits for the disk.
    "default": {"BACKEND": "catalogue.models.file_store.Folder", "OPTIONS": {"synced": False}},
}

# Work in the background is done where it is asked for, so that a test sees what came of it.
BACKGROUND = "at once"

# The first page of a day asks one query more: a test that counts them must not be the one that finds out.
PRICES_BY_THEMSELVES = False
