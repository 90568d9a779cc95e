"""What must hold of any job with any book: what the job says stays, what neither says stays unknown."""

from __future__ import annotations

import datetime as dt
import json
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from pavewright import firm, rulebook
from pavewright.desk import demo_document
from pavewright.firm import with_book
from pavewright.job import Rates, parse
from pavewright.job.operations import apply

MONEY = st.integers(0, 100_000)
DAYS = st.dates(dt.date(2020, 1, 1), dt.date(2030, 1, 1)).map(dt.date.isoformat)
TERMS = {
    "supplier": st.sampled_from(["A", "B"]),
    "priced_on": DAYS,
    "lead_days": st.integers(0, 9),
    "carriage_minor": MONEY,
}


def some_of(fields, **needed):
    """Any of some fields, and those that are needed."""
    return st.fixed_dictionaries(needed, optional=fields)


def one_each(key, entries):
    return st.lists(entries, max_size=4, unique_by=key)


MATERIALS = one_each(
    lambda each: each["key"],
    some_of(
        {"pack_price_minor": MONEY, "bulk_kg_per_m3": st.just(1500.0), **TERMS},
        key=st.sampled_from(["cement", "sharp_sand", "kerb"]),
        pack_amount=st.sampled_from([1.0, 25.0]),
        pack_unit=st.sampled_from(["kg", "each"]),
    ).filter(lambda each: (each["key"] == "kerb") == (each["pack_unit"] == "each")),
)
ITEMS = one_each(
    lambda each: each["key"],
    some_of(
        {"pack_price_minor": MONEY, **TERMS},
        key=st.sampled_from(["sealer", "spacers"]),
        name=st.just("Item"),
        pack_amount=st.sampled_from([1.0, 5.0]),
        pack_unit=st.just("litre"),
    ),
)
PLANT = one_each(
    lambda each: (each["key"], each.get("name", "")),
    some_of(
        {
            "name": st.sampled_from(["", "Small"]),
            "day_price_minor": MONEY,
            "weekly_price_minor": MONEY,
            "usual": st.booleans(),
            **TERMS,
        },
        key=st.sampled_from(["mixer", "saw", "other"]),
    ),
)
LABOUR = one_each(
    lambda each: each["skill"],
    some_of({}, skill=st.sampled_from(["layer", "labourer", "any"]), minor_per_hour=MONEY),
)
PERCENT = st.integers(0, 60).map(float)


@st.composite
def rates(draw):
    """Rates of which any part may be left out; overhead and profit each of one kind."""
    found = draw(
        some_of(
            {
                "labour_minor_per_hour": MONEY,
                "labour": LABOUR,
                "materials": MATERIALS,
                "catalogue": ITEMS,
                "plant": PLANT,
                "tax_percent": PERCENT,
                "cut_price_minor": MONEY,
                "price_age_days": st.integers(1, 400),
                "disposal": some_of({"load_price_minor": MONEY}, volume_m3=st.sampled_from([4.0, 6.0])),
            }
        )
    )
    for one, other in (("overhead_percent", "overhead_minor_per_hour"), ("margin_percent", "markup_percent")):
        kind = draw(st.sampled_from([None, one, other]))
        if kind is not None:
            found[kind] = draw(st.integers(0, 60)) if kind.endswith("hour") else draw(PERCENT)
    return found


CREWS = some_of(
    {
        "people": st.integers(1, 5),
        "pace": st.sampled_from([0.5, 1.0]),
        "machine_dig": st.booleans(),
        "hours_per_day": st.just(8.0),
    }
)


@st.composite
def jobs(draw):
    """The demo with prices and people of any kind, or none."""
    document = json.loads(demo_document()) | {"rates": draw(rates()), "crew": draw(CREWS)}
    if draw(st.booleans()):
        del document["units"][0]["pack_price_minor"]
    return document


