"""Sum of the film of water that runs over paving."""

from __future__ import annotations

from pavewright import units
from pavewright.sums import Quantity, Sum, SumRefusedError, Value
from pavewright.water.drains._hydraulics import G_M_PER_S2, sheet_depth_m, time_to_steady_s


def film_on_paving(run_mm: float, one_in: float, rain_mm_per_h: float, n: float) -> dict[str, Value]:
    """Return the film of water at the end of a run of paving, and when it is steady.

    Source: kinematic_wave
    """
    if min(run_mm, one_in, rain_mm_per_h, n) <= 0.0:
        message = "Run, n of 1 in n, rain and Manning's n are all more than zero."
        raise SumRefusedError(message)
    rain = units.mm_to_m(rain_mm_per_h) / units.SECONDS_PER_HOUR
    run = units.mm_to_m(run_mm)
    depth = sheet_depth_m(n, rain, run, 1.0 / one_in)
    flow = rain * run
    velocity = flow / depth
    froude2 = velocity * velocity / (G_M_PER_S2 * depth)
    return {
        "depth_mm": units.m_to_mm(depth),
        "steady_after_s": time_to_steady_s(n, rain, run, 1.0 / one_in),
        "flow_l_s_per_m": flow * units.LITRES_PER_M3,
        "kinematic_number": run / one_in / (depth * froude2),
    }


FILM_SUMS: tuple[Sum, ...] = (
    Sum(
        "film-on-paving",
        "Find the film of water at the end of a run of paving",
        (
            Quantity("run_mm", "mm", "run along the fall"),
            Quantity("one_in", "", "n of 1 in n"),
            Quantity("rain_mm_per_h", "mm/h", "rain", default=50.4, figure="water.rain_mm_per_h"),
            Quantity("n", "", "Manning's n of a film: 0.012 to 0.03", default=0.02, figure="water.film_n"),
        ),
        (
            Quantity("depth_mm", "mm", "film at the end of the run"),
            Quantity("steady_after_s", "s", "time until it is steady"),
            Quantity("flow_l_s_per_m", "l/s", "flow over each metre of edge"),
            Quantity("kinematic_number", "", "above 10 the sum holds"),
        ),
        "h = (n·i·L / √S)^(3/5)",
        "kinematic_wave",
        film_on_paving,
    ),
)
