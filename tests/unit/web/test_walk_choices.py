"""What the walk offers by touch is what the job document takes."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from pavewright.job import Bedding, Folding, MaterialKind, OutfallKind, PackUnit, Pattern, ServiceKind, Soil, UnitKind

STEPS = Path(__file__).parents[3] / "src" / "pavewright" / "web" / "static" / "walk" / "steps"
PAIR = re.compile(r'\["([a-z_0-9]+)", "[^"]+"')


def offered(script, name):
    """Return the values of a list of choices in a script."""
    text = (STEPS / script).read_text("utf-8")
    begin = text.index(f"{name} =")
    found = PAIR.findall(text[begin : text.index("];", begin) if "];" in text[begin:] else None].split(");")[0])
    assert found, name
    return set(found)


@pytest.mark.parametrize(
    ("script", "name", "kinds"),
    [
        ("paving.js", "PATTERNS", Pattern),
        ("paving.js", "BEDDINGS", Bedding),
        ("paving-unit.js", "KINDS", UnitKind),
        ("services.js", "KINDS", ServiceKind),
        ("outfalls.js", "LEADS", OutfallKind),
        ("ground.js", "SOILS", Soil),
    ],
)
def test_choices_are_values_of_the_document(script, name, kinds):
    assert offered(script, name) <= {each.value for each in kinds}


def test_common_ways_of_laying_are_values_of_the_document():
    text = (STEPS / "paving.js").read_text("utf-8")
    assert set(re.findall(r'pattern: "(\w+)"', text)) <= {each.value for each in Pattern}
    assert set(re.findall(r'bedding: "(\w+)"', text)) <= {each.value for each in Bedding}


def test_materials_and_packs_that_are_asked_for_are_known():
    text = (STEPS / "price.js").read_text("utf-8")
    sold = re.findall(r'^  (\w+): \["[^"]+", \d+, "(\w+)"\]', text, re.MULTILINE)
    assert len(sold) > 10
    assert {material for material, _ in sold} <= {each.value for each in MaterialKind}
    assert {unit for _, unit in sold} <= {each.value for each in PackUnit}


def test_folds_that_are_taken_without_signal_are_known():
    text = (STEPS.parent / "takes.js").read_text("utf-8")
    folds = re.search(r'fall.folding = [^"]+"gullies" \? "(\w+)" : "(\w+)"', text)
    assert folds is not None
    assert set(folds.groups()) <= {each.value for each in Folding}