@st.composite
def books(draw):
    """A book with prices and people of any kind, or none."""
    found = {"format": "pavewright.firm", "version": 1, "rates": draw(rates()), "crew": draw(CREWS)}
    found["currency"] = draw(st.sampled_from(["GBP", "GBP", "EUR"]))
    found["units"] = [json.loads(demo_document())["units"][0] | {"pack_price_minor": draw(MONEY)}]
    return firm.read(found)


@cache
def rules():
    return rulebook.load(rulebook.newest("england"))


def says(part):
    """What a part says: fields that are not left out."""
    return {name: getattr(part, name) for name in type(part).model_fields if getattr(part, name) not in (None, "", ())}


@settings(max_examples=150, deadline=None)
@given(jobs(), books())
def test_what_a_job_says_is_never_changed(document, book):
    job = parse(document)
    made = with_book(job, book)
    lists = {name for name in Rates.model_fields if isinstance(getattr(job.rates, name), tuple)} | {"disposal"}
    for name, value in says(job.rates).items():
        if name not in lists:
            assert getattr(made.rates, name) == value
    for name in sorted(lists - {"disposal"}):
        own = getattr(job.rates, name)
        for before, after in zip(own, getattr(made.rates, name), strict=False):
            kept = says(before)
            if all(getattr(before, price, None) is None for price in _PRICES):
                kept.pop("priced_on", None)  # a day without a price is the day of no price
            assert {field: getattr(after, field) for field in kept} == kept
        assert len(getattr(made.rates, name)) >= len(own)
    for before, after in zip(job.units, made.units, strict=True):
        assert {name: getattr(after, name) for name in says(before)} == says(before)
    for name in document["crew"]:
        assert getattr(made.crew, name) == getattr(job.crew, name)


_PRICES = ("pack_price_minor", "load_price_minor", "day_price_minor", "weekly_price_minor")


@settings(max_examples=100, deadline=None)
@given(jobs(), books())
def test_what_neither_says_stays_unknown_and_nothing_becomes_zero(document, book):
    job = parse(document)
    made = with_book(job, book)
    for name, field in Rates.model_fields.items():
        if field.default is None and getattr(job.rates, name) is None and getattr(book.rates, name) is None:
            assert getattr(made.rates, name) is None
    prices = {each.pack_price_minor for rates in (job.rates, book.rates) for each in rates.materials}
    assert {each.pack_price_minor for each in made.rates.materials} <= prices
    assert not (made.rates.margin_percent is not None and made.rates.markup_percent is not None)
    assert not (made.rates.overhead_percent is not None and made.rates.overhead_minor_per_hour is not None)


@settings(max_examples=60, deadline=None)
@given(jobs(), books())
def test_no_book_and_an_empty_one_change_nothing_and_taking_twice_is_taking_once(document, book):
    job = parse(document)
    assert with_book(job, None) == job
    assert with_book(job, firm.read({"format": "pavewright.firm", "version": 1})) == job
    once = with_book(job, book)
    assert with_book(once, book) == once


@settings(max_examples=60, deadline=None)
@given(jobs(), books(), books())
def test_a_quoted_job_has_what_it_was_quoted_with_whatever_the_book_becomes(document, book, later):
    then = with_book(parse(document), book)
    quoted = parse(apply(document, firm.quoted(document, book, dt.date(2027, 4, 1), rules())).document)
    for now in (with_book(quoted, later), with_book(quoted, None)):
        for name in Rates.model_fields:
            was, is_now = getattr(then.rates, name), getattr(now.rates, name)
            if name == "catalogue":
                own = {each.key for each in quoted.rates.catalogue}
                was = tuple(each for each in was if each.key in own)
                is_now = tuple(each for each in is_now if each.key in own)
            if isinstance(was, tuple):
                assert _same_prices(was, is_now[: len(was)])
            elif name == "disposal" and was is not None:
                assert _same_prices((was,), (is_now,))
            elif name != "disposal":
                assert is_now == was
        assert [unit.pack_price_minor for unit in now.units] == [unit.pack_price_minor for unit in then.units]
        assert now.crew == then.crew


def _same_prices(was, now):
    return [says(each) for each in was] == [says(each) for each in now]
