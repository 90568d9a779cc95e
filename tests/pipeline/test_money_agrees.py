"""The same money is on the customer's paper, on his page, at the price and on the cost sheet, and adds up to the penny."""

from __future__ import annotations

import json
import re

import pytest

from pavewright import rulebook
from pavewright.papers.look import as_data
from pavewright.units import minor_to_text as money_text
from pavewright.desk import demo_document, make_plan_so_far
from pavewright.desk._cash import cash_told
from pavewright.desk._customer import customer
from pavewright.papers import customer_words
from pavewright.papers._customer_money import known_cash
from pavewright.papers._figures import paper_figures
from pavewright.papers._sheets_cost import cost_sheets
from pavewright.papers._sheets_money import price_sheet
from pavewright.pipeline import PlanSoFar, Room

EXAMPLES = ("circle_court", "curved_path", "front_drive", "gully_yard", "l_terrace", "mixed_patio")


def stages(**more):
    return {
        "stages": [
            {"event": "deposit", "percent": 33.3},
            {"event": "materials_on_site", "amount_minor": 100_001},
            {"event": "base_in", "percent": 16.7},
            {"event": "laid", "percent": 25.0},
            {"event": "complete"},
        ],
        "retention_percent": 2.5,
        "days_to_pay": 14,
        "valid_days": 21,
        **more,
    }


def chosen_later(document):
    document["terms"] = stages(
        prime_costs=[{"name": "Lights", "amount_minor": 40_000, "attendance_percent": 7.5, "attendance_minor": 1_500}],
        provisional=[
            {"name": "Rock", "unit": "m3", "rate_minor": 9_000, "amount": 2.0, "low_amount": 0.0, "high_amount": 6.0},
            {"name": "Daywork", "unit": "hour", "rate_minor": 4_200},
        ],
    )


def several_taxes(document):
    document["terms"] = stages()
    document["rates"]["tax_lines"] = [
        {"group": "material", "regime": "reduced", "percent": 5.0},
        {"group": "plant", "regime": "zero"},
    ]


def reversed_charge(document):
    document["terms"] = stages()
    document["rates"]["tax_regime"] = "reverse_charge"


def whole_pounds(document):
    document["terms"] = stages()
    document["rates"]["rounding"] = {"kind": "up", "to_minor": 5_000}


MADE_UP = (chosen_later, several_taxes, reversed_charge, whole_pounds)


def _so_far(made):
    rooms = {room.value: getattr(made, room.value) for room in Room if room is not Room.LABOUR}
    return PlanSoFar(
        made.job, made.edition, **rooms, labour=made.cost.labour, findings=made.findings, missing=(), faults=()
    )


@pytest.fixture(scope="module")
def changed_demo():
    made = {}

    def plan(change):
        if change not in made:
            document = json.loads(demo_document())
            change(document)
            made[change] = make_plan_so_far(json.dumps(document).encode())
        return made[change]

    return plan


@pytest.fixture(params=[*EXAMPLES, *MADE_UP], ids=lambda each: each if isinstance(each, str) else each.__name__)
def made(request, made_plan, changed_demo):
    return _so_far(made_plan(request.param)) if isinstance(request.param, str) else changed_demo(request.param)


def blocks(sheets):
    return [as_data(block) for sheet in sheets for block in sheet.blocks]


def tables(found):
    return [tuple(tuple(row) for row in block["rows"]) for block in found if block["kind"] == "table"]


def lists(found):
    return [words for block in found if block["kind"] == "list" for words in block["items"]]


def papers_of(made):
    plan, rules = made.whole, rulebook.load("england")
    told = customer_words(plan, rules)
    cash = known_cash(plan, rules)
    return {
        "customer": blocks([price_sheet(plan, told)]),
        "cost sheet": blocks(cost_sheets(plan, paper_figures(rules), told.money, cash)),
    }


def pence(words):
    return int(re.sub(r"[^\d-]", "", words.replace("−", "-")))


def test_rows_of_money_are_the_same_on_every_paper_and_screen(made):
    page, price = customer(made)["money"], cash_told(made)["money"]
    assert page == price
    for name, found in papers_of(made).items():
        for part in ("payments", "goods", "provisional"):
            if page[part]:
                assert tuple(tuple(row) for row in page[part]) in tables(found), (name, part)
        for part in ("statements", "paying", "settling"):
            assert [words for words in page[part] if words not in lists(found)] == [], (name, part)
        pairs = [tuple(pair) for block in found if block["kind"] == "facts" for pair in block["pairs"]]
        assert [tuple(row) for row in page["price"][:-1] if tuple(row) not in pairs] == [], name


def test_payments_add_up_to_the_price_to_the_penny(made):
    cost, rows = made.cost, cash_told(made)["money"]["payments"]
    *each, together = rows
    assert sum(pence(row[2]) for row in each) == cost.total_minor == pence(together[2])
    assert sum(pence(row[4]) for row in each) == cost.total_minor == pence(together[4])
    assert all(row[1] != "not known yet" for row in each)


def test_the_price_is_what_is_before_tax_and_every_tax_on_it(made):
    rows = customer(made)["money"]["price"]
    numbers = [pence(row[1]) for row in rows if row[1].startswith("£")]
    assert sum(numbers[:-1]) == numbers[-1] == made.cost.total_minor


