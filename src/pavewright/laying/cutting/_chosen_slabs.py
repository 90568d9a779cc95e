"""The programme of slabs to be chosen."""

from __future__ import annotations

import highspy
import numpy as np


def whole_columns(counts: np.ndarray, cost: np.ndarray, demand: np.ndarray, *, whole: bool) -> highspy.HighsLp:
    """Return the programme: the cheapest ways, each as often as is wanted, that cut every part.

    Args:
        counts: Parts of each kind that a way cuts, shape (ways, kinds).
        cost: Cost of each way, shape (ways,).
        demand: Parts wanted of each kind, shape (kinds,).
        whole: Whether a way is taken in whole slabs only.
    """
    ways, kinds = counts.shape
    model = highspy.HighsLp()
    model.num_col_, model.num_row_ = ways, kinds
    model.col_cost_ = cost.astype(np.float64)
    model.col_lower_ = np.zeros(ways)
    model.col_upper_ = np.full(ways, float(demand.max()))
    model.row_lower_ = demand.astype(np.float64)
    model.row_upper_ = np.full(kinds, highspy.kHighsInf)
    way, kind = np.nonzero(counts)
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    model.a_matrix_.start_ = np.searchsorted(way, np.arange(ways + 1)).astype(np.int32)
    model.a_matrix_.index_ = kind.astype(np.int32)
    model.a_matrix_.value_ = counts[way, kind].astype(np.float64)
    if whole:
        model.integrality_ = [highspy.HighsVarType.kInteger] * ways
    return model
