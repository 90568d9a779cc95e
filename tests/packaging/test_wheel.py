"""The source archive and the wheel work away from the checkout: all that the program reads is inside them.

The wheel is built from the unpacked source archive and put into an environment of its own. Only the packages that it
depends on are borrowed, through a path file: a path file read in one place is not read again in another, so the
checkout, which the tests themselves use, is not on the way.
"""

from __future__ import annotations

import ast
import json
import os
import re
import shutil
import subprocess
import sys
import sysconfig
import tarfile
import time
import tomllib
import urllib.error
import urllib.request
import venv
import zipfile
from importlib import metadata
from pathlib import Path

import pytest

import pavewright

ROOT = Path(__file__).parents[2]
OWN_OR_FOR_TYPES = {"pavewright", "_typeshed"}
READ_AT_RUN_TIME = {".toml", ".typ", ".json", ".otf", ".ttf", ".txt", ".html", ".js", ".css", ".svg", ".png"}


def run(*command, cwd):
    words = [str(each) for each in command]
    return subprocess.run(words, cwd=cwd, env=surroundings(), capture_output=True, text=True, check=False)


def surroundings():
    """No path to the checkout; kernels run as plain Python, since a fresh place would first compile all of them."""
    env = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "PAVEWRIGHT", "PIP_"))}
    return env | {"NUMBA_DISABLE_JIT": "1", "PYTHONDONTWRITEBYTECODE": "1"}


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    """The source archive of the checkout, and the wheel made from that archive, unpacked elsewhere."""
    place = tmp_path_factory.mktemp("built")
    made = run(sys.executable, "-m", "hatchling", "build", "-t", "sdist", "-d", place, cwd=ROOT)
    assert made.returncode == 0, made.stderr
    (archive,) = place.glob("*.tar.gz")
    with tarfile.open(archive) as opened:
        # the archive is of our own making; what guards against others is not in every Python 3.11
        opened.extractall(place / "unpacked", **({"filter": "data"} if hasattr(tarfile, "data_filter") else {}))
    (source,) = (place / "unpacked").iterdir()
    made = run(sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", place, cwd=source)
    assert made.returncode == 0, made.stderr
    (wheel,) = place.glob("*.whl")
    return source, wheel


@pytest.fixture(scope="module")
def installed(built, tmp_path_factory):
    """The folder of programs of an environment with the wheel in it and nothing of the checkout."""
    place = tmp_path_factory.mktemp("installed")
    venv.create(place / "env", with_pip=False)
    programs = place / "env" / ("Scripts" if os.name == "nt" else "bin")
    python = programs / Path(sys.executable).name
    python = python if python.exists() else programs / "python"
    installing = ("install", "--quiet", "--no-index", "--no-deps", "--no-compile", "--disable-pip-version-check")
    made = run(sys.executable, "-m", "pip", "--python", python, *installing, built[1], cwd=place)
    assert made.returncode == 0, made.stderr
    found = run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=place)
    borrowed = {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}
    (Path(found.stdout.strip()) / "borrowed.pth").write_text("\n".join(sorted(borrowed)) + "\n")
    return programs


@pytest.fixture
def elsewhere(tmp_path):
    shutil.copy(ROOT / "examples" / "mixed_patio.json", tmp_path / "job.json")
    return tmp_path


