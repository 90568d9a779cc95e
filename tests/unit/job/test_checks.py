"""Faults that no single field shows: each is found when the document is read, at its place, with what to do."""

from __future__ import annotations

import copy
import json
from pathlib import Path

import pytest

from pavewright.job import JobInvalid, parse

EXAMPLES = Path(__file__).parents[3] / "examples"
TERRACE = json.loads((EXAMPLES / "l_terrace.json").read_text("utf-8"))
PATH = json.loads((EXAMPLES / "curved_path.json").read_text("utf-8"))


def at(document, path):
    """Return what stands at a place of a document, and the last step to it."""
    *steps, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    for step in steps:
        document = document[step]
    return document, last


def put(path, value):
    def spoil(document):
        owner, last = at(document, path)
        owner[last] = value

    return spoil


def add(path, *values):
    def spoil(document):
        owner, last = at(document, path)
        owner.setdefault(last, []).extend(copy.deepcopy(values)) if isinstance(owner, dict) else None

    return spoil


def again(path, **changed):
    """Write an entry of a list a second time, with some fields changed."""

    def spoil(document):
        owner, last = at(document, path)
        owner.append({**copy.deepcopy(owner[last]), **changed})

    return spoil


def both(*spoils):
    def spoil(document):
        for each in spoils:
            each(document)

    return spoil


def scaled(path, *fields):
    """Write fields of every entry of a list in metres."""

    def spoil(document):
        owner, last = at(document, path)
        for entry in owner[last]:
            for field in fields:
                if field in entry:
                    entry[field] /= 1000.0

    return spoil


def reported(base, spoil):
    document = copy.deepcopy(base)
    spoil(document)
    with pytest.raises(JobInvalid) as caught:
        parse(document)
    return {fault.path: fault.message for fault in caught.value.faults}


ROWS = "measurements.level_books.0.rows"
TAPES = "measurements.tape_plan.tapes"
DOOR = "site.walls.0.openings"
SIGHTS = ("backsight_mm", "intermediate_mm", "foresight_mm")

