"""The JSON form of a job and of a shop: for ten years, for tests, and for other programs.

`resources/schema/` describes it. A length is the text as it was typed; where that text, read in the unit of the form,
does not give the value it stands for, it is `{"text", "is"}`, `is` being the exact value with its unit, or null. Fields
that say nothing new are left out.
"""

from __future__ import annotations

import json
from typing import Any

from frontwright.core.job import Amount, Heading, Job, Shop, Table, amount
from frontwright.core.job.declared import Declared, declared
from frontwright.core.lengths import Typed, Unit, exact_text, typed
from frontwright.exchange.json_reading import MOST_BYTES, BadJobText, read_form

__all__ = [
    "JOB_FORMAT",
    "MOST_BYTES",
    "SHOP_FORMAT",
    "VERSION",
    "BadJobText",
    "job_from_json",
    "job_to_json",
    "shop_from_json",
    "shop_to_json",
]

JOB_FORMAT = "frontwright-job"
SHOP_FORMAT = "frontwright-shop"
VERSION = 1


def job_to_json(job: Job) -> str:
    """The JSON form of a job, a row a line; its unit is that of the heading."""
    return _form(JOB_FORMAT, job, job.heading.unit)


def shop_to_json(shop: Shop, unit: Unit) -> str:
    """The JSON form of a shop; `unit` is that in which its texts are read where they name none."""
    return _form(SHOP_FORMAT, shop, unit)


def job_from_json(text: str) -> Job:
    """The job that this text is the form of; BadJobText with one sentence on what is wrong, and where."""
    return read_form(text, JOB_FORMAT, VERSION, Job)


def shop_from_json(text: str) -> Shop:
    """The shop that this text is the form of; BadJobText with one sentence on what is wrong, and where."""
    return read_form(text, SHOP_FORMAT, VERSION, Shop)


def _form(form: str, whole: Job | Shop, unit: Unit) -> str:
    head = [f' "format": {_json(form)}', f' "version": {VERSION}', f' "unit": {_json(unit)}']
    tables = [_table(name, getattr(whole, name), unit) for name in whole.kinds()]
    return "{\n" + ",\n".join([*head, *filter(None, tables)]) + "\n}\n"


def _table(name: str, table: Table[Any], unit: Unit) -> str:
    """The lines of a table; nothing for one that stands as in a new job."""
    usual = Table([Heading(unit=unit)]) if name == "headings" else Table[Any]()
    if table == usual:
        return ""
    rows = ",\n".join(f"  {_json(_row(row, unit))}" for row in table.values())
    return f' "{name}": [\n{rows}\n ]' if rows else f' "{name}": []'


def _row(row: object, unit: Unit) -> dict[str, object]:
    cells = {field.name: (field, getattr(row, field.name)) for field in declared(type(row))}
    return {
        name: _value(value, unit)
        for name, (field, value) in cells.items()
        if name == "id" or value != _default(type(row), field, unit)
    }


def _default(kind: type, field: Declared, unit: Unit) -> object:
    """What a field is when it is left out; nothing at all for one that must be there."""
    if kind is Heading and field.name == "unit":
        return unit
    return ... if field.required else field.default


def _value(value: object, unit: Unit) -> object:
    match value:
        case Typed():
            return _typed(value, unit)
        case Amount():
            return _amount(value)
        case _:
            return value


def _typed(value: Typed, unit: Unit) -> object:
    if typed(value.text, unit) == value:
        return value.text
    exact = None if value.value is None else f"{exact_text(value.value, unit)} {unit}"
    return {"text": value.text, "is": exact}


def _amount(value: Amount) -> object:
    if amount(value.text) == value:
        return value.text
    return {"text": value.text, "is": None if value.value is None else str(value.value)}


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False)
