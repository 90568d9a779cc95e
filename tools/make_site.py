#!/usr/bin/env python3
"""Build the manual as pages to browse and search without a network, from the Markdown and the docstrings.

python tools/make_site.py [FOLDER]        build into FOLDER, docs-site where none is named
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from docs_contracts import entry, inner_rooms, layers, names_of

ROOT = Path(__file__).resolve().parent.parent
PAGES = ("README.md", "CONTRIBUTING.md", "CHANGELOG.md", "THIRD_PARTY_NOTICES.md", "LICENSE")
INDEX = """# pavewright

Everything on pavewright in one place: how to use it, what stands behind its figures, how it is built. The box beside
searches all pages, on this machine.

```{toctree}
:caption: Use it
:maxdepth: 1

README
docs/tour
docs/phone
docs/people
docs/on-site
docs/order-book
docs/firm
docs/calendar
docs/customer-door
docs/database
docs/operating
docs/live
docs/python
docs/http-api
docs/webhooks
docs/exchange
docs/record
docs/cluster
docs/proposals
docs/job-document
docs/commands
docs/case-files
docs/glossary
```

```{toctree}
:caption: What stands behind it
:maxdepth: 1

docs/sources/figures
docs/sources/sums
docs/sources/cases
docs/standing-water-found
docs/under-fault
docs/asvs
docs/threats
```

```{toctree}
:caption: Change it
:maxdepth: 1

CONTRIBUTING
docs/adding
docs/rooms/contracts
docs/rooms/rulebook
docs/decisions/index
reference/index
CHANGELOG
THIRD_PARTY_NOTICES
```
"""
CONF = """
project = "pavewright"
author = "the authors of pavewright"
copyright = "the authors of pavewright"
version = release = {version!r}
extensions = ["myst_parser", "sphinx.ext.autodoc", "sphinx.ext.napoleon"]
root_doc = "index"
language = "en"
html_theme = "furo"
html_title = "pavewright"
html_show_sphinx = False
html_copy_source = False
html_show_sourcelink = False
html_last_updated_fmt = None
myst_heading_anchors = 3
myst_links_external_new_tab = True
autodoc_typehints = "signature"
autodoc_typehints_format = "short"
autodoc_member_order = "groupwise"
napoleon_use_ivar = True
napoleon_attr_annotations = False
toc_object_entries = False
python_use_unqualified_type_names = True
suppress_warnings = {quiet!r}

# a front door opens on demand: everything that it hands out is asked for once, so that it can be described
import importlib
for room, names in {doors!r}.items():
    for name in names:
        getattr(importlib.import_module(room), name)
"""
QUIET = ["ref.python"]


def staged(place: Path, version: str) -> None:
    """Put everything that the pages are made of into a folder, lying as it lies here, so that links hold."""
    for name in PAGES:
        shutil.copy(ROOT / name, place / name)
    shutil.copytree(ROOT / "docs", place / "docs")
    shutil.copytree(ROOT / "examples", place / "examples")
    (place / "index.md").write_text(INDEX, "utf-8")
    notes = sorted(path.stem for path in (ROOT / "docs" / "decisions").glob("*.md"))
    listed = "\n".join(notes)
    words = "Why pavewright is built as it is, in short notes."
    page = f"# Decisions\n\n{words}\n\n```{{toctree}}\n:maxdepth: 1\n\n{listed}\n```\n"
    (place / "docs" / "decisions" / "index.md").write_text(page, "utf-8")
    reference(place / "reference")
    (place / "conf.py").write_text(CONF.format(version=version, quiet=QUIET, doors=handed_out()), "utf-8")


def handed_out() -> dict[str, list[str]]:
    """Return what every room hands out of its own making; a name is described once, at the highest door of its room."""
    rooms = [room for line in reversed(layers()) for room in sorted(line)]
    found: dict[str, list[str]] = {}
    met: set[tuple[str, str]] = set()
    for room in (each for top in rooms for each in (top, *inner_rooms(top))):
        entries = [entry(room, name) for name in names_of(room)]
        own = [each for each in entries if f"{each.home}.".startswith(f"{room}.") and (each.home, each.name) not in met]
        met |= {(each.home, each.name) for each in own}
        found[room] = [each.name for each in own if each.kind != "value"]
    return found


def reference(place: Path) -> None:
    """Write a page for every room, from the bottom up: what it hands out, with its docstrings."""
    place.mkdir()
    doors = handed_out()
    for room, names in doors.items():
        title = room.removeprefix("pavewright.")
        members = f"   :members: {', '.join(names)}\n   :imported-members:\n" if names else ""
        (place / f"{title}.rst").write_text(
            f"{title}\n{'=' * len(title)}\n\n.. automodule:: {room}\n{members}", "utf-8"
        )
    listed = "\n".join(f"   {each.removeprefix('pavewright.')}" for each in doors)
    (place / "index.rst").write_text(f"Reference\n=========\n\n.. toctree::\n   :maxdepth: 1\n\n{listed}\n", "utf-8")


def main(words: list[str]) -> int:
    """Build the pages; 1 where something in them is wrong."""
    from sphinx.cmd.build import build_main  # noqa: PLC0415 - loaded for this only

    from pavewright import __version__  # noqa: PLC0415

    target = Path(words[0]) if words else ROOT / "docs-site"
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "pages"
        place.mkdir()
        staged(place, __version__)
        built = Path(folder) / "built"
        wrong = build_main(
            ["-q", "-W", "--keep-going", "-b", "html", "-d", f"{folder}/doctrees", str(place), str(built)]
        )
        if wrong:
            return 1
        shutil.rmtree(target, ignore_errors=True)
        shutil.copytree(built, target)
    print(f"Open {target / 'index.html'}.")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
