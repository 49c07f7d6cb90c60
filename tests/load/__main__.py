"""`python -m tests.load [--users 30] [--minutes 10]`: a demo workshop at work.

Ends with 1 where an answer was an error, or they came too late. On the PostgreSQL that
DATABASE_URL names (`.ci/postgres`), else on SQLite. With --write the table goes into DEVELOPERS.md.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from io import StringIO

USERS, MINUTES, SEED = 30, 10.0, 20_261_127


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.load", description=__doc__)
    parser.add_argument("--users", type=int, default=USERS)
    parser.add_argument("--minutes", type=float, default=MINUTES)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--no-year", action="store_false", dest="year", help="a demo without its past year")
    parser.add_argument("--write", action="store_true", help="write the table into DEVELOPERS.md")
    given = parser.parse_args()
    _settle()
    from django.core.management import call_command

    from quotes.models import Quote
    from tests.faults.server import Server
    from tests.load.day import Day
    from tests.load.report import keep_report, report

    call_command("migrate", verbosity=0)
    call_command("collectstatic", interactive=False, verbosity=0)
    if not Quote.objects.exists():
        call_command("load_demo", style="value-added-tax", year=given.year, stdout=StringIO())
    server, worker = Server(), _worker()
    try:
        workers = server.workers
        day = Day(server.address, given.users, given.seed)
        began = time.process_time()
        day.run(given.minutes, workers)
        used = time.process_time() - began
        alive = server.workers == workers
    finally:
        server.kill_all()
        worker.kill()
    text = report(day, users=given.users, minutes=given.minutes, used=used)
    print(text)
    for said in [
        *day.refused[:40],
        *(each for errors in day.measured.errors.values() for each in errors[:5]),
    ]:
        print(said, file=sys.stderr)
    if given.write:
        keep_report(text)
    return int(not alive or not day.sound)


def _worker() -> subprocess.Popen[bytes]:
    """What draws quotes' papers beside the site; on SQLite it finds nothing, since the site does it."""
    return subprocess.Popen([sys.executable, "manage.py", "work"], stdout=subprocess.DEVNULL)


def _settle() -> None:
    """The site's own settings in a folder that goes with the run; its workers take them over."""
    import atexit
    import shutil
    import tempfile

    folder = tempfile.mkdtemp(prefix="quotes-load-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    os.environ |= {"DATA_DIR": folder, "STATIC_ROOT": f"{folder}/static"}
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "quotes.settings")
    import django

    django.setup()


if __name__ == "__main__":
    sys.exit(main())
