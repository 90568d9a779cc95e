"""The handover: what nobody read or entered is a line to fill in, and nothing in it contradicts the plan."""

from __future__ import annotations

import copy
import dataclasses
import datetime as dt
import io
import json
import re
import zipfile
from pathlib import Path

import pypdf
import pytest
from PIL import Image

from pavewright import rulebook
from pavewright.as_laid import Verdict
from pavewright.drawing import grid_of
from pavewright.desk import demo_document, make_plan
from pavewright.job.handover import BuriedKind
from pavewright.papers import PHOTOS_MAX, PaperKey, PaperPhoto, pack
from pavewright.papers._input import PaperInput
from pavewright.papers._writing import written_where
from pavewright.papers.handover import document, folder
from pavewright.papers.handover._buried import BuriedState, all_buried
from pavewright.papers.handover._care import care_of
from pavewright.papers.handover._facts import products, spares
from pavewright.papers.handover._photos import photo_sheets
from pavewright.papers.handover._words import WORDS
from pavewright.papers.look import as_data

ROOT = Path(__file__).parents[3]
DEMO = json.loads(demo_document())
UNIT, COVER = DEMO["units"][0]["name"], DEMO["site"]["covers"][0]["name"]
RECORD = {
    "completed_on": "2027-05-24",
    "handed_on": "2027-05-25",
    "warranty_until": "2032-05-24",
    "batches": [{"unit": UNIT, "batch": "B 12/7"}, {"product": "Joint sealant", "batch": "S 4"}],
    "buried": [
        {"name": "Pipe at the lawn channel", "depth_mm": 455.0, "measured_on": "2027-05-12"},
        {"name": "Pipe that was seen"},
    ],
    "cover_keys": [{"cover": COVER, "count": 2, "kept_at": "Garage shelf"}],
    "spares": [{"unit": UNIT, "count": 5, "kept_at": "Behind the shed"}],
}


def planned(change):
    document = copy.deepcopy(DEMO)
    change(document)
    made = make_plan(json.dumps(document))
    return PaperInput(made, rulebook.load(made.edition))


@pytest.fixture(scope="module")
def recorded():
    """The demo with its handover written down."""
    return planned(lambda document: document.update(handed_over=RECORD))


@pytest.fixture(scope="module")
def bare():
    """The demo of which nothing was read as laid and nothing written down."""
    return planned(lambda document: [document.pop(name, None) for name in ("as_laid", "handed_over")])


def words_of(given):
    with written_where(given.plan):
        made = document(given)
    return json.dumps([[as_data(block) for block in sheet.blocks] for sheet in made.sheets], ensure_ascii=False)


def test_where_nothing_was_read_it_says_so_and_passes_nothing(bare):
    said = words_of(bare)
    assert WORDS.not_measured in said
    assert WORDS.unheld(area=DEMO["areas"][0]["name"]) in said
    assert WORDS.nothing_said in said
    for verdict in Verdict:
        assert f'"{verdict.words}"' not in said


def test_an_area_without_readings_is_not_measured_beside_one_that_was():
    path = json.loads((ROOT / "examples" / "curved_path.json").read_text("utf-8"))
    names = [area["name"] for area in path["areas"]]
    assert len(names) > 1
    readings = [{"x_mm": 500.0 * n, "y_mm": 300.0 * n, "level_mm": 10_000.0, "area": names[0]} for n in range(3)]
    path["as_laid"] = {"date": "2027-06-04", "readings": readings}
    made = make_plan(json.dumps(path))
    said = words_of(PaperInput(made, rulebook.load(made.edition)))
    assert WORDS.not_measured_area(area=names[1]) in said
    assert WORDS.not_measured_area(area=names[0]) not in said
    assert WORDS.unheld(area=names[1]) in said


def test_what_lies_buried_is_planned_as_found_or_measured(recorded):
    with written_where(recorded.plan):
        found = all_buried(recorded.plan)
    by_name = {each.name: each for each in found}
    assert by_name["Foul drain"].state is BuriedState.AS_FOUND
    assert by_name["Lawn channel"].state is BuriedState.PLANNED
    assert by_name["Lawn channel"].top_mm is None
    measured = by_name["Pipe at the lawn channel"]
    assert (measured.state, measured.top_mm) == (BuriedState.MEASURED, 455.0)
    haunch = next(each for each in found if each.kind is BuriedKind.EDGE)
    section = recorded.plan.build_ups.areas[0].edges[0]
    assert haunch.top_mm == -section.top_mm
    assert haunch.foot_mm == section.back.height_mm - section.top_mm + section.bed_mm[1]
    assert (by_name["Pipe that was seen"].state, by_name["Pipe that was seen"].top_mm) == (BuriedState.AS_FOUND, None)
    # nothing whose depth nobody read is called measured
    assert [each.name for each in found if each.state is BuriedState.MEASURED] == ["Pipe at the lawn channel"]


