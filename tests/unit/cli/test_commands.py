import json
from pathlib import Path

from click.testing import CliRunner

from pavewright.cli import main

CASES = Path(__file__).parents[2] / "published"


def run(*words):
    return CliRunner().invoke(main, list(words))


def test_schema_is_printed():
    assert json.loads(run("schema").output)["title"] == "Job"


def test_every_sum_is_listed():
    assert "two-peg-test" in run("sum", "--list").output


def test_a_sum_is_worked_out():
    answer = run("sum", "area-by-offsets", "interval_mm=1000", "offsets_mm=1000,2000,1000", "--json")
    assert answer.exit_code == 0, answer.output
    assert json.loads(answer.output)["answers"]


def test_unknown_sum_and_bad_number_get_a_sentence_and_exit_2():
    for words in (("sum", "nothing"), ("sum", "area-by-offsets", "interval_mm=wide", "offsets_mm=1,2")):
        answer = run(*words)
        assert answer.exit_code == 2
        assert "Traceback" not in answer.output


def test_published_cases_hold():
    answer = run("verify", *map(str, sorted(CASES.glob("*.toml"))))
    assert answer.exit_code == 0
    assert "all hold" in answer.output


def test_a_wrong_printed_answer_fails(tmp_path):
    text = (CASES / "survey_levels.toml").read_text("utf-8").replace('"97.650"', '"97.750"')
    wrong = tmp_path / "wrong.toml"
    wrong.write_text(text, "utf-8")
    answer = run("verify", str(wrong))
    assert answer.exit_code == 1
    assert "FAILS" in answer.output
