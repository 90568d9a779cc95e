"""Sentences stand in one catalogue per room, ready for other languages: not where a sheet or a finding is made.

A catalogue is a module whose name has ``words`` in it: a frozen ``Catalogue`` of sentences with named places, or
functions that say one sentence each. What is not moved yet is named here, each module with its sentences; none of these
numbers may grow, and a module that has none left is taken off the list.
"""

from __future__ import annotations

import ast
import dataclasses
import importlib
import pkgutil
import re
from functools import cache
from pathlib import Path

import pytest

import pavewright
from pavewright.writing import Catalogue, Sentence

SOURCE = Path(__file__).parents[2] / "src" / "pavewright"
THREE_WORDS = re.compile(r"[A-Za-z’'\-,;:]{2,} [A-Za-z’'\-]{2,} [A-Za-z’'\-]{2,}")
"""From three words on a text is a sentence, or a part of one, and no name."""
TO_MOVE = {
    "papers/_book.py": 1,
    "papers/_compile.py": 1,
    "papers/_customer_money.py": 25,
    "papers/_document.py": 3,
    "papers/_pack.py": 1,
    "papers/_plan_json.py": 1,
    "papers/_readiness.py": 5,
    "papers/_sheets_money.py": 21,
    "papers/_sheets_orders.py": 13,
    "papers/_sign_findings.py": 2,
    "papers/_so_far.py": 5,
    "papers/_typst_child.py": 1,
    "papers/_workbook.py": 4,
    "papers/look/_sheet.py": 2,
    "papers/look/_text.py": 2,
}
"""Modules of the papers that still say sentences themselves, each with how many."""
FINDINGS_TO_MOVE = {
    "account/_bill_findings.py": 1,
    "account/_findings.py": 1,
    "as_laid/_check.py": 2,
    "cost/_haul.py": 2,
    "cost/_price.py": 2,
    "cost/_tax_findings.py": 2,
    "earthworks/_dig.py": 16,
    "levels/_folded_area.py": 11,
    "levels/_steps.py": 1,
    "levels/design/_falls.py": 7,
    "newer_edition.py": 11,
    "papers/_sign_findings.py": 2,
    "quantities/_assemblies.py": 14,
    "quantities/_take_off.py": 12,
    "setting_out/_pins.py": 9,
    "survey/agreement/_dates.py": 1,
    "survey/agreement/_ground.py": 3,
    "survey/agreement/_magnitude.py": 10,
    "survey/agreement/_prices.py": 7,
    "survey/agreement/_same_point.py": 3,
    "survey/agreement/_sizes.py": 1,
    "survey/edges/_curves.py": 2,
    "survey/ground/_ground.py": 1,
    "survey/levelling/_known_levels.py": 1,
    "survey/levelling/_level_book.py": 2,
    "survey/tapes/_placing.py": 11,
    "survey/tapes/_tape_findings.py": 1,
    "water/_before_after.py": 4,
    "water/_drain.py": 9,
    "water/drains/_capacity.py": 4,
    "water/ground/_soakaway_places.py": 1,
    "water/ground/_soakaways.py": 1,
}
"""Modules that make findings and still say sentences themselves, each with how many."""
REGISTERS = {"papers/_paper.py", "papers/_register.py"}
"""Lists of the papers by key, each with what it is called: catalogues themselves."""
BY_CODE = ("as_laid", "bedding", "setting_out")
"""Rooms whose findings have one sentence for each code, in one mapping."""


def is_catalogue(path: Path) -> bool:
    return "words" in path.stem


