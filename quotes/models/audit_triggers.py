"""The SQL by which the database itself keeps the record of changes: in a chain, whole, and its head in step.

An entry is taken only where it follows the last; the head moves with it and only forward. Words may lose
what was erased, and nothing else may happen to them.
"""

from __future__ import annotations

ENTRY, WORDS, HEAD = "quotes_auditentry", "quotes_auditwords", "quotes_audithead"
TABLES = (ENTRY, WORDS, HEAD)
FOLLOWS = f"{ENTRY}_follows"
FORWARD = f"{HEAD}_forward"
SHORTER = f"{WORDS}_shorter"

_ON_SQLITE = (
    f"CREATE TRIGGER {FOLLOWS} BEFORE INSERT ON {ENTRY} FOR EACH ROW BEGIN"  # Names of our own. # noqa: S608
    f" SELECT RAISE(ABORT, 'the entry does not follow the last one') WHERE NOT EXISTS ("
    f"SELECT 1 FROM {HEAD} WHERE count = NEW.number - 1 AND hash = NEW.previous);"
    f" UPDATE {HEAD} SET count = NEW.number, hash = NEW.hash; END",
    f"CREATE TRIGGER {FORWARD} BEFORE UPDATE ON {HEAD} FOR EACH ROW"
    " WHEN NEW.id <> OLD.id OR NEW.count <> OLD.count + 1"
    " BEGIN SELECT RAISE(ABORT, 'the record of changes only grows'); END",
    f"CREATE TRIGGER {SHORTER} BEFORE UPDATE ON {WORDS} FOR EACH ROW"
    " WHEN NEW.entry_id <> OLD.entry_id OR NEW.erased_at IS NULL"
    " BEGIN SELECT RAISE(ABORT, 'words of the record of changes can only be erased'); END",
)
_ON_POSTGRESQL = (
    # All entries of one statement at once: updated for each, the head would leave as many dead rows.
    f"""CREATE OR REPLACE FUNCTION {FOLLOWS}() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE first record; last record; held bigint;
BEGIN
    SELECT count(*) INTO held FROM fresh;
    IF held = 0 THEN RETURN NULL; END IF;
    SELECT * INTO first FROM fresh ORDER BY number LIMIT 1;
    SELECT * INTO last FROM fresh ORDER BY number DESC LIMIT 1;
    UPDATE {HEAD} SET count = last.number, hash = last.hash
        WHERE count = first.number - 1 AND hash = first.previous AND last.number - first.number + 1 = held;
    IF NOT FOUND THEN RAISE EXCEPTION 'the entry does not follow the last one'
        USING ERRCODE = 'integrity_constraint_violation'; END IF;
    RETURN NULL;
END $$""",  # Names of our own. # noqa: S608
    f"CREATE TRIGGER {FOLLOWS} AFTER INSERT ON {ENTRY} REFERENCING NEW TABLE AS fresh"
    f" FOR EACH STATEMENT EXECUTE FUNCTION {FOLLOWS}()",
    f"CREATE TRIGGER {FORWARD} BEFORE UPDATE ON {HEAD} FOR EACH ROW"
    " WHEN (NEW.id <> OLD.id OR NEW.count <= OLD.count) EXECUTE FUNCTION quotes_issued_for_good()",
    f"CREATE TRIGGER {SHORTER} BEFORE UPDATE ON {WORDS} FOR EACH ROW"
    " WHEN (NEW.entry_id <> OLD.entry_id OR NEW.erased_at IS NULL)"
    " EXECUTE FUNCTION quotes_issued_for_good()",
)


def chain(vendor: str) -> list[str]:
    """Statements that set the triggers of the chain; `quotes_issued_for_good()` stands since 0002."""
    return list(_ON_POSTGRESQL if vendor == "postgresql" else _ON_SQLITE)


def unchain(vendor: str) -> list[str]:
    """Statements that take them off."""
    pairs = ((FOLLOWS, ENTRY), (FORWARD, HEAD), (SHORTER, WORDS))
    return [
        f"DROP TRIGGER IF EXISTS {name}" + (f" ON {table}" if vendor == "postgresql" else "")
        for name, table in pairs
    ]
