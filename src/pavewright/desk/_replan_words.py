"""The words of a re-planning of all jobs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright import units
from pavewright.desk._replan_causes import CauseKind
from pavewright.desk._replan_compared import Standing, Take
from pavewright.writing import Catalogue, Sentence

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True)
class ReplanWords(Catalogue):
    """What is said of a job that was planned again."""

    changed: Sentence = Sentence("{old} before, {new} now: {extra}")
    same: Sentence = Sentence("{new}, as before")
    first: Sentence = Sentence("{new}; it had no price before")
    no_plan: Sentence = Sentence("cannot be planned: {why}")
    failed: Sentence = Sentence("the program failed with it ({why}); the job itself is safe")
    lost: str = "every worker that began with it ended"
    later: Sentence = Sentence("done {days} working days later")
    sooner: Sentence = Sentence("done {days} working days sooner")
    came: Sentence = Sentence("new: {what}")
    went: Sentence = Sentence("gone: {what}")
    line: Sentence = Sentence("{extra}  {what}")
    more: Sentence = Sentence("and {count} more lines")
    cause: Sentence = Sentence("{kind} of {what}, {field}: {old} before, {new} now")
    nothing: str = "none"
    price: str = "price"
    output: str = "output"
    percent: str = "percentage"
    crew: str = "crew"
    term: str = "term"
    figure: str = "figure"
    job: str = "the job"
    newer_edition: str = "to take it: plan the job with the newer edition of the rulebook"
    quote_again: str = "it keeps its quotation; to take the new price, quote it again"


WORDS = ReplanWords()
_KINDS = {
    CauseKind.PRICE: WORDS.price,
    CauseKind.OUTPUT: WORDS.output,
    CauseKind.PERCENT: WORDS.percent,
    CauseKind.CREW: WORDS.crew,
    CauseKind.TERM: WORDS.term,
    CauseKind.FIGURE: WORDS.figure,
}
_TAKES = {Take.NEWER_EDITION: WORDS.newer_edition, Take.QUOTE_AGAIN: WORDS.quote_again}
_SHOWN = 4
"""So many lines and causes of a job are said. [-]"""


def headline(row: dict[str, Any]) -> str:
    """Return what became of a job, in a line.

    Args:
        row: What differs in it.
    """
    match Standing(row["standing"]):
        case Standing.NO_PLAN:
            return WORDS.no_plan(why="; ".join(each["message"].rstrip(".") for each in row["faults"][:2]))
        case Standing.FAILED:
            return WORDS.failed(why=row["error"] or WORDS.lost)
        case Standing.NO_PRICE_BEFORE:
            return WORDS.first(new=_money(row["new_minor"], row))
        case Standing.SAME:
            return WORDS.same(new=_money(row["new_minor"], row))
    old, new = (_money(row[name], row) for name in ("old_minor", "new_minor"))
    return WORDS.changed(old=old, new=new, extra=extra_money(row["extra_minor"], row))


def details(row: dict[str, Any]) -> Iterator[str]:
    """Give what else there is to say of a job, line by line.

    Args:
        row: What differs in it.
    """
    if row.get("days"):
        yield (WORDS.later if row["days"] > 0 else WORDS.sooner)(days=str(abs(row["days"])))
    yield from (WORDS.came(what=each["message"]) for each in row.get("came", ()))
    yield from (WORDS.went(what=each["message"]) for each in row.get("went", ()))
    lines = row.get("lines", [])
    for each in lines[:_SHOWN]:
        yield WORDS.line(extra=extra_money(each["extra_minor"], row), what=each["description"])
    more = max(0, len(lines) - _SHOWN) + row.get("more_lines", 0)
    if more:
        yield WORDS.more(count=str(more))
    yield from (cause_words(each, row) for each in row.get("causes", ())[:_SHOWN])
    if row.get("take"):
        yield _TAKES[Take(row["take"])]


def cause_words(cause: dict[str, Any], row: dict[str, Any]) -> str:
    """Return a cause in words.

    Args:
        cause: What changed.
        row: The job, for its money.
    """
    field = cause["field"].removesuffix("_minor").replace("_", " ")
    old, new = (_value(each, cause["field"], row) for each in (cause["old"], cause["new"]))
    what = cause["key"].replace("_", " ") or WORDS.job
    return WORDS.cause(kind=_KINDS[CauseKind(cause["kind"])], what=what, field=field, old=old, new=new)


def _value(value: Any, field: str, row: dict[str, Any]) -> str:  # noqa: ANN401 - a value of any field
    if value is None:
        return WORDS.nothing
    return _money(value, row) if field.endswith("_minor") and isinstance(value, int) else f"{value}"


def extra_money(minor: int, row: dict[str, Any]) -> str:
    """Return a difference of money with its sign.

    Args:
        minor: The difference. [minor units]
        row: The job, for its money.
    """
    return f"{'+' if minor >= 0 else '−'}{_money(abs(minor), row)}"


def _money(minor: int, row: dict[str, Any]) -> str:
    return units.minor_to_text(minor, row["currency"] or "GBP")
