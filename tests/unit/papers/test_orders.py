"""Order lists: the same figures as price, workbook and screens; no price unless asked for; what is not known is asked."""

from __future__ import annotations

import io
import json
import re

import openpyxl
import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan
from pavewright.job import SupplierKind
from pavewright.papers import PlanPart, plan_parts, written_where
from pavewright.papers import orders as family
from pavewright.papers._input import PaperInput
from pavewright.papers._text import to_text
from pavewright.papers._workbook import quantities_workbook
from pavewright.papers.orders._words import KINDS, WAYS
from pavewright.method import LiftWay
from pavewright.programme import drop_place, order_lists

THIN = "\u202f"


def lists_of(made):
    return order_lists(made.job, made.cost.orders, made.quantities, made.programme)


def text_of(made):
    given = PaperInput(made, rulebook.load(made.edition))
    with written_where(made):
        return to_text(made, family.document(given)).replace(THIN, "")


def changed(**arranged):
    document = json.loads(demo_document())
    document["arrangements"] = {**document.get("arrangements", {}), **arranged}
    return document


@pytest.fixture(scope="module")
def terrace(made_plan):
    return made_plan("l_terrace")


@pytest.fixture(scope="module")
def known():
    """The demo with everything known of the way in, and prices asked for."""
    document = changed(clear_height_mm=3600.0, lorry_limit_tonnes=18.0, crane_reach_mm=6500.0, order_prices=True)
    document["arrangements"]["drop_point"] = (
        document["measurements"]["ground_points"][0]
        if document["measurements"].get("ground_points")
        else document["areas"][0]["outline"][0]["point"]
    )
    return make_plan(json.dumps(document))


@pytest.fixture(scope="module")
def nameless():
    """The demo, in which nobody named a supplier."""
    document = changed()
    rates = document["rates"]
    for part in (
        *document["units"],
        *rates["materials"],
        *rates.get("catalogue", ()),
        *rates["plant"],
        rates["disposal"],
    ):
        part.pop("supplier", None)
        part.pop("supplier_kind", None)
    return make_plan(json.dumps(document))


def test_every_line_is_one_of_the_price_the_workbook_and_the_screen(terrace):
    listed = {line.line.item.text: line for order in lists_of(terrace) for line in order.lines}
    priced = {line.item.text: line for order in terrace.cost.orders for line in order.lines}
    assert {key: line.line for key, line in listed.items()} == priced
    sheet = openpyxl.load_workbook(io.BytesIO(quantities_workbook(terrace)), data_only=False)["Quantities"]
    rows = {(row[0], row[6]): row for row in sheet.iter_rows(values_only=True) if row[0]}
    items = {item.key.text: item for item in terrace.quantities.items}
    screen = plan_parts(terrace, (PlanPart.COST,))["cost"]["orders"]
    shown = {line["item"]: line["ordered_words"] for order in screen for line in order["lines"]}
    for key, line in listed.items():
        row = rows[line.line.description, line.line.order_unit]
        assert row[11] == (None if line.kg is None else pytest.approx(line.kg))
        assert items[key].ordered_amount == line.holds
        assert shown[key] == line.line.ordered_words
    assert set(shown) == set(listed)


def test_what_is_listed_stands_on_the_paper(terrace):
    text = text_of(terrace)
    for order in lists_of(terrace):
        for line in order.lines:
            assert line.line.description in text
            assert line.line.ordered_words.replace(THIN, "") in text


def test_drops_weigh_what_the_deliveries_weigh(terrace):
    by_lists = sum(drop.kg for order in lists_of(terrace) for drop in order.drops)
    assert by_lists == pytest.approx(sum(each.kg for each in terrace.programme.deliveries))
    for order in lists_of(terrace):
        for drop in order.drops:
            of_day = [
                each for each in terrace.programme.deliveries if each.on == drop.on and each.supplier == order.supplier
            ]
            assert drop.kg == pytest.approx(sum(each.kg for each in of_day))


def test_no_price_unless_the_job_asks(terrace, known):
    for words in ("£", "price of one", "GBP"):
        assert words not in text_of(terrace)
    text = text_of(known)
    assert "price of one" in text
    assert re.search(r"£\d", text)


def test_what_nobody_said_is_asked(terrace):
    text = text_of(terrace)
    assert text.count("not known: ask") > 6
    assert "mark it here with a cross" in text
    assert drop_place(terrace.job, terrace.survey) is None


def test_what_is_known_stands_on_every_list(known):
    text, count = text_of(known), len(lists_of(known))
    for words in ("3.600 m", "18 t", "6.5 m measured", f"point {known.job.arrangements.drop_point}, marked"):
        assert text.count(words) == count + 1, words
    place = drop_place(known.job, known.survey)
    assert place.to_work_mm >= 0.0


def test_without_suppliers_there_is_a_list_for_each_kind(nameless):
    lists = lists_of(nameless)
    assert {each.supplier for each in lists} == {""}
    assert {SupplierKind.QUARRY, SupplierKind.MERCHANT, SupplierKind.WASTE, SupplierKind.HIRE} <= {
        each.kind for each in lists
    }
    assert len({each.kind for each in lists}) == len(lists)
    listed = [line.line.item for each in lists for line in each.lines]
    assert sorted(key.text for key in listed) == sorted(
        line.item.text for order in nameless.cost.orders for line in order.lines
    )
    assert "no supplier named" in text_of(nameless)


def test_units_ask_for_one_batch_and_nothing_is_swapped(terrace):
    text = text_of(terrace)
    assert "One batch for all of: Flag 600" in text
    assert "No substitutes without asking" in text


def test_the_lift_plan_never_calls_a_lift_safe(terrace):
    text = text_of(terrace)
    assert "not verified" in text[text.index("Lift plan") :]
    assert not re.search(r"\bsafe\b", text)
    assert set(WAYS) == set(LiftWay)
    assert set(KINDS) == set(SupplierKind)


def test_a_drop_that_no_lorry_may_bring_is_stopped(terrace):
    small = make_plan(json.dumps(changed(lorry_limit_tonnes=3.5)))
    heavy = [drop for order in lists_of(small) for drop in order.drops if drop.too_heavy]
    assert heavy
    assert all(drop.kg > 3500.0 for drop in heavy)
    assert "weighs more by itself than a lorry may weigh" in text_of(small)
    assert not any(drop.too_heavy for order in lists_of(terrace) for drop in order.drops)