NAMES = [
    (TERRACE, again("site.walls.1"), "site.walls.2", "two of wall Extension"),
    (TERRACE, again("units.0"), "units.1", "two of paving unit Flag 600"),
    (TERRACE, again("site.obstacles.0"), "site.obstacles.1", "two of obstacle Pergola post"),
    (TERRACE, again("site.services.0"), "site.services.1", "two of service Foul drain"),
    (TERRACE, again("measurements.points.0"), "measurements.points.1", "BM is placed twice, by its coordinates and by"),
    (TERRACE, again("measurements.offsets.3"), "measurements.offsets.44", "G4 is placed twice, by an offset and by an"),
    (TERRACE, again(f"{DOOR}.0", along_mm=4000.0), f"{DOOR}.1", "two of opening Kitchen door"),
    (TERRACE, again("areas.0.outline.2"), "areas.0.outline.6", "Area Terrace goes through C twice"),
    (PATH, again("steps.0"), "steps.1", "two of flight of steps Orchard steps"),
]
POINTS = [
    ("site.walls.0.end", "Wall House rear names point ZZ, which is not measured"),
    ("site.gullies.0.point", "Gully Kitchen gully names point ZZ"),
    ("site.channels.1.start", "Channel Lawn channel names point ZZ"),
    ("site.covers.0.point", "Cover IC1 names point ZZ"),
    ("site.obstacles.0.point", "Obstacle Pergola post names point ZZ"),
    ("site.trees.0.point", "Tree Apple tree names point ZZ"),
    ("site.boundaries.0.start", "Boundary East fence names point ZZ"),
    ("site.services.0.points.1", "Service Foul drain names point ZZ"),
    ("areas.0.outline.4.point", "Area Terrace names point ZZ"),
    ("areas.0.laying.origin", "Area Terrace names point ZZ"),
    ("areas.0.laying.along.1", "Area Terrace names point ZZ"),
    ("measurements.ground_points.5", "ZZ is named as a spot of the ground and is not measured"),
    ("measurements.offsets.7.line_to", "G8 is measured off a line to ZZ, which is not measured itself"),
]
BOOKS = [
    (put(f"{ROWS}.0", {"point": "BM", "intermediate_mm": 1400.0}), f"{ROWS}.0", "has to start with a backsight"),
    (put(f"{ROWS}.41", {"point": "BM", "intermediate_mm": 1400.0}), f"{ROWS}.41", "has to end with a foresight"),
    (put(f"{ROWS}.41", {"point": "BM", "backsight_mm": 1.0, "foresight_mm": 2.0}), f"{ROWS}.41", "hangs on the last row"),
    (put(f"{ROWS}.3", {"point": "G3"}), f"{ROWS}.3", "no reading: read the staff here again"),
    (put(f"{ROWS}.3", {"point": "G3", "backsight_mm": 1500.0}), f"{ROWS}.3", "backsight stands without a foresight"),
    (put(f"{ROWS}.3", {"point": "G3", "foresight_mm": 1500.0}), f"{ROWS}.3", "foresight stands without a backsight"),
    (
        put(f"{ROWS}.3", {"point": "G3", "intermediate_mm": 1500.0, "foresight_mm": 1500.0}),
        f"{ROWS}.3",
        "stands beside another reading",
    ),
    (put(ROWS, [{"point": "BM", "backsight_mm": 1400.0}]), f"{ROWS}.0", "one row only"),
    (put("measurements.benchmarks", []), f"{ROWS}.0.point", "starts on BM, whose level nothing gives"),
    (put(f"{ROWS}.3.intermediate_mm", 1.412), f"{ROWS}.3.intermediate_mm", "looks like metres. Write millimetres, 1412"),
    (put(f"{ROWS}.3.intermediate_mm", 14120.0), f"{ROWS}.3.intermediate_mm", "14120 mm, longer than any staff"),
    (scaled(ROWS, *SIGHTS), ROWS, "look like metres, all below 10"),
]  # fmt: skip
METRES = [
    (TERRACE, put(f"{TAPES}.3.length_mm", 6.2), f"{TAPES}.3.length_mm", "Tape A–D is 6.2 mm, which is too short. It looks like metres (write 6200)"),
    (TERRACE, scaled(TAPES, "length_mm"), TAPES, "looks like metres (write"),
    (TERRACE, scaled("measurements.offsets", "along_mm", "offset_mm"), "measurements.offsets", "The longest offset is"),
    (TERRACE, put("site.walls.0.dpc_level_mm", 10.15), "site.walls.0.dpc_level_mm", "Write millimetres, 10150"),
    (TERRACE, put(f"{DOOR}.0.threshold_level_mm", 10.16), f"{DOOR}.0.threshold_level_mm", "Write millimetres, 10160"),
    (TERRACE, put("measurements.benchmarks.0.level_mm", 10.0), "measurements.benchmarks.0.level_mm", "millimetres, 10000"),
    (PATH, put("measurements.points.0.level_mm", 5.02), "measurements.points.0.level_mm", "Write millimetres, 5020"),
    (TERRACE, put("site.covers.0.level_mm", 9.852), "site.covers.0.level_mm", "Write millimetres, 9852"),
    (TERRACE, scaled("as_laid.readings", "level_mm"), "as_laid.readings", "20 of 20 levels as laid look like metres"),
    (TERRACE, scaled("as_laid.readings", "x_mm", "y_mm"), "as_laid.readings", "their places look like metres"),
    (TERRACE, put(f"{DOOR}.0.width_mm", 1.5), f"{DOOR}.0.width_mm", "metres (write 1500)"),
    (TERRACE, put("site.covers.0.length_mm", 0.6), "site.covers.0.length_mm", "metres (write 600)"),
    (TERRACE, put("site.access_width_mm", 0.9), "site.access_width_mm", "metres (write 900)"),
    (TERRACE, put("site.carry_mm", 18.0), "site.carry_mm", "metres (write 18000)"),
    (TERRACE, put("site.services.0.depth_mm", 0.85), "site.services.0.depth_mm", "metres (write 850)"),
    (PATH, scaled("measurements.points", "x_mm", "y_mm"), "areas.0.outline", "Write millimetres, 4420"),
    (TERRACE, put("site.covers.0.level_mm", 985.2), "site.covers.0.level_mm", "centimetres. Write millimetres, 9852"),
    (TERRACE, put("site.covers.0.length_mm", 45.0), "site.covers.0.length_mm", "centimetres (write 450) or inches (write"),
    (TERRACE, put(f"{DOOR}.0.width_mm", 90.0), f"{DOOR}.0.width_mm", "centimetres (write 900)"),
    (TERRACE, put("calendar.weekdays", [7]), "calendar.weekdays.0", "Weekdays, entry 1, is 7"),
    (TERRACE, put("site.walls.0.dpc_level_mm", [1]), "site.walls.0.dpc_level_mm", "or the name of a point in quotation"),
]  # fmt: skip
SENSE = [
    (TERRACE, put("units.0.kg_each", 330.0), "units.0.kg_each", "would weigh 22917 kg a cubic metre"),
    (TERRACE, put("units.0.kg_each", 3.3), "units.0.kg_each", "would weigh 229 kg a cubic metre"),
    (TERRACE, put("units.0.per_pack", 2000), "units.0.per_pack", "would weigh 66000 kg: check how many"),
    (TERRACE, again(f"{DOOR}.0", name="Window", along_mm=2000.0), f"{DOOR}.1.along_mm", "stand in one place of wall"),
    (TERRACE, put(f"{DOOR}.0.max_step_mm", 50.0), f"{DOOR}.0", "greatest step is smaller than the smallest"),
    (TERRACE, put("site.gullies.0.invert_level_mm", 9990.0), "site.gullies.0.invert_level_mm", "at or above its grating"),
    (TERRACE, put("site.walk_round.0.value", " "), "site.walk_round.0.value", "by a value that is empty"),
    (TERRACE, put("calendar.day_starts_min", 1400), "calendar.day_starts_min", "past midnight"),
    (TERRACE, put("units.0.joint_min_mm", 20.0), "units.0.joint_min_mm", "narrowest joint is wider than the widest"),
    (TERRACE, put("site.channels.0.end", "B"), "site.channels.0", "Channel Fence channel runs from B to itself"),
    (TERRACE, put("site.walls.0.end", "A"), "site.walls.0", "Wall House rear runs from A to itself"),
    (TERRACE, put(f"{TAPES}.3.end", "A"), f"{TAPES}.3", "A tape runs from A to itself"),
    (
        TERRACE,
        again("measurements.tape_plan.sides.0", side="right"),
        "measurements.tape_plan.sides.7",
        "C is said to lie on both sides of A–B",
    ),
    (
        TERRACE,
        again("measurements.tape_plan.sides.0", line_from="B", line_to="A"),
        "measurements.tape_plan.sides.7",
        "C is said to lie on both sides of B–A",
    ),
    (
        TERRACE,
        put("measurements.tape_plan.sides.0.line_to", "ZZ"),
        "measurements.tape_plan.sides.0",
        "The side of C names ZZ, which no tape reaches",
    ),
]  # fmt: skip
SQUARE = [{"name": f"H{n}", "x_mm": x, "y_mm": y} for n, (x, y) in enumerate(((9e3, 0.0), (9.5e3, 0.0), (9e3, 500.0)))]
OUTLINES = [
    (put("areas.0.outline.1.point", "P4"), "areas.0.outline.3", "goes through P4 twice"),
    (put("areas.0.outline", [{"point": "P1"}, {"point": "P3"}]), "areas.0.outline", "has 2 corners and no arc"),
    (put("areas.0.holes", [[{"point": "G1"}, {"point": "G2"}]]), "areas.0.holes.0", "has 2 corners and no arc"),
    (put("areas.0.holes", [[{"point": "G1"}]]), "areas.0.holes.0", "needs at least 2 entries"),
    (
        put("areas.0.outline", [{"point": p, "rise_mm": 0.0} for p in ("P1", "P3", "P2", "P4")]),
        "areas.0.outline",
        "crosses side",
    ),
    (
        both(
            add("measurements.points", *SQUARE),
            put("areas.0.holes", [[{"point": "H0"}, {"point": "H1"}, {"point": "H2"}]]),
        ),
        "areas.0.outline",
        "Hole 1 lies outside the outline",
    ),
    (
        both(put("measurements.points.1.x_mm", 0.0), put("measurements.points.1.y_mm", 0.0)),
        "areas.0.outline",
        "P1 and P2 stand on one place",
    ),
]


