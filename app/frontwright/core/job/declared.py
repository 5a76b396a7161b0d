"""What the classes of a job declare, read once for all that is generic over them: file, JSON form, schema."""

from __future__ import annotations

from dataclasses import MISSING, dataclass, fields
from types import NoneType, UnionType
from typing import Any, Literal, TypeAliasType, Union, get_args, get_origin, get_type_hints

from frontwright.core.job.amount import Amount
from frontwright.core.lengths import Typed

ValueKind = Literal["text", "count", "yes or no", "length", "amount", "texts"]
MOST_COUNT = 1_000_000  # no count or place of a job comes near it

_COUNTED_FROM_ONE = ("number",)  # leaves of a billet, passes of a panel

_KINDS: dict[type, ValueKind] = {
    str: "text",
    int: "count",
    bool: "yes or no",
    Typed: "length",
    Amount: "amount",
    tuple: "texts",
}
_CLASSES: dict[ValueKind, type] = {kind: cls for cls, kind in _KINDS.items()}


@dataclass(frozen=True, slots=True)
class Declared:
    """One field of a row: what kind of value it takes, `choices` if only these, and what it is when nothing is said."""

    name: str
    kind: ValueKind
    choices: tuple[str, ...]
    optional: bool
    required: bool
    default: object

    @property
    def least(self) -> int:
        """The least that a count may be: a place may lie before the first, a number begins at 1."""
        return 1 if self.name in _COUNTED_FROM_ONE else -MOST_COUNT

    def takes(self, value: object) -> bool:
        """Whether this field may hold `value`."""
        if value is None:
            return self.optional
        if type(value) is not _CLASSES[self.kind]:
            return False
        if isinstance(value, tuple):
            return all(type(one) is str for one in value)
        if type(value) is int:
            return self.least <= value <= MOST_COUNT
        return not self.choices or value in self.choices


_declared_by: dict[type, tuple[Declared, ...]] = {}  # worked out once a class


def declared(kind: type[Any]) -> tuple[Declared, ...]:
    """The fields of a row class in their order; TypeError if one is of a type that no file knows."""
    if kind not in _declared_by:
        hints = get_type_hints(kind)
        _declared_by[kind] = tuple(_declared(field.name, hints[field.name], field.default) for field in fields(kind))
    return _declared_by[kind]


def _declared(name: str, hint: object, default: object) -> Declared:
    optional = get_origin(hint) in (UnionType, Union) and NoneType in get_args(hint)
    core = next(one for one in get_args(hint) if one is not NoneType) if optional else hint
    if isinstance(core, TypeAliasType):
        core = core.__value__
    choices = get_args(core) if get_origin(core) is Literal else ()
    cls = str if choices else (get_origin(core) or core)
    if not isinstance(cls, type) or cls not in _KINDS:
        raise TypeError(f"{name}: a row of a job cannot hold {hint}")
    required = default is MISSING
    return Declared(name, _KINDS[cls], choices, optional, required, None if required else default)