def said(node: ast.AST) -> str | None:
    """The text of a literal, with braces where something is put in."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(str(each.value) if isinstance(each, ast.Constant) else "{}" for each in node.values)
    return None


def sentences(tree: ast.AST) -> list[str]:
    """Every text of a tree with three words in a row; what documents the program, and parts of a text, are left out."""
    left_out: set[ast.AST] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and said(node.value) is not None:
            left_out.add(node.value)
        if isinstance(node, ast.JoinedStr):
            left_out |= set(ast.walk(node)) - {node}
    texts = (said(node) for node in ast.walk(tree) if node not in left_out)
    return [text for text in texts if text and THREE_WORDS.search(text)]


def makes_findings(tree: ast.AST) -> bool:
    calls = (node for node in ast.walk(tree) if isinstance(node, ast.Call))
    return any(ast.unparse(node.func).split(".")[-1] == "Finding" for node in calls)


@cache
def trees() -> dict[str, ast.Module]:
    paths = (path for path in sorted(SOURCE.rglob("*.py")) if not is_catalogue(path))
    return {path.relative_to(SOURCE).as_posix(): ast.parse(path.read_text("utf-8")) for path in paths}


def no_more(found: dict[str, int], allowed: dict[str, int]) -> None:
    more = {name: count for name, count in found.items() if count > allowed.get(name, 0)}
    assert not more, "put these sentences in the catalogue of the room: a module with words in its name"
    assert not allowed.keys() - found.keys(), "moved: take these off the list"


def test_papers_say_no_sentence_outside_of_a_catalogue():
    found = {name: len(sentences(tree)) for name, tree in trees().items() if name.startswith("papers/")}
    no_more({name: count for name, count in found.items() if count and name not in REGISTERS}, TO_MOVE)


def test_modules_that_make_findings_take_their_sentences_from_a_catalogue():
    found = {name: len(sentences(tree)) for name, tree in trees().items() if makes_findings(tree)}
    no_more({name: count for name, count in found.items() if count}, FINDINGS_TO_MOVE)


@pytest.mark.parametrize("room", BY_CODE)
def test_each_code_of_a_room_has_its_sentence_in_one_place(room):
    words = importlib.import_module(f"pavewright.{room}._words")
    codes = importlib.import_module(f"pavewright.{room}._codes").Code
    assert set(words.FINDINGS) == set(codes)
    assert all(isinstance(each, Sentence) for each in words.FINDINGS.values())


def catalogues() -> list[type[Catalogue]]:
    for module in pkgutil.walk_packages(pavewright.__path__, "pavewright."):
        if "words" in module.name.rsplit(".", 1)[-1]:
            importlib.import_module(module.name)
    return [kind for kind in Catalogue.__subclasses__() if kind.__module__.startswith("pavewright")]


def test_catalogues_hold_sentences_alone_and_another_language_has_a_place_for_each():
    kinds = catalogues()
    assert kinds
    for kind in kinds:
        assert kind.__dataclass_params__.frozen
        for field in dataclasses.fields(kind):
            texts = field.default if isinstance(field.default, tuple) else (field.default,)
            for each in texts:
                assert isinstance(each, str | Sentence), f"{kind.__name__}.{field.name}"
                pattern = each.pattern if isinstance(each, Sentence) else each
                assert pattern.strip()
                places = re.findall(r"\{(\w+)\}", pattern)
                assert isinstance(each, Sentence) == bool(places), f"{kind.__name__}.{field.name}"


def test_a_sentence_takes_what_it_has_places_for_and_nothing_else():
    one = Sentence("Read {day} by {who}.")
    assert one(who="J {day}", day="today") == "Read today by J {day}."
    with pytest.raises(TypeError, match="takes"):
        one(day="today")
    with pytest.raises(TypeError, match="takes"):
        one(day="today", who="J", more="x")


@pytest.mark.parametrize(
    ("code", "count"),
    [
        ('"""Docstring of three words."""\nx = "plans"', 0),
        ('x = f"Read it {day} by now again."', 1),
        ('Finding(Code.X, Severity.STOP, place, f"{a} is far too high here.")', 1),
        ('x = {"data": "mm"}', 0),
    ],
)
def test_what_counts_as_a_sentence(code, count):
    assert len(sentences(ast.parse(code))) == count