def test_batches_stand_by_area_and_one_that_is_not_known_is_blank(recorded, bare):
    assert [(each.area, each.product, each.batch) for each in products(recorded.plan)] == [
        (DEMO["areas"][0]["name"], UNIT, "B 12/7"),
        ("", "Joint sealant", "S 4"),
    ]
    assert [each.batch for each in products(bare.plan)] == [""]


def test_spare_units_are_bought_less_laid_and_what_was_counted_stands_beside(recorded, bare):
    one = spares(recorded.plan)[0]
    laid = sum(area.units_with_offcuts for area in recorded.plan.laying.areas)
    assert one.left_at_most == one.bought - laid == 12
    assert one.counted == 5
    assert spares(bare.plan)[0].counted is None


def test_care_counts_from_completion_and_never_before_the_programme_says(recorded, bare):
    with written_where(recorded.plan):
        care = care_of(recorded.plan, recorded.rules)
    assert care.completed
    assert care.counted_from == dt.date(2027, 5, 24)
    walk = care.dates[0]
    hours = recorded.rules.figure("programme.walk_on_h")
    assert walk.first == care.counted_from + dt.timedelta(days=hours.value / 24.0)
    assert walk.safe == care.counted_from + dt.timedelta(days=hours.high / 24.0)
    with written_where(bare.plan):
        by_programme = care_of(bare.plan, bare.rules)
    assert not by_programme.completed
    assert by_programme.dates[0].first == bare.plan.programme.foot_ready
    assert all(each.safe is None or each.safe >= each.first for each in (*care.dates, *by_programme.dates))


def test_where_it_is_too_cold_no_date_is_promised():
    def frozen(document):
        document["handed_over"] = {"completed_on": "2027-05-24"}
        area = document["areas"][0]["name"]
        document["calendar"]["bay_temperatures"] = [{"area": area, "temperature_c": -2.0}]

    given = planned(frozen)
    with written_where(given.plan):
        walk = care_of(given.plan, given.rules).dates[0]
    assert (walk.first, walk.safe) == (None, None)
    assert WORDS.no_end in words_of(given)


def test_the_neighbour_reads_what_the_plan_calculated_and_no_promise(recorded):
    said = words_of(recorded)
    storm = recorded.plan.water.storm
    for share in storm.shares:
        assert f"{share.after_l:.0f}" in said
    assert WORDS.border_none(name="East fence") in said
    assert WORDS.own_ground in said
    assert WORDS.water_of in said


def test_the_folder_is_the_same_on_every_run_and_holds_what_its_index_names(recorded):
    with written_where(recorded.plan):
        one, two = (folder(recorded, {"handover.pdf": b"%PDF"}) for _ in range(2))
        assert folder(recorded, {}) is None
    assert one == two
    with zipfile.ZipFile(io.BytesIO(one)) as held:
        names = held.namelist()
        index = held.read("index.txt").decode("utf-8")
        record = json.loads(held.read("data/handover.json"))
        rows = held.read("data/as-laid.csv").decode("utf-8").splitlines()
    assert names[0] == "index.txt"
    assert all(f"{name}: " in index for name in names[1:])
    assert "drawings/as-laid-plan.svg" in names
    assert len(rows) == 1 + sum(len(area.readings) for area in recorded.plan.as_laid.areas)
    assert record["handed_over"]["spares"][0]["count"] == 5


def test_a_folder_of_a_job_that_was_not_read_has_no_reading_in_it(bare):
    with written_where(bare.plan), zipfile.ZipFile(io.BytesIO(folder(bare, {"handover.pdf": b""}))) as held:
        assert json.loads(held.read("data/handover.json"))["as_laid"] is None
        assert len(held.read("data/as-laid.csv").decode("utf-8").splitlines()) == 1
        assert "drawings/as-laid-plan.svg" not in held.namelist()


def test_the_pack_holds_paper_and_folder_and_no_money_in_either(recorded):
    made = {each.name: each for each in pack(recorded.plan, recorded.rules, only=frozenset({PaperKey.HANDOVER}))}
    assert set(made) == {"handover.pdf", "handover.zip"}
    assert made["handover.zip"].content.count(made["handover.pdf"].content) == 1
    assert "£" not in words_of(recorded)


def test_what_was_noticed_about_readings_goes_with_them():
    def reversed_fall(document):
        for reading in document["as_laid"]["readings"]:
            reading["level_mm"] = 10_000.0 + (10_000.0 - reading["level_mm"])

    given = planned(reversed_fall)
    assert given.plan.as_laid.findings
    said = words_of(given)
    for finding in given.plan.as_laid.findings:
        assert finding.message in said


