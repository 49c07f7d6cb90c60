"""Settings of the site, from the environment with defaults that run on one machine."""

from __future__ import annotations

import os
from datetime import timedelta
from pathlib import Path

from csp.constants import NONE, SELF

from quotes.environment import database, files, flag, secret_key, words

BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = Path(os.environ.get("DATA_DIR", BASE_DIR / "data")).resolve()
"""Where the database file, uploaded files and the secret key live."""
DATA_DIR.mkdir(parents=True, exist_ok=True)

MEGABYTE = 1024 * 1024
HOUR = 60 * 60

DEBUG = flag("DEBUG", False)
SECRET_KEY = secret_key(DATA_DIR)
SECRET_KEY_FALLBACKS = words("SECRET_KEY_FALLBACKS")
"""Keys of before: what they signed is still taken, what they sealed still opened, until `seal_codes`."""
ALLOWED_HOSTS = words("ALLOWED_HOSTS", "localhost,127.0.0.1,[::1]")
CSRF_TRUSTED_ORIGINS = words("TRUSTED_ORIGINS")

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django_filters",
    "django_htmx",
    "django_tables2",
    "axes",
    "django_otp",
    "django_otp.plugins.otp_totp",
    "django_otp.plugins.otp_static",
    "csp",
    "django_tasks",
    "django_tasks_db",
    "catalogue",
    "quotes",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "quotes.views.every_request.language.LanguageMiddleware",
    "quotes.views.every_request.acting.ActingMiddleware",
    "quotes.views.every_request.signed_in.SignedInMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "csp.middleware.CSPMiddleware",
    "axes.middleware.AxesMiddleware",
    "quotes.views.every_request.new_day.NewDayMiddleware",
    # Answers in the view's place, so nothing that looks at a view may come after it.
    "quotes.views.every_request.sent_once.SentOnceMiddleware",
]

ROOT_URLCONF = "quotes.urls"
WSGI_APPLICATION = "quotes.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.template.context_processors.i18n",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "quotes.views.every_request.access.site",
            ],
        },
    },
]


DATABASES = {"default": database(DATA_DIR)}

PRICES_BY_THEMSELVES = True
"""Whether prices come into force on the first page of their day; else by `manage.py prices_in_force`."""
TASKS = {"default": {"BACKEND": "django_tasks_db.DatabaseBackend"}}
BACKGROUND_SILENT = timedelta(seconds=int(os.environ.get("BACKGROUND_SILENT", "30")))
"""A work whose worker has given no sign of life for so long is another's."""
BACKGROUND_TRIES = int(os.environ.get("BACKGROUND_TRIES", "3"))
"""A work that takes its process along each time is not begun for ever."""
MACHINES = int(os.environ.get("MACHINES", "1"))
"""How many machines serve this workshop; the system check says what several need."""
BACKGROUND = os.environ.get(
    "BACKGROUND", "site" if DATABASES["default"]["ENGINE"].endswith("sqlite3") else "worker"
)
"""Who does long work: the `site` in a thread, a `worker` (`manage.py work`), or `at once` who asks for it."""

PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
AUTHENTICATION_BACKENDS = [
    "axes.backends.AxesStandaloneBackend",
    "django.contrib.auth.backends.ModelBackend",
]
# Wrong passwords for a name from one address end in a pause; what is tried in it does not prolong it.
AXES_FAILURE_LIMIT = 5
AXES_COOLOFF_TIME = timedelta(minutes=15)
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_RESET_ON_SUCCESS = True
AXES_RESET_COOL_OFF_ON_FAILURE_DURING_LOCKOUT = False
AXES_DISABLE_ACCESS_LOG = True
AXES_SENSITIVE_PARAMETERS = ["username", "ip_address", "password", "new", "again"]
"""What it masks in its log and leaves out of what it keeps: every field that holds a password stands here."""
AXES_VERBOSE = False
AXES_CLIENT_IP_CALLABLE = "quotes.views.every_request.address.client_address"
AXES_LOCKOUT_CALLABLE = "quotes.views.signing_in.session.paused"
PROXIES = int(os.environ.get("PROXIES", "0"))
"""How many proxies of our own stand before the site, each adding whom it serves to X-Forwarded-For."""
PASSWORD_RESET_TIMEOUT = HOUR
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "home"
LOGOUT_REDIRECT_URL = "sign-in"

