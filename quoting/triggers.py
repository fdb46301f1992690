"""Database triggers that keep what is out as it is, whatever code runs above them.

Django rebuilds a table on SQLite when a later migration alters it, and the triggers on it go:
such a migration runs ``create`` again. A test finds out when one forgot.
"""

from typing import Any

# On SQLite a test's flush is a DELETE, so deletion is guarded by the database on PostgreSQL only;
# verify_quotes finds a missing seal on either.
_FROZEN = (
    "site_id", "plan_id", "number_year", "number", "revision", "issued_at", "valid_until",
    "net", "tax", "total",
)  # fmt: skip
_DRAFT_OF = "(SELECT status FROM quoting_quote WHERE id = {row}.quote_id)"
_SENTENCE = "a quote that is out never changes"


def _rules(differs: str) -> list[tuple[str, str, str, str]]:
    """Name, table, event, condition. ``differs`` is the dialect's null-safe inequality."""
    changed = " OR ".join(f"OLD.{c} {differs} NEW.{c}" for c in _FROZEN)
    return [
        ("quoting_seal_update", "quoting_sealedproposal", "UPDATE", "1 = 1"),
        ("quoting_acceptance_update", "quoting_acceptance", "UPDATE", "1 = 1"),
        ("quoting_event_update", "quoting_quoteevent", "UPDATE", "1 = 1"),
        ("quoting_quote_update", "quoting_quote", "UPDATE", f"OLD.status <> 'draft' AND ({changed})"),
        ("quoting_quote_back", "quoting_quote", "UPDATE", "OLD.status <> 'draft' AND NEW.status = 'draft'"),
        ("quoting_line_update", "quoting_quoteline", "UPDATE", f"{_DRAFT_OF.format(row='OLD')} <> 'draft'"),
        ("quoting_line_insert", "quoting_quoteline", "INSERT", f"{_DRAFT_OF.format(row='NEW')} <> 'draft'"),
    ]


_DELETE_RULES = [
    ("quoting_seal_delete", "quoting_sealedproposal", "DELETE", "1 = 1"),
    ("quoting_acceptance_delete", "quoting_acceptance", "DELETE", "1 = 1"),
    ("quoting_line_delete", "quoting_quoteline", "DELETE", f"{_DRAFT_OF.format(row='OLD')} <> 'draft'"),
]


def create(apps: Any, schema_editor: Any) -> None:
    """Make the triggers anew, in the dialect of the database at hand."""
    write = {"sqlite": _create_sqlite, "postgresql": _create_postgresql}
    write[schema_editor.connection.vendor](schema_editor)


def drop(apps: Any, schema_editor: Any) -> None:
    postgres = schema_editor.connection.vendor == "postgresql"
    rules = _rules("IS NOT") + (_DELETE_RULES if postgres else [])
    for name, table, _event, _condition in rules:
        on = f" ON {table}" if postgres else ""
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {name}{on}")
        if postgres:
            schema_editor.execute(f"DROP FUNCTION IF EXISTS {name}()")


def _create_sqlite(schema_editor: Any) -> None:
    for name, table, event, condition in _rules("IS NOT"):
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {name}")
        schema_editor.execute(
            f"CREATE TRIGGER {name} BEFORE {event} ON {table} WHEN {condition} "
            f"BEGIN SELECT RAISE(ABORT, '{_SENTENCE}'); END"
        )


def _create_postgresql(schema_editor: Any) -> None:
    # A trigger's WHEN may hold no subquery, so the condition sits in each function.
    for name, table, event, condition in _rules("IS DISTINCT FROM") + _DELETE_RULES:
        row = "OLD" if event == "DELETE" else "NEW"
        schema_editor.execute(
            f"CREATE OR REPLACE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql AS $$ "
            f"BEGIN IF {condition} THEN RAISE EXCEPTION '{_SENTENCE}' USING ERRCODE = '23514'; END IF; "
            f"RETURN {row}; END $$"
        )
        schema_editor.execute(f"DROP TRIGGER IF EXISTS {name} ON {table}")
        schema_editor.execute(
            f"CREATE TRIGGER {name} BEFORE {event} ON {table} FOR EACH ROW EXECUTE FUNCTION {name}()"
        )
