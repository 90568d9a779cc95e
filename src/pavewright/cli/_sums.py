"""The command that works out a single sum."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from pavewright import catalogue
from pavewright.cli._stop import stop
from pavewright.desk import answer_sum, source_words
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from collections.abc import Iterable


@click.command("sum")
@click.argument("name", required=False)
@click.argument("given", nargs=-1, metavar="[KEY=VALUE]...")
@click.option("--list", "listed", is_flag=True, help="List every sum with its inputs.")
@click.option(
    "--find", "looked_for", default="", metavar="WORDS", help="List the sums that have to do with these words."
)
@click.option(
    "--edition",
    default="",
    metavar="PLACE",
    help="Edition of the rulebook for what is not given; else the neutral one.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the answers as JSON.")
def sum_command(
    name: str | None, given: tuple[str, ...], looked_for: str, edition: str, *, listed: bool, as_json: bool
) -> None:
    """Work out one sum.

    \b
    A number may have its unit: run_mm=3m, one_in=1:60, fall_percent=2%. One that may be in another unit is asked.

    Example: pavewright sum area-by-offsets interval_mm=1000 offsets_mm=1000,2000,1000
             pavewright sum --find "how much sand"
    """  # noqa: D301 - the sign keeps click from joining lines
    if looked_for:
        _list_found(looked_for)
        return
    if listed or name is None:
        for entry in catalogue.SUMS:
            takes, gives = _names((*entry.inputs, *entry.table_inputs)), _names(entry.outputs)
            click.echo(f"{entry.name}\n  {entry.title}\n  takes {takes}\n  gives {gives}")
        return
    try:
        entry = catalogue.find(name)
    except SumRefusedError as refusal:
        _stop_with_likes(name, refusal)
        return
    try:
        answered = answer_sum(name, _values(entry, given), edition)
        answers = answered.answers
    except SumRefusedError as refusal:
        stop(str(refusal))
        return
    if as_json:
        from_rules = {each.quantity.name: {"value": each.value, "from": each.words} for each in answered.taken}
        taken_of = {"edition": answered.edition, "taken": from_rules} if from_rules else {}
        reported = {"sum": entry.name, "answers": answers, "source": source_words(entry)}
        click.echo(json.dumps(reported | taken_of, ensure_ascii=False))
        return
    click.echo(f"{entry.title}\n{entry.formula}\nSource: {source_words(entry)}")
    from_book = f"not given: the rulebook's ({answered.edition}), "
    for taken in answered.taken:
        quantity = taken.quantity
        click.echo(f"{quantity.name} = {_shown(taken.value, quantity)}    {from_book}{taken.words}")
    for quantity in entry.outputs:
        click.echo(f"{quantity.name} = {_shown(answers[quantity.name], quantity)}    {quantity.meaning}")


def _stop_with_likes(name: str, refusal: SumRefusedError) -> None:
    """Say that there is no such sum, and which may be meant."""
    from pavewright.desk import find_sums  # noqa: PLC0415 - it loads every room

    near = ", ".join(find_sums(name)[:3])
    stop(f"{refusal} Perhaps {near}?" if near else str(refusal))


def _list_found(looked_for: str) -> None:
    """List the sums that have to do with some words, the best first."""
    from pavewright.desk import find_sums  # noqa: PLC0415 - it loads every room

    found = find_sums(looked_for)
    for name in found:
        click.echo(f"{name}\n  {catalogue.find(name).title}")
    if not found:
        click.echo("No sum has to do with these words.")


def _shown(value: Value, quantity: Quantity) -> str:
    row = value if isinstance(value, tuple) else (value,)
    words = ", ".join(each if isinstance(each, str) else f"{each:.6g}" for each in row)
    return f"{words} {quantity.unit}".rstrip() if row else "–"


def _names(quantities: Iterable[Quantity]) -> str:
    return ", ".join(
        f"{quantity.name} [{quantity.unit}]" if quantity.unit else quantity.name for quantity in quantities
    )


def _values(entry: Sum, given: tuple[str, ...]) -> dict[str, Value]:
    """Return the inputs from words of the form key=value, rows separated by commas."""
    inputs = {quantity.name: quantity for quantity in (*entry.inputs, *entry.table_inputs)}
    values: dict[str, Value] = {}
    for word in given:
        key, equals, text = word.partition("=")
        if not equals:
            message = f"{word!r}: write the input as name=value."
            raise SumRefusedError(message)
        values[key] = catalogue.read_input(inputs[key], text) if key in inputs else text
    return values
