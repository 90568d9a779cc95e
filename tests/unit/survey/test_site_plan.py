"""Offsets, ground, areas and features at their places, and what could not be seen."""

from __future__ import annotations

import math
from typing import Any

import pytest

from pavewright.job import JobInvalid


def offset(name: str, start: str, end: str, along: float, off: float) -> dict[str, Any]:
    return {"name": name, "line_from": start, "line_to": end, "along_mm": along, "offset_mm": off}


def points(small: Any, **places: tuple[float, float]) -> list[dict[str, Any]]:
    return [*small.square, *({"name": n, "x_mm": x, "y_mm": y} for n, (x, y) in places.items())]


def test_offsets_are_placed_in_whatever_order_they_are_written(small: Any) -> None:
    offsets = [offset("Q", "A", "P", 500.0, -100.0), offset("P", "A", "B", 1000.0, 1000.0)]
    result = small.survey({"points": list(small.square), "offsets": offsets})
    assert result.point("P").xy == (1000.0, 1000.0)
    half = math.sqrt(0.5)
    assert result.point("Q").xy == pytest.approx((half * 600.0, half * 400.0))
    assert result.point("Q").found_by == "offset"
    assert [point.name for point in result.points] == ["A", "B", "C", "D", "Q", "P"]


def test_offsets_that_wait_on_each_other_are_told(small: Any) -> None:
    offsets = [offset("Q", "A", "P", 500.0, 0.0), offset("P", "A", "Q", 500.0, 0.0)]
    with pytest.raises(JobInvalid) as refused:
        small.survey({"points": list(small.square), "offsets": offsets})
    assert [fault.path for fault in refused.value.faults] == ["measurements.offsets.0", "measurements.offsets.1"]


def test_ground_needs_three_levels_off_one_line(small: Any) -> None:
    levels = {"A": 100.0, "B": 40.0, "C": 10.0, "D": 70.0}
    given = [{**point, "level_mm": levels[point["name"]]} for point in small.square]
    result = small.survey({"points": given, "ground_points": ["A", "B", "C", "D"]})
    assert result.ground.level_at((6000.0, 4000.0)) == 10.0
    assert result.ground.level_at((3000.0, 0.0)) == pytest.approx(70.0)
    few = small.survey({"points": given, "ground_points": ["A", "B"]})
    assert few.ground is None
    assert [finding.code for finding in few.findings] == ["survey.no_ground"]
    bare = small.survey({"points": list(small.square), "ground_points": ["A", "B", "C"]})
    assert [finding.code for finding in bare.findings] == ["survey.spot_without_level"] * 3 + ["survey.no_ground"]
    line = [*given, {"name": "E", "x_mm": 3000.0, "y_mm": 0.0, "level_mm": 5.0}]
    flat = small.survey({"points": line, "ground_points": ["A", "E", "B"]})
    assert flat.ground is None
    assert "on one line" in flat.findings[0].message


@pytest.mark.parametrize("corners", [["A", "B", ("C", 500.0), "D"], ["A", ("D", 500.0), "C", "B"]])
def test_a_positive_rise_bulges_out_whichever_way_the_outline_was_walked(small: Any, corners: list[Any]) -> None:
    result = small.survey({"points": list(small.square)}, [small.area(corners)])
    (area,) = result.site.areas
    radius = (3000.0**2 + 500.0**2) / 1000.0
    half_angle = math.asin(3000.0 / radius)
    segment = radius**2 * (half_angle - math.sin(half_angle) * math.cos(half_angle))
    assert area.shape.area_m2 == pytest.approx(24.0 + segment / 1e6, rel=2e-4)
    assert area.shape.bounds_mm[3] == pytest.approx(4500.0, abs=0.3)
    assert [corner.name for corner in area.ring.corners] == ["A", "B", "C", "D"]
    entered = [corner if isinstance(corner, str) else corner[0] for corner in corners]
    bulging = area.side_from("C" if entered[1] == "B" else "D")
    assert {bulging.start.name, bulging.end.name} == {"C", "D"}
    assert bulging.start.rise_mm == 500.0
    inward = [(c[0], -500.0) if isinstance(c, tuple) else c for c in corners]
    smaller = small.survey({"points": list(small.square)}, [small.area(inward)]).site.areas[0]
    assert smaller.shape.area_m2 == pytest.approx(24.0 - segment / 1e6, rel=2e-4)


