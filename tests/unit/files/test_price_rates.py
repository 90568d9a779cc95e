"""Lists of plant, loads and labour: what is charged by what, and what cannot be told says so."""

from __future__ import annotations

import pytest

from pavewright.files import price_list_told, read_price_list
from pavewright.files._price_amounts import priced_by
from pavewright.job import PackUnit

_PLANT = """Ashgrove Hire, list of spring
Code;Machine;Day;Week;Min hire;Delivery;Weekend
E1;Mini excavator 1.5 t;£ 95.00;£ 285.00;2;45.00;140
P1;Plate compactor 400 mm;18.50;55.50;;;
;;;;;;
S1;Floor saw;POA;;;;
W1;Water bowser;;60.00;;;
"""


def rates(text: str, **said: str) -> list[tuple[object, ...]]:
    found = read_price_list(text.encode(), said)
    return [(each.name, each.per.value, each.price_minor, each.week_minor) for each in found.rates]


def test_a_list_of_plant_gives_days_weeks_shortest_hire_and_delivery() -> None:
    found = read_price_list(_PLANT.encode(), {"of": "plant", "decimal": "."})
    first = found.rates[0]
    assert (first.code, first.name, first.per.value) == ("E1", "Mini excavator 1.5 t", "day")
    assert (first.price_minor, first.week_minor, first.min_days) == (9500, 28500, 2.0)
    assert found.lines == ()
    assert found.rates[-1].name == "Water bowser"
    assert (found.rates[-1].price_minor, found.rates[-1].week_minor) == (None, 6000)
    assert [row for row, _ in found.bad] == [6]
    assert found.questions == ()


def test_by_what_plant_is_charged_is_asked_where_nothing_says_it() -> None:
    text = "Machine,Price\nPlate,18.50\nSaw,22.00\n"
    assert read_price_list(text.encode(), {"of": "plant"}).questions
    assert rates(text, of="plant", per="week")[0] == ("Plate", "week", None, 1850)
    assert rates(text, of="plant", per="day")[0] == ("Plate", "day", 1850, None)
    by_line = "Machine,Price,Per\nPlate,18.50,day\nSaw,22.00,week\nMixer,3.00,hr\nCone,1.00,shift\n"
    found = read_price_list(by_line.encode(), {"of": "plant"})
    assert [(each.price_minor, each.week_minor) for each in found.rates] == [(1850, None), (None, 2200)]
    assert [row for row, _ in found.bad] == [4, 5]


@pytest.mark.parametrize(
    ("head", "size", "name", "m3"),
    [
        ("Size", "8 yd", "Builders skip", 6.116),
        ("Size (m3)", "6", "Builders skip", 6.0),
        ("Yards", "4", "Midi skip", 3.058),
        ("Code", "X", "Grab lorry 9 m3", 9.0),
        ("Code", "X", "6-yard skip", 4.587),
    ],
)
def test_what_a_load_holds_is_read_in_cubic_metres_or_yards(head: str, size: str, name: str, m3: float) -> None:
    text = f"{head},Description,Price,Payload\n{size},{name},210.00,8 t\n"
    found = read_price_list(text.encode(), {"of": "disposal"})
    (line,) = found.rates
    assert (line.volume_m3, line.payload_tonnes, line.price_minor) == (m3, 8.0, 21000)
    assert line.per.value == "load"


def test_a_load_whose_size_nobody_says_is_not_taken() -> None:
    text = "Size,Description,Price\n8,Builders skip,210.00\n,Big skip,250.00\n"
    found = read_price_list(text.encode(), {"of": "disposal"})
    assert found.rates == ()
    assert [row for row, _ in found.bad] == [2, 3]


def test_labour_is_charged_by_the_hour_or_the_day() -> None:
    text = "Trade,Rate per hour\nPaver,28.50\nLabourer,19\n"
    assert rates(text, of="labour") == [("Paver", "hour", 2850, None), ("Labourer", "hour", 1900, None)]
    assert rates("Trade,Day rate\nPaver,228\n", of="labour") == [("Paver", "day", 22800, None)]
    assert read_price_list(b"Trade,Rate\nPaver,228\nMate,190\n", {"of": "labour"}).questions


def test_a_price_by_the_thousand_is_that_of_the_pack() -> None:
    text = "Name,Unit,Pack,Price\nBlock grey,per 1000,488,450.00\nSpacer,per 100,,2.50\nNail,/1000,2 kg,9\n"
    found = read_price_list(text.encode())
    assert [(each.pack_amount, each.pack_unit, each.price_minor, each.by_count) for each in found.lines] == [
        (488.0, PackUnit.EACH, 21960, 1000),
        (100.0, PackUnit.EACH, 250, 100),
    ]
    assert "taken as sold in packs of 100" in found.lines[1].note
    assert [row for row, _ in found.bad] == [4]
    head = read_price_list(b"Name,Pack of,Price per 1000\nBlock,400,\xc2\xa3450.00\nSett,250,520.00\n")
    assert [each.price_minor for each in head.lines] == [18000, 13000]
    assert price_list_told(head)["by_count"] == 1000


@pytest.mark.parametrize(
    ("words", "count"), [("per 100 kg", 0), ("thousand", 1000), ("1000", 0), ("by the hundred", 100)]
)
def test_a_mass_is_no_count(words: str, count: int) -> None:
    assert priced_by(words) == count


def test_a_bag_that_is_sold_by_the_piece_holds_what_its_name_says() -> None:
    text = "Name,Unit,Price\nCement 25 kg,each,6.40\nPlasticiser 5 litre,each,12.50\nKerb 62 kg 915 mm,each,9.20\n"
    found = read_price_list(text.encode())
    assert [(each.pack_amount, each.pack_unit) for each in found.lines] == [
        (25.0, PackUnit.KG),
        (5.0, PackUnit.LITRE),
        (1.0, PackUnit.EACH),
    ]
    assert [each.length_mm for each in found.lines] == [None, None, 915.0]
    assert "taken from the name" in found.lines[0].note


def test_a_list_of_weeks_alone_needs_no_price_of_a_day() -> None:
    found = read_price_list(b"Machine,Week\nPlate,55.50\nSaw,66.00\n", {"of": "plant"})
    assert found.questions == ()
    assert [(each.price_minor, each.week_minor) for each in found.rates] == [(None, 5550), (None, 6600)]
