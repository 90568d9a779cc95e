"""Site papers: the figures of the plan, an empty box for each, and what nobody knows is unknown, never zero."""

from __future__ import annotations

import csv
import functools
import io
import json
import math

import pytest

from pavewright import rulebook
from pavewright.as_laid import reading_places
from pavewright.buildup import LayerKey
from pavewright.drawing import laying_squares
from pavewright.drawing._scene import Words
from pavewright.desk import make_plan, make_plan_so_far, starter_document
from pavewright.laying import saw_set_ups
from pavewright.papers import PaperInput, written_where
from pavewright.papers._tables import set_out_points
from pavewright.papers._words import day, level, one, whole
from pavewright.papers.look import as_data
from pavewright.papers.site_papers import document
from pavewright.papers.site_papers._bags import stages_of
from pavewright.papers.site_papers._held_words import HELD
from pavewright.papers.site_papers._measured_words import WORDS as MEASURED
from pavewright.papers.site_papers._words import WORDS
from pavewright.quantities import bed_cement_kg_per_m3, mix_gear
from pavewright.setting_out import HeightOf, pegs_of_layers

RULES = rulebook.load("england")


@functools.cache
def blocks_of(plan, so_far=None):
    with written_where(plan):
        sheets = document(PaperInput(plan, RULES, so_far=so_far)).sheets
        return {sheet.title: [as_data(block) for block in sheet.blocks] for sheet in sheets}


def inside(blocks):
    """Return blocks with those that stand together taken apart."""
    for block in blocks:
        if block["kind"] == "together":
            yield from inside(block["blocks"])
        else:
            yield block


def tables(blocks):
    return [block for block in inside(blocks) if block["kind"] == "table"]


def rows_under(blocks, title):
    """Return the rows of the first table after a heading."""
    found = list(inside(blocks))
    at = next(k for k, block in enumerate(found) if block["kind"] == "heading" and block["text"] == title)
    return next(block for block in found[at:] if block["kind"] == "table")["rows"]


@pytest.fixture(scope="module")
def terrace(made_plan):
    return made_plan("l_terrace")


def test_every_peg_inside_the_dig_has_its_planned_formation_and_an_empty_box(terrace):
    rows = rows_under(blocks_of(terrace)[WORDS.hold], WORDS.formation(number="1", area="Terrace"))
    cells = [tuple(row[k : k + 4]) for row in rows for k in (0, 4)]
    printed = {place: (down, at) for place, down, at, found in cells if place and found == ""}
    pegs = {peg.number: peg for peg in terrace.setting_out.pegs}
    expected = {}
    for number in pegs_of_layers(terrace.setting_out, "Terrace"):
        height = next(each for each in pegs[number].heights if each.layer is HeightOf.FORMATION)
        expected[str(number)] = (whole(height.down_from_string_mm), level(height.level_mm))
    assert printed == expected


def test_the_finished_paving_is_read_where_the_phone_reads_it(terrace):
    title = next(
        block["text"]
        for block in blocks_of(terrace)[WORDS.hold]
        if block["kind"] == "heading" and block["text"].endswith("Finished paving, Terrace")
    )
    rows = rows_under(blocks_of(terrace)[WORDS.hold], title)
    printed = {row[k]: row[k + 1] for row in rows for k in (0, 3) if row[k]}
    assert printed == {
        each.label: level(each.planned_mm) for each in reading_places(terrace.survey, terrace.levels, RULES)
    }


def test_limits_name_their_source_and_one_from_memory_says_so(terrace):
    said = " ".join(block.get("text", "") for block in inside(blocks_of(terrace)[WORDS.hold]))
    assert "AS/NZS 3727.1" in said
    assert "from memory, not verified" in said


def test_a_drain_of_unknown_level_is_unknown_and_no_level_is_zero(terrace):
    found = [
        row for block in inside(blocks_of(terrace)[WORDS.hold]) if block["kind"] == "checklist" for row in block["rows"]
    ]
    planned = [row["planned"] for row in found if row["planned"]]
    assert WORDS.unknown in planned
    assert not {"0", "0.000", "0 mm"} & set(planned)


def test_stages_are_all_that_is_laid_and_bags_are_those_of_the_bed(terrace):
    laid = terrace.laying.areas[0]
    stages = stages_of(laid)
    assert 1 < len(stages) <= 12
    assert sum(m2 for _, m2 in stages) == pytest.approx(laid.paved_m2 + laid.joint_m2)
    assert stages[-1][0] == WORDS.stage(course=str(laid.pieces[-1].course), piece=str(laid.pieces[-1].number))
    rows = tables(blocks_of(terrace)[WORDS.bags])[0]["rows"]
    assert [row[0] for row in rows] == [name for name, _ in stages]
    bed = next(item for item in terrace.quantities.items if item.key.kind.value == "mortar_bed")
    bags = bed.net * bed_cement_kg_per_m3(RULES) / mix_gear(terrace.quantities, RULES).bag_kg
    assert sum(row[5].count("□") for row in rows) == math.ceil(bags)
    assert rows[-1][3] == one(bags)


