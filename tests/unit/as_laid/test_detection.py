"""Standing water that is found, missed and wrongly told on simulated paving: it may not get worse than the table says."""

from __future__ import annotations

import importlib.util
import re
import sys
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.as_laid.standing import standing_figures

ROOT = Path(__file__).parents[3]
_SPEC = importlib.util.spec_from_file_location("detection_curves", ROOT / "tools" / "detection_curves.py")
assert _SPEC is not None
assert _SPEC.loader is not None
curves = importlib.util.module_from_spec(_SPEC)
sys.modules[_SPEC.name] = curves  # its data classes look themselves up there
_SPEC.loader.exec_module(curves)
FIGURES = standing_figures(rulebook.load("england"))


@pytest.mark.slow
def test_water_on_well_read_paving_is_found_and_none_is_made_up():
    found = curves.shares(curves.Setting(80.0, 1.0, 700.0), 12, FIGURES)
    assert found.with_water >= 3
    assert found.found >= 0.75
    assert found.called_clear == 0.0
    assert found.dry >= 3
    assert found.false == 0.0


@pytest.mark.slow
def test_found_missed_and_false_are_no_worse_over_many_trials():
    near = curves.shares(curves.Setting(80.0, 1.0, 500.0), 16, FIGURES)
    wide = curves.shares(curves.Setting(80.0, 1.0, 1000.0), 16, FIGURES)
    rough = curves.shares(curves.Setting(80.0, 3.0, 1000.0), 16, FIGURES)
    assert near.found >= 0.95
    assert wide.found >= 0.75
    assert near.found >= wide.found >= rough.found
    assert near.called_clear == rough.called_clear == 0.0
    assert wide.called_clear == 0.0
    assert max(near.false, wide.false, rough.false) <= 0.05
    assert abs(near.mean_chance - near.share_wet) < 0.08


def test_the_table_of_the_manual_has_a_row_for_every_setting():
    text = (ROOT / "docs" / "standing-water-found.md").read_text("utf-8")
    rows = [line for line in text.splitlines() if line.startswith("| 1 in ")]
    assert len(rows) == len(curves.SETTINGS)
    for row, setting in zip(rows, curves.SETTINGS, strict=True):
        cells = [cell.strip() for cell in row.strip("|").split("|")]
        assert cells[:3] == [f"1 in {setting.one_in:g}", f"{setting.reading_sd_mm:g}", f"{setting.apart_mm / 1000.0:g}"]
        assert all(re.fullmatch(r"\d+|–", cell) for cell in cells[3:])
