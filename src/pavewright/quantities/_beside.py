"""What is bought for the work beside what is drawn: blades, spacers, fuel, permits, tests, by the list of assemblies.

What hangs on a fact that nobody said is asked: it is a gap of the price, never assumed either way.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from pavewright.job import Condition, DisposalKind, Driver, GullyState, OutfallKind, PackUnit
from pavewright.quantities._amounts import packs_ordered, with_allowance
from pavewright.quantities._counted_by import counts_of_days
from pavewright.quantities._dimensions import taken
from pavewright.quantities._keys import ItemGroup, Measure, of_catalogue
from pavewright.quantities._listed import listed
from pavewright.quantities._order import MEASURES
from pavewright.quantities._scope import Gap, GapReason, ScopeKey, ScopeKind, in_reading_order
from pavewright.quantities._sold_as import Holder, SoldAs, by_measure, holding
from pavewright.quantities._types import Item
from pavewright.sums import Working

if TYPE_CHECKING:
    from pavewright.job import CatalogueItem, Job
    from pavewright.quantities._counted_by import Counts, SiteDays
    from pavewright.quantities._dimensions import Dimension
    from pavewright.quantities._listed import Listed
    from pavewright.quantities._materials import Materials
    from pavewright.quantities._types import Quantities
    from pavewright.rules import Rulebook


@dataclass(slots=True)
class _Wanted:
    """One item of a catalogue: how much of it over all assemblies that take it.

    Attributes:
        first: The first assembly that takes it.
        net: Without loss. [in the unit of the first]
        gross: With it. [in the unit of the first]
        low: Lower end with it. [in the unit of the first]
        high: Upper end with it. [in the unit of the first]
        lines: Its lines in the dimension book.
        workings: The sums behind it.
    """

    first: Listed
    net: float = 0.0
    gross: float = 0.0
    low: float = 0.0
    high: float = 0.0
    lines: list[Dimension] = field(default_factory=list)
    workings: list[Working] = field(default_factory=list)


def beside_drawn(
    job: Job, rules: Rulebook, counts: Counts, materials: Materials | None = None, *, timed: bool = False
) -> tuple[list[Item], list[Gap]]:
    """Return what assemblies take as items of the catalogue, and what is asked.

    Args:
        job: The job.
        rules: The rulebook, with its list.
        counts: What each driver comes to; one that is not there is not known.
        materials: Takes the needs of assemblies that buy a material of the rates.
        timed: Whether those are meant that dates decide.
    """
    wanted: dict[str, _Wanted] = {}
    gaps: list[Gap] = []
    for one in listed(job, rules):
        if (one.per is not None and one.per.timed) is not timed:
            continue
        found = _taken(one, job, counts)
        if isinstance(found, Gap):
            gaps.append(found)
        elif found and one.material is not None and materials is not None:
            _into_rates(one, found, materials)
        elif found and one.unit is not None:
            have = wanted.setdefault(one.item, _Wanted(one))
            if have.first.unit is one.unit:
                _add(have, one, found)
            else:
                gaps.append(_asked(job, one, found, "it is counted in two units: give its assemblies one"))
    items = []
    for key, need in wanted.items():
        priced = next((each for each in job.rates.catalogue if each.key == key), None)
        if priced is not None and priced.pack_unit is not need.first.unit:
            words = f"it is sold by {priced.pack_unit.value} and counted by {need.first.unit}"
            gaps.append(_asked(job, need.first, tuple(need.lines), words))
        else:
            items.append(_item(key, need, priced, job))
    return items, gaps


def _taken(one: Listed, job: Job, counts: Counts) -> tuple[Dimension, ...] | Gap:
    """Return the lines by which an assembly is counted: none where it is not taken, a gap where nobody said."""
    if one.per is None or one.amount is None or one.unit is None:
        return _asked(job, one, (), "how much of it, in what and by what is not said")
    holds, lines = _holds(one.when, job), counts.get(one.per)
    if holds is False:
        return ()
    if lines is None:
        return _asked(job, one, (), _NOT_KNOWN.get(one.per, "what it is counted by is not known"))
    if not lines or one.high == 0.0:
        return ()
    return _asked(job, one, lines, _QUESTIONS[one.when]) if holds is None else lines


_NOT_KNOWN = {
    Driver.LOAD: "how many loads leave is not known",
    Driver.WORK_DAY: "the days of work are not known",
    Driver.WEEK: "the weeks of work are not known",
    Driver.PERSON_DAY: "the days of work are not known",
    Driver.FUEL_LITRE: "the days on hire are not known",
}
_QUESTIONS = {
    Condition.SKIP_ON_ROAD: "whether skips stand on the road is not said",
    Condition.PARKING_PAID: "whether parking is paid is not said",
    Condition.NO_WATER: "whether the customer's tap may be used is not said",
    Condition.NO_TOILET: "whether the crew may use a toilet of the house is not said",
    Condition.NEW_FRAMES: "whether covers get new frames or trays is not said",
    Condition.INFILTRATION_NOT_TESTED: "whether the ground was tested is not said",
    Condition.ALWAYS: "",
}


def _holds(when: Condition, job: Job) -> bool | None:
    """Return whether a condition holds; None where nobody said."""
    said, disposal = job.arrangements, job.rates.disposal
    no_skip = disposal is not None and disposal.kind is not DisposalKind.SKIP
    answers = {
        Condition.ALWAYS: True,
        Condition.SKIP_ON_ROAD: False if no_skip else said.skip_on_road,
        Condition.PARKING_PAID: said.parking_paid,
        Condition.NO_WATER: _not(said.water_on_site),
        Condition.NO_TOILET: _not(said.toilet_on_site),
        Condition.NEW_FRAMES: said.new_frames,
        Condition.INFILTRATION_NOT_TESTED: _untested(job),
    }
    return answers[when]


def _not(said: bool | None) -> bool | None:  # noqa: FBT001 - what was said
    return None if said is None else not said


def _untested(job: Job) -> bool:
    """Return whether a soakaway is built in ground that nobody tested."""
    pits = [
        each.soakaway
        for each in job.site.outfalls
        if each.kind is OutfallKind.SOAKAWAY and each.state is not GullyState.EXISTING
    ]
    return any(pit is None or (pit.pit_test is None and pit.infiltration_m_per_s is None) for pit in pits)


def _asked(job: Job, one: Listed, lines: tuple[Dimension, ...], why: str) -> Gap:
    return Gap(_scope(lines, job), GapReason.NOT_KNOWN, f"{one.name}: {why}", ours=True)


def _scope(lines: tuple[Dimension, ...], job: Job) -> tuple[ScopeKey, ...]:
    """Return what lines are for; all paving where they stand for the whole job."""
    named = frozenset(line.scope for line in lines if line.scope is not None)
    return in_reading_order(
        named or frozenset(ScopeKey(ScopeKind.PAVING, number) for number, _ in enumerate(job.areas))
    )


def _into_rates(one: Listed, lines: tuple[Dimension, ...], materials: Materials) -> None:
    """Add what an assembly takes of a material of the rates to the other needs of it."""
    assert one.material is not None  # noqa: S101 - asked before
    assert one.unit is not None  # noqa: S101 - asked before
    count = sum(line.amount for line in lines)
    need = materials.need(one.material, MEASURES[one.unit])
    need.take(_words(one, count), one, count, lines)


def _words(one: Listed, count: float) -> str:
    unit = MEASURES[one.unit] if one.unit is not None else ""
    return f"{one.name}: {count:.2f} × {one.amount:g} {unit}"


def _add(have: _Wanted, one: Listed, lines: tuple[Dimension, ...]) -> None:
    count = sum(line.amount for line in lines)
    likely = one.amount or 0.0
    have.net += count * likely
    have.gross += with_allowance(count * likely, one.lost_percent)
    have.low += with_allowance(count * one.low, one.lost_percent)
    have.high += with_allowance(count * one.high, one.lost_percent)
    measure = MEASURES[one.unit] if one.unit is not None else Measure.EACH
    have.lines += taken(lines, count * likely, measure)
    lost = f", with {one.lost_percent:g} % {with_allowance(count * likely, one.lost_percent):.3f}"
    words = f"{_words(one, count)} = {count * likely:.3f}{lost if one.lost_percent else ''}"
    have.workings.append(
        Working(words, with_allowance(count * likely, one.lost_percent), measure, one.figures, one.note)
    )


def _mass(amount: float, unit: Measure, priced: CatalogueItem | None) -> float | None:
    """Return the mass of so much of an item; None where nobody said what one of it weighs. [kg]."""
    if unit is Measure.KG:
        return amount
    return None if priced is None or priced.kg_per_unit is None else amount * priced.kg_per_unit


def _item(key: str, need: _Wanted, priced: CatalogueItem | None, job: Job) -> Item:
    """Return an item of the catalogue, in packs as it is sold; pieces are whole ones."""
    unit = MEASURES[need.first.unit or PackUnit.EACH]
    pack = priced.pack_amount if priced is not None else (1.0 if unit is Measure.EACH else None)
    fewest = priced.min_packs if priced is not None else None
    ordered = need.gross if pack is None else float(packs_ordered(need.gross, pack, fewest))
    amount = ordered * (pack or 1.0)
    if pack is None or (pack == 1.0 and unit is Measure.EACH):
        sold = by_measure(unit)
    else:
        sold = SoldAs(Holder.PACK, f"{pack:g}" if unit is Measure.EACH else holding(pack, unit))
    return Item(
        key=of_catalogue(key),
        group=ItemGroup.SUNDRIES,
        description=priced.name if priced is not None else need.first.name,
        unit=unit,
        net=need.net,
        allowance_percent=100.0 * (need.gross / need.net - 1.0) if need.net else 0.0,
        gross=need.gross,
        ordered=ordered,
        sold_as=sold,
        ordered_amount=amount,
        low=need.low if need.low != need.high else None,
        high=need.high if need.low != need.high else None,
        workings=tuple(need.workings),
        kg=_mass(amount, unit, priced),
        scope=_scope(tuple(need.lines), job),
        dimensions=tuple(need.lines),
    )


def with_days(job: Job, quantities: Quantities, days: SiteDays | None, rules: Rulebook) -> Quantities:
    """Return quantities with what dates decide: fuel, parking, a toilet; asked for where there are no dates."""
    burnt = rules.table("assemblies.fuel")
    fuel = {row.key: burnt.figure(row.key, "likely_litre") for row in burnt.rows}
    share = rules.figure("assemblies.running_share")
    counts: Counts = {} if days is None else counts_of_days(job, days, fuel, share)
    items, gaps = beside_drawn(job, rules, counts, timed=True)
    return replace(quantities, items=(*quantities.items, *items), gaps=(*quantities.gaps, *gaps))