def test_one_bag_more_in_the_first_stage_is_said_in_millimetres_of_bed(terrace):
    laid = terrace.laying.areas[0]
    _, m2 = stages_of(laid)[0]
    bag_m3 = mix_gear(terrace.quantities, RULES).bag_kg / bed_cement_kg_per_m3(RULES)
    bed_m3 = next(item for item in terrace.quantities.items if item.key.kind.value == "mortar_bed").net
    bed = next(each for each in terrace.build_ups.area("Terrace").layers if each.key is LayerKey.BED)
    laid_m2 = laid.paved_m2 + laid.joint_m2
    mm = bag_m3 / m2 * bed.thickness_mm * laid_m2 / bed_m3
    assert tables(blocks_of(terrace)[WORDS.bags])[0]["rows"][0][4] == one(mm)


def test_stages_of_the_laying_plan_have_figures_of_a_stated_height_and_every_piece_once(terrace):
    squares = laying_squares(terrace)
    pieces = [piece for square in squares for piece in square.pieces]
    assert sorted(pieces) == sorted((laid.area, piece.number) for laid in terrace.laying.areas for piece in laid.pieces)
    for square in squares:
        heights = {
            each.height_mm for each in square.scene.elements if isinstance(each, Words) and each.layer == "numbers"
        }
        assert heights
        assert min(heights) * 0.73 >= 3.5
    found = blocks_of(terrace)
    assert all(square.scene.title in found for square in squares)


def test_every_set_up_is_a_row_and_every_cut_stands_in_one(terrace):
    rows = tables(blocks_of(terrace)[WORDS.cuts])[0]["rows"]
    ups = saw_set_ups(terrace.laying.areas[0])
    assert [row[0] for row in rows] == [str(up.number) for up in ups]
    assert all(
        f"{cut.unit}/{cut.cut} →" in row[2] for row, up in zip(rows, ups, strict=True) for cut in up.cuts if cut.cut
    )


def test_deliveries_are_those_of_the_programme_with_an_unknown_mass_said(terrace):
    blocks = blocks_of(terrace)[WORDS.deliveries]
    heads = [block["text"] for block in inside(blocks) if block["kind"] == "heading"]
    for each in terrace.programme.deliveries:
        assert any(day(each.on) in head for head in heads)
    items = [item for each in terrace.programme.deliveries for item in each.items]
    rows = [row for block in tables(blocks) for row in block["rows"] if row[0]]
    assert [row[0] for row in rows] == [item.description for item in items]
    assert [row[2] for row in rows] == [WORDS.unknown if item.kg is None else whole(item.kg) for item in items]


def test_pins_near_the_drain_are_listed_before_the_pegs(terrace):
    blocks = blocks_of(terrace)[WORDS.set_out]
    assert blocks[0]["kind"] == "callout"
    assert blocks[0]["text"] == terrace.setting_out.services_words
    near = tables(blocks)[0]["rows"]
    stopped = {str(peg.number) for peg in terrace.setting_out.pegs if peg.no_pin is not None}
    assert {row[0] for row in near if row[5] == WORDS.no_pin} >= stopped


def test_a_job_from_nothing_gives_blank_forms_and_says_why_the_rest_is_missing():
    so_far = make_plan_so_far(starter_document("Nothing"))
    found = blocks_of(so_far.with_rooms(()), so_far)
    assert list(found) == [WORDS.title, HELD.differs, MEASURED.title, WORDS.log, WORDS.deliveries, WORDS.waste]
    left_out = next(block for block in found[WORDS.title] if block["kind"] == "list")["items"]
    assert len(left_out) == 9
    assert all(so_far.missing[0].words in words for words in left_out)
    assert WORDS.loads_unknown in [block.get("text") for block in found[WORDS.waste]]
    assert WORDS.log_words(days=WORDS.log_days_unknown) in [block.get("text") for block in found[WORDS.log]]


def test_loads_are_those_of_the_dig_and_unknown_where_nobody_levelled_the_ground(terrace, small):
    said = " ".join(block.get("text", "") for block in blocks_of(terrace)[WORDS.waste])
    loads = terrace.earthworks.loads
    assert f"{whole(loads.low)} to {whole(loads.high)} loads" in said
    small.rectangle(4000, 3000)
    plan = make_plan(json.dumps(small.document))
    assert WORDS.loads_unknown in [block.get("text") for block in blocks_of(plan)[WORDS.waste]]


def test_levels_at_pegs_are_those_of_the_file_for_the_instrument_and_of_the_sheet_of_strings(terrace):
    file = {row["peg"]: row for row in csv.DictReader(io.StringIO(set_out_points(terrace).decode("utf-8")))}
    rows = rows_under(blocks_of(terrace)[WORDS.hold], WORDS.formation(number="1", area="Terrace"))
    pegs = {str(peg.number): peg for peg in terrace.setting_out.pegs}
    strung = {row[0]: row for block in tables(blocks_of(terrace)[WORDS.set_out])[1:] for row in block["rows"]}
    for place, down, at, _ in (tuple(row[k : k + 4]) for row in rows for k in (0, 4) if row[k]):
        row = file[pegs[place].name]
        # the file has tenths of a millimetre, the sheet whole ones
        assert float(down) == pytest.approx(float(row["formation_down_mm"]), abs=0.56)
        assert 1000.0 * float(at) == pytest.approx(float(row["formation_level_mm"]), abs=0.56)
        assert at in strung[place]