def test_arcs_that_turn_an_outline_inside_out_are_told(small: Any) -> None:
    with pytest.raises(JobInvalid, match="turn the outline inside out"):
        small.survey({"points": list(small.square)}, [small.area([("A", -1000.0), ("B", 500.0)])])
    crescent = small.survey({"points": list(small.square)}, [small.area([("A", 1000.0), ("B", -500.0)])])
    assert crescent.site.areas[0].side_from("B").start.rise_mm == -500.0


def test_two_corners_and_two_arcs_make_a_circle(small: Any) -> None:
    result = small.survey({"points": list(small.square)}, [small.area([("A", 3000.0), ("B", 3000.0)])])
    assert result.site.areas[0].shape.area_m2 == pytest.approx(math.pi * 9.0, rel=2e-4)


def test_what_stands_in_an_area_is_taken_out_of_it(small: Any) -> None:
    measured = {"points": points(small, M=(3000.0, 2000.0), G=(1000.0, 1000.0), O=(6000.0, 2000.0), X=(9000.0, 0.0))}
    site = {
        "covers": [
            {
                "name": "IC1",
                "point": "M",
                "length_mm": 600.0,
                "width_mm": 450.0,
                "bearing_deg": 30.0,
                "level_mm": 0.0,
                "fixed": True,
            },
            {"name": "IC2", "point": "X", "length_mm": 600.0, "width_mm": 450.0, "level_mm": 0.0, "fixed": True},
        ],
        "gullies": [{"name": "G1", "point": "G", "size_mm": 150.0}],
        "obstacles": [{"name": "Post", "point": "O", "diameter_mm": 400.0}],
    }
    (area,) = small.survey(measured, **site).site.areas
    half_post = math.pi * 0.2**2 / 2.0
    assert area.gross.area_m2 == pytest.approx(24.0)
    assert area.shape.area_m2 == pytest.approx(24.0 - 0.27 - 0.0225 - half_post, abs=2e-4)
    assert len(area.shape.holes) == 2
    assert area.ring.corners[0].name == "A"


def test_a_cover_lies_along_its_bearing(small: Any) -> None:
    cover = {
        "name": "IC",
        "point": "M",
        "length_mm": 600.0,
        "width_mm": 400.0,
        "bearing_deg": 90.0,
        "level_mm": 0.0,
        "fixed": True,
    }
    result = small.survey({"points": points(small, M=(3000.0, 2000.0))}, covers=[cover])
    xs, ys = zip(*result.site.covers[0].outline, strict=True)
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((600.0, 400.0))


def test_holes_are_taken_out_of_both_shapes(small: Any) -> None:
    measured = {"points": points(small, P=(1000.0, 1000.0), Q=(2000.0, 1000.0))}
    hole = [{"point": "P", "rise_mm": 500.0}, {"point": "Q", "rise_mm": 500.0}]
    (area,) = small.survey(measured, [small.area(["A", "B", "C", "D"], holes=[hole])]).site.areas
    assert area.gross.area_m2 == pytest.approx(24.0 - math.pi * 0.25, abs=6e-4)  # arcs are flattened
    assert area.shape.area_m2 == area.gross.area_m2


def test_crossed_outlines_and_overlaps_are_told_with_their_path(small: Any) -> None:
    with pytest.raises(JobInvalid) as refused:
        small.survey({"points": list(small.square)}, [small.area(["A", "B", "D", "C"])])
    assert refused.value.faults[0].path == "areas.0.outline"
    assert "crosses side" in refused.value.faults[0].message
    measured = {"points": points(small, E=(5000.0, 0.0), F=(5000.0, 4000.0), H=(8000.0, 4000.0), I=(8000.0, 0.0))}
    with pytest.raises(JobInvalid, match=r"overlap between x 5\.000 and 6\.000") as refused:
        small.survey(measured, [small.area(["A", "B", "C", "D"]), small.area(["E", "I", "H", "F"], "Path")])
    assert refused.value.faults[0].path == "areas.1.outline"
    beside = [small.area(["A", "B", "C", "D"]), small.area(["B", "I", "H", "C"], "Path")]
    assert len(small.survey(measured, beside).site.areas) == 2


