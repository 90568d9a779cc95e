"""How near a soakaway may lie to a house, a road, a boundary, another one and groundwater."""

from __future__ import annotations

import pytest

from pavewright import rulebook
from pavewright.findings import Severity
from pavewright.job import JobInvalid
from pavewright.levels import finished_levels
from pavewright.water import drain

PIT = {"length_mm": 2000.0, "width_mm": 1000.0, "depth_mm": 1200.0, "infiltration_m_per_s": 4e-5}


def pit(name, point=None):
    size = PIT if point is None else PIT | {"point": point}
    return {"name": name, "kind": "soakaway", "confirmed": True, "soakaway": size}


def reported(small, edition="england"):
    small.rules = rulebook.load(edition)
    job, measured = small.surveyed()
    found = drain(job, measured, finished_levels(job, measured, small.rules), small.rules).findings
    return [each for each in found if each.code.startswith("water.soakaway") or each.code.startswith("water.ground")]


@pytest.fixture
def house(small):
    entered = small.rectangle(6000.0, 4000.0)
    entered["fall"] = {"bearing_deg": 0.0, "one_in": 60.0, "level_at": "P0", "level_mm": 1000.0}
    small.site["walls"] = [{"name": "House", "start": "P0", "end": "P1", "dpc_level_mm": 1400.0}]
    small.site["outfalls"] = [pit("Pit", "S")]
    return small


@pytest.mark.parametrize(
    ("middle_mm", "severity"),
    # the pit reaches 0.50 m from its middle at the least and 1.12 m at the most
    [(5400.0, Severity.STOP), (5600.0, Severity.CHECK), (6100.0, Severity.CHECK), (6200.0, None)],
)
def test_five_metres_from_the_house_counted_from_the_pit_and_not_from_its_middle(house, middle_mm, severity):
    house.point("S", 3000.0, middle_mm)
    found = reported(house)
    if severity is None:
        assert found == []
        return
    (finding,) = found
    assert (finding.code, finding.severity) == ("water.soakaway_too_near", severity)
    assert finding.limit == 5.0
    assert finding.value < 5.0
    assert finding.figure.source == "copeland_soakaways"
    assert len(finding.option_words) == 2


def test_a_garden_wall_and_the_edge_of_paving_are_no_house(house):
    house.site["walls"] = [{"name": "Garden wall", "start": "P0", "end": "P1"}]
    house.point("S", 3000.0, 2000.0)
    assert reported(house) == []


@pytest.mark.parametrize(
    ("neighbour", "edition", "limit"),
    [
        ("neighbour", "england", 2.5),
        ("highway", "england", 5.0),
        ("own", "england", None),
        ("neighbour", "scotland", 5.0),
    ],
)
def test_boundaries_and_roads_by_edition(house, neighbour, edition, limit):
    house.site["walls"] = []
    house.point("S", 3000.0, 20_000.0)
    house.point("B0", 0.0, 22_000.0)
    house.point("B1", 6000.0, 22_000.0)
    house.site["boundaries"] = [{"name": "Fence", "start": "B0", "end": "B1", "neighbour": neighbour}]
    house.document["identity"]["locality"] = edition
    found = reported(house, edition)
    assert [each.limit for each in found] == ([] if limit is None else [limit])
    assert all(each.severity is Severity.CHECK for each in found)
    if limit is not None:
        assert found[0].value == pytest.approx(2.0 - 0.5)


def test_two_soakaways_lie_apart(house):
    house.site["outfalls"].append(pit("Second", "T"))
    house.point("S", 3000.0, 20_000.0)
    house.point("T", 11_000.0, 20_000.0)
    (finding,) = reported(house)
    assert finding.place == "outfall Pit, soakaway Second"
    assert (finding.limit, finding.value) == (10.0, pytest.approx(8.0 - 2 * 0.5))


def test_without_its_place_the_rule_is_told_instead(house):
    house.site["outfalls"] = [pit("Pit")]
    house.site["channels"] = [{"name": "Slot", "start": "P3", "end": "P2", "outfall": "Pit"}]
    codes = [each.code for each in reported(house)]
    assert codes == ["water.soakaway"]


def test_high_groundwater_is_told(house):
    house.point("S", 3000.0, 20_000.0)
    house.site["ground"]["water_table"] = "high"
    (finding,) = reported(house)
    assert (finding.code, finding.limit) == ("water.soakaway_in_groundwater", 1.0)


def test_a_soakaway_at_a_point_that_nobody_measured_is_a_fault(house):
    with pytest.raises(JobInvalid, match=r"Soakaway Pit names point S"):
        house.job()


def test_ground_beside_a_house_in_the_united_states(house):
    house.point("S", 3000.0, 20_000.0)
    (finding,) = reported(house, "usa")
    assert (finding.code, finding.figure.source) == ("water.ground_from_house", "irc_r401_3")
    assert finding.message.endswith("check with your local building department.")
    house.site["walls"] = []
    assert reported(house, "usa") == []
