"""The commands of the order book."""

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.store import open_file, open_installation
from pavewright.store import open_store

BOOK = {
    "state": "on_site", "by_hand": False, "facts": {"begun": True}, "place": "ZZ9", "people": [], "holds_until": None,
    "owing_minor": 700, "total_minor": None, "currency": "GBP", "stage": 1, "stops": 0, "weeks": [], "gaps": [],
    "dues": [{"kind": "bill_owing", "key": "b", "on": "2027-05-02", "until": None, "what": "1", "amount_minor": 700, "count": 1}],
}  # fmt: skip


def test_jobs_and_what_is_due_are_listed(tmp_path):
    data = tmp_path / "jobs.sqlite"
    store = open_store(f"sqlite:///{data}")
    job = store.add('{"identity": {"title": "Patio"}}')
    store.keep_summary(job.id, 1, "{}", BOOK)
    store.add('{"identity": {"title": "Drive"}}')
    store.close()

    def run(*words):
        return CliRunner().invoke(main, [*words, "--data", str(data)]).output.splitlines()

    assert run("jobs", "--state", "on_site") == [
        f"{job.id}  Patio: On site. Something was logged or read on site.",
        "1 of 1 jobs",
    ]
    assert run("jobs")[-1] == "2 of 2 jobs"
    assert run("due", "--on", "2027-05-10") == [
        "2027-05-02  Bill not paid: 1 (Patio), 8 days late, £7.00",
        "1 due; 1 job is not worked out yet",
    ]
    assert run("due", "--on", "2027-05-10", "--without-money")[-1].startswith("0 due")


@pytest.mark.parametrize("words", [("jobs",), ("due",), ("calendar", "show"), ("replan",), ("firms", "list")])
def test_a_file_that_holds_no_jobs_is_refused_in_a_sentence(tmp_path, words):
    data = tmp_path / "jobs.sqlite"
    data.write_text("notes, not jobs")
    found = CliRunner().invoke(main, [*words, "--data", str(data)])
    assert found.exit_code == 2
    assert "jobs.sqlite" in found.output
    assert "fault of the program" not in found.output


def test_an_empty_store_is_answered(tmp_path):
    open_file(tmp_path / "jobs.sqlite").close()

    def run(*words):
        found = CliRunner().invoke(main, [*words, "--data", str(tmp_path / "jobs.sqlite")])
        return found.exit_code, found.output.splitlines()[-1]

    assert run("calendar", "show", "--quiet") == (0, "Nothing stands on the calendar.")
    assert run("calendar", "move", "--quiet", "none", "1", "2027-05-10")[0] == 2
    assert run("firms", "add", " ") == (2, "Give the firm a name.")
    assert run("people", "first-owner", " ") == (2, "Give the owner a name.")


def test_a_second_link_for_the_first_owner_ends_the_first(tmp_path):
    data = tmp_path / "jobs.sqlite"
    printed = [
        CliRunner().invoke(main, ["people", "first-owner", "A. Flagg", "--data", str(data)]).stdout for _ in range(2)
    ]
    first, second = (each.strip().rpartition("/")[2] for each in printed)
    installation = open_installation(data)
    try:
        assert installation.accounts.invitation(first) is None
        assert installation.accounts.invitation(second).role == "owner"
    finally:
        installation.close()
