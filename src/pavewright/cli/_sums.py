"""Commands on single sums and on published examples."""

from __future__ import annotations

import json
import sys
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright import rulebook
from pavewright.catalogue import SUMS, CaseFault, Standing, case_records, find, proofs, verify_cases
from pavewright.cli._commands import main, stop
from pavewright.desk import answer_sum, source_words
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.catalogue import CaseRecord


@main.command("sum")
@click.argument("name", required=False)
@click.argument("given", nargs=-1, metavar="[KEY=VALUE]...")
@click.option("--list", "listed", is_flag=True, help="List every sum with its inputs.")
@click.option("--json", "as_json", is_flag=True, help="Print the answers as JSON.")
def sum_command(name: str | None, given: tuple[str, ...], *, listed: bool, as_json: bool) -> None:
    """Work out one sum.

    Example: pavewright sum area-by-offsets interval_mm=1000 offsets_mm=1000,2000,1000
    """
    if listed or name is None:
        for entry in SUMS:
            takes, gives = _names((*entry.inputs, *entry.table_inputs)), _names(entry.outputs)
            click.echo(f"{entry.name}\n  {entry.title}\n  takes {takes}\n  gives {gives}")
        return
    try:
        entry = find(name)
        answered = answer_sum(name, _values(entry, given))
        answers = answered.answers
    except SumRefusedError as refusal:
        stop(str(refusal))
        return
    if as_json:
        from_rules = {each.quantity.name: {"value": each.value, "from": each.words} for each in answered.taken}
        told = {"sum": entry.name, "answers": answers, "source": source_words(entry)}
        click.echo(json.dumps(told | ({"taken": from_rules} if from_rules else {}), ensure_ascii=False))
        return
    click.echo(f"{entry.title}\n{entry.formula}\nSource: {source_words(entry)}")
    for taken in answered.taken:
        quantity = taken.quantity
        click.echo(f"{quantity.name} = {_shown(taken.value, quantity)}    not given: the rulebook's, {taken.words}")
    for quantity in entry.outputs:
        click.echo(f"{quantity.name} = {_shown(answers[quantity.name], quantity)}    {quantity.meaning}")


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
    kinds = {quantity.name: quantity.kind for quantity in (*entry.inputs, *entry.table_inputs)}
    values: dict[str, Value] = {}
    for word in given:
        key, equals, text = word.partition("=")
        if not equals:
            message = f"{word!r}: write the input as name=value."
            raise SumRefusedError(message)
        values[key] = _value(key, text, kinds.get(key, "word"))
    return values


def _value(key: str, text: str, kind: str) -> Value:
    cells = [cell.strip() for cell in text.split(",")]
    try:
        if kind == "number":
            return float(text)
        if kind == "numbers":
            return tuple(float(cell) for cell in cells)
    except ValueError:
        message = f"{key}: {text!r} is not a number; write the reading in figures."
        raise SumRefusedError(message) from None
    return tuple(cells) if kind == "words" else text


@main.command("verify")
@click.argument("files", nargs=-1, required=True, type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--summary", is_flag=True, help="Count the cases, and name the sums that nothing printed proves.")
def verify_command(files: tuple[Path, ...], *, summary: bool) -> None:
    """Hold published examples against our own answers.

    Prints ours, printed and the difference for each answer of each case file. A case names its source by a key of the
    rulebook's sources or of its own file ([sources.key] with title, body, year, find and findable).

    Example: pavewright verify tests/published/levels_falls.toml
    """
    register = rulebook.sources()
    failed = 0
    records: list[CaseRecord] = []
    for path in files:
        try:
            document = tomllib.loads(path.read_text("utf-8"))
            rows = verify_cases(document, register)
            records.extend(case_records(document, register))
        except (CaseFault, SumRefusedError, tomllib.TOMLDecodeError, UnicodeDecodeError) as problem:
            stop(f"{path.name}: {problem}")
            return
        failed += sum(not row.holds for row in rows)
        for row in rows:
            if row.holds and summary:
                continue
            difference = "" if row.difference is None else f"  difference {row.difference:+.3g} of {row.tolerance:.3g}"
            click.echo(
                f"{'holds' if row.holds else 'FAILS'}  {row.case}: {row.answer}  ours {row.ours}"
                f"  printed {row.printed}{difference}  ({row.source})"
            )
    if summary:
        _echo_summary(records)
    click.echo(f"{failed} do not hold" if failed else "all hold")
    sys.exit(1 if failed else 0)


def _echo_summary(records: list[CaseRecord]) -> None:
    """Count the cases by what they are worth, and name the sums without a printed one."""
    for standing in Standing:
        click.echo(f"{sum(record.standing is standing for record in records):5d}  {standing.value}")
    of_sums = proofs(records, SUMS)
    bare = [proof.sum_name for proof in of_sums if not proof.printed]
    click.echo(f"{len(of_sums) - len(bare)} of {len(of_sums)} sums agree with a printed example")
    if bare:
        click.echo(f"nothing printed: {', '.join(bare)}")
