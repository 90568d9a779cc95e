"""The register of sums as the page of quick sums needs it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.catalogue import ROOMS, fall_unit, length_kind
from pavewright.desk._source_words import source_words

if TYPE_CHECKING:
    from pavewright.sums import Quantity

_SUBJECTS = {
    "survey": "Tapes and staff",
    "photo_survey": "Photos, and a level turned round",
    "setting_out": "Setting out",
    "levels": "Falls and levels",
    "laying": "Slabs, joints and cuts",
    "buildup": "Layers and digging depth",
    "earthworks": "Dig and spoil",
    "water": "Rain, soakaways and channels",
    "flow": "Water in channels and pipes",
    "quantities": "What to order",
    "cost": "Rates and price",
    "firm": "Overhead, mark-up and margin",
    "chance": "Chance and risk",
    "programme": "Time",
    "method": "Lifting, dust, vibration and noise",
    "cash": "Payments and cash",
    "bedding": "Laying slab by slab",
    "hold_points": "Hold points",
    "as_laid": "Checking what is laid",
    "site_log": "Days on site",
    "record": "Records that can be proved",
}
"""Rooms in the order in which a page shows their sums, with a title that says what they are about."""


def sums_told() -> list[dict[str, Any]]:
    """Return every registered sum: name, subject, title, formula, source, inputs and answers."""
    return [
        {
            "name": entry.name,
            "group": subject,
            "title": entry.title,
            "formula": entry.formula,
            "source": source_words(entry),
            "inputs": [_told(quantity) for quantity in (*entry.inputs, *entry.table_inputs)],
            "outputs": [_told(quantity) for quantity in entry.outputs],
        }
        for room, subject in _SUBJECTS.items()
        for entry in sorted(ROOMS[room], key=lambda entry: entry.title)
    ]


def _told(quantity: Quantity) -> dict[str, Any]:
    default = quantity.default
    meaning = quantity.meaning
    if quantity.figure:
        figure = rulebook.load(rulebook.NEUTRAL).figure(quantity.figure)
        default, meaning = figure.value, f"{meaning}; the rulebook's is {figure.value:g}, from {figure.citation}"
    if quantity.table:
        meaning = f"{meaning}; left empty, the rulebook's table is taken"
    return {
        "may_be_left": bool(quantity.table),
        "name": quantity.name,
        "unit": quantity.unit,
        "meaning": meaning,
        "kind": quantity.kind,
        "default": list(default) if isinstance(default, tuple) else default,
        "choices": list(quantity.choices),
        "length": length_kind(quantity),
        "fall": fall_unit(quantity),
    }
