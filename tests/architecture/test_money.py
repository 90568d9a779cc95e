"""Money has the sign and the decimals of its currency everywhere: nothing in the code takes it for pounds and pence."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "pavewright"
PYTHON = sorted(SOURCE.rglob("*.py"))
SCRIPTS = [path for path in sorted((SOURCE / "web" / "static").rglob("*.js")) if "vendor" not in path.parts]
PAGES = [*SOURCE.rglob("*.html"), *SOURCE.rglob("*.typ")]
SIGNED = {
    "units.py": "the one table of signs",
    "files/_price_amounts.py": "signs that a price list may have before a number",
}
"""Modules that may name a sign of a currency, with the reason."""
SIGNED_SCRIPTS = {
    "web/static/lib/words.js": "the table of signs, twin of that of units",
    "web/static/lib/numbers-typed.js": "signs that somebody may type before a price",
}
HUNDREDTHS = {
    "cost/_sums_cost.py": "a printed sum in a currency of two decimals",
    "survey/agreement/_words_job.py": "the sentence of the next",
    "survey/agreement/_prices.py": "only for pounds, euros and dollars: whole ones written where small coins are wanted",
}
MONEY = re.compile(r"minor|price|money|pence|coin", re.IGNORECASE)
NAMED = re.compile(r"\b(?:pence|pounds)\b(?! of)|cents or pence|pence or cents", re.IGNORECASE)
NAMES_THEM = {
    "survey/agreement/_prices.py",
    "survey/agreement/_words_job.py",
    "files/_price_how.py",
    "cost/_sums_cost.py",
}


def name_of(path):
    return path.relative_to(SOURCE).as_posix()


def texts_of(tree):
    """Give the texts that people may read: no docstring."""
    docs = {
        id(node.body[0].value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef) and ast.get_docstring(node) is not None
    }
    strays = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in docs | strays:
            yield node.value


def hundredths(tree):
    """Give sums of money with a hundred in them."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.BinOp) or not isinstance(node.op, ast.Div | ast.Mult | ast.FloorDiv | ast.Mod):
            continue
        ends = node.left, node.right
        if any(isinstance(end, ast.Constant) and end.value in {100, 100.0} for end in ends) or any(
            isinstance(end, ast.Name | ast.Attribute) and "HUNDRED" in ast.unparse(end).upper() for end in ends
        ):
            text = ast.unparse(node)
            if MONEY.search(text) and "percent" not in text:
                yield text


@pytest.mark.parametrize("path", PYTHON, ids=name_of)
def test_no_module_writes_a_sign_or_counts_in_hundredths(path):
    tree = ast.parse(path.read_text("utf-8"))
    if name_of(path) not in SIGNED:
        assert [text for text in texts_of(tree) if re.search("[£€]", text)] == []
    if name_of(path) not in HUNDREDTHS:
        assert list(hundredths(tree)) == []
    if name_of(path) not in NAMES_THEM:
        assert [text for text in texts_of(tree) if NAMED.search(text)] == []


@pytest.mark.parametrize("path", SCRIPTS, ids=name_of)
def test_no_script_writes_a_sign_or_counts_in_hundredths(path):
    text = path.read_text("utf-8")
    if name_of(path) not in SIGNED_SCRIPTS:
        assert re.findall(".*[£€].*", text) == []
    lines = [line for line in text.splitlines() if re.search(r"[*/] ?100\b", line) and MONEY.search(line)]
    assert lines == []
    assert [line for line in text.splitlines() if "toFixed(2)" in line and MONEY.search(line)] == []
    assert re.findall(r"['\"`][^'\"`\n]*\b(?:pence|pounds)\b", text) == []


@pytest.mark.parametrize("path", PAGES, ids=name_of)
def test_no_page_writes_a_sign(path):
    assert re.findall(".*[£€].*", path.read_text("utf-8")) == []


@pytest.mark.parametrize("path", PYTHON, ids=name_of)
def test_no_module_writes_a_date_in_a_manner_of_its_own(path):
    """A date that people read goes through the writing of the place; a stamp of a file is none."""
    if name_of(path) in {"web/_keeping.py", "cli/_backup.py", "store/_placing.py"}:
        return
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        assert not (isinstance(node, ast.Attribute) and node.attr == "strftime"), ast.unparse(node)
        if isinstance(node, ast.FormattedValue) and node.format_spec is not None:
            shape = ast.unparse(node.format_spec)
            assert not re.search("%[dBbYmA]", shape), ast.unparse(node)


@pytest.mark.parametrize("path", SCRIPTS, ids=name_of)
def test_no_script_names_the_region_of_a_date(path):
    """In Swedish a date is its ISO form, for the box of a date."""
    found = re.findall(r"toLocale(?:Date|Time)?String\(\s*\"([^\"]*)\"", path.read_text("utf-8"))
    assert set(found) <= {"sv-SE"}
