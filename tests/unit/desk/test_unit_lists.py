"""A paving unit comes from a price list: what its line says is taken, only the rest is asked."""

from __future__ import annotations

from typing import Any

import pytest

from pavewright import firm
from pavewright.desk import EMPTY_BOOK, prices_shown, prices_taken
from pavewright.files import FileRefusedError

LIST = b"""Code,Description,Unit,Pack,Price
F1,Flag smooth 600x600x38 mm,each,20,238.00
B1,Block grey 200 x 100 x 60,per 1000,,450.00
S1,Granite setts 10x10 cm,m2,,62.00
C1,Cement 25 kg,25 kg bag,,7.20
"""


def asked(**more: Any) -> dict[str, Any]:
    return {"supplier": "Wold", "on": "2027-03-01", **more}


def taken(units: dict[str, Any], book: str = EMPTY_BOOK, content: bytes = LIST) -> firm.FirmBook:
    return firm.read(prices_taken(book, content, asked(units=units))[0])


def test_lines_that_name_a_unit_with_its_size_are_suggested():
    found = prices_shown(EMPTY_BOOK, LIST, asked())["units"]
    assert found == {
        "2": {"kind": "flag", "length_mm": 600.0, "width_mm": 600.0, "thickness_mm": 38.0, "per_pack": 20},
        "3": {"kind": "block", "length_mm": 200.0, "width_mm": 100.0, "thickness_mm": 60.0},
        "4": {"kind": "sett", "length_mm": 100.0, "width_mm": 100.0},
    }


def test_only_what_is_missing_is_asked_and_nothing_is_taken_before():
    shown = prices_shown(EMPTY_BOOK, LIST, asked(units={"2": {}, "4": {}}))
    assert shown["missing"] == {"2": ["kg_each"], "4": ["thickness_mm", "kg_each", "per_pack", "pack_m2"]}
    assert len(shown["asked"]) == 2
    assert shown["likely_kg"] == {"2": 31.5}
    with pytest.raises(FileRefusedError, match="what one weighs"):
        taken({"2": {}})


def test_the_price_is_that_of_the_pack_however_the_list_gives_it():
    book = taken(
        {
            "2": {"kg_each": 31.5},
            "3": {"kg_each": 2.7, "per_pack": 488},
            "4": {"kg_each": 1.3, "thickness_mm": 50, "per_pack": 900, "pack_m2": 10.2},
        }
    )
    assert [(each.name, each.per_pack, each.pack_price_minor) for each in book.units] == [
        ("Flag smooth 600x600x38 mm", 20, 23800),
        ("Block grey 200 x 100 x 60", 488, 21960),
        ("Granite setts 10x10 cm", 900, 63240),
    ]
    assert [each.name for each in book.rates.catalogue] == ["Cement 25 kg"]
    assert book.units[0].supplier_code == "F1"


def test_a_later_list_finds_the_unit_again_also_where_it_is_priced_by_the_thousand():
    book = taken({"2": {"kg_each": 31.5}, "3": {"kg_each": 2.7, "per_pack": 488}})
    dearer = LIST.replace(b"450.00", b"500.00").replace(b"238.00", b"240.00")
    text, shown = prices_taken(firm.to_text(book), dearer, asked())
    assert [each.pack_price_minor for each in firm.read(text).units] == [24000, 24400]
    assert {each["name"]: each["kind"] for each in shown["changes"] if each["place"] == "units"} == {
        "Flag smooth 600x600x38 mm": "price",
        "Block grey 200 x 100 x 60": "price",
    }
    assert shown["units"].keys() == {"4"}


def test_figures_that_cannot_be_are_asked_again():
    shown = prices_shown(
        EMPTY_BOOK, LIST, asked(units={"2": {"kg_each": "heavy"}, "3": {"kg_each": -1, "per_pack": 10}})
    )
    assert len(shown["asked"]) == 2
