"""Hold the locked packages against a file of known vulnerabilities in the form of OSV, without a network.

    python tools/check_vulnerabilities.py FILE [--lock requirements.lock]

FILE is one entry as JSON, a list of entries, or a zip of such files, as osv.dev hands them out. Exit code 0: no
locked version is hit; 1: one is; 2: the file or the lock cannot be read. Packages that no entry of the file names are
counted: the file says nothing of them, which is not the same as that they are sound.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from packaging.utils import canonicalize_name
from packaging.version import InvalidVersion, Version

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).resolve().parent.parent
_FIRST = "0"
"""By what a range says that it begins with the first version of all."""
SOUND, HIT, UNREADABLE = 0, 1, 2
"""Exit codes."""


class UnreadableError(Exception):
    """A file is not what it has to be; carries a sentence."""


def locked(path: Path) -> dict[str, set[str]]:
    """Return the locked versions by the names of their packages: of some there is one for each version of Python.

    Raises:
        UnreadableError: the file cannot be read, or locks nothing.
    """
    try:
        text = path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as problem:
        message = f"{path} cannot be read."
        raise UnreadableError(message) from problem
    rows = re.findall(r"^([A-Za-z0-9._-]+)(?:\[[^]]*\])?==([^\s;\\]+)", text, re.MULTILINE)
    if not rows:
        message = f"{path} locks no package."
        raise UnreadableError(message)
    found: dict[str, set[str]] = {}
    for name, version in rows:
        found.setdefault(canonicalize_name(name), set()).add(version)
    return found


def entries(path: Path) -> Iterator[dict[str, Any]]:
    """Yield the entries of a file: one, a list of them, or a zip of both.

    Raises:
        UnreadableError: it is none of these.
    """
    try:
        if zipfile.is_zipfile(path):
            with zipfile.ZipFile(path) as opened:
                for name in sorted(each for each in opened.namelist() if each.endswith(".json")):
                    yield from _in(opened.read(name))
        else:
            yield from _in(path.read_bytes())
    except (OSError, ValueError, zipfile.BadZipFile) as problem:
        message = f"{path} holds no entries in the form of OSV."
        raise UnreadableError(message) from problem


def _in(content: bytes) -> list[dict[str, Any]]:
    value = json.loads(content)
    found = value if isinstance(value, list) else [value]
    if not all(isinstance(each, dict) and isinstance(each.get("id"), str) for each in found):
        message = "an entry has no id"
        raise ValueError(message)
    return found


def named(entry: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield the packages of PyPI that an entry names, each with what it says of its versions."""
    for affected in entry.get("affected", ()):
        package = affected.get("package", {})
        if package.get("ecosystem") == "PyPI" and "name" in package:
            yield canonicalize_name(package["name"]), affected


def is_hit(version: str, affected: dict[str, Any]) -> bool:
    """Return whether a version is one of those that an entry means.

    A version that cannot be compared is a hit: what is not known is not sound.

    >>> is_hit("1.5", {"ranges": [{"type": "ECOSYSTEM", "events": [{"introduced": "0"}, {"fixed": "1.6"}]}]})
    True
    >>> is_hit("1.6", {"ranges": [{"type": "ECOSYSTEM", "events": [{"introduced": "0"}, {"fixed": "1.6"}]}]})
    False
    """
    try:
        at = Version(version)
        if version in affected.get("versions", ()) or any(at == each for each in _readable(affected)):
            return True
        ranges = [each for each in affected.get("ranges", ()) if each.get("type") in {"ECOSYSTEM", "SEMVER"}]
        if not ranges and not affected.get("versions"):
            return True  # it means every version, or says it in commits, which no lock holds
        return any(_within(at, each.get("events", ())) for each in ranges)
    except InvalidVersion:
        return True


def _readable(affected: dict[str, Any]) -> Iterator[Version]:
    """Yield the listed versions that can be compared; very old ones are written in any manner."""
    for each in affected.get("versions", ()):
        try:
            yield Version(each)
        except InvalidVersion:
            continue


def _within(at: Version, events: list[dict[str, str]]) -> bool:
    """Return whether a version lies where a range is open, its events taken in the order of their versions."""
    rows = [(kind, value) for event in events for kind, value in event.items() if kind != "limit"]
    inside = False
    for kind, value in sorted(rows, key=lambda row: _at(row[1])):
        if at < _at(value):
            break
        if kind == "introduced":
            inside = True
        elif kind == "fixed" or (kind == "last_affected" and at > _at(value)):
            inside = False
    return inside


def _at(value: str) -> Version:
    return Version("0.dev0") if value == _FIRST else Version(value)


def report(lock: dict[str, set[str]], found: Iterator[dict[str, Any]]) -> tuple[list[str], set[str]]:
    """Return a sentence for each locked version that is hit, and the packages that entries name."""
    hits, met = [], set()
    for entry in found:
        if entry.get("withdrawn"):
            continue
        for name, affected in named(entry):
            if name not in lock:
                continue
            met.add(name)
            words = f"is hit by {entry['id']}: {entry.get('summary') or 'no summary'}"
            hits += [f"{name} {version} {words}" for version in lock[name] if is_hit(version, affected)]
    return sorted(set(hits)), met


def main(words: list[str]) -> int:
    """Say what is hit and what the file says nothing of."""
    asked = argparse.ArgumentParser(description="Hold the lock against a file of known vulnerabilities (OSV).")
    asked.add_argument("file", type=Path)
    asked.add_argument("--lock", type=Path, default=ROOT / "requirements.lock")
    given = asked.parse_args(words)
    try:
        lock = locked(given.lock)
        hits, met = report(lock, entries(given.file))
    except UnreadableError as problem:
        print(problem, file=sys.stderr)
        return UNREADABLE
    for each in hits:
        print(each)
    silent = sorted(set(lock) - met)
    print(f"{len(hits)} hits in {len(lock)} locked packages; the file names {len(met)} of them.")
    if silent:
        print(f"Of these it says nothing: {', '.join(silent)}")
    return HIT if hits else SOUND


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
