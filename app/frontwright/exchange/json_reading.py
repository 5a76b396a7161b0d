"""From text to a job or a shop; what is wrong is said in one sentence that names the place."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from frontwright.core.job import Heading, Job, Shop, Table
from frontwright.core.job.declared import declared
from frontwright.core.job.references import dangling
from frontwright.core.lengths import UNITS_IN, Unit
from frontwright.exchange.json_values import WrongValueError, value_from

MOST_OPENINGS = 2_000
MOST_BYTES = 20 * 1024 * 1024


class BadJobText(Exception):
    """A text is no job or shop; `str()` is one sentence that names place and field."""


def read_form[W: (Job, Shop)](text: str, form: str, version: int, whole: type[W]) -> W:
    """The job or shop of a form; BadJobText if the text is not one, or not of this `version`."""
    found = _parsed(text)
    unit = _head(found, form, version)
    kinds = whole.kinds()
    unknown = [name for name in found if name not in kinds and name not in ("format", "version", "unit")]
    if unknown:
        raise BadJobText(
            f"There is no table “{unknown[0][:60]}” in a {_noun(form)}; its tables are {', '.join(kinds)}."
        )
    openings = found.get("openings")
    if isinstance(openings, list) and len(openings) > MOST_OPENINGS:
        raise BadJobText(f"openings: {len(openings):,} are too many for one job; {MOST_OPENINGS:,} is the most.")
    tables: dict[str, Any] = {name: _table(name, kinds[name], found[name], unit) for name in kinds if name in found}
    if "headings" in kinds and "headings" not in found:
        tables["headings"] = Table([Heading(unit=unit)])
    made = whole(**tables)
    missing = dangling(made)
    if missing:
        raise BadJobText(missing)
    return made


def _noun(form: str) -> str:
    return form.removeprefix("frontwright-")


def _parsed(text: str) -> dict[str, Any]:
    if len(text) > MOST_BYTES or len(text.encode(errors="replace")) > MOST_BYTES:
        raise BadJobText("The text is larger than 20 MB, which is too much for one job.")
    try:
        found = json.loads(text, object_pairs_hook=_object, parse_constant=_constant)
    except json.JSONDecodeError as error:
        raise BadJobText(f"Line {error.lineno}, column {error.colno} is not JSON: {error.msg}.") from error
    except RecursionError as error:
        raise BadJobText("The text nests its lists or objects too deeply.") from error
    except ValueError as error:  # a whole number of more digits than Python reads
        raise BadJobText("The text holds a number of too many digits.") from error
    if not isinstance(found, dict):
        raise BadJobText("The text is JSON, but not an object with “format”, “version” and “unit”.")
    return found


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        raise BadJobText(f"“{twice[:60]}” stands twice in one object.")
    return found


def _constant(name: str) -> None:
    raise BadJobText(f"{name} is no number that JSON knows.")


def _head(found: Mapping[str, Any], form: str, version: int) -> Unit:
    if found.get("format") != form:
        raise BadJobText(f"format: must be “{form}”, so this is no {_noun(form)} of Frontwright.")
    said = found.get("version")
    if type(said) is not int or said < 1:
        raise BadJobText(f"version: must be a whole number from 1 to {version}.")
    if said > version:
        raise BadJobText(f"version: {said} is newer than this Frontwright, which reads up to {version}.")
    for unit in UNITS_IN:
        if found.get("unit") == unit:
            return unit
    raise BadJobText("unit: must be “in” or “mm”.")


def _table(name: str, kind: type[Any], found: object, unit: Unit) -> Table[Any]:
    if not isinstance(found, list):
        raise BadJobText(f"{name}: must be a list of rows.")
    rows: dict[str, Any] = {}
    for number, cells in enumerate(found, 1):
        row = _row(name, number, kind, cells, unit)
        if row.id in rows:
            raise BadJobText(f"{name}, row {number}: the id “{row.id[:60]}” stands there twice.")
        rows[row.id] = row
    return Table(rows.values())


def _row(name: str, number: int, kind: type[Any], cells: object, unit: Unit) -> Any:
    place = f"{name}, row {number}"
    if not isinstance(cells, dict):
        raise BadJobText(f"{place}: must be an object of fields.")
    if isinstance(cells.get("id"), str):
        place += f" (“{cells['id'][:60]}”)"
    fields = {field.name: field for field in declared(kind)}
    unknown = [key for key in cells if key not in fields]
    if unknown:
        raise BadJobText(f"{place}: there is no field “{unknown[0][:60]}”; the fields are {', '.join(fields)}.")
    values: dict[str, Any] = {"unit": unit} if kind is Heading else {}
    for key, field in fields.items():
        try:
            if key in cells:
                values[key] = value_from(field, cells[key], unit)
            elif field.required:
                raise WrongValueError("must be there")
        except WrongValueError as error:
            raise BadJobText(f"{place}: {key} {error}.") from error
    if values.get("id") == "":
        raise BadJobText(f"{place}: id must not be empty.")
    return kind(**values)
