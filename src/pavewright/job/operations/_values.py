"""JSON values: whether two are the same, whatever the order of their fields, and copies."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Any, Final, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Hashable

Operation: TypeAlias = dict[str, Any]
"""One operation, as it is sent."""
Step: TypeAlias = str | dict[str, Any]
"""A step on the way to a place: the name of a field, or what makes one item of a list known."""


class Missing(Enum):
    """A field that is not there, which is not the same as one that holds null."""

    MISSING = "missing"


MISSING: Final = Missing.MISSING


def known(value: Any) -> Hashable:  # noqa: ANN401 - any JSON value
    """Return what stands for a value in a look-up: equal values have equal ones, and true is not one."""
    if isinstance(value, dict):
        return ("{", frozenset((name, known(each)) for name, each in value.items()))
    if isinstance(value, list):
        return ("[", tuple(known(each) for each in value))
    if isinstance(value, bool):
        return ("?", value)
    found: Hashable = value
    return found


def same(one: Any, other: Any) -> bool:  # noqa: ANN401 - any JSON values
    """Return whether two values are the same; 6 and 6.0 are, 1 and true are not."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(value, other[name]) for name, value in one.items())
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(same, one, other))
    if isinstance(one, bool) or isinstance(other, bool):
        return one is other
    return bool(one == other)


def alike(one: Any, other: Any) -> bool:  # noqa: ANN401 - any JSON values
    """Return whether two values mean the same in a job document, where null is as good as a field that is left out."""
    nothing = (None, MISSING)
    if one in nothing or other in nothing:
        return one in nothing and other in nothing
    return same(one, other)


def copied(value: Any) -> Any:  # noqa: ANN401 - any JSON value
    """Return a value whose parts can be changed without changing those of the first one."""
    if isinstance(value, dict):
        return {name: copied(each) for name, each in value.items()}
    if isinstance(value, list):
        return [copied(each) for each in value]
    return value
