"""The figures of a room, read once into a record of its own."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

    from pavewright.rules._rulebook import Rulebook

Record = TypeVar("Record", bound="DataclassInstance")


def read_figures(record: type[Record], rules: Rulebook, room: str, **more: Any) -> Record:  # noqa: ANN401 - other fields
    """Return a frozen record whose fields are named as the figures of a room.

    A field with None as its default is a figure that an edition may lack: a rule of one place may not exist in another.

    Args:
        record: The class of the record, a dataclass.
        rules: The rulebook.
        room: Room of the figures.
        more: Fields that are no figure of that room.

    Raises:
        UnknownFigureError: the rulebook lacks a figure that every edition has.
    """
    found: dict[str, Any] = {}
    for field in dataclasses.fields(record):
        if field.name in more:
            continue
        key = f"{room}.{field.name}"
        found[field.name] = rules.figures.get(key) if field.default is None else rules.figure(key)
    return record(**found, **more)
