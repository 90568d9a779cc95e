"""Factory edges in the joints: what keeping them costs, worked out by hand."""

from __future__ import annotations

from pavewright.laying import lay
from pavewright.survey import survey


def laid(small, **more):
    # a joint of 10: ten slabs and nine joints are 6090, and a strip of 100 after one more joint is 6200
    small.rectangle(6200.0, 3040.0, joint_mm=10.0, **more)
    job = small.job()
    (area,) = lay(job, survey(job, small.rules), small.rules).areas
    return area


def test_strips_come_out_of_one_slab_where_sawn_edges_may_show(small):
    area = laid(small)
    # five strips of 100 and four saw cuts of 3 are well under 600
    assert (area.cut, len(area.sawn)) == (5, 1)
    assert area.by_unit[0].units_more_edges == 0
    assert any("may lie in a joint that shows" in words for words in area.limits)


def test_with_factory_edges_a_slab_gives_two_strips(small):
    area = laid(small, factory_edges=True)
    # each strip keeps the long edge that lies in the joint: a slab has two such edges
    assert (area.cut, len(area.sawn)) == (5, 3)
    assert area.by_unit[0].units_more_edges == 2
    reported = [working for working in area.workings if "factory edges" in working.expression]
    assert [working.result for working in reported] == [2]
    assert any("keep their factory edge" in words for words in area.limits)
