"""The commands plan, pack and demo as a person uses them."""

from __future__ import annotations

import json
import re
import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner
from PIL import Image
from pypdf import PdfReader

from pavewright.cli import _progress, main
from pavewright.cli._progress import Progress

ROOT = Path(__file__).parents[3]
TERRACE = ROOT / "examples" / "l_terrace.json"


def run(*words):
    return CliRunner().invoke(main, list(words))


def test_a_clean_job_is_told_in_headlines_and_exits_0():
    answer = run("plan", str(TERRACE))
    assert answer.exit_code == 0
    for words in (
        "150 mm below the damp-proof course",
        "40 + mortar bed",
        "= 150 mm",
        "Price",
        "Programme",
        "Findings    0 stop",
    ):
        assert words in answer.output


@pytest.mark.parametrize("job", sorted(path.name for path in (ROOT / "examples").glob("*.json")))
def test_every_example_is_told(job):
    answer = run("plan", str(ROOT / "examples" / job))
    assert answer.exit_code == 0
    assert "Findings    0 stop" in answer.output


def test_a_soakaway_is_told_with_what_it_wants_and_holds():
    reported = run("plan", str(ROOT / "examples" / "front_drive.json")).output
    assert re.search(r"Soakaway    Soakaway: .* need \d\.\d\d m³, it holds \d\.\d\d m³; half empty after", reported)


def test_a_finding_that_says_stop_exits_1_with_its_chain_and_numbered_ways_out(tmp_path):
    document = json.loads(TERRACE.read_text("utf-8"))
    document["site"]["covers"][0] |= {"fixed": True, "level_mm": 9990.0}
    path = tmp_path / "job.json"
    path.write_text(json.dumps(document), "utf-8")
    answer = run("plan", str(path))
    assert answer.exit_code == 1
    assert "STOP" in answer.output
    assert "1. " in answer.output
    assert "Lower the frame of cover IC1" in answer.output


def test_the_whole_plan_comes_as_json():
    answer = run("plan", str(TERRACE), "--json")
    assert json.loads(answer.stdout)["edition"] == "england"


def test_pack_and_demo_fill_a_folder(tmp_path):
    answer = run("pack", str(TERRACE), "-o", str(tmp_path / "pack"), "--quiet")
    assert answer.exit_code == 0
    assert (tmp_path / "pack" / "job-pack.pdf").stat().st_size > 100_000
    answer = run("demo", "-o", str(tmp_path / "demo"))
    assert answer.exit_code == 0
    assert (tmp_path / "demo" / "job-pack.pdf").read_bytes() == (tmp_path / "pack" / "job-pack.pdf").read_bytes()


def test_photos_of_a_folder_go_into_the_handover_and_a_torn_one_stops_nothing(tmp_path):
    shots, out = tmp_path / "shots", tmp_path / "pack"
    shots.mkdir()
    Image.new("RGB", (40, 30), "teal").save(shots / "02 finished.png")
    (shots / "01 torn.jpg").write_bytes(b"torn")
    (shots / "notes.txt").write_text("no photo")
    answer = run("pack", str(TERRACE), "-o", str(out), "--only", "handover", "--text", "--photos", str(shots))
    assert answer.exit_code == 0, answer.output
    text = (out / "handover.txt").read_text("utf-8")
    assert "not shown: 1. 01 torn" in text
    assert "Photo: 2. 02 finished" in text
    with zipfile.ZipFile(out / "handover.zip") as held:
        assert [name for name in held.namelist() if name.startswith("photos/")] == ["photos/02.jpg"]


@pytest.mark.parametrize(("size", "side_mm"), [("a3", 420.0), ("a4", 297.0)])
def test_drawings_stand_on_the_size_that_is_chosen_and_no_document_mixes_sizes(tmp_path, size, side_mm):
    wanted = ("--only", "customer-pack,plans,job-pack", "--drawings", size)
    answer = run("pack", str(TERRACE), "-o", str(tmp_path), *wanted)
    assert answer.exit_code == 0, answer.output
    sides = {
        path.name: {
            round(max(page.mediabox.width, page.mediabox.height) / 72.0 * 25.4) for page in PdfReader(path).pages
        }
        for path in tmp_path.glob("*.pdf")
    }
    assert all(len(found) == 1 for found in sides.values())
    assert sides["customer-pack.pdf"] == {side_mm}
    assert sides["job-pack.pdf"] == {297}
    assert ("plans-a3.pdf" in sides) == (size == "a3")
    assert ("wanted on A4" in answer.output) == (size == "a4")