@pytest.mark.parametrize(
    ("base", "spoil", "path", "words"),
    [
        *NAMES,
        *((TERRACE, put(path, "ZZ"), path, words) for path, words in POINTS),
        *((TERRACE, *case) for case in BOOKS),
        *METRES,
        *SENSE,
        *((PATH, *case) for case in OUTLINES),
    ],
)
def test_a_fault_is_told_at_its_place_with_what_to_do(base, spoil, path, words):
    assert words in reported(base, spoil)[path]


def test_faults_of_every_kind_come_together():
    spoil = both(
        again("units.0"),
        put("site.walls.0.end", "ZZ"),
        put(f"{ROWS}.3", {"point": "G3"}),
        put("site.carry_mm", 18.0),
        put("areas.0.fall.bearing_deg", 5.0),
    )
    assert set(reported(TERRACE, spoil)) == {
        "units.1",
        "site.walls.0.end",
        f"{ROWS}.3",
        "site.carry_mm",
        "areas.0.fall",
    }


def test_a_book_may_start_on_a_point_that_a_later_book_levels():
    document = copy.deepcopy(TERRACE)
    rows = [{"point": "G4", "backsight_mm": 900.0}, {"point": "G4", "foresight_mm": 901.0}]
    document["measurements"]["level_books"].insert(0, {"name": "Afternoon", "rows": rows})
    assert parse(document).measurements.level_books[0].name == "Afternoon"


