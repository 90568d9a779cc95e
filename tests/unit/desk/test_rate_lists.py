"""Lists of plant, loads and labour come into the book: suggested by their words, decided by a person, remembered."""

from __future__ import annotations

import json
from typing import Any

import pytest

from pavewright import firm
from pavewright.desk import EMPTY_BOOK, prices_shown, prices_taken
from pavewright.files import FileRefusedError

PLANT = b"""Code;Machine;Day;Week;Delivery
E1;Mini excavator 1.5 t;95.00;285.00;45.00
P1;Plate compactor 400 mm;18.50;55.50;
B1;Water bowser;12.00;36.00;
"""
SKIPS = b"Description,Price\nSkip 6 yd,210.00\nSkip 8 yd,240.00\nGrab lorry 9 m3,295.00\n"
LABOUR = b"Trade,Rate per hour\nPaver,28.50\nLabourer,19.00\nForeman,35.00\n"


def asked(of: str, **more: Any) -> dict[str, Any]:
    return {"supplier": "Ashgrove", "on": "2027-03-01", "of": of, **more}


def taken(book: str, content: bytes, of: str, **more: Any) -> firm.FirmBook:
    text, _ = prices_taken(book, content, asked(of, **more))
    return firm.read(text)


def test_plant_comes_in_by_what_its_names_say_and_is_found_again():
    book = taken(EMPTY_BOOK, PLANT, "plant")
    assert [(each.key.value, each.name, each.day_price_minor) for each in book.rates.plant] == [
        ("excavator", "Mini excavator 1.5 t", 9500),
        ("plate", "Plate compactor 400 mm", 1850),
    ]
    first = book.rates.plant[0]
    assert (first.weekly_price_minor, first.delivery_minor, first.supplier) == (28500, 4500, "Ashgrove")
    dearer = PLANT.replace(b"95.00", b"99.00").replace(b"P1;Plate compactor 400 mm", b"P1;Compactor, small")
    usual = book.model_copy(
        update={
            "rates": book.rates.model_copy(
                update={"plant": tuple(each.model_copy(update={"usual": True}) for each in book.rates.plant)}
            )
        }
    )
    text, shown = prices_taken(firm.to_text(usual), dearer, asked("plant"))
    again = firm.read(text).rates.plant
    assert [(each.name, each.day_price_minor, each.usual) for each in again] == [
        ("Mini excavator 1.5 t", 9900, True),
        ("Plate compactor 400 mm", 1850, True),
    ]
    assert [each["kind"] for each in shown["changes"]] == ["price", "same"]
    chosen = taken(EMPTY_BOOK, PLANT, "plant", uses={"4": "other"})
    assert [(each.key.value, each.name) for each in chosen.rates.plant] == [("other", "Water bowser")]


def test_a_machine_of_another_supplier_is_another_entry():
    book = taken(EMPTY_BOOK, PLANT, "plant")
    text, _ = prices_taken(firm.to_text(book), PLANT, asked("plant") | {"supplier": "Other Hire"})
    names = [each.name for each in firm.read(text).rates.plant]
    assert names == [
        *("Mini excavator 1.5 t", "Plate compactor 400 mm"),
        *("Mini excavator 1.5 t, Other Hire", "Plate compactor 400 mm, Other Hire"),
    ]


def test_spoil_leaves_by_the_line_that_is_chosen():
    shown = prices_shown(EMPTY_BOOK, SKIPS, asked("disposal"))
    assert shown["suggested"] == {}
    assert shown["changes"] == []
    book = taken(EMPTY_BOOK, SKIPS, "disposal", uses={"3": "skip"})
    load = book.rates.disposal
    assert (load.kind.value, load.volume_m3, load.load_price_minor) == ("skip", 6.116, 24000)
    again = taken(firm.to_text(book), SKIPS.replace(b"240", b"250"), "disposal")
    assert again.rates.disposal.load_price_minor == 25000
    with pytest.raises(FileRefusedError, match="choose which"):
        taken(EMPTY_BOOK, SKIPS, "disposal", uses={"2": "skip", "3": "skip"})


def test_labour_is_priced_by_skill_and_a_price_of_a_day_needs_the_hours_of_one():
    book = taken(EMPTY_BOOK, LABOUR, "labour")
    assert [(each.skill.value, each.minor_per_hour) for each in book.rates.labour] == [
        ("layer", 2850),
        ("labourer", 1900),
    ]
    assert str(book.rates.labour[0].priced_on) == "2027-03-01"
    by_day = b"Trade,Day rate\nPaver,225.00\n"
    assert "how many hours" in prices_shown(EMPTY_BOOK, by_day, asked("labour"))["bad"][0]["words"]
    known = json.dumps(json.loads(EMPTY_BOOK) | {"crew": {"hours_per_day": 7.5}})
    assert taken(known, by_day, "labour").rates.labour[0].minor_per_hour == 3000
    with pytest.raises(FileRefusedError, match="same skill"):
        taken(EMPTY_BOOK, LABOUR, "labour", uses={"2": "layer", "4": "layer"})


def test_how_each_kind_of_list_of_a_supplier_is_read_is_remembered_apart():
    odd = b"A,B,C\nPlate compactor,1,18.50\nSaw,2,22.00\n"
    columns = {"name": 0, "price": 2}
    book = taken(EMPTY_BOOK, odd, "plant", columns=columns, per="day")
    book = taken(firm.to_text(book), b"Name,Unit,Price\nCement,25 kg,7.20\n", "goods")
    assert [(each.supplier, each.of.value) for each in book.price_lists] == [
        ("Ashgrove", "plant"),
        ("Ashgrove", "goods"),
    ]
    shown = prices_shown(firm.to_text(book), odd, asked("plant"))
    assert shown["asked"] == []
    assert [each["price_minor"] for each in shown["lines"]] == [1850, 2200]


def test_a_price_that_a_later_list_does_not_give_stays_with_its_own_day():
    book = taken(EMPTY_BOOK, PLANT, "plant")
    weeks = b"Code,Machine,Week\nE1,Mini excavator 1.5 t,300.00\n"
    text, _ = prices_taken(
        firm.to_text(book),
        weeks,
        asked("plant", per="week", columns={"code": 0, "name": 1, "price": 2}) | {"on": "2028-01-01"},
    )
    first = firm.read(text).rates.plant[0]
    assert (first.day_price_minor, first.weekly_price_minor) == (9500, 30000)
    assert str(first.priced_on) == "2027-03-01"
