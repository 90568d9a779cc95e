"""Money of every kind on the papers: two decimals, none, three; its sign, and its marks as in the region."""

from __future__ import annotations

import copy
import io
import json
import re
from pathlib import Path

import openpyxl
import pytest

from pavewright import job, rulebook
from pavewright.papers import written_where
from pavewright.papers._document import page_data
from pavewright.papers._input import PaperInput
from pavewright.papers._pack import cost_sheet, job_pack
from pavewright.papers.quotation import document as quotation
from pavewright.papers._workbook import cost_workbook
from pavewright.pipeline import plan

ROOT = Path(__file__).parents[3]
TERRACE = json.loads((ROOT / "examples" / "l_terrace.json").read_text("utf-8"))
MONIES = {
    "EUR in DE": ("EUR", "DE", 2, ".", ",", "€"),
    "USD in US": ("USD", "US", 2, ",", ".", "$"),
    "JPY in JP": ("JPY", "JP", 0, ",", ".", "JPY "),
    "KWD in KW": ("KWD", "KW", 3, ",", ".", "KWD "),
    "GBP in GB": ("GBP", "GB", 2, "\u202f", ".", "£"),
}


@pytest.fixture(scope="module", params=MONIES, ids=list(MONIES))
def printed(request):
    """Return the money, its plan, and the words of the customer's, the cost and the job papers."""
    currency, region = MONIES[request.param][:2]
    changed = copy.deepcopy(TERRACE)
    changed["identity"] |= {"currency": currency, "region": region}
    made = plan(job.parse(changed), rules := rulebook.load("england"))
    with written_where(made):
        given = PaperInput(made, rules)
        papers = {
            name: page_data(made, make(given))
            for name, make in (("customer", quotation), ("cost", cost_sheet), ("job", job_pack))
        }
        book = cost_workbook(made)
    return MONIES[request.param], made, papers, book


def written(minor, money):
    """Write an amount by itself, not as the program does."""
    _, _, places, group, point, sign = money
    figures = str(abs(minor)).zfill(places + 1)
    whole, part = (figures[:-places], figures[-places:]) if places else (figures, "")
    threes = re.sub(r"(?<=\d)(?=(?:\d{3})+$)", group, whole)
    return f"{sign}{threes}" + (f"{point}{part}" if places else "")


def test_totals_stand_in_their_own_money(printed):
    money, made, papers, _ = printed
    assert written(made.cost.total_minor, money) in papers["customer"]
    assert written(made.cost.net_minor, money) in papers["customer"]
    assert written(made.cost.net_minor, money) in papers["cost"]
    assert written(made.cost.total_minor, money) in papers["job"]
    for line in made.cost.lines:
        assert written(line.amount_minor, money) in papers["cost"], line.description


def test_no_other_money_stands_beside(printed):
    money, _, papers, _ = printed
    others = [sign for sign in "£€$" if sign != money[5]]
    for name, text in papers.items():
        assert not any(sign in text for sign in others), name
        assert "pence" not in text
        assert "minor units" not in text


def test_the_workbook_counts_in_the_coins_of_the_money(printed):
    money, made, _, content = printed
    sheet = openpyxl.load_workbook(io.BytesIO(content), data_only=True)["Cost"]
    amounts = {row[0].value: row[4] for row in sheet.iter_rows() if row[0].value and len(row) > 4}
    total = amounts["To pay"]
    assert total.value == pytest.approx(made.cost.total_minor / 10 ** money[2])
    zeros = "0" * money[2]
    assert total.number_format == (f'#,##0.{zeros} "{money[0]}"' if zeros else f'#,##0 "{money[0]}"')
    assert f"Amount, {money[0]}" in [cell.value for cell in sheet[4]]


def test_numbers_have_the_marks_of_the_region(printed):
    """Where a comma stands before decimals no number with a point is left, but in what is quoted or typed."""
    money, made, papers, _ = printed
    if money[4] != ",":
        pytest.skip("a point stands before decimals there")
    rules = rulebook.load("england")
    kept = {source.title for source in rules.sources.values()} | {each.place for each in rules.figures.values()}
    kept |= set(typed(made.job.model_dump(mode="json")))
    for name, text in papers.items():
        left = "".join(map(str, words_of(json.loads(text))))
        for each in sorted(filter(None, kept), key=len, reverse=True):
            if re.search(r"\d", each):
                left = left.replace(each, " ")
        pattern = r"(?<![\d.,/:-])\d+\.(?:\d{1,2}|\d{4,})(?![\d.])"
        found = [left[max(0, one.start() - 30) : one.end() + 10] for one in re.finditer(pattern, left)]
        assert found == [], name


def typed(data):
    if isinstance(data, str):
        yield data
    elif isinstance(data, dict):
        for each in data.values():
            yield from typed(each)
    elif isinstance(data, list):
        for each in data:
            yield from typed(each)


def words_of(data):
    """Give the words of a paper: drawings by the words in them."""
    if isinstance(data, str):
        if data.startswith("<svg"):
            yield from (f" {each} " for each in re.findall(r"<text[^>]*>([^<]*)</text>", data))
        else:
            yield f" {data} "
    elif isinstance(data, dict):
        for key, each in data.items():
            if key not in {"type-size", "pad", "width", "align"}:
                yield from words_of(each)
    elif isinstance(data, list):
        for each in data:
            yield from words_of(each)
