"""What the program says at hold points, for the scripts of the page on site."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.as_laid import TRUSTED
from pavewright.hold_points import off_limit
from pavewright.hold_points._drains import fall_read, fall_verdict
from pavewright.hold_points._take_up import consequence
from pavewright.hold_points._types import GoodsRate, TakeUp, TakeUpRate
from pavewright.hold_points._volumes import mean_volumes
from pavewright.job import MaterialKind
from pavewright.quantities import Measure

if TYPE_CHECKING:
    import random


def holds(chance: random.Random) -> dict[str, Any]:
    """Return verdicts on both sides of limits, volumes of readings, what they take, and falls of drains."""
    limits = [(0.0, 25.0), (5.0, 10.0), (15.0, 15.0)]
    offs = [0.0, -25.0, 5.0, -10.0, 15.0] + [round(chance.uniform(-45.0, 30.0), 1) for _ in range(15)]
    rates = [_rate(minor=12_000.0, hours=1.2), _rate(minor=None, hours=None)]
    return {
        "trusted": TRUSTED,
        "on_limits": [
            {"off_mm": off, "above_mm": above, "below_mm": below, "sd_mm": sd,
             "verdict": off_limit(off, above, below, sd)}
            for above, below in limits for off in offs for sd in (0.0, 1.5, 3.0)
        ],
        "volumes": [_volumes(chance, count) for count in (1, 2, 5, 12)],
        "takes": [_takes(rate, m3) for rate in rates for m3 in (0.3, 2.75)],
        "falls": [_fall(chance) for _ in range(12)],
    }  # fmt: skip


def _volumes(chance: random.Random, count: int) -> dict[str, Any]:
    offs = [round(chance.uniform(-30.0, 12.0), 1) for _ in range(count)]
    found = mean_volumes(31.5, offs, 3.0)
    return {"area_m2": 31.5, "offs_mm": offs, "sd_mm": 3.0, "low_m3": found.low_m3, "high_m3": found.high_m3,
            "mean_mm": found.mean_mm, "doubt_m3": found.doubt_m3}  # fmt: skip


def _rate(*, minor: float | None, hours: float | None) -> TakeUpRate:
    goods = (
        GoodsRate(MaterialKind.CEMENT, 301.0, Measure.KG, 25.0, None if minor is None else 7700.0),
        GoodsRate(MaterialKind.SHARP_SAND, 2006.0, Measure.KG, None, None),
    )
    return TakeUpRate(TakeUp.BED, None, goods, hours, minor, 1.4)


def _takes(rate: TakeUpRate, m3: float) -> dict[str, Any]:
    found = consequence(rate, m3, mean_volumes(30.0, [-1000.0 * m3 / 30.0] * 2, 0.0), 30.0, 16.0)
    assert found is not None  # noqa: S101 - there is a volume and a rate
    told = {"goods": [{"material": each.material, "per_m3": each.per_m3, "unit": each.unit, "in_pack": each.in_pack}
                      for each in rate.goods],
            "hours_per_m3": rate.hours_per_m3, "minor_per_m3": rate.minor_per_m3,
            "loose_per_m3": rate.loose_per_m3}  # fmt: skip
    return {"rate": told, "m3": m3, "day_h": 16.0, "amounts": [each.amount for each in found.goods],
            "packs": [each.packs for each in found.goods], "hours": found.hours, "minor": found.minor,
            "days": found.days, "loose_m3": found.loose_m3}  # fmt: skip


def _fall(chance: random.Random) -> dict[str, Any]:
    run, down = round(chance.uniform(1500.0, 9000.0)), round(chance.uniform(-10.0, 130.0))
    fall, sd = fall_read(float(down), 0.0, float(run), 2.0)
    return {"head_mm": down, "foot_mm": 0, "run_mm": run, "sd_mm": 2.0, "min_fall": 0.0125, "fall": fall, "sd": sd,
            "verdict": fall_verdict(fall, sd, 0.0125)}  # fmt: skip