@pytest.mark.parametrize(
    "spoil",
    [
        put(f"{ROWS}.3.intermediate_mm", -1410.0),  # a staff held upside down under a ceiling
        put("site.covers.0.level_mm", 7200.0),  # a deep lid is deep, not in metres
        put("site.carry_mm", 0.0),
        put("site.obstacles", [{"name": "Rail post", "point": "Post", "diameter_mm": 21.0}]),
        again("measurements.tape_plan.sides.0", side="right", line_from="B", line_to="A"),
        again(f"{DOOR}.0", name="Window", along_mm=2200.0),
    ],
)
def test_what_is_rare_and_sound_is_read(spoil):
    document = copy.deepcopy(TERRACE)
    spoil(document)
    assert parse(document).areas


def test_levels_about_a_datum_of_zero_are_never_taken_for_metres():
    document = copy.deepcopy(PATH)
    for point in document["measurements"]["points"]:
        point["level_mm"] -= 5000.0
    document["areas"][0]["fall"]["level_mm"] -= 5000.0
    assert parse(document).areas


@pytest.mark.parametrize("turned", [False, True])
def test_an_outline_with_arcs_is_sound_whichever_way_it_is_walked(turned):
    document = copy.deepcopy(PATH)
    outline = document["areas"][0]["outline"]
    if turned:
        rises = [corner["rise_mm"] for corner in outline]
        back = [(corner["point"], rise) for corner, rise in zip(outline, [rises[-1], *rises[:-1]], strict=True)]
        document["areas"][0]["outline"] = [{"point": point, "rise_mm": rise} for point, rise in reversed(back)]
    assert len(parse(document).areas[0].outline) == 4


def test_a_side_that_names_both_corners_does_not_follow_a_turned_outline() -> None:
    document = json.loads((EXAMPLES / "front_drive.json").read_text("utf-8"))
    area = document["areas"][0]
    order = [corner["point"] for corner in area["outline"]]
    for edge in area["edges"]:
        edge["to"] = order[(order.index(edge["corner"]) + 1) % len(order)]
    parse(document)
    area["outline"].reverse()
    with pytest.raises(JobInvalid, match="ends at .* and not at") as refused:
        parse(document)
    assert len(refused.value.faults) == len(area["edges"])


@pytest.mark.parametrize("path", ["identity.date", "calendar.start", "calendar.days_off.0", "as_laid.date"])
@pytest.mark.parametrize("day", ["0001-01-01", "1899-12-31", "2200-01-01", "9999-12-30", "9999-12-31"])
def test_a_date_that_no_job_has_is_asked_about(path, day):
    document = copy.deepcopy(TERRACE)
    document["calendar"]["days_off"] = ["2027-05-03"]
    (told_there, message), *others = reported(document, put(path, day)).items()
    assert told_there == path and not others
    assert day in message and "between 1900 and 2199" in message
