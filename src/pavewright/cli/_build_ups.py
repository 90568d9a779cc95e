"""The command that compares the build-ups that a job could have."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Any

import click

from pavewright import units
from pavewright.cli._asked import FIRM, JOB, QUIET, plan_so_far_or_stop
from pavewright.cli._progress import Progress
from pavewright.desk import build_ups_told

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

_NOTHING_COMPARED = 2


@click.command("build-ups")
@JOB
@FIRM
@click.option("--json", "as_json", is_flag=True, help="Print all of it as JSON.")
@QUIET
def build_ups_command(job: Path, firm: Path | None, *, as_json: bool, quiet: bool) -> None:
    """Compare the build-ups that a job could have: dig, price, mass, days, carbon, and what published rules say.

    Each is planned with the whole job. Rules of different sources stand apart. What is not known has no figure. To take
    one, put what it changes into the job document and plan again.

    \b
    Example: pavewright build-ups examples/front_drive.json
             pavewright build-ups my-job.json --firm my-firm.json --json
    """  # noqa: D301 - the sign keeps click from joining lines
    made = plan_so_far_or_stop(job, quiet=quiet, firm=firm)
    found = build_ups_told(made, Progress(quiet))
    if as_json:
        click.echo(json.dumps({"build_ups": found}, indent=1, ensure_ascii=False))
    else:
        for line in build_up_lines(found, made.job.identity.currency):
            click.echo(line)
    if found["why_not"]:
        sys.exit(_NOTHING_COMPARED)


def build_up_lines(found: dict[str, Any], currency: str) -> Iterator[str]:
    """Give the build-ups line by line.

    Args:
        found: The build-ups, as the desk gives them.
        currency: Money of the job.
    """
    if found["why_not"]:
        yield "no build-up is compared yet"
        yield from (f"  {words}" for words in found["why_not"])
        return
    yield f"ground  {found['ground']['words']}"
    every = [{said["words"] for said in each["not_known"]} for each in found["alternatives"]]
    of_all = set.intersection(*every)
    first = found["alternatives"][0]["not_known"]
    yield from (f"not known: {said['words']}" for said in first if said["words"] in of_all)
    beds: set[tuple[str, str | None]] = set()
    for each in found["alternatives"]:
        bed = each["area"], each["bedding"]
        yield ""
        yield f"{each['name']}{' (planned)' if each['chosen'] else ''}"
        yield from _lines_of(each, currency)
        yield from _rules_of(each, beside=bed not in beds)
        yield from _words_of(each)
        yield from (f"  not known: {said['words']}" for said in each["not_known"] if said["words"] not in of_all)
        beds.add(bed)
    for each in found["refused"]:
        yield ""
        yield f"{each['name']}: refused"
        stops = [finding["message"] for finding in each["findings"] if finding["severity"] == "stop"]
        yield from (f"  {words}" for words in (*each["faults"], *stops))


def _lines_of(each: dict[str, Any], currency: str) -> Iterator[str]:
    """Give the figures of a build-up; permeable paving has none."""
    if each["build_up_mm"] is None:
        return
    yield f"  build-up {each['build_up_mm']:g} mm; {_dig(each)}"
    yield f"  {_price(each, currency)}; {_mass(each)}; {_days(each)}"
    yield f"  {_carbon(each)}"
    yield from (f"  takes {change['path']} = {change['value']}" for change in each["changes"])


def _rules_of(each: dict[str, Any], *, beside: bool) -> Iterator[str]:
    """Give the rule that decides, and beside the first build-up on a bed what the others say."""
    for regime in each["regimes"]:
        if regime["decides"] or beside:
            yield f"  {'goes by' if regime['decides'] else 'beside it'} {regime['name']}: {regime['words']}"


def _words_of(each: dict[str, Any]) -> Iterator[str]:
    """Give what is noticed of a build-up and what is not in its figures."""
    stays = len(each["stays"])
    if stays:
        yield f"  {stays} {'stop stays' if stays == 1 else 'stops stay'} as it is planned now"
    yield from (f"  ends the stop: {finding['message']}" for finding in each["ends"])
    yield from (f"  {finding['severity']}: {finding['message']}" for finding in each["findings"])
    if each["in_one_price_only"] and not each["chosen"]:
        yield f"  has no price, and differs from what is planned: {'; '.join(each['in_one_price_only'])}"
    elif each["gaps"]:
        yield f"  not in its price: {'; '.join(each['gaps'])}"
    yield from (f"  {words}" for words in each["weak"])
    for why, names in _by_reason(each["no_factor"]).items():
        yield f"  not in its carbon, {why}: {'; '.join(names)}"


def _by_reason(gaps: Sequence[dict[str, Any]]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for gap in gaps:
        found.setdefault(gap["words"], []).append(gap["description"])
    return found


def _dig(each: dict[str, Any]) -> str:
    if each["dig_m3"] is None:
        return "dig not known"
    fill = f", {each['fill_m3']:.1f} m³ filled under formation" if each["fill_m3"] else ""
    return f"dig {each['dig_mm']:.0f} mm deep in the mean, {each['dig_m3']:.1f} m³ in the whole job{fill}"


def _price(each: dict[str, Any], currency: str) -> str:
    if each["total_minor"] is None:
        return "price not known"
    money = units.minor_to_text(each["total_minor"], currency)
    if not each["price_comparable"]:
        return f"price at least {money}, not to be compared: not all that differs is known and has a price"
    return f"price {'at least ' if each['at_least'] else ''}{money}"


def _mass(each: dict[str, Any]) -> str:
    if each["mass_t"] is None:
        return "mass not known"
    return f"{'at least ' if each['no_mass'] else ''}{each['mass_t']:.1f} t brought in"


def _days(each: dict[str, Any]) -> str:
    return "days not known" if each["days"] is None else f"{each['days']} days of work"


def _carbon(each: dict[str, Any]) -> str:
    if each["carbon_kg"] is None:
        return "carbon not known"
    low, likely, high = each["carbon_kg"]
    return f"carbon of what has a factor {low:.0f} to {high:.0f} kg, likely {likely:.0f} kg"
