"""The table against OWASP ASVS is whole, its proofs are tests that exist, and its page is of it."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tools"))
import docs_asvs  # noqa: E402

from pavewright.web._rights import PUBLIC, RIGHTS  # noqa: E402

TABLE = docs_asvs.points()
POINTS, CHAPTERS = TABLE["points"], TABLE["chapters"]
PAGE = (ROOT / "docs" / "asvs.md").read_text("utf-8")


def in_order(number):
    return tuple(int(part) for part in number.split("."))


@cache
def collected(path):
    """Names that pytest finds in a file, however they came there: a proof that is never run proves nothing."""
    found = subprocess.run(
        [sys.executable, "-m", "pytest", "--collect-only", "-q", "--no-header", "-p", "no:cacheprovider", *path],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert found.returncode == 0, found.stdout[-2_000:] + found.stderr[-2_000:]
    return {line.partition("[")[0] for line in found.stdout.splitlines() if "::" in line}


@cache
def names_in(path):
    """Names of the tests at the top of a file."""
    tree = ast.parse((ROOT / path).read_text("utf-8"))
    return {
        node.name
        for node in tree.body
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.name.startswith("test_")
    }


def amiss(point):
    """What is wrong with one point of the table."""
    found = []
    if point["status"] not in docs_asvs.STATUSES:
        found.append("an unknown status")
    if len(point.get("what", "").split()) < 1:
        found.append("nothing is said of what we do")
    if point["status"] == "met":
        if not point.get("tests"):
            found.append("met without a test")
        if "reason" in point:
            found.append("met with an excuse")
    elif len(point.get("reason", "").split()) < 3:
        found.append("no reason")
    for name in point.get("tests", ()):
        path, _, test = name.partition("::")
        if not (ROOT / path).is_file() or test not in names_in(path):
            found.append(f"no such test: {name}")
    if any("|" in str(text) or "\n" in str(text) for text in point.values()):
        found.append("a sign that breaks the table")
    return found


def test_every_point_has_a_proof_that_exists_or_a_reason():
    met = [point for point in POINTS if point["status"] == "met"]
    # an empty table, or one without proofs, would pass what follows
    assert len(POINTS) > 250
    assert len(met) > 100
    assert min(len(point["tests"]) for point in met) > 0
    assert [(point["number"], fault) for point in POINTS for fault in amiss(point)] == []


def test_every_proof_is_found_by_pytest():
    wanted = {name for point in POINTS for name in point.get("tests", ())}
    assert len(wanted) > 100
    found = collected(tuple(sorted({name.partition("::")[0] for name in wanted})))
    assert wanted - found == set()
    assert "tests/architecture/test_asvs.py::test_that_is_not_there" not in found


@pytest.mark.parametrize(
    ("wrong", "fault"),
    [
        ({"tests": ["tests/architecture/test_asvs.py::test_that_is_not_there"]}, "no such test"),
        ({"tests": ["tests/architecture/no_such_file.py::test_x"]}, "no such test"),
        ({"tests": []}, "met without a test"),
        ({"reason": "because it is"}, "met with an excuse"),
        ({"status": "nearly met"}, "an unknown status"),
        ({"status": "not met"}, "no reason"),
        ({"what": "a | b"}, "a sign that breaks"),
    ],
)
def test_a_point_that_is_wrong_is_found(wrong, fault):
    sound = {
        "number": "1.1.1",
        "level": 1,
        "status": "met",
        "what": "It is looked at.",
        "tests": ["tests/architecture/test_asvs.py::test_every_point_has_a_proof_that_exists_or_a_reason"],
    }
    assert amiss(sound) == []
    assert any(each.startswith(fault) for each in amiss(sound | wrong))


def test_every_number_of_both_levels_stands_once_and_in_order():
    numbers = [point["number"] for point in POINTS]
    assert numbers == sorted(set(numbers), key=in_order)
    wanted = {number: level for chapter in CHAPTERS for level in (1, 2) for number in chapter[f"level_{level}"]}
    assert {point["number"]: point["level"] for point in POINTS} == wanted
    assert {
        in_order(number)[0] - each["number"] for each in CHAPTERS for number in each["level_1"] + each["level_2"]
    } == {0}
    assert [chapter["number"] for chapter in CHAPTERS] == list(range(1, 15))
    # as many as the standard has: 128 of level 1, 131 more of level 2
    assert [sum(level == each for level in wanted.values()) for each in (1, 2)] == [128, 131]


def test_the_page_is_of_the_table_and_counts_what_stands_on_it():
    assert PAGE.endswith(docs_asvs.asvs_page()), "run tools/make_docs.py"
    rows = re.findall(r"^\| (\d+)\.\d+\.\d+ \| [12] \| \**([a-z, ]+?)\** \|", PAGE, re.MULTILINE)
    told = re.findall(r"^\| V(\d+) [^|]+\| (\d+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \|$", PAGE, re.MULTILINE)
    assert len(rows) == len(POINTS)
    assert len(told) == len(CHAPTERS)
    for chapter, *numbers in told:
        counted = [sum(row == (chapter, status) for row in rows) for status in docs_asvs.STATUSES]
        assert [int(number) for number in numbers] == [*counted, sum(counted)]


SOURCES = {path.relative_to(ROOT).as_posix(): path.read_text("utf-8") for path in (ROOT / "src").rglob("*.py")}


@cache
def calls():
    """Every call in the program: the file, the name that is called as it is written, and the call."""
    return [
        (path, written(node.func), node)
        for path, text in SOURCES.items()
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call)
    ]


def written(node):
    """A name with its dots; empty for what is called without one."""
    parts = []
    while isinstance(node, ast.Attribute):
        parts.append(node.attr)
        node = node.value
    return ".".join([*([node.id] if isinstance(node, ast.Name) else [""]), *reversed(parts)])


def test_nothing_that_is_sent_can_be_run():
    called = calls()
    assert len(called) > 10_000
    assert [
        (path, name) for path, name, _ in called if name in {"eval", "exec", "os.system", "os.popen", "compile"}
    ] == []
    assert [path for path, _, node in called if any(each.arg == "shell" for each in node.keywords)] == []
    shells = {"subprocess.getoutput", "subprocess.getstatusoutput", "asyncio.create_subprocess_shell"}
    assert [path for path, name, _ in called if name in shells] == []


def test_objects_of_python_are_unpacked_only_from_own_processes():
    unpacking = {path for path, name, _ in calls() if name in {"pickle.loads", "pickle.load", "marshal.loads"}}
    # what the children of one server answer, through a pipe
    assert unpacking == {"src/pavewright/desk/_many.py"}
    loads = [node for _, name, node in calls() if name in {"np.load", "numpy.load"}]
    assert loads
    assert all(any(each.arg == "allow_pickle" and not each.value.value for each in node.keywords) for node in loads)


def test_chance_that_nobody_may_guess_is_the_system_s():
    doors = ("src/pavewright/web/", "src/pavewright/store/", "src/pavewright/people/")
    inside = {path: text for path, text in SOURCES.items() if path.startswith(doors)}
    assert len(inside) > 100
    assert [
        path for path, text in inside.items() if re.search(r"^\s*(import|from) random\b|np\.random", text, re.MULTILINE)
    ] == []
    assert sum("import secrets" in text for text in inside.values()) > 5


def test_what_locks_and_signs_comes_from_common_libraries_and_weak_ones_stand_nowhere():
    weak = re.compile(r"\b(md5|sha1|SHA1|MD5|DES|TripleDES|ARC4|Blowfish|ECB)\b")
    assert [(path, found) for path, text in SOURCES.items() for found in weak.findall(text)] == []
    taken = {"argon2", "cryptography", "hashlib", "hmac", "webauthn", "pyotp"}
    found = {
        name
        for text in SOURCES.values()
        for name in re.findall(r"^\s*(?:import|from) (\w+)", text, re.MULTILINE)
        if name in taken | {"Crypto", "nacl", "rsa", "ecdsa"}
    }
    assert found == taken


THREATS = (ROOT / "docs" / "threats.md").read_text("utf-8")


def test_the_page_of_threats_holds_every_way_in_without_a_sign_in_and_no_other():
    part = THREATS.partition("## Ways in without a sign-in")[2].partition("## Threats")[0]
    rows = [line.split("|")[1] for line in part.splitlines() if line.startswith("| `")]
    begins = {each for row in rows for each in re.findall(r"`(/[^`]*)`", row)}
    public = {path for (_, path), need in RIGHTS.items() if need is PUBLIC}
    assert len(public) > 15
    assert {path for path in public if not path.startswith(tuple(begins))} == set()
    assert {each for each in begins if not any(path.startswith(each) for path in public)} == set()


def test_each_threat_has_a_proof_that_exists():
    rows = [line for line in THREATS.partition("## Threats")[2].partition("\n## ")[0].splitlines() if "::" in line]
    named = [re.findall(r"`(tests/[^`]+)`", row) for row in rows]
    assert len(rows) > 10
    assert all(named)
    for each in (name for names in named for name in names):
        path, _, test = each.partition("::")
        assert test in names_in(path), each


def test_the_guide_has_a_list_for_safe_code():
    part = (ROOT / "CONTRIBUTING.md").read_text("utf-8").partition("## Safe code")[2].partition("\n## ")[0]
    assert len(re.findall(r"^- ", part, re.MULTILINE)) >= 8
