"""The JSON Schema of the forms of a job and of a shop, made from the classes of what is entered; that of the figures.

`python -m frontwright.exchange.schema FOLDER` writes the files.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from frontwright.core.job import Job, Shop
from frontwright.core.job.declared import MOST_COUNT, Declared, ValueKind, declared
from frontwright.exchange.figures_schema import figures_schema
from frontwright.exchange.json_form import JOB_FORMAT, SHOP_FORMAT, VERSION
from frontwright.exchange.json_reading import MOST_OPENINGS
from frontwright.exchange.json_values import LENGTH, LONGEST_TEXT, NUMBER

type Schema = dict[str, object]

_TEXT: Schema = {"type": "string", "maxLength": LONGEST_TEXT}
_VALUES: dict[ValueKind, Schema] = {
    "text": _TEXT,
    "count": {"type": "integer", "maximum": MOST_COUNT},
    "yes or no": {"type": "boolean"},
    "texts": {"type": "array", "items": _TEXT},
    "length": {"$ref": "#/$defs/length"},
    "amount": {"$ref": "#/$defs/amount"},
}


def schema(form: str, whole: type[Job] | type[Shop]) -> Schema:
    """The schema of one form, as JSON Schema of the draft of 2020-12."""
    kinds = whole.kinds()
    tables = {name: _table(name) for name in kinds}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": form,
        "description": (whole.__doc__ or "").strip(),
        "type": "object",
        "required": ["format", "version", "unit"],
        "additionalProperties": False,
        "properties": {
            "format": {"const": form},
            "version": {"const": VERSION},
            "unit": {"enum": ["in", "mm"], "description": "Of every length that names none."},
            **tables,
        },
        "$defs": {
            "length": _pair("A length as typed; with “is” where the text, read in the unit, gives another.", LENGTH),
            "amount": _pair("A number as typed; with “is” where the text gives another.", NUMBER),
            **{name: _row(kind) for name, kind in kinds.items()},
        },
    }


def schemas() -> dict[str, str]:
    """File name -> text of each schema."""
    wholes: tuple[tuple[str, type[Job] | type[Shop]], ...] = ((JOB_FORMAT, Job), (SHOP_FORMAT, Shop))
    found = {form: schema(form, whole) for form, whole in wholes} | {"frontwright-figures": figures_schema()}
    return {f"{form}.schema.json": json.dumps(one, indent=1, ensure_ascii=False) + "\n" for form, one in found.items()}


def _pair(description: str, pattern: str) -> Schema:
    exact: Schema = {"type": ["string", "null"], "pattern": pattern}
    both: Schema = {
        "type": "object",
        "required": ["text", "is"],
        "additionalProperties": False,
        "properties": {"text": _TEXT, "is": exact},
    }
    return {"description": description, "anyOf": [_TEXT, both]}


def _table(name: str) -> Schema:
    most = {"maxItems": MOST_OPENINGS} if name == "openings" else {}
    return {"type": "array", "items": {"$ref": f"#/$defs/{name}"}, **most}


def _row(kind: type[Any]) -> Schema:
    fields = declared(kind)
    return {
        "title": kind.__name__,
        "description": " ".join((kind.__doc__ or "").split()),
        "type": "object",
        "required": [field.name for field in fields if field.required],
        "additionalProperties": False,
        "properties": {field.name: _field(field) for field in fields},
    }


def _field(field: Declared) -> Schema:
    value: Schema = {"enum": list(field.choices)} if field.choices else _VALUES[field.kind]
    if field.name == "id":
        value = value | {"minLength": 1}
    if field.kind == "count":
        value = value | {"minimum": field.least}
    if field.optional:
        value = {"anyOf": [value, {"type": "null"}]}
    if field.required or field.default is None or field.name == "unit":
        return value
    return value | {"default": list(field.default) if isinstance(field.default, tuple) else field.default}


if __name__ == "__main__":
    for name, text in schemas().items():
        Path(sys.argv[1], name).write_text(text, encoding="utf-8")
