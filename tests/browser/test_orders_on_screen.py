"""The screen of orders says what the workbook and the papers say: packs, what comes over, amounts, sums by supplier."""

from __future__ import annotations

import io
import json
import re
from pathlib import Path

import openpyxl
import pypdf
import pytest

pytestmark = [pytest.mark.browser, pytest.mark.slow]
ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(path.stem for path in (ROOT / "examples").glob("*.json"))
HEAD = 4
ROWS = """() => [...document.querySelectorAll("#panel table")]
  .filter((table) => table.closest("[aria-label]")?.getAttribute("aria-label")?.startsWith("Order: "))
  .map((table) => [
    table.closest("[aria-label]").getAttribute("aria-label").slice("Order: ".length),
    [...table.querySelectorAll("tbody tr")].map((row) => [...row.children].map((cell) => cell.textContent.trim())),
    table.closest("[aria-label]").parentElement.textContent,
  ])"""


def _number(words):
    return float(re.sub(r"[^\d.]", "", re.match(r"[^\d]*[\d\u202f.,]+", words)[0]))


def _by_item(content):
    """Return what the workbook orders of each item: packs, their unit, what comes over."""
    # worked out in the book: a table program keeps its answers beside the formulas
    sheet = openpyxl.load_workbook(io.BytesIO(content), data_only=True)["Quantities"]
    rows = sheet.iter_rows(min_row=HEAD + 1, values_only=True)
    return {row[0]: (row[5], row[6], row[8] - row[4]) for row in rows if row[6]}


def test_there_are_six_examples():
    assert len(EXAMPLES) == 6


@pytest.mark.parametrize("name", EXAMPLES)
def test_orders_are_the_same_on_the_screen_in_the_workbook_and_on_paper(page, served, made_pack, name):
    made, papers = made_pack(name)
    document = json.loads((ROOT / "examples" / f"{name}.json").read_text("utf-8"))
    job = served.call("POST", "/api/jobs", {"document": document})["id"]
    page.goto(f"{served.address}/jobs/{job}#quantities")
    page.locator("#panel summary", has_text="Orders by supplier").wait_for(timeout=60_000)
    shown = page.evaluate(ROWS)
    assert [supplier for supplier, *_ in shown] == [each.supplier or "Supplier not named" for each in made.cost.orders]
    book = _by_item(papers["quantities.xlsx"])
    paper = " ".join(
        " ".join(each.extract_text() for each in pypdf.PdfReader(io.BytesIO(papers["job-pack.pdf"])).pages).split()
    ).replace("\u202f", "")
    paper = paper[paper.index("item net + % with it range order of kg") :]
    for order, (_, rows, said) in zip(made.cost.orders, shown, strict=True):
        assert [row[0] for row in rows] == [line.description for line in order.lines]
        for (what, ordered, over, amount), line in zip(rows, order.lines, strict=True):
            packs, unit, more = book[what]
            assert _number(ordered) == pytest.approx(packs, abs=0.005)
            assert unit == line.order_unit
            assert ordered == line.ordered_words
            called = line.ordered_words.split(" ", 1)[1]
            assert (_number(over) if over else 0.0) == pytest.approx(more, abs=0.0051)
            assert _number(amount) * 100 == pytest.approx(line.amount_minor)
            assert re.search(rf"{re.escape(what)} .*? {packs:g} {re.escape(called)}", paper)
        assert f"Goods £{order.goods_minor // 100:,}".replace(",", "\u202f") in said
        assert order.goods_minor == sum(round(_number(row[3]) * 100) for row in rows)
