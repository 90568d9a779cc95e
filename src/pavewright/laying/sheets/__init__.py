"""Sheets: the gauge of a course, growth of real sizes, templates of cut pieces, and packs of mixed sizes."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.sheets._gauge import gauge_marks
    from pavewright.laying.sheets._mixes import MixOffer, laid_mixed, mixes, mixes_in
    from pavewright.laying.sheets._real_sizes import measured_sizes, run_growths
    from pavewright.laying.sheets._set_ups import SawSetUp, SetUpCut, SetUpKind, saw_set_ups, settings_unit_by_unit
    from pavewright.laying.sheets._sums_sizes import SIZE_SUMS
    from pavewright.laying.sheets._templates import curve_in_its_box, has_curve, is_skew, template_of, wants_template
else:
    __getattr__ = face(__name__)

__all__ = [
    "SIZE_SUMS",
    "MixOffer",
    "SawSetUp",
    "SetUpCut",
    "SetUpKind",
    "curve_in_its_box",
    "gauge_marks",
    "has_curve",
    "is_skew",
    "laid_mixed",
    "measured_sizes",
    "mixes",
    "mixes_in",
    "run_growths",
    "saw_set_ups",
    "settings_unit_by_unit",
    "template_of",
    "wants_template",
]
