"""A job keeps the edition that it was planned with, and its plan says what a newer one would change."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace

import pytest

from pavewright import rulebook
from pavewright.desk import demo_document, make_plan, starter_document
from pavewright.findings import Severity
from pavewright.job import load_document, parse
from pavewright.rulebook import _load
from pavewright.rules import changes, watched

FIRST = rulebook.load("england").dated
CACHED = (_load._folders, _load._head, _load._register, _load.sources, _load.load)


@pytest.fixture
def newer(tmp_path_factory):
    """A newer edition of England: paving lies further below the damp-proof course."""
    folder = tmp_path_factory.mktemp("own") / "england_2027"
    folder.mkdir()
    written = {
        "edition": 'title = "England, 2027"\nlocality = "england"\nextends = "england"\ndate = 2027-03-01',
        "levels": '[figures]\nbelow_dpc_mm = { value = 175, unit = "mm", source = "common_practice", status = "C", '
        'label = "paving below the damp-proof course" }\n',
    }
    for name, text in written.items():
        (folder / f"{name}.toml").write_text(text, "utf-8")
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv(rulebook.OWN_EDITIONS, str(folder.parent))
        for each in CACHED:
            each.cache_clear()
        yield dt.date(2027, 3, 1)
    for each in CACHED:
        each.cache_clear()


def document(edition=None):
    job = json.loads(demo_document())
    if edition is not None:
        job["identity"]["edition"] = edition.isoformat()
    return json.dumps(job)


def of_code(made, code):
    return [finding for finding in made.findings if finding.code == code]


def test_without_a_newer_edition_nothing_is_said_and_the_newest_is_taken():
    made = make_plan(document(FIRST))
    assert made.edition == "england"
    assert not [finding for finding in made.findings if finding.code.startswith("rulebook.")]


def test_a_job_that_keeps_no_edition_is_planned_with_the_newest(newer):
    assert "england_2027" not in rulebook.localities()
    made = make_plan(document())
    assert made.edition == "england_2027"
    assert rulebook.load(made.edition).dated == newer
    assert not of_code(made, "rulebook.newer_edition")


def test_a_job_keeps_its_edition_and_shows_what_the_newer_one_changes(newer):
    kept = make_plan(document(FIRST))
    assert kept.edition == "england"
    (finding,) = of_code(kept, "rulebook.newer_edition")
    assert finding.severity is Severity.CHECK
    assert "150 mm before and 175 mm now" in finding.message
    assert "finished levels differ by up to 25.0 mm" in finding.message
    (option,) = finding.options
    (change,) = option.changes
    assert (change.path, change.value) == ("identity.edition", newer.isoformat())
    plain = make_plan(document()).cost.total_minor - kept.cost.total_minor
    assert ("the price is" in finding.message) == (plain != 0)


def test_a_figure_that_was_not_read_is_no_change():
    rules = rulebook.load("england")
    seen, log = watched(rules)
    other, _ = watched(rulebook.load("usa"))
    assert changes(rules, other, log) == ()
    assert seen.value("levels.main_fall_one_in") == rules.value("levels.main_fall_one_in")
    (only,) = changes(rules, other, log)
    assert only.before.key == "levels.main_fall_one_in"


def test_a_cell_of_a_table_that_was_read_is_a_change():
    rules = rulebook.load("england")
    table = rules.table("earthworks.bulking")
    cell = table.rows[0].values[0]
    row = replace(table.rows[0], values=((cell[0], cell[1] + 5.0), *table.rows[0].values[1:]))
    other = replace(rules, tables={**rules.tables, table.key: replace(table, rows=(row, *table.rows[1:]))})
    seen, log = watched(rules)
    assert changes(rules, other, log) == ()
    seen.table("earthworks.bulking")
    (only,) = changes(rules, other, log)
    assert only.after.value == only.before.value + 5.0


def test_a_rule_that_only_the_newer_edition_has_is_a_change_where_it_was_asked_for():
    rules, richer = rulebook.load("common"), rulebook.load("england")
    key = next(key for key in sorted(richer.figures) if not rules.has(key))
    seen, log = watched(rules)
    assert not seen.has(key)
    (only,) = changes(rules, richer, log)
    assert (only.before, only.after) == (None, richer.figure(key))


def test_an_edition_that_is_not_installed_is_said():
    made = make_plan(document(dt.date(2020, 1, 1)))
    (finding,) = of_code(made, "rulebook.edition_not_here")
    assert finding.severity is Severity.CHECK
    assert "2020-01-01" in finding.message
    assert FIRST.isoformat() in finding.message


def test_a_new_job_keeps_the_newest_edition():
    job = parse(load_document(starter_document("")))
    assert job.identity.edition == FIRST
