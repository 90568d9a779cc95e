#!/usr/bin/env python3
"""Write THIRD_PARTY_NOTICES.md from what is locked and shipped, or with --check say what may not stand so.

python tools/make_notices.py
python tools/make_notices.py --check

The licence of every locked package is read from its own metadata. A package that the program needs to run may not be
under a copyleft licence. One that only serves development may be under a licence that is copyleft by file, since it is
neither shipped nor linked; each such package is named. One that a user asks for by an extra, and that the program does
without, may be a library under the LGPL too: it is installed as its makers give it and can be replaced.
"""

from __future__ import annotations

import re
import sys
import tomllib
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "THIRD_PARTY_NOTICES.md"
FONTS = ROOT / "src" / "pavewright" / "papers" / "fonts"
VENDOR = ROOT / "src" / "pavewright" / "web" / "static" / "vendor"

PERMISSIVE = (
    "MIT", "MIT-0", "MIT-CMU", "BSD", "BSD-2-Clause", "BSD-3-Clause", "0BSD", "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception", "ISC", "Zlib", "PSF-2.0", "CC0-1.0", "CC-PDDC", "OFL-1.1", "Unlicense", "HPND",
)  # fmt: skip
BY_FILE = ("MPL-2.0",)
"""Copyleft for the files of the package itself: fit for tools of development and for extras."""
BY_LIBRARY = ("LGPL-3.0-only", "LGPL-3.0-or-later")
"""Copyleft for the library itself: fit for extras, which stand beside the program and can be replaced."""
AS_WRITTEN = {
    "MIT License": "MIT",
    "BSD License": "BSD",
    "BSD": "BSD",
    "BSD 2-Clause License": "BSD-2-Clause",
    "BSD 3-Clause License": "BSD-3-Clause",
    "Apache Software License": "Apache-2.0",
    "Apache 2.0": "Apache-2.0",
    "Python Software Foundation License": "PSF-2.0",
    "PSFL": "PSF-2.0",
    "ISC License (ISCL)": "ISC",
    "The MIT License (MIT)": "MIT",
    "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
}
"""How older packages write a licence, and its short name in the SPDX list."""
ELSEWHERE = {
    "axe-playwright-python": ("MIT AND MPL-2.0", "its licence file; it carries axe-core, MPL-2.0"),
    "colorama": ("BSD-3-Clause", "its licence file; for Windows only"),
    "docutils": (
        "CC-PDDC AND BSD-2-Clause AND BSD-3-Clause AND 0BSD",
        "its COPYING file; what it has under the GPL is for an editor and is not in its wheel",
    ),
    "httpx2-jsfetch": ("BSD-3-Clause", "its metadata; for browsers only"),
}
"""Packages whose metadata here say nothing: what their own files say."""


class NoticesError(Exception):
    """Something locked or shipped has no licence that is known."""


@dataclass(frozen=True)
class Locked:
    """A locked package, its licence, whether the program needs it to run, and whether an extra asks for it."""

    name: str
    licence: str
    runs: bool
    asked: bool = False


