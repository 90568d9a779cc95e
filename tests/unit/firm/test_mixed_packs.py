"""Packs of mixed sizes have the price of the book, and keep the one that they were quoted with."""

from __future__ import annotations

import copy
import datetime as dt
import json
from pathlib import Path
from typing import Any

import pytest

from pavewright import firm, rulebook
from pavewright.firm import with_book
from pavewright.job import JobInvalid, parse
from pavewright.job.operations import apply

PATIO = Path(__file__).parents[3] / "examples" / "mixed_patio.json"
UNITS = ["Flag 300", "Flag 600 × 300", "Flag 600", "Flag 900 × 600"]
COUNTS = [16, 16, 12, 12]
"""As the example has them, listed in another order."""


@pytest.fixture
def bare() -> dict[str, Any]:
    document = json.loads(PATIO.read_bytes())
    pack = document["areas"][0]["laying"]["pack"]
    document["areas"][0]["laying"]["pack"] = {
        name: pack[name] for name in pack if name in {"module_mm", "counts", "covers_m2"}
    }
    for unit in document["units"]:
        unit.pop("pack_price_minor", None)
    return document


def book_of(**more: Any) -> firm.FirmBook:
    pack = {"name": "Mixed flags", "units_in_pack": UNITS, "counts": COUNTS, "pack_price_minor": 47000} | more
    return firm.read({"format": "pavewright.firm", "version": 1, "mixed_packs": [pack]})


def pack_in(job: Any) -> Any:
    return job.areas[0].laying.pack


def test_a_mixed_pack_without_a_price_has_that_of_the_book_with_its_terms(bare):
    found = pack_in(with_book(parse(bare), book_of(supplier="Wold Stone", carriage_minor=3500)))
    assert (found.pack_price_minor, found.supplier, found.carriage_minor) == (47000, "Wold Stone", 3500)
    assert found.counts == pack_in(parse(bare)).counts
    assert pack_in(with_book(parse(bare), book_of(counts=[16, 16, 12, 10]))).pack_price_minor is None


def test_a_job_that_buys_each_size_by_itself_goes_on_doing_so(bare):
    bare["units"][1]["pack_price_minor"] = 9000
    assert pack_in(with_book(parse(bare), book_of())).pack_price_minor is None


def test_a_quoted_job_keeps_the_pack_and_the_carriage_that_it_was_quoted_with(bare):
    rules = rulebook.load(rulebook.newest("england"))
    then = book_of(supplier="Wold Stone", carriage_minor=3500)
    made = apply(bare, firm.quoted(bare, then, dt.date(2027, 6, 3), rules)).document
    dearer = book_of(pack_price_minor=60000)
    assert pack_in(with_book(parse(made), dearer)) == pack_in(with_book(parse(bare), then))


def test_a_quoted_job_keeps_the_carriage_of_its_units(bare):
    rules = rulebook.load(rulebook.newest("england"))
    plain = copy.deepcopy(bare)
    for unit in plain["units"]:
        for name in ("supplier", "supplier_kind", "carriage_minor", "lead_days", "priced_on"):
            unit.pop(name, None)
    units = [unit | {"pack_price_minor": 1000, "supplier": "Wold", "carriage_minor": 900} for unit in plain["units"]]
    book = firm.read({"format": "pavewright.firm", "version": 1, "units": units})
    made = apply(plain, firm.quoted(plain, book, dt.date(2027, 6, 3), rules)).document
    assert with_book(parse(made), None).units == with_book(parse(plain), book).units


def test_a_pack_says_how_many_of_each():
    with pytest.raises(JobInvalid, match="one for each"):
        book_of(counts=[1])


def test_an_order_of_mixed_packs_names_its_supplier(made_plan):
    orders = made_plan("mixed_patio").cost.orders
    assert all(order.supplier for order in orders)
    assert any(line.item.kind == "mixed_pack" for order in orders for line in order.lines)
