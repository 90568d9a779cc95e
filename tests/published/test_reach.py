"""Which sourced formulas of a plan no published case reaches: they are named here, and the list may only shrink."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

from pavewright.units import fall_to_one_in_n

_SPEC = importlib.util.spec_from_file_location("reach", Path(__file__).parents[2] / "tools" / "reach.py")
assert _SPEC is not None
assert _SPEC.loader is not None
reach = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(reach)

# run as machine code, which nothing sees running; held to a plain twin in the tests of flow
MACHINE = {"flow._fill_kernel.flood", "flow._catchment_kernel.ways"}
# held to printed optima in tests/cases/cutting_optima.json, not by a sum
OPTIMA = {
    f"laying.cutting.{name}"
    for name in (
        "_bound.min_cost _bound.min_slabs _check.check_saw_plan _cut_order.through_cuts _inner_box.inner_box "
        "_left_overs.left_overs_of _pairs.pairs_of _plan.saw_plan"
    ).split()
}
# geometry and methods of our own or of a paper without a worked example: held to twins, properties or cases marked D
OWN = set(
    """
    cost._hire_lines.hire_period
    earthworks._strip.stripped_volumes
    flow._catchments.catchments flow._fill.fill
    geometry._folded.split geometry._overlay.joined geometry._overlay.shared geometry._overlay.without
    geometry._prisms._split geometry._prisms.prism_volumes geometry._surface.triangulate
    laying.edges._fold_cuts.across_fold laying.edges._under_steps.footprint
    laying.mixed._check.band_max laying.mixed._sums_mixed.pack_coverage
    laying.patterns._bond.widest_woven_mm laying.patterns._bond.woven_pitch_mm
    laying.patterns._border._parted laying.patterns._border.bordered
    laying.patterns._side_units.row_joint_mm laying.patterns._woven.herringbone
    laying.pieces._necks.narrow laying.pieces._pieces.narrowest_mm
    levels._formulas.clearance_mm levels.design._design.design levels.folds._lids.lid_misfit_mm
    programme._bound.earliest_end programme._cure_clock.cure_time programme._float.slack_of
    programme._elapsed.later programme._elapsed.minutes_between
    as_laid.flatness._rows.rows_of as_laid.planes._bent.bent_plane
    quantities._amounts.packs_ordered quantities._flights.core_m3 quantities._flights.flight_parts
    record._token.earlier record._token.read_token
    setting_out._tapes._offsets setting_out._tapes._triangle
    setting_out.errors._checks.best_checks setting_out.errors._expected.check_limit_mm
    setting_out.errors._expected.expected_error setting_out.errors._expected.in_share
    setting_out.errors._spread.base_spreads setting_out.errors._spread.triangle_unit_mm
    setting_out.shapes._curves.chord_offset_mm setting_out.shapes._curves.curve_of
    survey.agreement._chance.chance_beyond survey.agreement._neighbours.strangers survey.edges._outlines.rectangle
    survey.tapes._next_tape.next_tape survey.tapes._tape_plan.tape_deviation_mm
    water.drains._parts.pipe_bed_m3_per_m water.drains._parts.soakaway_parts
    water.rain._storm_factors.factors water.rain._storms.storms water.runoff._strips.strips
    """.split()
)


@pytest.mark.slow
def test_what_no_published_case_reaches_is_named():
    reached, missing, _ = reach.unreached()
    named = MACHINE | OPTIMA | OWN
    assert missing <= named, "give it a published case that runs it, or name it with its reason"
    assert not named & reached, "a case reaches it now: take it off the list"
    assert len(reached) >= 50


def test_what_runs_is_seen():
    assert reach.run_by(lambda: reach.sourced.__name__) == set()
    known = reach.sourced()
    code = fall_to_one_in_n.__code__
    ran = reach.run_by(lambda: fall_to_one_in_n(0.02))
    assert (code.co_filename, code.co_firstlineno) in ran
    assert any(name.startswith("levels.") for name in known.values())