def test_a_folder_that_cannot_be_written_gets_a_sentence(tmp_path):
    (tmp_path / "file").write_text("x")
    answer = run("pack", str(TERRACE), "-o", str(tmp_path / "file" / "inside"))
    assert answer.exit_code == 2
    assert "choose another folder" in answer.stderr


@pytest.mark.parametrize("command", ["plan", "pack", "demo", "sum", "verify", "schema"])
def test_every_command_has_help(command):
    answer = run(command, "--help")
    assert answer.exit_code == 0
    assert "Usage:" in answer.output


def test_progress_speaks_after_a_second_unless_quiet(capsys):
    Progress(quiet=False, begun=0.0)("laying")
    Progress(quiet=True, begun=0.0)("laying")
    assert capsys.readouterr().err == "… laying\n"


def test_a_storm_is_told_as_bands():
    answer = run("storm", str(ROOT / "examples" / "curved_path.json"), "--minutes", "2", "--cell", "200", "--quiet")
    assert answer.exit_code == 0
    assert "nine tenths gone" in answer.output
    refused = run("storm", str(TERRACE), "--rain", "-5", "--quiet")
    assert refused.exit_code == 2
    assert "Rain is up to" in refused.output


def test_the_map_of_a_storm_is_drawn_and_a_bad_place_gets_a_sentence(tmp_path):
    words = ("storm", str(ROOT / "examples" / "gully_yard.json"), "--minutes", "2", "--cell", "150", "--quiet", "-o")
    assert run(*words, str(tmp_path / "film.svg")).exit_code == 0
    drawn = (tmp_path / "film.svg").read_text("utf-8")
    assert "mm at the deepest" in drawn
    assert drawn.count("<path") > 5
    assert run(*words, str(tmp_path)).exit_code == 2


def test_starts_are_told_with_the_fields_that_bring_them_about():
    answer = run("starts", str(TERRACE), "--quiet")
    assert answer.exit_code == 0
    for words in ("now       20 cut pieces", "fewest slivers", "shift_along_mm", "starts in", "counts better"):
        assert words in answer.output
    (area,) = json.loads(run("starts", str(TERRACE), "--quiet", "--json").stdout)
    assert area["choices"][0]["slivers"] == 0


def test_starts_of_what_is_no_job_exit_2(tmp_path):
    path = tmp_path / "job.json"
    path.write_text("{}", "utf-8")
    answer = run("starts", str(path))
    assert answer.exit_code == 2
    assert "is not a job that can be planned" in answer.stderr


def test_progress_never_stands_among_the_answer(monkeypatch):
    monkeypatch.setattr(_progress, "_QUIET_FOR_S", 0.0)
    answer = run("plan", str(TERRACE), "--json")
    assert json.loads(answer.stdout)["edition"] == "england"
    assert "… levels" in answer.stderr


def test_single_papers_are_asked_for_by_name_with_their_text(tmp_path):
    answer = run("pack", str(TERRACE), "-o", str(tmp_path), "--quiet", "--text", "--only", "piece-numbers, POINTS")
    assert answer.exit_code == 0
    made = sorted(path.name for path in tmp_path.iterdir())
    assert made == [
        *("piece-numbers.pdf", "piece-numbers.txt", "points-penzd.csv", "points-pnezd.csv", "set-out-points.csv")
    ]


def test_a_paper_that_there_is_not_is_refused_with_those_that_there_are(tmp_path):
    answer = run("pack", str(TERRACE), "-o", str(tmp_path), "--only", "customer-pakc")
    assert answer.exit_code == 2
    said = " ".join(answer.output.split())
    assert 'There is no paper "customer-pakc". Did you mean customer-pack?' in said
    assert "piece-numbers" in said
    assert list(tmp_path.iterdir()) == []


def test_who_asks_for_a_paper_that_a_job_has_no_need_of_is_told_so(tmp_path):
    answer = run("pack", str(TERRACE), "-o", str(tmp_path), "--quiet", "--only", "templates")
    assert answer.exit_code == 2
    assert "templates.pdf: No unit of this job is cut to a curve." in answer.output
