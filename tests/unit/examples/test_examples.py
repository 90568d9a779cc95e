"""The example jobs: fresh, clean, and with the errors that readings have."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

from pavewright.desk import make_pack, make_plan
from pavewright.findings import Severity
from pavewright.job import load_document, parse, to_text
from pavewright.quantities import GapReason, ScopeKind

ROOT = Path(__file__).parents[3]
NAMES = ("l_terrace", "curved_path", "front_drive", "gully_yard", "mixed_patio", "circle_court")


def test_the_files_are_what_the_tool_writes(monkeypatch):
    monkeypatch.syspath_prepend(ROOT / "tools")
    spec = importlib.util.spec_from_file_location("make_examples", ROOT / "tools" / "make_examples.py")
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    for path, text in tool.files().items():
        assert path.read_text("utf-8") == text, f"{path.name} is stale: run python tools/make_examples.py"


@pytest.mark.parametrize("name", NAMES)
def test_each_example_is_planned_without_a_stop_and_is_marked_invented(made_plan, name):
    done = made_plan(name)
    assert [finding for finding in done.findings if finding.severity is Severity.STOP] == []
    assert done.job.identity.invented
    # every thing bought has a price; a bank that stands over the paving is said to be open
    assert all(
        gap.reason is GapReason.NOT_MEASURED and gap.scope[0].kind is ScopeKind.LOW_WALL for gap in done.cost.gaps
    )
    assert parse(load_document(to_text(done.job))) == done.job


@pytest.mark.parametrize("name", NAMES)
def test_each_example_is_planned_by_the_rules_of_elsewhere_too(name):
    text = (ROOT / "examples" / f"{name}.json").read_text("utf-8").replace('"england"', '"elsewhere"')
    done = make_plan(text)
    assert done.edition == "elsewhere"
    assert not any(finding.code in {"water.front_garden", "water.sewer"} for finding in done.findings)
    assert make_pack(done)


def test_the_terrace_is_no_plain_square_and_its_readings_have_errors(made_plan):
    done = made_plan("l_terrace")
    area = done.survey.site.areas[0]
    assert 44.0 < area.shape.area_m2 < 48.0
    assert done.survey.tapes.spare >= 4
    assert 0.3 < done.survey.tapes.ratio < 2.0
    book = done.survey.level_books[0]
    assert book.setups == 3
    assert 2.0 <= abs(book.misclosure_mm) <= 3.0
    assert len(done.survey.ground.points) >= 20
    assert min(clearance.min_mm for clearance in done.levels.areas[0].clearances) == pytest.approx(150.0)
    assert {reading.verdict for reading in done.as_laid.areas[0].readings} >= {"pass", "fail"}


def test_the_path_is_curved_and_has_a_flight_of_steps(made_plan):
    done = made_plan("curved_path")
    assert any(piece.curved for area in done.laying.areas for piece in area.pieces)
    assert done.levels.steps[0].risers == 2


def test_the_drive_bears_cars_and_says_when_they_may_come(made_plan):
    done = made_plan("front_drive")
    assert done.programme.car_ready is not None
    assert {layer.key for layer in done.build_ups.areas[0].layers} >= {"unit", "bed", "sub_base"}
    assert "water.front_garden" not in [finding.code for finding in done.findings]
