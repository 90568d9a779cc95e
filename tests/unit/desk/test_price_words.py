"""Lines of a price list are suggested as the material that their words mean, and as none where two fit."""

from __future__ import annotations

import pytest

from pavewright.desk._firm import _kinds_meant, _suggested, _words
from pavewright.firm import FirmBook
from pavewright.job import MaterialKind

WAYS = [(kind, way) for kind, ways in _words().items() for way in ways]


def test_every_material_has_its_words():
    assert set(_words()) == {each.value for each in MaterialKind}


@pytest.mark.parametrize(("kind", "way"), WAYS, ids=lambda each: each if isinstance(each, str) else "-".join(each))
def test_words_of_a_material_mean_that_material_alone(kind, way):
    assert _kinds_meant(" ".join(way)) == [kind]


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("110 mm underground drain pipe, 3 m", "pipe"),
        ("Drain pipe bend 110 mm 87.5 deg", "pipe_bend"),
        ("Perforated drain pipe 100 mm, 25 m coil", "perforated_pipe"),
        ("Channel drain 1 m, galvanised", "channel"),
        ("Channel drain end cap", "channel_end"),
        ("Channel drain, end with outlet 110", "channel_outlet"),
        ("Clean stone 20/40, bulk bag", "soakaway_stone"),
        ("Drainage stone 20/40", "drain_stone"),
        ("Gully grate 150 x 150", "grating"),
        ("Geotextile membrane 2 m x 50 m", "geotextile"),
        ("Damp-proof membrane 1200 gauge", "membrane"),
    ],
)
def test_lines_as_suppliers_write_them(name, kind):
    assert _kinds_meant(name) == [kind]


def test_a_line_that_may_be_two_things_is_suggested_as_neither():
    assert set(_kinds_meant("Sharp sand and cement, dry mix")) == {"cement", "sharp_sand"}
    assert set(_kinds_meant("Channel drain 1 m with grating")) == {"channel", "grating"}
    lines = [{"row": 2, "name": "Sharp sand and cement, dry mix"}, {"row": 3, "name": "Cement 25 kg"}]
    assert _suggested(FirmBook(format="pavewright.firm", version=1), lines) == {"3": "cement"}
