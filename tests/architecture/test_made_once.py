"""What all processes of the tests share is made by one of them."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest


@pytest.fixture
def shared(monkeypatch):
    found = importlib.util.spec_from_file_location("shared_by_tests", Path(__file__).parents[1] / "conftest.py")
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    monkeypatch.setattr(module, "_PATIENCE", 1)
    return module


def test_the_second_process_takes_what_the_first_made(shared, tmp_path):
    first = shared.once_for_all(tmp_path / "terrace", lambda: {"plan.json": b"{}"})
    again = shared.once_for_all(tmp_path / "terrace", lambda: pytest.fail("made twice"))
    assert again == first == {"plan.json": b"{}"}
    assert shared.once_for_all(tmp_path / "path", lambda: {"other": b""}) == {"other": b""}


def test_who_waits_for_a_process_that_has_gone_makes_it_himself(shared, tmp_path):
    (tmp_path / "terrace.making").touch()
    assert shared.once_for_all(tmp_path / "terrace", lambda: {"plan.json": b"{}"}) == {"plan.json": b"{}"}
