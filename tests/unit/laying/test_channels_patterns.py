"""A channel is cut out of every way of laying: rings with their centre, zones, and mixed sizes."""

from __future__ import annotations

import pytest
from shapely.geometry import box

from pavewright.laying import lay
from tests.unit.laying.test_channels import _channel, _inside
from tests.unit.laying.test_mixed_area import FLAGS, MIXED

_TAKEN = box(0, 1450, 4000, 1550)


def _cut(small):
    job, measured = small.surveyed()
    return lay(job, measured, small.rules).areas[0], measured.site.areas[0]


def _check(laid, area, whole=None):
    if whole is not None:  # the same units, less what lay where the channel is
        assert laid.paved_m2 == pytest.approx(whole.paved_m2 - _inside(whole.pieces, _TAKEN) / 1e6, abs=0.05)
    assert _inside(laid.pieces, _TAKEN) == pytest.approx(0.0, abs=1.0)
    assert area.laid_m2 == pytest.approx(12.0 - 0.4)
    assert laid.paved_m2 > 9.5
    assert laid.joint_m2 > 0.0


def test_rings_and_their_centre(small):
    small.unit.update(
        length_mm=200.0, width_mm=100.0, thickness_mm=60.0, kg_each=2.7, joint_min_mm=2.0, joint_max_mm=15.0
    )
    small.point("Mid", 2000.0, 1500.0)
    small.rectangle(4000.0, 3000.0, pattern="rings", origin="Mid", joint_mm=5.0, centre_radius_mm=600.0)
    whole, _ = _cut(small)
    _channel(small, (0.0, 1500.0), (4000.0, 1500.0))
    _check(*_cut(small), whole)


def test_a_zone_that_a_channel_crosses(small):
    area = small.rectangle(4000.0, 3000.0)
    small.point("Mid", 2000.0, 1500.0)
    area["zones"] = [{"name": "Round", "circle_at": "Mid", "radius_mm": 700.0, "laying": {"unit": "Slab"}}]
    whole, _ = _cut(small)
    _channel(small, (0.0, 1500.0), (4000.0, 1500.0))
    _check(*_cut(small), whole)


def test_mixed_sizes(small):
    small.document["units"] += [
        {
            "name": name,
            "length_mm": float(length),
            "width_mm": float(width),
            "thickness_mm": 40.0,
            "kg_each": length * width * 9e-5,
            "per_pack": 1,
            "part_packs": True,
            "pack_price_minor": 500,
        }
        for name, length, width in FLAGS
    ]
    small.rectangle(4000.0, 3000.0, **MIXED)
    _channel(small, (0.0, 1500.0), (4000.0, 1500.0))
    _check(*_cut(small))
