"""Linear programmes in HiGHS: rows and columns in, an optimum or "cannot be met" out."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import highspy
import numpy as np

from pavewright.solver import quiet_solver

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.levels.design._rule import Rule


@dataclass(frozen=True, slots=True)
class Row:
    """One row: low ≤ Σ coefficient · column ≤ high.

    Attributes:
        rule: The rule that it belongs to; None where it is arithmetic only.
        terms: Coefficient of each column, each column once. [unit of the row over that of the column]
        low: Lower end; minus infinity where there is none. [unit of the row]
        high: Upper end; infinity where there is none. [unit of the row]
        yields: Unit of give in this row when its rule gives way: 1 for millimetres, a run for a fall; 0 if it never
            gives. [unit of the row over that of the give]
    """

    rule: Rule | None
    terms: tuple[tuple[int, float], ...]
    low: float
    high: float
    yields: float = 0.0


@dataclass(slots=True)
class Programme:
    """Columns with cost and bounds, and rows over them.

    Attributes:
        cost: Cost of one unit of each column. [unit of the cost over that of the column]
        low: Lower bound of each column. [unit of the column]
        high: Upper bound of each column. [unit of the column]
        whole: Columns that take whole numbers only.
        rows: The rows.
    """

    cost: list[float] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)

    def column(self, cost: float = 0.0, low: float = -math.inf, high: float = math.inf, *, whole: bool = False) -> int:
        """Add a column and return its number.

        Args:
            cost: Cost of one unit of it. [unit of the cost over that of the column]
            low: Lower bound. [unit of the column]
            high: Upper bound. [unit of the column]
            whole: Whether it takes whole numbers only.
        """
        self.cost.append(cost)
        self.low.append(low)
        self.high.append(high)
        number = len(self.cost) - 1
        if whole:
            self.whole.append(number)
        return number

    def row(self, rule: Rule | None, terms: Mapping[int, float], low: float, high: float, yields: float = 0.0) -> None:
        """Add a row; terms that are zero are left out.

        Args:
            rule: The rule that it belongs to; None where it is arithmetic only.
            terms: Coefficient of each column. [unit of the row over that of the column]
            low: Lower end. [unit of the row]
            high: Upper end. [unit of the row]
            yields: As in ``Row``. [unit of the row over that of the give]
        """
        kept = tuple([term for term in terms.items() if term[1] != 0.0])
        self.rows.append(Row(rule, kept, low, high, yields))


def solve(programme: Programme) -> np.ndarray | None:
    """Return the columns at the optimum, shape (n,), float64; None where no point keeps all rows.

    Args:
        programme: Cost, bounds and rows.

    Raises:
        RuntimeError: the solver refused the model or stopped for another reason, which is a fault of the program.
    """
    solver = quiet_solver()
    solver.setOptionValue("mip_rel_gap", 0.0)
    accepted = solver.passModel(_model(programme))
    if accepted == highspy.HighsStatus.kError:
        message = "the linear programme was refused"
        raise RuntimeError(message)
    solver.run()
    status = solver.getModelStatus()
    if status in {highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible}:
        return None
    if status != highspy.HighsModelStatus.kOptimal:
        message = f"the linear programme stopped: {solver.modelStatusToString(status)}"
        raise RuntimeError(message)
    return np.array(solver.getSolution().col_value, dtype=np.float64)


def _model(programme: Programme) -> highspy.HighsLp:
    columns = len(programme.cost)
    terms = [term for row in programme.rows for term in row.terms]
    starts = np.cumsum([0, *(len(row.terms) for row in programme.rows)])
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = columns, len(programme.rows)
    model.col_cost_ = np.array(programme.cost)
    model.col_lower_, model.col_upper_ = _ends(programme.low), _ends(programme.high)
    model.row_lower_ = _ends([row.low for row in programme.rows])
    model.row_upper_ = _ends([row.high for row in programme.rows])
    model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    model.a_matrix_.start_ = starts.astype(np.int32)
    model.a_matrix_.index_ = np.array([number for number, _ in terms], dtype=np.int32)
    model.a_matrix_.value_ = np.array([coefficient for _, coefficient in terms])
    if programme.whole:
        kinds = [highspy.HighsVarType.kContinuous] * columns
        for number in programme.whole:
            kinds[number] = highspy.HighsVarType.kInteger
        model.integrality_ = kinds
    return model


def _ends(values: list[float]) -> np.ndarray:
    return np.clip(np.array(values, dtype=np.float64), -highspy.kHighsInf, highspy.kHighsInf)
