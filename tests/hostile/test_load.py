"""A small day of several people at one server: nothing fails, and all that was acknowledged is read back."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[2] / "tools"))
import load_server

CLIENTS, SECONDS, FIRMS = 5, 5.0, 2


@pytest.mark.slow
def test_five_people_of_two_firms_work_at_once_and_nothing_fails_or_is_lost(tmp_path, monkeypatch):
    monkeypatch.setattr(load_server, "THINKING_S", (0.05, 0.3))
    monkeypatch.setattr(load_server, "ROLES", ("owner", "crew", "customer"))
    monkeypatch.setattr(load_server, "JOBS_EACH", 2)
    data = tmp_path / "jobs.sqlite"
    reported = load_server.loaded(data, (CLIENTS,), SECONDS, FIRMS)[CLIENTS]
    assert dict(reported.failed) == {}
    assert len({each.firm for each in reported.kept}) == FIRMS
    assert load_server.read_back(data, reported.kept) == ([], [])
    one = reported.kept[0]
    missing = load_server.Kept(one.firm, one.kind, one.job, "never sent")
    assert load_server.read_back(data, [*reported.kept, missing]) == ([missing], [])
