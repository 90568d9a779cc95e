"""The account on the command line: shown, billed, decided, refused in words."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from tests.unit.account.jobs import accepted, bare, job_of, net

from pavewright.cli._account import account_command, bill_command, decide_command, vary_command
from pavewright.job import to_text
from pavewright.job.agreed import VariationState


@pytest.fixture
def run(tmp_path):
    def done(command, job, *words):
        path = tmp_path / "job.json"
        path.write_text(job if isinstance(job, str) else to_text(job), "utf-8")
        return CliRunner().invoke(command, [str(path), *words])

    return done


JOB = job_of(accepted([net(1_000_000)]), [([net(50_000)], VariationState.PROPOSED)])


def test_a_bill_is_added_and_the_account_shows_it(run):
    billed = run(bill_command, JOB, "stage", "--number", "1", "--on", "2027-03-01")
    assert billed.exit_code == 0
    shown = run(account_command, billed.output)
    assert shown.exit_code == 0
    said = shown.output.replace("\u202f", " ")
    assert "£12 000.00  agreed in all" in said
    assert "£3 000.00  bill 1, stage, 2027-03-01" in said
    assert "CHECK: Variation 1 is neither approved nor refused" in said
    told = json.loads(run(account_command, billed.output, "--json").output)
    assert (told["agreed_minor"], told["billed_minor"]) == (1_200_000, 300_000)


def test_a_variation_is_decided_and_a_stop_ends_with_one(run):
    decided = run(decide_command, JOB, "1", "approved", "--by", "A.", "--on", "2027-03-01")
    assert "£12 600.00  agreed in all" in run(account_command, decided.output).output.replace("\u202f", " ")
    document = json.loads(decided.output)
    document["bills"] = [{"number": 2, "kind": "stage", "on": "2027-03-02"}]
    assert run(account_command, json.dumps(document)).exit_code == 1


@pytest.mark.parametrize(
    ("command", "words", "said"),
    [
        (bill_command, ("stage", "--number", "9", "--on", "2027-03-01"), "no such payment"),
        (decide_command, ("7", "refused", "--by", "A.", "--on", "2027-03-01"), "no variation 7"),
        (vary_command, ("--name", "x", "--cause", "asked", "--on", "2027-03-01"), "either --before or --dig-deeper"),
    ],
)
def test_what_makes_no_sense_is_refused_in_words(run, command, words, said):
    refused = run(command, JOB, *words)
    assert refused.exit_code == 2
    assert said in refused.output


def test_a_job_that_was_not_accepted_says_so(run):
    shown = run(account_command, bare())
    assert (shown.exit_code, "Nothing was accepted yet." in shown.output) == (0, True)
