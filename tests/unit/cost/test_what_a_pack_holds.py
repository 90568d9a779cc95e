"""A price of a pack prices nothing where nobody knows how much of what is needed the pack holds."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from pavewright.desk import make_plan
from pavewright.job import MaterialKind
from pavewright.quantities import GapReason, of_material

_DRIVE = Path(__file__).parents[3] / "examples" / "front_drive.json"


@pytest.fixture(scope="module")
def drive() -> dict[str, Any]:
    return json.loads(_DRIVE.read_text("utf-8"))


def without(document: dict[str, Any], kind: str) -> dict[str, Any]:
    found = copy.deepcopy(document)
    found["rates"]["materials"] = [each for each in found["rates"]["materials"] if each["key"] != kind]
    return found


def planned(document: dict[str, Any], *materials: dict[str, Any]):
    book = {"format": "pavewright.firm", "version": 1, "currency": "GBP", "rates": {"materials": materials}}
    return make_plan(json.dumps(document), None, json.dumps(book))


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("kerb", "sold by the piece, and the length of one piece is not said"),
        ("cement", "sold by the piece, and how many kg one holds is not said"),
    ],
)
def test_a_piece_of_unknown_size_is_a_gap_and_has_no_amount(drive, kind, words):
    sold = {"key": kind, "name": "As listed", "pack_amount": 1, "pack_unit": "each", "pack_price_minor": 925}
    made = planned(without(drive, kind), sold)
    key = of_material(MaterialKind(kind))
    gap = next(each for each in made.cost.gaps if each.item == key)
    assert (gap.reason, gap.words.split("; ")[1]) == (GapReason.NOT_KNOWN, words)
    assert not [each for each in made.cost.lines if each.key == key]
    item = next(each for each in made.quantities.items if each.key == key)
    assert (item.ordered, item.order_unit) == (item.gross, item.unit)


def test_the_length_of_a_piece_makes_it_an_order(drive):
    sold = {"key": "kerb", "pack_amount": 1, "pack_unit": "each", "pack_price_minor": 410, "length_mm": 915.0}
    made = planned(without(drive, "kerb"), sold)
    item = next(each for each in made.quantities.items if each.key == of_material(MaterialKind.KERB))
    assert item.ordered_amount == pytest.approx(0.915 * item.ordered)
    assert item.gross <= item.ordered_amount < item.gross + 0.915


def test_an_order_whose_lines_do_not_all_say_their_lead_time_says_so(drive):
    terms = {"supplier": "Invented Merchants", "pack_unit": "kg", "pack_price_minor": 900}
    cement = terms | {"key": "cement", "pack_amount": 25, "lead_days": 2}
    sand = terms | {"key": "sharp_sand", "pack_amount": 850}
    made = planned(without(without(drive, "cement"), "sharp_sand"), cement, sand)
    order = next(each for each in made.cost.orders if each.supplier == "Invented Merchants")
    assert (order.lead_days, order.lead_known) == (2, False)


def test_units_without_a_price_are_whole_ones(drive):
    bare = copy.deepcopy(drive)
    for unit in bare["units"]:
        unit.pop("pack_price_minor")
    gap = next(each for each in planned(bare).cost.gaps if each.words.startswith("Block 80"))
    assert gap.words.split(": ")[1].removesuffix(" units").isdecimal()
