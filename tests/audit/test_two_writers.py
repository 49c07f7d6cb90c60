"""Two who write at once: one chain, nothing lost, nobody waits for good."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection, transaction
from django.utils import timezone

from quotes.models import AuditEntry, AuditHead, Customer
from quotes.queries.record.chained import chained_changes

pytestmark = pytest.mark.django_db(transaction=True)
WRITERS, EACH = 4, 6


def _write(writer: int) -> None:
    try:
        for turn in range(EACH):
            with transaction.atomic():
                row = Customer.objects.create(name=f"Writer {writer}.{turn}", created_at=timezone.now())
                row.telephone = "1"
                row.save()
    finally:
        connection.close()


def test_writers_at_once_make_one_chain() -> None:
    before = AuditEntry.objects.count()
    with ThreadPoolExecutor(WRITERS) as pool:
        list(pool.map(_write, range(WRITERS)))
    assert AuditEntry.objects.count() == before + 2 * WRITERS * EACH
    assert AuditHead.objects.get().count == AuditEntry.objects.count()
    assert [str(fault) for found in chained_changes() for fault in found] == []
    for number in AuditEntry.objects.filter(action="added").values_list("number", flat=True):
        # What one transaction did stands together.
        assert AuditEntry.objects.get(number=number + 1).action == "changed"


def test_a_transaction_that_can_not_be_told_of_is_not_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*args: object) -> None:
        raise ZeroDivisionError

    before = AuditEntry.objects.count()
    monkeypatch.setattr("quotes.actions.audit.writing.ToldEntry.write", broken)
    with pytest.raises(ZeroDivisionError), transaction.atomic():
        Customer.objects.create(name="Marel Otten", created_at=timezone.now())
    monkeypatch.undo()
    assert not Customer.objects.exists()
    Customer.objects.create(name="Marel Otten", created_at=timezone.now())
    assert AuditEntry.objects.count() == before + 1
