"""Names under which things landed in the document where the sender knows them by others."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

from pavewright.job.operations._items import KINDS, REFERENCES, UNNAMED
from pavewright.job.operations._values import known

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Mapping, Sequence

    from pavewright.job.operations._values import Operation, Step

    Names: TypeAlias = Mapping[tuple[Hashable, str], str]

_LONGEST = 60
"""Letters of a name."""
_VALUES = ("was", "to")
_SELECTORS = ("after", "was_after")


def kind_of(at: Sequence[Step]) -> Hashable:
    """Return what the items of the list at a place are: a kind that others name, or the list itself."""
    return KINDS.get(str(at[-1])) or known(list(at))


def renamed(operation: Operation, names: Names) -> Operation:
    """Return an operation of a sender with the names of the document."""
    at: list[Step] = operation["at"]
    if not names or at[0] in UNNAMED:
        return operation
    made = {**operation, "at": _renamed_at(at, names)}
    last = at[-1]
    for part in _VALUES:
        if part in made:
            made[part] = _value_at(made["at"], made[part], names)
    if "item" in made and isinstance(last, str):
        made["item"] = renamed_item(made["at"], made["item"], names)
    for part in _SELECTORS:
        if isinstance(made.get(part), dict):
            made[part] = renamed_item(made["at"], made[part], names)
    return made


def _renamed_at(at: Sequence[Step], names: Names) -> list[Step]:
    made: list[Step] = []
    for step in at:
        made.append(step if isinstance(step, str) else renamed_item(made, step, names))
    return made


def _value_at(at: Sequence[Step], value: Any, names: Names) -> Any:  # noqa: ANN401 - any JSON value
    """Return the value of a field; the name of a thing is one of its fields."""
    last = at[-1]
    if not isinstance(last, str):
        return renamed_item(at[:-1], value, names)
    if last == "name" and len(at) > 1 and isinstance(at[-2], dict) and isinstance(value, str):
        return names.get((kind_of(at[:-2]), value), value)
    return _value(at, value, names)


def _value(at: Sequence[Step], value: Any, names: Names) -> Any:  # noqa: ANN401 - any JSON value
    field = str(at[-1])
    if isinstance(value, str):
        return names.get((REFERENCES[field], value), value) if field in REFERENCES else value
    if isinstance(value, dict):
        return {name: _value([*at, name], each, names) for name, each in value.items()}
    if isinstance(value, list):
        return [renamed_item(at, each, names) for each in value]
    return value


def renamed_item(at: Sequence[Step], item: Any, names: Names) -> Any:  # noqa: ANN401 - any JSON value
    """Return an item of the list at a place, or what makes one known."""
    if isinstance(item, dict):
        if "is" in item:
            return {**item, "is": renamed_item(at, item["is"], names)}
        made: dict[str, Any] = {name: _value([*at, name], each, names) for name, each in item.items()}
        if isinstance(item.get("name"), str):
            made["name"] = names.get((kind_of(at), item["name"]), item["name"])
        return made
    return [renamed_item(at, each, names) for each in item] if isinstance(item, list) else _value(at, item, names)


def taken_names(document: dict[str, Any], at: Sequence[Step], beside: list[Any]) -> set[str]:
    """Return the names that a new thing may not have: those of its kind, and all that the document calls so."""
    kind = KINDS.get(str(at[-1]))
    found = {item["name"] for item in beside if isinstance(item, dict) and isinstance(item.get("name"), str)}
    return found if kind is None else found | set(_named(document, kind, ""))


def _named(value: Any, kind: str, field: str) -> Iterator[str]:  # noqa: ANN401 - any JSON value
    if isinstance(value, str) and REFERENCES.get(field) == kind:
        yield value
    elif isinstance(value, dict):
        for name, each in value.items():
            if name not in UNNAMED:
                yield from _named(each, kind, name)
    elif isinstance(value, list):
        for each in value:
            if KINDS.get(field) == kind and isinstance(each, dict) and isinstance(each.get("name"), str):
                yield each["name"]
            yield from _named(each, kind, field)


def fresh_name(name: str, taken: set[str]) -> str:
    """Return a name like another one that nothing has."""
    number = 2
    while f"{name[: _LONGEST - 5]} {number}" in taken:
        number += 1
    return f"{name[: _LONGEST - 5]} {number}"