def test_the_wheel_holds_every_file_that_the_program_reads(built):
    held = {each for each in zipfile.ZipFile(built[1]).namelist() if each.startswith("pavewright/")}
    kept = {
        path.relative_to(ROOT / "src").as_posix()
        for path in (ROOT / "src" / "pavewright").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert held == kept
    assert {Path(each).suffix for each in held} >= READ_AT_RUN_TIME
    assert any(each.startswith("pavewright/store/migrations/versions/") for each in held)


def test_the_source_archive_can_set_itself_up_and_carries_no_made_pack(built):
    source, _ = built
    for name in ("bootstrap.py", "requirements.lock", "pyproject.toml", "LICENSE", "THIRD_PARTY_NOTICES.md"):
        assert (source / name).is_file(), name
    assert (source / "tests" / "packaging" / "test_wheel.py").is_file()
    assert not list(source.glob("demo-pack*"))


def test_the_version_has_one_place(built, installed, elsewhere):
    assert f"-{pavewright.__version__}-" in built[1].name
    reported = run(installed / "pavewright", "--version", cwd=elsewhere)
    assert reported.stdout.strip() == f"pavewright, version {pavewright.__version__}"
    metadata = "import importlib.metadata as m, pavewright; print(m.version('pavewright') == pavewright.__version__)"
    assert run(installed / "python", "-c", metadata, cwd=elsewhere).stdout.strip() == "True"
    assert not re.search(r"^version\s*=", (ROOT / "pyproject.toml").read_text("utf-8"), re.MULTILINE)


def test_every_package_that_is_imported_is_one_that_the_wheel_asks_for():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    always = _names(project["dependencies"])
    where_asked_for = always | {name for extra in project["optional-dependencies"].values() for name in _names(extra)}
    makers = metadata.packages_distributions()
    strange = {}
    for path in (ROOT / "src" / "pavewright").rglob("*.py"):
        tree = ast.parse(path.read_text("utf-8"))
        at_once = {
            node for each in tree.body for node in [each, *(ast.walk(each) if isinstance(each, ast.Try) else ())]
        }
        for node in ast.walk(tree):
            modules = [node.module] if isinstance(node, ast.ImportFrom) and not node.level else []
            modules += [each.name for each in node.names] if isinstance(node, ast.Import) else []
            # an extra is imported where it is used, never with the module
            allowed = always if node in at_once else where_asked_for
            for top in {each.split(".")[0] for each in modules} - set(sys.stdlib_module_names) - OWN_OR_FOR_TYPES:
                if not allowed & {each.lower().replace("_", "-") for each in makers.get(top, [])}:
                    strange[top] = path.name
    assert strange == {}


def _names(wanted):
    return {re.match(r"[A-Za-z0-9._-]+", each)[0].lower().replace("_", "-") for each in wanted}


def test_nothing_of_the_checkout_is_imported(installed, elsewhere):
    script = (
        "import sys, json, pkgutil, importlib, pavewright\n"
        "for each in pkgutil.walk_packages(pavewright.__path__, 'pavewright.'):\n"
        "    if '__main__' not in each.name and '.migrations.env' not in each.name and not each.name.endswith('_child'):\n"
        "        importlib.import_module(each.name)\n"
        "files = [getattr(m, '__file__', None) for n, m in sys.modules.items() if n.split('.')[0] == 'pavewright']\n"
        "print(json.dumps([[each for each in files if each], sys.path]))\n"
    )
    done = run(installed / "python", "-c", script, cwd=elsewhere)
    assert done.returncode == 0, done.stderr
    files, path = json.loads(done.stdout)
    assert len(files) > 300
    home = str(installed.parent.resolve())
    assert [each for each in files if not str(Path(each).resolve()).startswith(home)] == []
    assert not any(each.startswith(str(ROOT / "src")) for each in path)


def test_a_plan_and_a_pack_are_made_with_the_shipped_figures_and_fonts(installed, elsewhere):
    made = run(installed / "pavewright", "plan", "job.json", "--quiet", cwd=elsewhere)
    assert made.returncode in {0, 1}, made.stderr
    assert "Patio" in made.stdout
    made = run(installed / "pavewright", "pack", "job.json", "-o", "pack", "--quiet", cwd=elsewhere)
    assert made.returncode in {0, 1}, made.stderr
    assert (elsewhere / "pack" / "job-pack.pdf").read_bytes().startswith(b"%PDF-")
    assert b"Inter" in (elsewhere / "pack" / "job-pack.pdf").read_bytes()
    names = {path.name for path in (elsewhere / "pack").iterdir()}
    assert names >= {"customer-pack.pdf", "plans-a3.pdf", "drawings.dxf", "quantities.xlsx", "cost.xlsx", "plan.json"}


def test_the_working_screens_are_served(installed, elsewhere):
    command = [installed / "pavewright", "serve", "--data", "jobs.sqlite", "--port", "0", "--no-browser"]
    serving = subprocess.Popen(
        [str(each) for each in command],
        cwd=elsewhere,
        env=surroundings() | {"PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        first = serving.stdout.readline()
        assert first.startswith("http://"), serving.stderr.read() if serving.poll() is not None else first
        address = first.split()[0]
        for path in ("", "static/style.css", "static/lib/api.js", "static/vendor/three-view.js", "static/icon.svg"):
            assert fetched(address + path), path
        assert (elsewhere / "jobs.sqlite").stat().st_size > 0
    finally:
        serving.terminate()
        serving.communicate(timeout=30)


def fetched(address):
    """Bytes of a page; the server says where it is a moment before it answers."""
    for _ in range(100):
        try:
            with urllib.request.urlopen(address, timeout=20) as answer:
                assert answer.status == 200
                return answer.read()
        except urllib.error.URLError as problem:
            if isinstance(problem, urllib.error.HTTPError):
                raise
            time.sleep(0.1)
    pytest.fail(f"no answer from {address}")