def test_the_days_of_payments_and_the_lowest_point_are_those_of_the_curve(made):
    cash, plan = cash_told(made)["cash"], made.whole
    found = papers_of(made)["cost sheet"]
    said = next(block["text"] for block in found if block["kind"] == "lead")
    if cash["lowest_on"] is None:
        assert said.startswith("Never more is paid out")
    else:
        assert pence(said.split(" more is paid")[0]) == -cash["lowest_minor"]
        assert known_cash(plan, rulebook.load("england")).lowest_on.isoformat() == cash["lowest_on"]
    moved = next(block["rows"] for block in found if block["kind"] == "table" and block["columns"][2]["head"] == "in")
    come = sum(pence(row[2]) for row in moved if row[2])
    assert come == made.cost.total_minor


def test_orders_of_the_cost_sheet_are_those_of_the_plan(made):
    found = papers_of(made)["cost sheet"]
    said = [block["text"] for block in found if block["kind"] == "small" and block["text"].startswith("Goods")]
    assert len(said) == len(made.cost.orders)
    for words, order in zip(said, made.cost.orders, strict=True):
        if order.unpriced < len(order.lines):
            assert pence(words.split(";")[0].split(",")[0]) == order.goods_minor
        if order.carriage_minor:
            assert pence(words.split(";")[1].split(" for ")[0]) == order.carried_minor


def test_goods_that_cost_more_change_the_price_by_the_rate_that_settles_them(changed_demo):
    made = changed_demo(chosen_later)
    (goods,) = made.cost.prime_costs

    def dearer(document):
        chosen_later(document)
        document["terms"]["prime_costs"][0]["amount_minor"] += 10_000

    other = changed_demo(dearer)
    assert other.cost.net_minor - made.cost.net_minor == pytest.approx(goods.settles_minor, abs=2)
    rates = {rate.description: rate for rate in made.cost.provisional.rates}

    def more_rock(document):
        chosen_later(document)
        document["terms"]["provisional"][0]["amount"] += 3.0

    found = changed_demo(more_rock)
    assert found.cost.net_minor - made.cost.net_minor == pytest.approx(rates["Provisional: Rock"].rate_minor * 3, abs=2)
    assert rates["Provisional: Daywork"].amount == 0.0


def test_overhead_by_the_hour_is_no_part_of_what_settles_goods(changed_demo):
    def by_hour(document):
        chosen_later(document)
        document["rates"] |= {"overhead_percent": None, "overhead_minor_per_hour": 900}

    def dearer(document):
        by_hour(document)
        document["terms"]["prime_costs"][0]["amount_minor"] += 10_000

    first, other = changed_demo(by_hour).cost, changed_demo(dearer).cost
    assert other.net_minor - first.net_minor == pytest.approx(first.prime_costs[0].settles_minor, abs=2)


def test_a_reverse_charge_is_said_in_the_words_of_the_place_with_the_tax_that_is_not_in_it(changed_demo):
    made = changed_demo(reversed_charge)
    money = customer(made)["money"]
    assert made.cost.total_minor == made.cost.net_minor
    (share,) = made.cost.tax
    assert share.accounted_minor == pytest.approx(made.cost.net_minor / 5, abs=0.5)
    said = money["statements"][0]
    assert said.startswith("Reverse charge: the customer pays this tax to HM Revenue and Customs")
    assert money_text(share.accounted_minor, "GBP") in said
    finding = next(each for each in made.findings if each.code == "cost.reverse_charge")
    assert "not for the householder" in finding.message


def test_another_place_has_its_own_words(changed_demo):
    def irish(document):
        reversed_charge(document)
        document["identity"] |= {"locality": "ireland", "currency": "EUR"}

    def elsewhere(document):
        reversed_charge(document)
        document["identity"] |= {"locality": "elsewhere"}

    said = customer(changed_demo(irish))["money"]["statements"][0]
    assert said == "VAT on this supply to be accounted for by the principal contractor."
    assert "words of this place are not known" in customer(changed_demo(elsewhere))["money"]["statements"][0]


def test_what_is_not_stated_is_said_not_to_be(changed_demo):
    def nothing(document):
        document["terms"] = {}

    money = customer(changed_demo(nothing))["money"]
    assert money["payments"] == ()
    assert money["paying"] == ("How this is paid is not stated here: agree it in writing before the work begins.",)
    assert money["statements"][-1] == "How long this price holds is not stated here."


def test_a_payment_that_nobody_can_see_due_stops_the_customers_paper(changed_demo):
    def unseen(document):
        document["terms"] = {"stages": [{"event": "deposit", "amount_minor": 99_999_999}, {"event": "complete"}]}

    assert "Not ready to be sent: 1 open point stops" in customer(changed_demo(unseen))["not_ready"]


def test_a_quoted_job_says_when_and_holds_from_that_day(changed_demo):
    def quoted(document):
        rates, crew = document["rates"], document["crew"]
        document["quoted"] = {"on": "2027-03-01", "revision": 1, "rates": rates, "crew": crew, "terms": stages()}
        document["terms"] = stages()

    made = changed_demo(quoted)
    assert (
        customer(made)["money"]["statements"][-1] == "Quoted on Mon 1 Mar 2027. The price holds until Mon 22 Mar 2027."
    )
    first = next(block["text"] for block in papers_of(made)["cost sheet"] if block["kind"] == "paragraph")
    assert first.startswith("Quoted on Mon 1 Mar 2027 as revision 1")


def test_a_stale_price_is_marked_on_its_line_of_the_cost_sheet(changed_demo):
    def old(document):
        document["rates"]["price_age_days"] = 30
        document["rates"]["materials"][0]["priced_on"] = "2026-01-05"

    made = changed_demo(old)
    stale = [line for line in made.cost.lines if line.stale is not None and line.stale.age_days]
    assert stale
    rows = [row[0] for rows in tables(papers_of(made)["cost sheet"]) for row in rows]
    for line in stale:
        assert any(row.startswith(f"{line.description} – price {line.stale.age_days} days old, of ") for row in rows)
