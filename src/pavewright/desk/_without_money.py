"""A job without its money: what a crew sees that is not allowed to see prices.

Money is taken away before anything is worked out: from the job, and from the firm's book. What a worker was not given
it cannot answer. What is left of a price in an answer, such as that it is missing, is taken away by these lists too.
"""

from __future__ import annotations

import json
from collections import Counter
from typing import TYPE_CHECKING, Any

from pavewright.papers import PaperKey, PlanPart

if TYPE_CHECKING:
    from collections.abc import Mapping

MONEY_PARTS = frozenset({"accepted", "bills", "received", "settled", "terms", "quoted"})
"""Parts of a job that are about money as a whole."""
BOOK_MONEY_PARTS = frozenset({"overhead", "price_lists", "terms", "past"})
"""Parts of the firm's book that are about money as a whole."""
_OF_RATES = frozenset(
    {
        "changes",
        "labour",
        "margin_percent",
        "markup_percent",
        "overhead_percent",
        "price_age_days",
        "rounding",
        "tax_lines",
        "tax_name",
        "tax_percent",
        "tax_regime",
        "tax_rounding",
    }
)
"""What of the rates is about money though it is none by its name."""
MONEY_FIELDS = frozenset(
    {
        "amount_minor",
        "attendance_minor",
        "carriage_minor",
        "cost_minor",
        "cost_minor_per_hour",
        "cut_price_minor",
        "day_price_minor",
        "delivery_minor",
        "direct_minor",
        "each_minor",
        "fill_price_minor",
        "freed_minor",
        "held_minor",
        "labour_minor_per_hour",
        "load_price_minor",
        "minor",
        "minor_per_hour",
        "net_minor",
        "of_minor",
        "once_minor",
        "overhead_minor_per_hour",
        "pack_price_minor",
        "priced_on",
        "rate_minor",
        "settles_minor",
        "sums",
        "supply_minor",
        "tax_minor",
        "to_minor",
        "weekly_price_minor",
    }
)
"""Fields that hold an amount of money, in a job and in the book, wherever they stand."""
PLAN_PARTS_WITHOUT_MONEY = tuple(part.value for part in PlanPart if part not in {PlanPart.COST, PlanPart.BOOK})
"""Parts of a plan that hold no money."""
PAPERS_WITHOUT_MONEY = frozenset(
    {
        PaperKey.SURVEY_FORM,
        PaperKey.SITE_PAPERS,
        PaperKey.PICTURES,
        PaperKey.PLANS,
        PaperKey.QUANTITIES,
        PaperKey.POINTS,
        PaperKey.PROGRAMME,
        PaperKey.PIECE_NUMBERS,
        PaperKey.TEMPLATES,
        PaperKey.DXF,
        PaperKey.METHOD,
        PaperKey.HANDOVER,
    }
)
"""Papers that hold no money, and are made of a job that has none."""
LONG_WITHOUT_MONEY = frozenset({"paper", "starts", "storm"})
"""Long work that brings no money."""
_SUMMARY_MONEY: Mapping[str, Any] = {"total_minor": None, "price_words": "", "range_words": ""}
_BOOK_KEPT = frozenset({"state", "by_hand", "place", "people", "stage", "stops"})
"""What the order book keeps of a job that holds no money."""
_OUTCOME_MONEY: Mapping[str, Any] = {"low_minor": None, "total_minor": None, "high_minor": None, "gaps": None}
PRICE_STAGE = "price"
"""The stage of a job that is about its price."""
HIDDEN_WITH_MONEY: Mapping[str, list[str]] = {
    "stages": [PRICE_STAGE],
    "fields": sorted(MONEY_FIELDS),
    "rates": sorted(_OF_RATES),
    "papers": sorted(PaperKey(each).value for each in set(PaperKey) - PAPERS_WITHOUT_MONEY),
}
"""What screens leave out where money is not shown: stages, fields of forms, fields of the rates, papers."""
NOTHING_HIDDEN: Mapping[str, list[str]] = {name: [] for name in HIDDEN_WITH_MONEY}
"""What screens leave out for somebody who sees money."""


def job_without_money(document: Mapping[str, Any]) -> dict[str, Any]:
    """Return a job document without its money.

    >>> job_without_money({"steps": [], "terms": {}, "units": [{"name": "slab", "pack_price_minor": 4200}]})
    {'steps': [], 'units': [{'name': 'slab'}]}
    """
    return _without(document, MONEY_PARTS)


def book_without_money(book: bytes) -> bytes:
    """Return the firm's book without its money; as it is where there is none."""
    if not book:
        return book
    return json.dumps(_without(json.loads(book), BOOK_MONEY_PARTS), ensure_ascii=False).encode()


def money_in(document: Mapping[str, Any]) -> Counter[str]:
    """Return every amount and every part of a job that is about money, each as often as it stands there.

    Two versions of a job that answer alike hold the same money, wherever its parts were moved to.
    """
    found: Counter[str] = Counter()
    for name in MONEY_PARTS & document.keys():
        found[f"{name} {_text(document[name])}"] += 1
    _collect({name: value for name, value in document.items() if name not in MONEY_PARTS}, found)
    return found


def summary_without_money(summary: Mapping[str, Any]) -> dict[str, Any]:
    """Return the line of a job in the list without its price, and without what is to be done about it."""
    kept = dict(summary) | {name: value for name, value in _SUMMARY_MONEY.items() if name in summary}
    if isinstance(kept.get("book"), dict):
        kept["book"] = {name: value for name, value in kept["book"].items() if name in _BOOK_KEPT}
    return kept | ({"next": ""} if summary.get("stage") == PRICE_STAGE else {})


def outcome_without_money(outcome: Mapping[str, Any]) -> dict[str, Any]:
    """Return what a job comes to without its price."""
    return dict(outcome) | {name: value for name, value in _OUTCOME_MONEY.items() if name in outcome}


def units_without_money(units: list[Any]) -> list[Any]:
    """Return paving units of the book without their prices."""
    return [_leaf(each) for each in units]


def _without(document: Mapping[str, Any], parts: frozenset[str]) -> dict[str, Any]:
    kept = {name: _leaf(value) for name, value in document.items() if name not in parts}
    rates = kept.get("rates")
    if isinstance(rates, dict):
        kept["rates"] = {name: value for name, value in rates.items() if name not in _OF_RATES}
    return kept


def _leaf(value: Any) -> Any:  # noqa: ANN401 - any JSON value
    if isinstance(value, dict):
        return {name: _leaf(each) for name, each in value.items() if name not in MONEY_FIELDS}
    return [_leaf(each) for each in value] if isinstance(value, list) else value


def _collect(value: Any, found: Counter[str], place: str = "") -> None:  # noqa: ANN401 - any JSON value
    if isinstance(value, dict):
        for name, each in value.items():
            if name in MONEY_FIELDS or (place == "rates" and name in _OF_RATES):
                found[f"{name} {_text(each)}"] += 1
            else:
                _collect(each, found, name)
    elif isinstance(value, list):
        for each in value:
            _collect(each, found)


def _text(value: Any) -> str:  # noqa: ANN401 - any JSON value
    return json.dumps(value, ensure_ascii=False, sort_keys=True)
