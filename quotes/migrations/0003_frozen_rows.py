"""The database refuses to change what was issued or accepted, whoever asks.

SQLite drops a table's triggers when a later migration rebuilds the table: such a migration runs
`freeze` again. Deleting is refused by the models only, because emptying a test database deletes too.
"""

from django.db import migrations

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
    if on:
        schema_editor.execute("DROP FUNCTION IF EXISTS quotes_issued_for_good()")


class Migration(migrations.Migration):
    dependencies = [("quotes", "0002_enquiry_booking")]

    operations = [migrations.RunPython(freeze, thaw)]
