"""The sum for a small network of distances."""

from __future__ import annotations

import math
from contextlib import contextmanager
from typing import TYPE_CHECKING

from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.survey.networks._adjustment import LooseNetworkError, UnsettledNetworkError, adjust_network
from pavewright.survey.networks._chi_square import ratio_band
from pavewright.survey.networks._observations import Distance

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.geometry import XY
    from pavewright.survey.networks._adjustment import Adjustment

_MAX_POINTS = 60
_MAX_TAPES = 400
_WHOLE = 100.0


def tape_network(
    points: tuple[str, ...],
    x_mm: tuple[float, ...],
    y_mm: tuple[float, ...],
    fixed: tuple[str, ...],
    starts: tuple[str, ...],
    ends: tuple[str, ...],
    lengths_mm: tuple[float, ...],
    sds_mm: tuple[float, ...],
    confidence_percent: float,
) -> dict[str, Value]:
    """Return a network of distances adjusted by least squares.

    Source: network_examples
    """
    places, freedom, lines = network_inputs(points, x_mm, y_mm, fixed, starts, ends, lengths_mm, sds_mm)
    free = tuple(freedom)
    if not 0.0 < confidence_percent < _WHOLE:
        message = "confidence_percent lies between 0 and 100."
        raise SumRefusedError(message)
    with refused_in_words():
        found = adjust_network(places, freedom, lines, free=not fixed)
    return _answers(found, free, lines, confidence_percent)


@contextmanager
def refused_in_words() -> Iterator[None]:
    """Refuse a sum in words where its network is loose or does not settle."""
    try:
        yield
    except LooseNetworkError as loose:
        message = (
            f"Nothing holds {', '.join(loose.points)}: give one more distance to it, well from the side, or fix it."
        )
        raise SumRefusedError(message) from None
    except UnsettledNetworkError:
        message = "The distances are too far from agreeing to make one plan: check between which points they run."
        raise SumRefusedError(message) from None


def fit(ratio: float | None, spare: int, confidence: float) -> tuple[tuple[float, ...], float, str]:
    """Return the band that chance explains, what deviations grow by, and the verdict on a ratio of deviations."""
    if ratio is None:
        return (), 1.0, "nothing checks this"
    low, high = ratio_band(spare, confidence)
    return (low, high), ratio, "as chance would have it" if low <= ratio <= high else "outside the band"


def network_inputs(
    points: tuple[str, ...],
    x_mm: tuple[float, ...],
    y_mm: tuple[float, ...],
    fixed: tuple[str, ...],
    starts: tuple[str, ...],
    ends: tuple[str, ...],
    lengths_mm: tuple[float, ...],
    sds_mm: tuple[float, ...],
) -> tuple[dict[str, XY], dict[str, tuple[XY, ...]], tuple[Distance, ...]]:
    """Return places, freedom and distances of a network; with no fixed point every point is free."""
    sds = sds_mm * len(lengths_mm) if len(sds_mm) == 1 else sds_mm
    _refuse_unless_matching(points, (x_mm, y_mm), fixed, (starts, ends, lengths_mm, sds))
    places = dict(zip(points, zip(x_mm, y_mm, strict=True), strict=True))
    freedom: dict[str, tuple[XY, ...]] = {name: ((1.0, 0.0), (0.0, 1.0)) for name in points if name not in fixed}
    rows = zip(starts, ends, lengths_mm, sds, strict=True)
    return places, freedom, tuple(Distance(*row) for row in rows)


def _refuse_unless_matching(
    points: tuple[str, ...],
    coordinates: tuple[tuple[float, ...], ...],
    fixed: tuple[str, ...],
    columns: tuple[tuple[str, ...], tuple[str, ...], tuple[float, ...], tuple[float, ...]],
) -> None:
    """Refuse columns of unequal length, unknown points, lengths and deviations of nothing."""
    starts, ends, lengths, sds = columns
    stray = [name for name in (*fixed, *starts, *ends) if name not in points]
    message = ""
    if len(set(points)) < len(points) or len({len(points), *(len(row) for row in coordinates)}) > 1:
        message = "Give every point once, with a first x and y each."
    elif stray:
        message = f"{stray[0]} is not in the list of points."
    elif len({len(column) for column in columns}) > 1:
        message = "Give every distance a start, an end, a length and a standard deviation (one for all will do)."
    elif min((*lengths, *sds), default=0.0) <= 0.0 or any(s == e for s, e in zip(starts, ends, strict=True)):
        message = "Every distance runs between two points and is longer than zero; so is its standard deviation."
    elif len(points) > _MAX_POINTS or len(lengths) > _MAX_TAPES:
        message = f"This sum takes up to {_MAX_POINTS} points and {_MAX_TAPES} distances."
    elif set(points) <= set(fixed):
        message = "Every point is fixed: leave at least one to be found."
    if message:
        raise SumRefusedError(message)