LANGUAGE_CODE = os.environ.get("LANGUAGE_OF_PAGES", "en")
"""Of pages for those who have not chosen, and of papers for customers with no language of their own."""
LANGUAGES = [("en", "English"), ("de", "Deutsch")]
# What the sums, the papers and each group of pages say stands in files of its own.
LOCALE_PATHS = [
    BASE_DIR / "quotes" / "locale" / area
    for area in ("trade", "sums", "papers", "customer", "bench", "books", "catalogue", "desk")
]
LANGUAGE_COOKIE_AGE = timedelta(days=365).total_seconds()
LANGUAGE_COOKIE_HTTPONLY = True
LANGUAGE_COOKIE_SAMESITE = "Lax"
TIME_ZONE = os.environ.get("TIME_ZONE", "UTC")
USE_I18N = True
USE_TZ = True
USE_THOUSAND_SEPARATOR = False

STATIC_URL = "static/"
STATIC_ROOT = Path(os.environ.get("STATIC_ROOT", BASE_DIR / "static"))


STORAGES = {
    "default": files(),
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
WHITENOISE_USE_FINDERS = True
# favicon.ico and robots.txt, which browsers and crawlers ask for at the root, unsigned.
WHITENOISE_ROOT = BASE_DIR / "quotes" / "root_files"

MEDIA_ROOT = Path(os.environ.get("FILES_FOLDER", DATA_DIR / "media"))
DATA_UPLOAD_MAX_MEMORY_SIZE = 5 * MEGABYTE
FILE_UPLOAD_MAX_MEMORY_SIZE = 5 * MEGABYTE
# A worksheet of three options has several fields on each of some two hundred lines.
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4000
DATA_UPLOAD_MAX_NUMBER_FILES = 20

DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "font-src": [SELF],
        "img-src": [SELF, "data:"],
        "connect-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    }
}
# The customer's link is a secret in an address: no other site may learn it.
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"

SESSION_COOKIE_AGE = 14 * HOUR
"""A long working day: the desk signs in once each morning."""
SESSION_IDLE = timedelta(minutes=int(os.environ.get("IDLE_MINUTES", "120")))
"""A sign-in that is not used for so long ends before that."""
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_HTTPONLY = True
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_FAILURE_VIEW = "quotes.views.every_request.sent_late.not_from_here"

EMAIL_HOST = os.environ.get("MAIL_HOST", "")
"""Without a mail server each mail becomes a file, for the owner to read and hand on."""
EMAIL_BACKEND = f"django.core.mail.backends.{'smtp' if EMAIL_HOST else 'filebased'}.EmailBackend"
EMAIL_FILE_PATH = DATA_DIR / "mail"
EMAIL_PORT = int(os.environ.get("MAIL_PORT", "587"))
EMAIL_HOST_USER = os.environ.get("MAIL_USER", "")
EMAIL_HOST_PASSWORD = os.environ.get("MAIL_PASSWORD", "")
EMAIL_USE_TLS = flag("MAIL_TLS", True)
EMAIL_TIMEOUT = 10
DEFAULT_FROM_EMAIL = os.environ.get("MAIL_FROM", "workshop@localhost")

HTTPS = flag("HTTPS", False)
"""Whether the site is reached by https, through a proxy that says so in X-Forwarded-Proto."""
REQUIRE_CODES = flag("REQUIRE_CODES", HTTPS)
"""Whether owner and books must give a one-time code after the password; others may."""
OTP_TOTP_ISSUER = "Engine build quotes"
SESSION_COOKIE_SECURE = HTTPS
CSRF_COOKIE_SECURE = HTTPS
# A browser takes a cookie of such a name from this host alone, over https alone.
SESSION_COOKIE_NAME = "__Host-sessionid" if HTTPS else "sessionid"
CSRF_COOKIE_NAME = "__Host-csrftoken" if HTTPS else "csrftoken"
SECURE_SSL_REDIRECT = HTTPS
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if HTTPS else None
SECURE_HSTS_SECONDS = int(os.environ.get("HSTS_SECONDS", 365 * 24 * HOUR)) if HTTPS else 0
# To bind all of a domain's other sites is for its owner to ask, not for this one to assume.
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = flag("HSTS_WHOLE_DOMAIN", False)
SILENCED_SYSTEM_CHECKS = ["security.W005", "security.W021"]

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {
        "line": {
            "()": "quotes.views.every_request.masked_log.Masked",
            "format": "{asctime} {levelname} {name}: {message}",
            "style": "{",
        }
    },
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["stderr"], "level": os.environ.get("LOG_LEVEL", "WARNING")},
    # Django's own would send errors by mail, which is not set up here.
    "loggers": {"django": {"handlers": [], "propagate": True}},
}
