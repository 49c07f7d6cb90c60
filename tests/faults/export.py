"""Exports all that is new in the books, as the page does, to be killed on the way."""

from __future__ import annotations

import django


def main() -> None:
    django.setup()
    from django.contrib.auth.models import User
    from django.utils import timezone

    from quotes.actions.books.batches import NothingToExport, finish_batch, start_batch

    try:
        batch = start_batch(by=User.objects.get(username="owner"), now=timezone.now())
    except NothingToExport:
        return
    finish_batch(batch_id=batch.pk)


if __name__ == "__main__":
    main()