def test_a_job_with_open_stops_is_not_handed_over_as_if_it_had_none(recorded):
    def too_high(document):
        for wall in document["site"]["walls"]:
            if isinstance(wall.get("dpc_level_mm"), float):
                wall["dpc_level_mm"] -= 260.0

    given = planned(too_high)
    with written_where(given.plan):
        assert all(sheet.mark for sheet in document(given).sheets)
    with written_where(recorded.plan):
        marked = [sheet.mark for sheet in document(recorded).sheets]
    stops = [each for each in recorded.plan.findings if each.severity == "stop" and not each.of_money]
    assert any(marked) == bool(stops)


def jpeg(wide, high):
    out = io.BytesIO()
    Image.new("RGB", (wide, high), "teal").save(out, "JPEG")
    return out.getvalue()


def blocks_in(sheet):
    """Every block of a sheet, those inside of others too."""

    def inside(block):
        yield block
        for each in block.get("blocks", ()):
            yield from inside(each)
        for column in block.get("columns", ()) if block["kind"] == "beside" else ():
            for each in column:
                yield from inside(each)

    return [each for block in sheet.blocks for each in inside(as_data(block))]


def test_photos_stand_with_captions_and_one_that_cannot_be_read_is_named(recorded):
    grid = grid_of(recorded.plan)
    middle = (grid.left_mm + grid.pitch_mm / 2.0, grid.low_mm + grid.pitch_mm / 2.0)
    photos = (
        PaperPhoto(None, "Before the work"),
        PaperPhoto(jpeg(40, 30), "Trial hole\nat the gate", dt.date(2027, 5, 12), *middle),
        PaperPhoto(b"\xff\xd8\xff\xe0 torn", "The torn one"),
        PaperPhoto(b"", "The empty one"),
        PaperPhoto(jpeg(30, 90), "", None, -1e6, -1e6),
    )
    given = dataclasses.replace(recorded, photos=photos)
    with written_where(given.plan):
        sheets = photo_sheets(given)
        titles = [sheet.title for sheet in document(given).sheets]
        held = zipfile.ZipFile(io.BytesIO(folder(given, {"handover.pdf": b""})))
    assert titles.count(WORDS.photos) == len(sheets) == 1
    found = blocks_in(sheets[0])
    captions = [each["caption"] for each in found if each["kind"] == "photo"]
    assert captions[0].startswith("1. Trial hole at the gate · sent Wed 12 May 2027 · square A1")
    assert captions[1] == f"Photo 4 · {WORDS.photo_outside}"
    said = json.dumps(found, ensure_ascii=False)
    assert WORDS.photo_unread(caption="2. The torn one") in said
    assert WORDS.photo_unread(caption="3. The empty one") in said
    assert WORDS.photos_more(count="1") in said
    upright = next(each["svg"] for each in found if each.get("caption") == captions[1])
    assert 'height="64.000" xlink' in upright, upright[:300]
    with held:
        assert [name for name in held.namelist() if name.startswith("photos/")] == ["photos/01.jpg", "photos/04.jpg"]
        assert held.read("photos/01.jpg") == photos[1].content
        assert captions[0] in held.read("index.txt").decode("utf-8")


def test_of_many_photos_the_last_are_shown_no_more_than_six_on_a_page_and_the_rest_is_counted(recorded):
    # the widest photos are the lowest: still no more than three of them stand under each other
    photos = tuple(PaperPhoto(jpeg(32, 9), f"No {n}") for n in range(PHOTOS_MAX + 5))
    made = pack(recorded.plan, recorded.rules, only=frozenset({PaperKey.HANDOVER}), photos=photos)
    content = next(each.content for each in made if each.name == "handover.pdf")
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]
    on_each = [len(re.findall(r"\d+\. No \d+", page)) for page in pages]
    assert sum(on_each) == PHOTOS_MAX
    assert max(on_each) == 6
    with written_where(recorded.plan):
        (sheet,) = photo_sheets(dataclasses.replace(recorded, photos=photos))
    found = blocks_in(sheet)
    captions = [each["caption"] for each in found if each["kind"] == "photo"]
    assert [captions[0], captions[-1]] == ["1. No 5", f"{PHOTOS_MAX}. No {PHOTOS_MAX + 4}"]
    assert WORDS.photos_more(count="5") in json.dumps(found)


def test_a_job_without_photos_has_no_sheet_of_them(recorded):
    with written_where(recorded.plan):
        assert photo_sheets(recorded) == ()