def normal(name: str) -> str:
    """Return a package's name as the index writes it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def locked_names() -> list[str]:
    """Return the names in the lock file, sorted, once each."""
    text = (ROOT / "requirements.lock").read_text("utf-8")
    return sorted({normal(name) for name in re.findall(r"^([A-Za-z0-9._-]+)==", text, re.MULTILINE)})


def needed_to_run() -> set[str]:
    """Return the names of the packages that the program needs, and that those need."""
    return with_needed(project()["dependencies"])


def asked_for() -> set[str]:
    """Return the names of the packages that the extras ask for, and that those need."""
    extras: dict[str, list[str]] = project().get("optional-dependencies", {})
    return with_needed([each for wanted in extras.values() for each in wanted])


def project() -> dict[str, Any]:
    """Return what the project says of itself."""
    found: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    return found


def with_needed(wanted: list[str]) -> set[str]:
    """Return the names of packages and of all that they need."""
    waiting = [(re.match(r"[A-Za-z0-9._-]+", each), re.search(r"\[([^]]+)\]", each)) for each in wanted]
    names = [normal(found[0]) for found, _ in waiting if found]
    # an extra of a package that is one more package of a like name, as binaries are
    names += [normal(f"{found[0]}-{more[1]}") for found, more in waiting if found and more]
    met: set[str] = set()
    while names:
        name = names.pop()
        if name in met:
            continue
        met.add(name)
        try:
            needed = metadata.requires(name) or []
        except metadata.PackageNotFoundError:
            continue
        for each in needed:
            head, _, marker = each.partition(";")
            found = re.match(r"[A-Za-z0-9._-]+", head.strip())
            if found and "extra ==" not in marker:
                names.append(normal(found[0]))
    return met


def noted_before(name: str) -> str | None:
    """Return the licence that the page of notices has for a package of development; None where it has none."""
    text = PAGE.read_text("utf-8") if PAGE.is_file() else ""
    text = "".join(re.split(r"^## (?:Optional|For development only)", text, maxsplit=1, flags=re.MULTILINE)[1:])
    found = re.search(rf"^\| {re.escape(name)} \| ([^|]+?) \|$", text, re.MULTILINE)
    return found[1] if found else None


def licence_of(name: str, *, runs: bool = True) -> str:
    """Return the licence of a package as an SPDX expression.

    A package of development that is not installed here has the licence that was read where the page was made.

    Args:
        name: The package.
        runs: Whether the program needs it to run.

    Raises:
        NoticesError: neither its metadata nor the table here say one.
    """
    if name in ELSEWHERE:
        return ELSEWHERE[name][0]
    try:
        about = metadata.metadata(name)
    except metadata.PackageNotFoundError:
        noted = None if runs else noted_before(name)
        if noted is not None:
            return noted
        message = f"{name} is locked but not installed here, and its licence is not in ELSEWHERE."
        raise NoticesError(message) from None
    if "License-Expression" in about:
        return str(about["License-Expression"])
    reported = (str(about["License"]) if "License" in about else "").split("\n")[0].strip()
    classes = [each.rsplit("::", 1)[-1].strip() for each in about.get_all("Classifier") or [] if "License ::" in each]
    for each in (reported, *classes):
        if each in AS_WRITTEN:
            return AS_WRITTEN[each]
        if each in PERMISSIVE or each in BY_FILE or re.search(r"GPL|General Public", each):
            return each
    said = reported or classes or "nothing"
    message = f"{name} states no licence that is known ({said}): read its files and add it to ELSEWHERE."
    raise NoticesError(message)


def allowed(expression: str, kinds: tuple[str, ...]) -> bool:
    """Return whether an SPDX expression can be met by licences of these kinds alone.

    >>> allowed("MIT OR GPL-3.0-only", ("MIT",)), allowed("MIT AND GPL-3.0-only", ("MIT",)), allowed("GPL", ("MIT",))
    (True, False, False)
    """
    return any(all(part.strip(" ()") in kinds for part in choice.split(" AND ")) for choice in expression.split(" OR "))


def packages() -> list[Locked]:
    """Return every locked package with its licence."""
    runs, asked = needed_to_run(), asked_for()
    return [
        Locked(name, licence_of(name, runs=name in runs), name in runs, name in asked - runs) for name in locked_names()
    ]


def faults(found: list[Locked]) -> list[str]:
    """Return a sentence for everything that may not be shipped or used."""
    reported = []
    for each in found:
        kinds = PERMISSIVE if each.runs else PERMISSIVE + BY_FILE + (BY_LIBRARY if each.asked else ())
        if not allowed(each.licence, kinds):
            what = (
                "the program needs it to run"
                if each.runs
                else "an extra asks for it"
                if each.asked
                else "development uses it"
            )
            reported.append(f"{each.name} is under {each.licence} and {what}: replace it by a permissive one.")
    noted = (FONTS / "README.md").read_text("utf-8") if (FONTS / "README.md").is_file() else ""
    texts = {path.name for path in FONTS.glob("*.txt")}
    for font in shipped_fonts():
        licence = font_licence(font.name, noted)
        if licence is None or licence[0] not in PERMISSIVE or licence[1] not in texts:
            reported.append(f"{font.name} is shipped without a licence in fonts/README.md and its text beside it.")
    reported += [
        f"{path.name} is carried along without a note in vendor/README.md."
        for path in sorted(VENDOR.glob("*.js"))
        if f"`{path.name}`" not in (VENDOR / "README.md").read_text("utf-8")
    ]
    return reported


def shipped_fonts() -> list[Path]:
    """Return the fonts that are shipped."""
    return sorted(path for path in FONTS.iterdir() if path.suffix in {".otf", ".ttf", ".ttc"})


def font_licence(name: str, noted: str) -> tuple[str, str] | None:
    """Return the licence of a font and the file of its text, from a row ``| file | licence | text | from |``."""
    found = re.search(rf"^\| `{re.escape(name)}` \| ([^|]+?) \| `([^|`]+)` \|", noted, re.MULTILINE)
    return (found[1], found[2]) if found else None


def page(found: list[Locked]) -> str:
    """Return the page of notices."""
    head = (
        "<!-- made by tools/make_notices.py; do not edit -->\n\n# Third-party notices\n\n"
        "pavewright is under Apache-2.0 ([LICENSE](LICENSE)). What it carries inside itself, and what its set-up "
        "installs beside it, is listed here with its licence.\n\n## Carried inside\n\n"
        "| what | licence | text |\n|---|---|---|\n"
    )
    parts = [head]
    noted = (FONTS / "README.md").read_text("utf-8")
    for font in shipped_fonts():
        licence, text = font_licence(font.name, noted) or ("unknown", "")
        parts.append(f"| font {font.name} | {licence} | src/pavewright/papers/fonts/{text} |\n")
    parts.append("| three-view.js (three.js) | MIT | src/pavewright/web/static/vendor/README.md |\n")
    kinds = (
        ("Needed to run", True, False),
        ("Optional: installed where an extra asks for it", False, True),
        ("For development only, not shipped", False, False),
    )
    for title, runs, asked in kinds:
        parts.append(f"\n## {title}\n\n| package | licence |\n|---|---|\n")
        parts += [f"| {each.name} | {each.licence} |\n" for each in found if (each.runs, each.asked) == (runs, asked)]
    return "".join(parts)


def main(words: list[str]) -> int:
    """Write the page, or hold the one there against what it would be."""
    try:
        found = packages()
    except NoticesError as problem:
        print(problem, file=sys.stderr)
        return 1
    reported = faults(found)
    made = page(found)
    if words == ["--check"]:
        if not PAGE.is_file() or PAGE.read_text("utf-8") != made:
            reported.append(f"{PAGE.name} is stale: run tools/make_notices.py.")
    elif not reported:
        PAGE.write_text(made, "utf-8")
    for each in reported:
        print(each, file=sys.stderr)
    if not reported:
        print(f"Licences of {len(found)} locked packages and {len(shipped_fonts())} fonts hold.")
    return 1 if reported else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
