"""The register of sums as a page of quick sums wants it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.catalogue import SUMS
from pavewright.desk._verbs import source_words

if TYPE_CHECKING:
    from pavewright.sums import Quantity


_SUBJECTS = {
    "survey": "Measuring",
    "levels": "Levels and falls",
    "laying": "Slabs and joints",
    "buildup": "Build-up",
    "earthworks": "Dig and loads",
    "flow": "Water on paving",
    "water": "Rain and drains",
    "quantities": "Quantities and mixes",
    "cost": "Price",
    "programme": "Time",
    "setting_out": "Setting out",
    "as_laid": "Checking",
}
"""What a sum is about, by the room that knows it."""


def sums_told() -> list[dict[str, Any]]:
    """Return every registered sum: name, title, subject, formula, source, inputs and answers."""
    return [
        {
            "name": entry.name,
            "title": entry.title,
            "subject": _SUBJECTS[entry.compute.__module__.split(".")[1]],
            "formula": entry.formula,
            "source": source_words(entry),
            "inputs": [_told(quantity) for quantity in entry.inputs],
            "outputs": [_told(quantity) for quantity in entry.outputs],
        }
        for entry in SUMS
    ]


def _told(quantity: Quantity) -> dict[str, Any]:
    default = quantity.default
    return {
        "name": quantity.name,
        "unit": quantity.unit,
        "meaning": quantity.meaning,
        "kind": quantity.kind,
        "default": list(default) if isinstance(default, tuple) else default,
        "choices": list(quantity.choices),
    }
