#!/usr/bin/env python3
"""Write the bill of materials of everything locked, in CycloneDX, and hold it against the schema of CycloneDX.

python tools/make_sbom.py            sbom.json beside the lock file
python tools/make_sbom.py FILE

The packages, versions and digests are those of the lock file, read by the generator of the CycloneDX project; the
licences are those of THIRD_PARTY_NOTICES.md. The same lock file gives the same bytes. 1 where a package of the lock
file is not in the bill, has no digest or no licence, or where the bill is not valid.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import Any

from cyclonedx.schema import SchemaVersion
from cyclonedx.spdx import is_expression
from cyclonedx.validation.json import JsonStrictValidator

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "tools"))
from make_notices import licence_of, locked_names, needed_to_run, normal  # noqa: E402

LOCK = ROOT / "requirements.lock"
VERSION = SchemaVersion.V1_6


class SbomError(Exception):
    """The bill of materials is not whole or not valid."""


def bill(lock: Path = LOCK) -> dict[str, Any]:
    """Return the bill of materials of a lock file, with licences.

    Raises:
        SbomError: a locked package is not in it, or has no digest.
        subprocess.CalledProcessError: the generator cannot read the lock file.
    """
    with tempfile.TemporaryDirectory() as folder:
        made = Path(folder) / "made.json"
        words = ["requirements", str(lock), "--pyproject", str(ROOT / "pyproject.toml"), "--output-reproducible"]
        words += ["--sv", VERSION.to_version(), "--of", "JSON", "-o", str(made)]
        subprocess.run([sys.executable, "-W", "ignore", "-m", "cyclonedx_py", *words], check=True)
        found: dict[str, Any] = json.loads(made.read_text("utf-8"))
    runs = needed_to_run()
    for each in found["components"]:
        name = normal(each["name"])
        if not any(one.get("hashes") for one in each.get("externalReferences", [])):
            message = f"{name} is locked without a digest."
            raise SbomError(message)
        del each["description"]  # the line of the lock file once more
        licence = licence_of(name, runs=name in runs)
        # one that the list of SPDX does not know, as BSD without a number of clauses, is a name only
        each["licenses"] = [{"expression": licence} if is_expression(licence) else {"license": {"name": licence}}]
        each["scope"] = "required" if name in runs else "optional"
    missing = set(locked_names()) - {normal(each["name"]) for each in found["components"]}
    if missing and lock == LOCK:
        message = f"locked, but not in the bill: {', '.join(sorted(missing))}."
        raise SbomError(message)
    return found


def faults(found: dict[str, Any]) -> list[str]:
    """Return what the schema of CycloneDX finds wrong with a bill of materials."""
    reported = JsonStrictValidator(VERSION).validate_str(json.dumps(found))
    return [str(reported)] if reported is not None else []


def main(words: list[str]) -> int:
    """Write the bill, or say what is wrong with it."""
    try:
        found = bill()
    except SbomError as wrong:
        print(wrong)
        return 1
    wrong = faults(found)
    for each in wrong:
        print(each)
    if not wrong:
        path = Path(words[0]) if words else ROOT / "sbom.json"
        path.write_text(json.dumps(found, indent=1, sort_keys=True) + "\n", "utf-8")
        print(f"{len(found['components'])} packages in {path.name}, valid CycloneDX {VERSION.to_version()}.")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