def _answers(
    found: Adjustment, free: tuple[str, ...], lines: tuple[Distance, ...], confidence_percent: float
) -> dict[str, Value]:
    ratio = found.ratio
    band, scale, verdict = fit(ratio, found.spare, confidence_percent / _WHOLE)
    return {
        "adjusted_x_mm": tuple(found.places[name][0] for name in free),
        "adjusted_y_mm": tuple(found.places[name][1] for name in free),
        "sd_x_mm": tuple(scale * math.sqrt(float(found.spreads[name][0, 0])) for name in free),
        "sd_y_mm": tuple(scale * math.sqrt(float(found.spreads[name][1, 1])) for name in free),
        "adjusted_mm": found.adjusted_mm,
        "residuals_mm": found.residuals_mm,
        "redundancy": found.redundancy,
        "squares_mm2": math.fsum(residual**2 for residual in found.residuals_mm),
        "standardised": tuple(
            residual / (line.sd_mm * math.sqrt(part)) if part > _NOTHING else 0.0
            for residual, part, line in zip(found.residuals_mm, found.redundancy, lines, strict=True)
        ),
        "spare": float(found.spare),
        "ratio": () if ratio is None else (ratio,),
        "ratio_band": band,
        "sd_of_one_mm": () if ratio is None else (ratio * lines[0].sd_mm,),
        "verdict": verdict,
    }


_NOTHING = 1e-9

NETWORK_INPUTS = (
    Quantity("points", "", "names of all points", "words"),
    Quantity("x_mm", "mm", "first x of every point", "numbers"),
    Quantity("y_mm", "mm", "first y of every point", "numbers"),
    Quantity("fixed", "", "names of the points that stand fast; none for a free network", "words"),
    Quantity("starts", "", "point at one end of every distance", "words"),
    Quantity("ends", "", "point at the other end", "words"),
    Quantity("lengths_mm", "mm", "distances", "numbers"),
    Quantity("sds_mm", "mm", "standard deviation of every distance, or one for all", "numbers"),
)

NETWORK_SUMS: tuple[Sum, ...] = (
    Sum(
        "tape-network",
        "Adjust a small network of distances by least squares",
        (
            *NETWORK_INPUTS,
            Quantity("confidence_percent", "%", "how sure the test is to be", figure="survey.confidence_percent"),
        ),
        (
            Quantity("adjusted_x_mm", "mm", "x of every point that was not fixed, in their order", "numbers"),
            Quantity("adjusted_y_mm", "mm", "y of the same", "numbers"),
            Quantity("sd_x_mm", "mm", "standard deviation of x, from the fit", "numbers"),
            Quantity("sd_y_mm", "mm", "standard deviation of y, from the fit", "numbers"),
            Quantity("adjusted_mm", "mm", "distances after adjustment", "numbers"),
            Quantity("residuals_mm", "mm", "adjusted less measured", "numbers"),
            Quantity("redundancy", "", "how far the others check each distance, 0 to 1", "numbers"),
            Quantity("squares_mm2", "mm2", "residuals squared and added up, all weighed alike"),
            Quantity("standardised", "", "residual over its own standard deviation; 0 where nothing checks", "numbers"),
            Quantity("spare", "", "spare distances"),
            Quantity("ratio", "", "standard deviation after over before; empty with none to spare", "numbers"),
            Quantity("ratio_band", "", "band that chance explains", "numbers"),
            Quantity("sd_of_one_mm", "mm", "standard deviation of the first distance, from the fit", "numbers"),
            Quantity("verdict", "", "whether the distances agree", "word"),
        ),
        "smallest Σ(residual / standard deviation)²",
        "network_examples",
        tape_network,
    ),
)
