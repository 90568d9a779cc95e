"""What docs/adding.md says is enough: each thing is added to a copy of the program and run through."""

from __future__ import annotations

import io
import json
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

ROOT = Path(__file__).parents[2]
HEADINGS = ("A pattern", "A locality", "An assembly", "A sum", "A sheet", "A drawing", "A stage of the screens")


def test_all_that_stands_on_the_page_goes_together_and_is_in_the_style_of_the_house(copy):
    for heading in HEADINGS:
        assert copy.add(heading)
    shutil.copy(ROOT / "pyproject.toml", copy.place)
    done = subprocess.run(
        [sys.executable, "-m", "ruff", "check", "src"], cwd=copy.place, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout
    copy.run("sum", "--list")


def test_a_pattern(copy):
    touched = copy.add("A pattern")
    assert {path.rsplit("/", 1)[0] for path in touched} == {
        "src/pavewright/laying/patterns",
        "src/pavewright/job",
        "src/pavewright/rulebook/data/common",
    }
    plan = json.loads(copy.run("plan", copy.job(pattern="ladder"), "--json", codes=(1,)))
    (area,) = plan["laying"]["areas"]
    assert area["pattern"] == "ladder"
    whole = [piece for piece in area["pieces"] if piece["kind"] == "whole"]
    wide = {
        round(max(x for x, _ in piece["shape"]["outer"]) - min(x for x, _ in piece["shape"]["outer"]))
        for piece in whole
    }
    assert wide == {100, 200}
    # nothing is left out and nothing lies twice
    assert area["paved_m2"] + area["joint_m2"] == pytest.approx(4.87 * 3.65, rel=1e-3)
    assert "cost.lay_ladder_h_per_m2" in {
        figure["key"] for each in plan["cost"]["labour"] for figure in each["working"]["figures"]
    }
    words = copy.ask(
        "import json; from pavewright import rulebook; from pavewright.desk import make_plan\n"
        "from pavewright.papers import customer_words\n"
        "plan = make_plan(open('job.json', 'rb').read())\n"
        "print(json.dumps(customer_words(plan, rulebook.load(plan.edition)).scope))"
    )
    assert any("in ladders" in line for line in words)


def test_a_locality(copy, monkeypatch):
    assert all(path.startswith("src/pavewright/rulebook/data/north_shore/") for path in copy.add("A locality"))
    name = copy.job()
    document = json.loads((copy.place / name).read_text("utf-8"))
    document["identity"]["locality"] = "north_shore"
    document["site"]["walls"][0]["dpc_level_mm"] = 10160.0
    (copy.place / name).write_text(json.dumps(document), "utf-8")
    own = json.loads(copy.run("plan", name, "--json", codes=(1,)))
    assert own["edition"] == "north_shore"
    assert 10160.0 - 175.0 in {finding["limit"] for finding in own["findings"]}
    assert "north_shore" in copy.run("schema")
    # the same folder, outside the program
    outside = copy.place / "editions"
    outside.mkdir()
    (copy.place / "src" / "pavewright" / "rulebook" / "data" / "north_shore").rename(outside / "north_shore")
    copy.run("plan", name, "--quiet", codes=(2,))
    monkeypatch.setenv("PAVEWRIGHT_RULEBOOKS", str(outside))
    assert json.loads(copy.run("plan", name, "--json", codes=(1,))) == own


def test_an_assembly(copy):
    assert copy.add("An assembly") == ["src/pavewright/rulebook/data/common/assemblies.toml"]
    name = copy.job()

    def planned():
        plan = json.loads(copy.run("plan", name, "--json", codes=(1,)))
        items = {item["key"]: item for item in plan["quantities"]["items"]}
        lines = {line["key"]: line["amount_minor"] for line in plan["cost"]["lines"]}
        return items, lines, {gap["item"] for gap in plan["cost"]["gaps"]}

    items, lines, gaps = planned()
    tape, around = items["catalogue.masking_tape"], 2 * (4.87 + 3.65)
    assert tape["net"] == pytest.approx(1.1 * around)
    assert (tape["low"], tape["high"]) == pytest.approx((1.0 * around, 1.3 * around))
    assert {"catalogue.masking_tape", "catalogue.marking_paint"} <= gaps - set(lines)
    # what the page says of one's own, put into the job
    document = json.loads((copy.place / name).read_text("utf-8"))
    own = re.search(
        r"## An assembly\n.*?```json\n(.*?)```", (ROOT / "docs" / "adding.md").read_text("utf-8"), re.DOTALL
    )
    document["rates"] |= json.loads(own[1])
    (copy.place / name).write_text(json.dumps(document), "utf-8")
    items, lines, gaps = planned()
    assert "catalogue.marking_paint" not in items.keys() | gaps
    assert [items[f"catalogue.{key}"]["ordered"] for key in ("masking_tape", "knee_pads")] == [1, 1]
    assert [lines[f"catalogue.{key}"] for key in ("masking_tape", "knee_pads")] == [320, 1450]
    assert not gaps & {"catalogue.masking_tape", "catalogue.knee_pads"}


def test_a_sum(copy):
    assert copy.add("A sum") == ["src/pavewright/earthworks/_sums_volumes.py"] * 2 + [
        "tests/published/earthworks_heaps.toml"
    ]
    assert "heap-size" in copy.run("sum", "--list")
    assert "2,000" in copy.run("sum", "heap-size", "volume_m3=1.0471976", "slope_deg=45").replace("2000", "2,000")
    copy.run("verify", "tests/published/earthworks_heaps.toml")
    reported = copy.ask("import json; from pavewright.desk import sums_told; print(json.dumps(sums_told()))")
    assert "heap-size" in {each["name"] for each in reported}


def test_a_sheet_and_a_drawing(copy):
    papers = "src/pavewright/papers"
    new = [f"{papers}/_tools_words.py", f"{papers}/_sheets_tools.py"]
    assert copy.add("A sheet") == new + [f"{papers}/_pack.py"] * 2
    assert (
        copy.add("A drawing")
        == ["src/pavewright/drawing/_plan_outline.py"] + ["src/pavewright/drawing/_register.py"] * 2
    )
    copy.run("pack", copy.job(), "-o", "pack", "--quiet", codes=(1,))
    text = "\n".join(page.extract_text() for page in PdfReader(copy.place / "pack" / "job-pack.pdf").pages)
    # once in the contents, once as its title
    assert len(re.findall("Tools to load", text)) >= 2
    assert "pieces are cut" in text
    assert (copy.place / "pack" / "plans" / "outline-plan.svg").is_file()
    wide = PdfReader(io.BytesIO((copy.place / "pack" / "plans-a3.pdf").read_bytes()))
    assert any("Outlines to sketch on" in page.extract_text() for page in wide.pages)
    lists = copy.ask("import json; from pavewright.desk import screen_lists; print(json.dumps(screen_lists()))")
    assert {"key": "outlines", "words": "Outlines to sketch on"} in lists["drawings"]
