"""No core room decides by words: nothing reads back a sentence, a label or a unit, and every finding has a typed code.

The few places that look into a text are named here, each with its reason. The list may only shrink.
"""

from __future__ import annotations

import ast
import importlib

import pytest

from tests.architecture.core import METRICS, SOURCE, trees

CUTTING = {"split", "rsplit", "partition", "rpartition"}
"""Methods that take a text apart."""
NUMBERS = {"np", "shapely.ops"}
"""Modules whose functions of the same names take shapes and rows of numbers apart."""
NAMED = {
    "job/_base.py: re.compile('[\\x00-\\x08\\x0b-\\x1f\\x7f-\\x9f\\ufeff\\ufff9-\\ufffb\\ufffe\\uffff]')": (
        "control signs in what a user typed are refused"
    ),
    "job/_changes.py: change.path.split('.')": "the path of a field in the job document, a key of its format",
    "job/_field_words.py: field.split('_')": "the name of a field, a key of the format of the document, made into words",
    "job/_read.py: path.split('.')": "a place in the document that the program wrote, to the number of a level book",
    "job/_mixed_pack.py: part.strip().partition('-')": "a range of numbers of pieces as the user typed it, 1-37",
    "job/_mixed_pack.py: self.pieces.split(',')": "a list of numbers of pieces as the user typed it",
    'job/_strict_json.py: re.compile(\'"(?:[^"\\\\\\\\]|\\\\\\\\.)*"|[\\\\[{\\\\]}]\', re.DOTALL)': (
        "brackets of JSON are counted before it is read"
    ),
    "job/on_site/_as_laid.py: numbers.get(again.label, ())": (
        "the document names a reading as laid by its label, and the label is turned into its number"
    ),
    "job/_strict_json.py: re.compile('[\\ud800-\\udfff\\x00]')": "signs that no text may hold",
    "job/_strict_json.py: text.removeprefix('\\ufeff')": "the byte order mark that some editors put before a file",
    "programme/_sums_programme.py: words.split('+')": "numbers of activities as the user typed them into a sum",
    "laying/search/_start_ways.py: laying.start_corner.value.split('_')": "the value of an enum has two parts",
    "survey/_assumptions.py: asked.endswith(('?', '.', ':'))": "the user's own punctuation is kept, not doubled",
}


def found_in(tree: ast.Module) -> set[str]:
    """Return every place of a module that takes words apart or compares with them."""
    return {ast.unparse(node) for node in ast.walk(tree) if METRICS._reads_words(node) or decides(node)}


def decides(node: ast.AST) -> bool:
    """Return whether a node takes a text apart, matches words, or looks something up by them."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        by_words = any(wordy(each) for each in node.args[:1]) and node.func.attr == "get"
        on_text = node.func.attr in CUTTING and ast.unparse(node.func.value) not in NUMBERS
        return by_words or on_text
    if isinstance(node, ast.Match):
        return wordy(node.subject)
    return isinstance(node, ast.Subscript) and wordy(node.slice)


def wordy(node: ast.AST) -> bool:
    """Return whether a node is an attribute that holds words for people; the unit of a laying names what is laid."""
    return isinstance(node, ast.Attribute) and node.attr in METRICS.WORDY - {"unit"}


def codes() -> set[str]:
    """Return the values of all codes of the core rooms."""
    rooms = [path.parent.name for path in SOURCE.glob("*/_codes.py") if path.parent.name in METRICS.CORE]
    return {code.value for room in rooms for code in importlib.import_module(f"pavewright.{room}._codes").Code}


def loose_codes(tree: ast.Module) -> list[str]:
    """Return the codes of findings that are no member of an enum and no parameter or name that is declared as one."""
    loose = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and ast.unparse(node.func).split(".")[-1] == "Finding":
            given = [*node.args[:1], *(each.value for each in node.keywords if each.arg == "code")]
            loose += [ast.unparse(node)[:90] for code in given if isinstance(code, ast.Constant | ast.JoinedStr)]
        if isinstance(node, ast.arg) and node.arg == "code" and node.annotation is not None:
            loose += ["code: str"] if ast.unparse(node.annotation) == "str" else []
    return loose


def literals(tree: ast.Module) -> set[str]:
    """Return every text of a module."""
    return {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)}


def test_words_are_read_only_where_a_reason_is_given():
    found = {f"{name}: {place}" for name, tree in trees().items() for place in found_in(tree)}
    assert not found - NAMED.keys(), "decide by a typed key instead"
    assert not NAMED.keys() - found, "this is gone: shorten the list"


def test_every_finding_has_its_code_from_an_enum():
    assert not {name: loose for name, tree in trees().items() if (loose := loose_codes(tree))}


def test_no_code_is_written_out_but_where_it_is_declared():
    known = codes()
    assert len(known) > len(METRICS.CORE)
    written = {name: known & literals(tree) for name, tree in trees().items() if not name.endswith("/_codes.py")}
    assert not {name: values for name, values in written.items() if values}


@pytest.mark.parametrize(
    "code",
    [
        "words.startswith('fold ')",
        "re.match('by tape', found)",
        "line.unit == 'loads'",
        "words == 'at the wall'",
        "TABLE[spot.label]",
        "TABLE.get(spot.label)",
        "found_by.split(' ')",
        "match spot.label:\n    case 'fold':\n        pass",
    ],
)
def test_a_decision_by_words_is_found(code):
    assert found_in(ast.parse(code))


@pytest.mark.parametrize(
    "code",
    [
        "spot.kind == 'loads'",
        "spot.kind is Kind.FOLD",
        "TABLE[spot.kind]",
        "shapely.ops.split(a, b)",
        "np.partition(a, 3)",
    ],
)
def test_a_decision_by_a_key_is_let_through(code):
    assert not found_in(ast.parse(code))


@pytest.mark.parametrize("code", ["Finding('levels.x', 1)", "findings.Finding(code='levels.x')", "def f(code: str): 0"])
def test_a_loose_code_is_found(code):
    assert loose_codes(ast.parse(code))
    assert not loose_codes(ast.parse("Finding(Code.X, 1)\ndef f(code: Code): Finding(code)"))
