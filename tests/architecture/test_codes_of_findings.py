"""Codes of findings are enums of their room: none is written out where a finding is made."""

from __future__ import annotations

import ast
import importlib
from enum import StrEnum
from pathlib import Path

import pytest

from pavewright.desk._stages import STAGES
from pavewright.findings import MoneyCode

SOURCE = Path(__file__).resolve().parents[2] / "src" / "pavewright"
ROOMS = (
    "account", "as_laid", "bedding", "buildup", "cash", "cost", "earthworks", "laying", "levels", "papers", "programme", "quantities", "setting_out",
    "survey", "water",
)  # fmt: skip


def made_in(room: str) -> list[ast.expr]:
    """Return the first argument of every finding that a room makes."""
    return [
        node.args[0]
        for path in sorted((SOURCE / room).rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding" and node.args
    ]


@pytest.mark.parametrize("room", ROOMS)
def test_no_finding_is_made_with_a_code_that_is_written_out(room):
    assert not [ast.unparse(code) for code in made_in(room) if isinstance(code, ast.Constant)]


@pytest.mark.parametrize("room", ROOMS)
def test_every_code_of_a_room_begins_with_its_name_and_is_used(room):
    codes = importlib.import_module(f"pavewright.{room}._codes").Code
    assert issubclass(codes, StrEnum)
    text = "".join(path.read_text("utf-8") for path in (SOURCE / room).rglob("*.py"))
    for code in codes:
        assert code.value == f"{room}.{code.name.lower()}"
        assert f"Code.{code.name}" in text, f"{code.name} is never said"


def test_sentences_of_the_survey_stand_in_its_modules_of_words():
    written = [
        f"{path.name}: {ast.unparse(node)[:90]}"
        for path in sorted((SOURCE / "survey").rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding"
        for message in (*node.args[3:4], *(each.value for each in node.keywords if each.arg == "message"))
        if isinstance(message, ast.Constant | ast.JoinedStr | ast.BinOp)
    ]
    assert not written


def test_every_room_that_notices_things_has_a_stage_where_they_are_looked_at():
    at = [room for stage in STAGES for room in stage.rooms]
    assert {*ROOMS, "firm"} <= set(at)
    assert len(at) == len(set(at)), "a finding has one stage"


def test_rooms_of_the_price_stage_notice_things_about_money_alone():
    of_price = {room for stage in STAGES if stage.key == "price" for room in stage.rooms}
    of_money = {
        room for room in ROOMS if issubclass(importlib.import_module(f"pavewright.{room}._codes").Code, MoneyCode)
    }
    assert issubclass(importlib.import_module("pavewright.firm._findings").Code, MoneyCode)
    assert of_price == of_money | {"firm"}
