"""Figures of the trade stand in the rulebook: what constants with a unit the core rooms still hold is named.

The list holds each with its value, so that none is changed by the way. What is on it is numerical (a step of a search, a
tolerance of arithmetic) or still waits to move to the rulebook; it may only shrink.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

from tests.architecture.core import METRICS, trees

NAMED = tomllib.loads(Path(__file__).with_name("constants.toml").read_text("utf-8"))
"""Constants by the module that holds them."""


def test_every_constant_with_a_unit_is_named():
    measures = METRICS.Measures()
    METRICS._constants(measures, trees())
    found: dict[str, dict[str, float]] = {}
    for place in measures.places["constants with a unit"]:
        where, name, _, value = place.split(" ")
        found.setdefault(where.partition(":")[0], {})[name] = float(value)
    held = {f"{where} {name} = {value:g}" for where, names in found.items() for name, value in names.items()}
    named = {f"{where} {name} = {value:g}" for where, names in NAMED.items() for name, value in names.items()}
    assert not held - named, "a figure of the trade belongs in the rulebook"
    assert not named - held, "this is gone: shorten the list"


def test_constants_are_found():
    assert sum(map(len, NAMED.values())) > 0
