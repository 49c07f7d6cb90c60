"""Turns what the files hold, written for reading, into the shape of the rows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalogue.calc.fault import Fault
from catalogue.imports.shape_parts import part_rows, vendors

Files = Mapping[str, Mapping[str, Any]]
PLAIN = ("sources", "engine_types", "operations", "tiers", "duties", "limits", "facts")


def shaped(files: Files) -> tuple[dict[str, Any], tuple[Fault, ...]]:
    """Raw rows of every kind, and what kept some from being shaped."""
    faults: list[Fault] = []
    raw: dict[str, Any] = {kind: entries(files, kind, faults) for kind in PLAIN}
    raw["components"] = _components(files, faults)
    raw["load_laws"] = entries(files, "tiers", faults, heading="load_laws")
    raw["findings"] = entries(files, "findings", faults)
    raw["events"] = entries(files, "findings", faults, heading="events")
    raw["basis"] = _basis(files, faults)
    raw["policies"] = _policies(files)
    raw["suppliers"] = [_supplier(row) for row in entries(files, "suppliers", faults)]
    done_by = vendors(entries(files, "suppliers", []), faults)
    raw["machine_work"] = [_machine_work(row, done_by) for row in entries(files, "machine_work", faults)]
    raw["parts"] = part_rows(
        entries(files, "parts", faults), raw["components"], entries(files, "suppliers", []), faults
    )
    return raw, tuple(faults)


def entries(files: Files, kind: str, faults: list[Fault], heading: str = "") -> list[dict[str, Any]]:
    """The list under the file's heading; what is no entry becomes a fault."""
    rows = files[kind].get(heading or kind)
    if not isinstance(rows, list):
        faults.append(Fault(kind, "", heading or kind, "there is no list under this heading"))
        return []
    good = [row for row in rows if isinstance(row, dict)]
    if len(good) < len(rows):
        faults.append(Fault(kind, "", heading or kind, "an entry is not a list of fields"))
    return good


def _components(files: Files, faults: list[Fault]) -> list[dict[str, Any]]:
    """Components with the sources that hold for all, and the strength of their performance grade."""
    defaults = files["components"].get("default_sources") or {}
    strengths = dict(files["tiers"].get("grade_strength") or {})
    from_where = {"grade_strength": files["tiers"].get("grade_strength_source", "")}
    rows = []
    for row in entries(files, "components", faults):
        strength = strengths.pop(row.get("code"), None)
        sources = {**defaults, **(from_where if strength else {}), **row.get("sources", {})}
        rows.append({**row, "grade_strength": strength, "sources": sources})
    faults += [Fault("tiers", code, "grade_strength", f"no component {code!r}") for code in strengths]
    return rows


def _basis(files: Files, faults: list[Fault]) -> dict[str, Any]:
    wear = files["components"]
    quantile = dict(wear.get("life_quantile") or {})
    by_class = dict(wear.get("stopping_share_by_class") or {})
    evidence = dict(wear.get("evidence_r0") or {})
    sources = {
        "life_quantile": quantile.pop("source", ""),
        "stopping_share_by_class": by_class.pop("source", ""),
        "evidence_r0": evidence.get("source", ""),
    }
    return {
        "currency": _currency(files, faults),
        "life_quantile": quantile,
        "evidence_r0": evidence.get("value"),
        "stopping_share_by_class": by_class,
        "sources": sources,
    }


def _policies(files: Files) -> list[dict[str, Any]]:
    currency = files["policies"].get("currency")
    habits = files["policies"].get("policies") or {}
    return [{"code": code, "value": value, "currency": currency} for code, value in habits.items()]


def _supplier(row: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in row.items() if key not in ("delivers", "machine_work")}


def _machine_work(row: dict[str, Any], done_by: Mapping[str, str]) -> dict[str, Any]:
    shape = {key: value for key, value in row.items() if key != "lead_days"}
    lead = row.get("lead_days") or {}
    return {
        **shape,
        "vendor": done_by.get(str(row.get("code")), ""),
        "lead_typical_days": lead.get("typical"),
        "lead_slow_days": lead.get("slow"),
    }


def _currency(files: Files, faults: list[Fault]) -> str:
    """The one currency that all files with money in them are written in."""
    named = {kind: str(files[kind].get("currency", "")) for kind in ("parts", "machine_work", "policies")}
    currency = named["parts"]
    for kind, name in named.items():
        if name != currency:
            faults.append(Fault(kind, "", "currency", f"{name!r} here but {currency!r} in parts.yaml"))
    return currency
