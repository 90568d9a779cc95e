#!/usr/bin/env python3
"""Print what the pack of the demo takes, paper by paper, and how it grows with the number of pieces.

Time of the clock is that of this machine as busy as it is; processor time holds the child that draws too. The ratio
beside each larger job is its time over that of the first, over the same ratio of their pieces: 1 is linear growth.

python tools/benchmark_papers.py
"""

from __future__ import annotations

import json
import resource
import time
from pathlib import Path

import click

from pavewright.desk import demo_document, make_pack, make_plan
from pavewright.papers import PAPERS, PaperKey, pack
from pavewright.rulebook import load

ROOT = Path(__file__).resolve().parent.parent
SHARES = (1.0, 0.7, 0.5, 0.35)
"""Sizes of the units of the larger jobs, as parts of those of the first."""


def _spent() -> float:
    every = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(each.ru_utime + each.ru_stime for each in every)


def _job(share: float) -> str:
    """Return a patio with units of a part of their size."""
    document = json.loads((ROOT / "tests" / "patio.json").read_text("utf-8"))
    for unit in document["units"]:
        for side in ("length_mm", "width_mm"):
            unit[side] = round(unit[side] * share)
        unit["kg_each"] = round(unit["kg_each"] * share**2, 2)
    return json.dumps(document)


@click.command()
def main() -> None:
    """Print both."""
    plan = make_plan(demo_document())
    rules = load(plan.edition)
    make_pack(plan)
    begun, spent = time.perf_counter(), _spent()
    make_pack(plan)
    click.echo(f"pack of the demo, warm: {time.perf_counter() - begun:.2f} s, processor {_spent() - spent:.2f} s")
    for key in dict.fromkeys(kind.key for kind in PAPERS):
        spent = _spent()
        made = pack(plan, rules, only=frozenset({PaperKey(key)}))
        if made:
            click.echo(f"  {key:16} processor {_spent() - spent:.2f} s")
    first: tuple[int, float] | None = None
    for share in SHARES:
        larger = make_plan(_job(share))
        pieces = sum(len(each.pieces) for each in larger.laying.areas)
        make_pack(larger)
        spent = _spent()
        make_pack(larger)
        took = _spent() - spent
        first = first or (pieces, took)
        ratio = (took / first[1]) / (pieces / first[0])
        click.echo(f"{pieces:6} pieces: processor {took:.2f} s, growth {ratio:.2f}")


if __name__ == "__main__":
    main()
