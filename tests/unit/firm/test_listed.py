"""Lines of a price list in the book."""

from __future__ import annotations

import datetime as dt

from pavewright.firm import EntryPlace, ListChangeKind, read, with_listed
from pavewright.job import CatalogueItem, MaterialKind, PackUnit

_DAY = dt.date(2026, 11, 1)
_EMPTY = {"format": "pavewright.firm", "version": 1}


def _item(name: str, minor: int, code: str = "", amount: float = 1.0, unit: PackUnit = PackUnit.EACH) -> CatalogueItem:
    return CatalogueItem(
        key="new",
        name=name,
        pack_amount=amount,
        pack_unit=unit,
        pack_price_minor=minor,
        supplier="Quarry",
        supplier_code=code,
        priced_on=_DAY,
    )


def test_new_lines_get_keys_of_their_own():
    items = (_item("Kerb, grey", 399), _item("Kerb grey", 299, "B"), _item("5 mm spacers", 100), _item("\u77f3", 50))
    book, changes = with_listed(read(_EMPTY), items, "Quarry", {})
    assert [each.key for each in book.rates.catalogue] == ["kerb_grey", "kerb_grey_2", "item_5_mm_spacers", "item"]
    assert {each.kind for each in changes} == {ListChangeKind.NEW}


def test_a_line_is_found_again_by_its_code_and_else_by_its_name():
    first, _ = with_listed(read(_EMPTY), (_item("Kerb", 399, "K1"), _item("Sand", 500)), "Quarry", {})
    second, changes = with_listed(first, (_item("Kerb, now grey", 450, "K1"), _item("Sand", 500)), "Quarry", {})
    assert [(each.kind, each.was_minor, each.now_minor) for each in changes] == [
        (ListChangeKind.PRICE, 399, 450),
        (ListChangeKind.SAME, 500, 500),
    ]
    assert [each.key for each in second.rates.catalogue] == ["kerb", "sand"]
    assert [each.pack_price_minor for each in second.rates.catalogue] == [450, 500]


def test_a_line_of_another_supplier_or_of_another_code_is_another_thing():
    first, _ = with_listed(read(_EMPTY), (_item("Kerb", 399, "K1"),), "Quarry", {})
    other = _item("Kerb", 350, "K1").model_copy(update={"supplier": "Yard"})
    second, _ = with_listed(first, (other,), "Yard", {})
    third, _ = with_listed(second, (_item("Kerb", 375, "K2"),), "Quarry", {})
    assert [each.pack_price_minor for each in third.rates.catalogue] == [399, 350, 375]


def test_what_is_not_listed_any_more_keeps_its_price_and_its_day():
    first, _ = with_listed(read(_EMPTY), (_item("Kerb", 399), _item("Sand", 500)), "Quarry", {})
    second, changes = with_listed(first, (_item("Sand", 510),), "Quarry", {})
    assert [each.kind for each in changes] == [ListChangeKind.PRICE, ListChangeKind.NOT_LISTED]
    assert second.rates.catalogue[0] == first.rates.catalogue[0]


def test_a_line_may_be_a_material_that_plans_ask_for_and_stays_it():
    cement = _item("Cement", 720, "C1", 25.0, PackUnit.KG)
    first, changes = with_listed(read(_EMPTY), (cement,), "Quarry", {0: MaterialKind.CEMENT})
    assert [each.place for each in changes] == [EntryPlace.MATERIALS]
    assert first.rates.catalogue == ()
    dearer = _item("Cement", 800, "C1", 25.0, PackUnit.KG)
    second, _ = with_listed(first, (dearer,), "Quarry", {})
    assert (second.rates.materials[0].key, second.rates.materials[0].pack_price_minor) == (MaterialKind.CEMENT, 800)


def test_another_line_takes_the_place_of_a_material_and_says_so():
    first, _ = with_listed(read(_EMPTY), (_item("Cement A", 720, "A"),), "Quarry", {0: MaterialKind.CEMENT})
    second, changes = with_listed(
        first, (_item("Cement A", 720, "A"), _item("Cement B", 650, "B")), "Quarry", {1: MaterialKind.CEMENT}
    )
    assert [each.name for each in second.rates.materials] == ["Cement B"]
    assert [(each.name, each.pack_price_minor) for each in second.rates.catalogue] == [("Cement A", 720)]
    assert ListChangeKind.PACK in {each.kind for each in changes}


def test_a_paving_unit_that_is_sold_in_another_pack_keeps_its_price():
    unit = {
        "name": "Slab",
        "length_mm": 600.0,
        "width_mm": 600.0,
        "thickness_mm": 40.0,
        "kg_each": 33.0,
        "per_pack": 20,
        "pack_price_minor": 20_000,
        "supplier": "Quarry",
    }
    book = read(_EMPTY | {"units": [unit]})
    per_m2, changes = with_listed(book, (_item("Slab", 3_000, amount=1.0, unit=PackUnit.M2),), "Quarry", {})
    assert per_m2.units == book.units
    assert [each.kind for each in changes] == [ListChangeKind.OTHER_PACK]
    packs, _ = with_listed(book, (_item("Slab", 21_000, amount=20.0),), "Quarry", {})
    assert packs.units[0].pack_price_minor == 21_000
    assert packs.units[0].priced_on == _DAY


def test_a_kerb_from_a_list_has_the_length_that_its_name_says():
    items = (_item("Kerb 915 mm", 920), _item("Gully 300 mm", 900))
    uses = {0: MaterialKind.KERB, 1: MaterialKind.GULLY}
    book, _ = with_listed(read(_EMPTY), items, "Quarry", uses, lengths_mm={0: 915.0, 1: 300.0})
    assert [each.length_mm for each in book.rates.materials] == [915.0, None]
