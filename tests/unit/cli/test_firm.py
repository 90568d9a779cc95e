"""The book on the command line."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.store import open_file

_LIST = "Code;Description;Unit;Price\nC1;Cement;25 kg;7.20\nB;Bad;bag;3\n"


@pytest.fixture
def run(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    open_file(tmp_path / "jobs.sqlite").close()

    def asked(*words: str) -> tuple[int, str]:
        done = CliRunner().invoke(main, ["firm", *words, "--data", "jobs.sqlite"])
        return done.exit_code, done.output

    return asked


def test_a_store_without_a_book_says_how_to_begin(run):
    assert "No book yet" in run("show")[1]


def test_a_price_list_is_shown_and_only_then_taken(run, tmp_path):
    (tmp_path / "list.csv").write_text(_LIST, "utf-8")
    words = ("prices", "list.csv", "--supplier", "Quarry", "--on", "2026-11-01")
    assert "not taken, row 3" in run(*words)[1]
    assert json.loads(run("export")[1]) == {"format": "pavewright.firm", "version": 1}
    assert run(*words, "--take")[0] == 0
    assert json.loads(run("export")[1])["rates"]["materials"][0]["pack_price_minor"] == 720
    assert "1 things that are bought, 0 of them without a price" in run("show")[1]


def test_a_book_goes_out_and_comes_in_as_it_was(run, tmp_path):
    book = {"format": "pavewright.firm", "version": 1, "firm": {"name": "Stone & Son"}}
    (tmp_path / "book.json").write_text(json.dumps(book), "utf-8")
    assert run("import", "book.json")[0] == 0
    assert json.loads(run("export")[1]) == book
    assert "Stone & Son, revision 1" in run("show")[1]


@pytest.mark.parametrize("content", ["", "[]", "{}", '{"format": "pavewright.firm", "version": 9}', "\x00"])
def test_what_is_no_book_is_refused(run, tmp_path, content):
    (tmp_path / "book.json").write_text(content, "utf-8")
    assert run("import", "book.json")[0] == 2
    assert "No book yet" in run("show")[1]


def test_what_is_no_list_is_refused(run, tmp_path):
    (tmp_path / "list.csv").write_text("\n\n", "utf-8")
    assert run("prices", "list.csv", "--supplier", "Quarry")[0] == 2
    (tmp_path / "list.csv").write_text(_LIST, "utf-8")
    assert run("prices", "list.csv", "--supplier", "Quarry", "--on", "soon")[0] == 2


def test_lists_of_plant_and_loads_come_in_by_what_their_lines_are(run, tmp_path):
    (tmp_path / "hire.csv").write_text("Machine,Price\nPlate compactor,29.00\nHeater,12.00\n", "utf-8")
    words = ("prices", "hire.csv", "--supplier", "Ashgrove", "--of", "plant", "--on", "2027-03-01")
    assert "to be said first" in run(*words)[1]
    assert run(*words, "--take")[0] == 2
    assert run(*words, "--per", "day", "--take")[0] == 0
    (tmp_path / "skips.csv").write_text("Description,Price\n6 yd skip,265\n8 yd skip,310\n", "utf-8")
    words = ("prices", "skips.csv", "--supplier", "Pennick", "--of", "disposal", "--on", "2027-03-01")
    code, said = run(*words, "--take")
    assert code == 2
    assert "none of them is taken" in said
    assert run(*words, "--use", "skip", "--take")[0] == 2
    assert run(*words, "--use", "3=skip", "--take")[0] == 0
    rates = json.loads(run("export")[1])["rates"]
    assert [each["key"] for each in rates["plant"]] == ["plate"]
    assert (rates["disposal"]["kind"], rates["disposal"]["load_price_minor"]) == ("skip", 31000)
    assert "1 machines and tools, spoil away by skip" in run("show")[1]
