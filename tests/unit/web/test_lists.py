"""Lists that Python and the pages share: each stands once, and every name in them leads somewhere."""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path

import pytest

from pavewright import desk, drawing
from pavewright.desk import STAGES
from pavewright.papers import PAPERS, Reader
from pavewright.web._pages import static_files

STATIC = Path(desk.__file__).parents[1] / "web" / "static"


def test_the_pages_are_given_the_stages_and_drawings_of_the_program():
    lists = json.loads(static_files()["lib/lists.json"])
    assert [each["key"] for each in lists["stages"]] == [stage.key for stage in STAGES]
    assert {each["key"] for each in lists["drawings"]} == {each.key for each in drawing.DRAWINGS}
    assert {each["name"]: each["reader"] for each in lists["papers"]} == {
        each.name: each.reader.value for each in PAPERS
    }


def test_every_paper_of_a_pack_is_on_the_list_and_what_shows_cost_stays_inside(made_pack):
    _, papers = made_pack("l_terrace")
    known = {each.name: each.reader for each in PAPERS}
    assert {name for name in papers if not name.endswith(".svg")} <= set(known)
    assert {name for name, reader in known.items() if reader is Reader.INSIDE} == {
        "cost-sheet.pdf",
        "cost.xlsx",
        "plan.json",
    }


@pytest.mark.parametrize("stage", STAGES, ids=lambda stage: stage.key)
def test_every_stage_has_its_part_of_the_page_and_layers_that_there_are(stage):
    part = static_files()[f"job/stages/{stage.key}.js"].decode()
    assert re.search(r"export (async function|function|const) results\b", part)
    assert re.search(r"export (async function|function|const) inputs\b", part)
    layers = "".join(static_files()[f"job/plan/layers-{part}.js"].decode() for part in ("works", "site"))
    for name in stage.layers:
        assert re.search(rf"^\s*{name}: ", layers, re.MULTILINE), name


def test_the_findings_of_a_room_belong_to_one_stage():
    assert set(Counter(room for stage in STAGES for room in stage.rooms).values()) == {1}
    assert len({stage.key for stage in STAGES}) == len(STAGES)


def test_no_page_keeps_a_list_of_its_own():
    for named in (
        [stage.words for stage in STAGES],
        [each.words for each in PAPERS],
        [each.words for each in drawing.DRAWINGS if " " in each.words],
    ):
        for path in STATIC.rglob("*.js"):
            text = path.read_text("utf-8")
            assert len([words for words in named if f'"{words}"' in text]) < 3, path.name
