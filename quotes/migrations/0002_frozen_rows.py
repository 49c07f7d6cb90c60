"""The database refuses to change or delete what was issued, accepted or recorded, whoever asks.

SQLite drops a table's triggers when a later migration rebuilds the table: such a migration runs
`set_again`. Run on a database that has the triggers already, this sets the same ones anew.
"""

from django.db import migrations

from quotes.models import frozen_triggers

FROZEN = {
    "quotes_revision": (
        "quote_id",
        "index",
        "request",
        "sheet",
        "sheet_sha256",
        "issued_at",
        "valid_until",
        "gross_from",
        "gross_to",
    ),
    "quotes_acceptance": (
        "quote_id",
        "revision_id",
        "tier",
        "extras",
        "name",
        "gross",
        "limit_sum",
        "sheet_sha256",
        "agreed_terms",
        "accepted_at",
    ),
    "quotes_storedfile": ("sha256", "content"),
}


def freeze(apps, schema_editor):
    thaw(apps, schema_editor)
    vendor = schema_editor.connection.vendor
    if vendor == "postgresql":
        schema_editor.execute(
            "CREATE OR REPLACE FUNCTION quotes_issued_for_good() RETURNS trigger AS $$ BEGIN "
            "RAISE EXCEPTION USING MESSAGE = 'rows of ' || TG_TABLE_NAME || ' are issued for good', "
            "ERRCODE = 'integrity_constraint_violation'; END $$ LANGUAGE plpgsql"
        )
    for table, columns in FROZEN.items():
        listed = ", ".join(f'"{column}"' for column in columns)
        head = f"CREATE TRIGGER {table}_frozen BEFORE UPDATE OF {listed} ON {table}"
        if vendor == "postgresql":
            schema_editor.execute(f"{head} FOR EACH ROW EXECUTE FUNCTION quotes_issued_for_good()")
        elif vendor == "sqlite":
            schema_editor.execute(
                f"{head} BEGIN SELECT RAISE(ABORT, 'rows of {table} are issued for good'); END"
            )


def thaw(apps, schema_editor):
    on = " ON {table}" if schema_editor.connection.vendor == "postgresql" else ""
    for table in FROZEN:
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {table}_frozen" + on.format(table=table))


class Migration(migrations.Migration):
    dependencies = [("quotes", "0001_squashed_0027_password_asks")]

    operations = [
        migrations.RunPython(freeze, thaw),
        frozen_triggers.Triggers(frozen_triggers.set_again, frozen_triggers.take_off),
    ]