def test_an_obstacle_that_cuts_an_area_apart_is_told(small: Any) -> None:
    bed = {"name": "Bed", "point": "M", "length_mm": 5000.0, "width_mm": 500.0}
    with pytest.raises(JobInvalid, match="cut into 2 separate parts by obstacle Bed"):
        small.survey({"points": points(small, M=(3000.0, 2000.0))}, obstacles=[bed])
    with pytest.raises(JobInvalid, match="needs either a diameter, or a length and a width"):
        small.survey({"points": list(small.square)}, obstacles=[{"name": "Bed", "point": "A"}])


def test_features_stand_where_their_points_do(small: Any) -> None:
    wall = {
        "name": "House",
        "start": "A",
        "end": "B",
        "dpc_level_mm": 150.0,
        "openings": [{"name": "Door", "along_mm": 1000.0, "width_mm": 900.0, "threshold_level_mm": 160.0}],
        "air_bricks": [{"name": "Vent", "along_mm": 4000.0, "underside_level_mm": 75.0}],
    }
    site = small.survey(
        {"points": list(small.square)},
        walls=[wall],
        channels=[{"name": "Drain", "start": "D", "end": "C"}],
        boundaries=[{"name": "Fence", "start": "C", "end": "B"}],
        tie_ins=[{"name": "Path", "start": "A", "end": "D", "start_level_mm": 1.0, "end_level_mm": 2.0}],
        services=[{"name": "Cable", "kind": "electricity", "points": ["A", "C"], "depth_mm": 450.0}],
        trees=[{"name": "Oak", "point": "C", "stem_diameter_mm": 300.0, "protected": True}],
        north_bearing_deg=12.0,
    ).site
    assert site.walls[0].openings[0].start == (1000.0, 0.0)
    assert site.walls[0].openings[0].end == (1900.0, 0.0)
    assert site.walls[0].air_bricks[0].at == (4000.0, 0.0)
    assert (site.channels[0].start, site.channels[0].end) == ((0.0, 4000.0), (6000.0, 4000.0))
    assert site.boundaries[0].end == (6000.0, 0.0)
    assert site.tie_ins[0].end_level_mm == 2.0
    assert site.services[0].points == ((0.0, 0.0), (6000.0, 4000.0))
    assert site.trees[0].at == (6000.0, 4000.0)
    assert site.north_bearing_deg == 12.0
    wall["openings"] = [{"name": "Door", "along_mm": 5500.0, "width_mm": 900.0, "threshold_level_mm": 160.0}]
    with pytest.raises(JobInvalid, match=r"Opening Door reaches 6\.400 along wall House, which is 6\.000 long"):
        small.survey({"points": list(small.square)}, walls=[wall])


def test_what_nobody_saw_becomes_a_sentence_for_the_quotation(small: Any) -> None:
    reported = small.survey(
        {"points": list(small.square)},
        ground={"soil": "unknown"},
        walk_round=[
            {"question": "Where does the downpipe run to?", "answer": "could_not_see"},
            {"question": "How thick is the old slab", "answer": "could_not_see", "value": "taken as 100 mm"},
            {"question": "Is there a side gate?", "answer": "value", "value": "yes"},
        ],
        outfalls=[
            {"name": "Border", "kind": "border", "confirmed": True},
            {"name": "Gully at the garage", "kind": "surface_water_sewer", "confirmed": False},
            {"name": "Old drain", "kind": "unknown", "confirmed": True},
        ],
        services=[{"name": "Cable", "kind": "electricity", "points": ["A", "C"]}],
        trees=[{"name": "Oak", "point": "C", "stem_diameter_mm": 300.0}],
    ).assumptions
    assert len(reported) == 7
    assert any(
        each.startswith("Assumed: Old drain takes rainwater freely. Where it leads is not known;") for each in reported
    )
    assert all(sentence.startswith("Assumed") for sentence in reported)
    assert all(sentence.endswith("; if it is otherwise the price changes.") for sentence in reported)
    said = " ".join(reported)
    assert "How thick is the old slab: taken as 100 mm." in said
    assert "Gully at the garage takes rainwater freely to the surface-water sewer" in said
    assert "soil is taken as natural soil that counts as soft" in said
    assert small.survey({"points": list(small.square)}).assumptions == ()
