"""The solver of linear and whole-number programmes: quiet, and the same on every run."""

from __future__ import annotations

import highspy


class _Quiet(highspy.Highs):
    """The solver without its callbacks: setting those up writes a banner to the console."""

    def __init__(self) -> None:
        super(highspy.Highs, self).__init__()


def quiet_solver() -> highspy.Highs:
    """Return a solver that writes nothing, on one thread, with its seed given."""
    solver = _Quiet()
    for option, value in (("output_flag", False), ("threads", 1), ("random_seed", 0)):
        solver.setOptionValue(option, value)
    return solver
