"""Quoting and re-pricing from the command line, and what the desk hands to the screens."""

from __future__ import annotations

import copy
import json

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.desk import SCREEN_VERBS, demo_document
from pavewright.desk._beside import beside_book


@pytest.fixture(scope="module")
def files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("firm")
    demo = json.loads(demo_document())
    book = {"format": "pavewright.firm", "version": 1, "rates": demo["rates"], "units": demo["units"]}
    later = copy.deepcopy(book)
    later["rates"]["labour_minor_per_hour"] += 200
    bare = copy.deepcopy(demo)
    bare["rates"] = {"plant": [{"key": each["key"], "name": each["name"]} for each in demo["rates"]["plant"]]}
    del bare["units"][0]["pack_price_minor"]
    for name, document in (("book", book), ("later", later), ("bare", bare)):
        (folder / f"{name}.json").write_text(json.dumps(document), "utf-8")
    return folder


def run(*words: object):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_a_job_is_quoted_and_priced_again(files):
    made = run("quote", files / "bare.json", "--firm", files / "book.json", "--on", "2027-04-01")
    assert made.exit_code == 0
    (files / "quoted.json").write_text(made.stdout, "utf-8")
    told = run("reprice", files / "quoted.json", "--firm", files / "later.json", "--quiet")
    assert told.exit_code == 0
    assert "Bed and lay, Terrace" in told.stdout
    assert "£28.50 -> " in told.stdout
    same = run("reprice", files / "quoted.json", "--firm", files / "book.json", "--quiet")
    assert "No line changes." in same.stdout


def test_what_cannot_be_quoted_or_priced_again_says_why(files):
    nothing = run("quote", files / "bare.json", "--on", "2027-04-01")
    assert nothing.exit_code == 2
    assert "nothing has one yet" in nothing.output
    never = run("reprice", files / "bare.json", "--quiet")
    assert never.exit_code == 2
    assert "was not quoted yet" in never.output


def test_the_screens_ask_the_same(files):
    book, bare = (files / "book.json").read_bytes(), (files / "bare.json").read_bytes()
    asked = SCREEN_VERBS["quote"](beside_book(book, b"2027-04-01\n" + bare), lambda _: None)
    operations = json.loads(asked)["operations"]
    assert [each["at"] for each in operations] == [["identity", "edition"], ["quoted"]]
    quoted = json.loads(bare) | {"quoted": operations[-1]["to"]}
    later = (files / "later.json").read_bytes()
    told = json.loads(SCREEN_VERBS["reprice"](beside_book(later, json.dumps(quoted).encode()), lambda _: None))
    assert {line["kind"] for line in told["repriced"]["lines"]} == {"rate"}
    assert [step["step"] for step in told["repriced"]["steps"]][0] == "prime"
