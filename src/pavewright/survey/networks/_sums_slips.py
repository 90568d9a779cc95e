"""Sums of networks: which distances are slips, and levels from differences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey.networks._level_network import LevelDifference, UnreachedLevelError, adjust_levels
from pavewright.survey.networks._slips import find_slips, normal_limit, tau_limit
from pavewright.survey.networks._sums_network import NETWORK_INPUTS, fit, network_inputs, refused_in_words

if TYPE_CHECKING:
    from pavewright.survey.networks._slips import Slips

_WHOLE = 100.0


def tape_slips(
    points: tuple[str, ...],
    x_mm: tuple[float, ...],
    y_mm: tuple[float, ...],
    fixed: tuple[str, ...],
    starts: tuple[str, ...],
    ends: tuple[str, ...],
    lengths_mm: tuple[float, ...],
    sds_mm: tuple[float, ...],
    chance_percent: float,
    deviations: str,
) -> dict[str, Value]:
    """Return the distances that the others contradict, taken out one at a time.

    Source: baarda_testing for known deviations, pope_tau for unknown ones
    """
    if deviations not in {"known", "unknown"}:
        message = "deviations are known or unknown."
        raise SumRefusedError(message)
    if not 0.0 < chance_percent < _WHOLE:
        message = "chance_percent lies between 0 and 100."
        raise SumRefusedError(message)
    places, freedom, lines = network_inputs(points, x_mm, y_mm, fixed, starts, ends, lengths_mm, sds_mm)
    own, chance = deviations == "unknown", chance_percent / _WHOLE
    with refused_in_words():
        found = find_slips(places, freedom, lines, chance, own_scatter=own, free=not fixed)
    return _told(found, starts, ends, tuple(name for name in points if name not in fixed), chance, own=own)


def _told(
    found: Slips, starts: tuple[str, ...], ends: tuple[str, ...], free: tuple[str, ...], chance: float, *, own: bool
) -> dict[str, Value]:
    left = found.adjustment
    names = tuple(f"{starts[slip.number]}-{ends[slip.number]}" for slip in found.slips)
    alike = found.slips[-1].alike if found.slips else ()
    limit = 0.0
    if left.spare > 0:
        limit = tau_limit(chance, left.spare) if own else normal_limit(chance)
    return {
        "slips": names,
        "sizes_mm": tuple(slip.size for slip in found.slips),
        "standardised": tuple(slip.standardised for slip in found.slips),
        "alike": tuple(f"{starts[number]}-{ends[number]}" for number in alike) if len(alike) > 1 else (),
        "limit": limit,
        "spare": float(left.spare),
        "ratio": () if left.ratio is None else (left.ratio,),
        "adjusted_x_mm": tuple(left.places[name][0] for name in free),
        "adjusted_y_mm": tuple(left.places[name][1] for name in free),
    }


def level_network(
    held: tuple[str, ...],
    held_mm: tuple[float, ...],
    starts: tuple[str, ...],
    ends: tuple[str, ...],
    higher_mm: tuple[float, ...],
    sds_mm: tuple[float, ...],
    confidence_percent: float,
) -> dict[str, Value]:
    """Return levels from differences by least squares.

    Source: network_examples
    """
    sds = sds_mm * len(starts) if len(sds_mm) == 1 else sds_mm
    if len(held) != len(held_mm) or len({len(starts), len(ends), len(higher_mm), len(sds)}) > 1 or not starts:
        message = "Give every held point a level, and every difference a start, an end, a height and a deviation."
        raise SumRefusedError(message)
    if min(sds) <= 0.0 or any(start == end for start, end in zip(starts, ends, strict=True)):
        message = "Every difference runs between two points, and its standard deviation is more than zero."
        raise SumRefusedError(message)
    rows = zip(starts, ends, higher_mm, sds, strict=True)
    try:
        found = adjust_levels(dict(zip(held, held_mm, strict=True)), [LevelDifference(*row) for row in rows])
    except UnreachedLevelError as unreached:
        message = (
            f"Nothing leads from {', '.join(map(str, unreached.points))} to a held level: measure one more difference."
        )
        raise SumRefusedError(message) from None
    free = tuple(found.sds_mm)
    band, scale, verdict = fit(found.ratio, found.spare, confidence_percent / _WHOLE)
    return {
        "points": tuple(map(str, free)),
        "levels_mm": tuple(found.levels_mm[name] for name in free),
        "level_sds_mm": tuple(scale * found.sds_mm[name] for name in free),
        "residuals_mm": found.residuals_mm,
        "redundancy": found.redundancy,
        "squares": found.weighted_squares,
        "spare": float(found.spare),
        "ratio": () if found.ratio is None else (found.ratio,),
        "ratio_band": band,
        "sd_of_one_mm": () if found.ratio is None else (found.ratio * sds[0],),
        "verdict": verdict,
    }


SLIP_SUMS: tuple[Sum, ...] = (
    Sum(
        "tape-slips",
        "Find wrong distances in a small network, one at a time",
        (
            *NETWORK_INPUTS,
            Quantity("chance_percent", "%", "chance of a false alarm for each distance", default=0.1),
            Quantity("deviations", "", "known, or unknown and taken from the fit", "word", default="known"),
        ),
        (
            Quantity("slips", "", "distances taken out, in turn", "words"),
            Quantity("sizes_mm", "mm", "how much too long each was", "numbers"),
            Quantity("standardised", "", "residual over its own standard deviation when it was taken out", "numbers"),
            Quantity("alike", "", "distances among which the last cannot be placed", "words"),
            Quantity("limit", "", "what a standardised residual may reach by chance, at the end"),
            Quantity("spare", "", "spare distances at the end"),
            Quantity("ratio", "", "standard deviation after over before, at the end", "numbers"),
            Quantity("adjusted_x_mm", "mm", "x of every point that was not fixed, at the end", "numbers"),
            Quantity("adjusted_y_mm", "mm", "y of the same", "numbers"),
        ),
        "largest |v| / (σ √r) out, adjust again, until none is over its limit",
        "baarda_testing",
        tape_slips,
    ),
    Sum(
        "level-network",
        "Adjust differences of level by least squares",
        (
            Quantity("held", "", "points whose level stands fast", "words"),
            Quantity("held_mm", "mm", "their levels", "numbers"),
            Quantity("starts", "", "point at one end of every difference", "words"),
            Quantity("ends", "", "point at the other end", "words"),
            Quantity("higher_mm", "mm", "how much higher the end is", "numbers"),
            Quantity("sds_mm", "mm", "standard deviation of every difference, or one for all", "numbers"),
            Quantity("confidence_percent", "%", "how sure the test is to be", figure="survey.confidence_percent"),
        ),
        (
            Quantity("points", "", "points that were not held, as they come in the differences", "words"),
            Quantity("levels_mm", "mm", "their levels", "numbers"),
            Quantity("level_sds_mm", "mm", "their standard deviations, from the fit", "numbers"),
            Quantity("residuals_mm", "mm", "adjusted less measured", "numbers"),
            Quantity("redundancy", "", "how far the others check each difference, 0 to 1", "numbers"),
            Quantity("squares", "", "squares of residuals over their standard deviations, added up"),
            Quantity("spare", "", "spare differences"),
            Quantity("ratio", "", "standard deviation after over before; empty with none to spare", "numbers"),
            Quantity("ratio_band", "", "band that chance explains", "numbers"),
            Quantity("sd_of_one_mm", "mm", "standard deviation of the first difference, from the fit", "numbers"),
            Quantity("verdict", "", "whether the differences agree", "word"),
        ),
        "smallest Σ(residual / standard deviation)²",
        "network_examples",
        level_network,
    ),
)
