"""The command that holds published examples against our answers."""

from __future__ import annotations

import sys
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright import rulebook
from pavewright.catalogue import SUMS, CaseFault, Standing, case_records, proofs, verify_cases
from pavewright.cli._stop import stop
from pavewright.sums import SumRefusedError

if TYPE_CHECKING:
    from pavewright.catalogue import CaseRecord


@click.command("verify")
@click.argument("files", nargs=-1, required=True, type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--summary", is_flag=True, help="Count the cases, and name the sums that nothing printed proves.")
def verify_command(files: tuple[Path, ...], *, summary: bool) -> None:
    """Compare published examples with our own answers.

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
