"""The site sheet: the screens on site as one file that needs no server, no network and no secure connection."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from jinja2 import BaseLoader, Environment
from markupsafe import Markup

from pavewright.web._pages import static_files

if TYPE_CHECKING:
    from jinja2 import Template

    from pavewright.store import Kept

_NAMES = {"setting-out": "Pegs and strings", "levels": "Levels and falls"}
_IMPORT = re.compile(r'^import \{([^}]*)\} from "([^"]+)";$', re.MULTILINE)
_EXPORT = re.compile(r"^export (async function|function|class|const|let) (\w+)", re.MULTILINE)
_OTHER = re.compile(r"^(?:import|export)\b|\bawait import\(", re.MULTILINE)


def site_sheet(
    kept: Kept, document: dict[str, Any], view: dict[str, Any], drawings: dict[str, str], writing: dict[str, str]
) -> str:
    """Return the site sheet of a job as HTML; its own policy lets nothing but its own parts run.

    Args:
        kept: The job as it stands.
        document: Its fields, as far as they can be read.
        view: What is needed of its plan on site.
        drawings: SVG by the name of the drawing.
        writing: How the firm writes where the job does not say.
    """
    script, style = _script(), _style()
    data = {"job": kept.id, "rev": kept.rev, "document": document, "view": view, "writing": writing}
    # inside an element of script nothing may look like its end
    written = json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return _template().render(
        title=view["title"],
        rev=kept.rev,
        invented=view["invented"],
        missing=next((each["words"] for each in view["missing"]), ""),
        script=Markup(script),  # noqa: S704 - our own files
        style=Markup(style),  # noqa: S704
        script_hash=Markup(_hash(script)),  # noqa: S704
        style_hash=Markup(_hash(style)),  # noqa: S704
        data=Markup(written),  # noqa: S704 - nothing in it can end the element
        drawings=[(_NAMES[name], Markup(svg)) for name, svg in drawings.items() if svg],  # noqa: S704 - escaped by its writer
    )


@cache
def _template() -> Template:
    text = (files("pavewright.web") / "templates" / "site-sheet.html").read_text("utf-8")
    return Environment(loader=BaseLoader(), autoescape=True).from_string(text)


def _hash(text: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


@cache
def _style() -> str:
    own = sorted(name for name in static_files() if name.startswith("site/") and name.endswith(".css"))
    return "\n".join(static_files()[name].decode() for name in ("style.css", *own))


@cache
def _script() -> str:
    """Return the modules of the sheet as one script, each in a scope of its own, in the order of their imports."""
    done: dict[str, str] = {}
    _gather("site/sheet.js", done)
    return "\n".join(done.values()).replace("</", "<\\/")


def _gather(path: str, done: dict[str, str]) -> None:
    if path in done:
        return
    text = static_files()[path].decode()
    for _, source in _IMPORT.findall(text):
        _gather(_beside(path, source), done)
    names = [name for _, name in _EXPORT.findall(text)]
    text = _IMPORT.sub(lambda found: _taken(path, *found.groups()), text)
    text = _EXPORT.sub(r"\1 \2", text)
    if _OTHER.search(text):
        message = f"{path} imports or exports in a way that the site sheet cannot join"
        raise ValueError(message)
    done[path] = f"const {_scope(path)} = (() => {{\n{text}\nreturn {{ {', '.join(names)} }};\n}})();"


def _taken(path: str, names: str, source: str) -> str:
    """Return an import as names taken out of another scope."""
    renamed = re.sub(r"\s+as\s+", ": ", names)
    return f"const {{{renamed}}} = {_scope(_beside(path, source))};"


def _beside(path: str, source: str) -> str:
    """Return the path of a module that another one names."""
    folders = path.split("/")[:-1]
    for part in source.split("/"):
        if part == "..":
            folders.pop()
        elif part != ".":
            folders.append(part)
    return "/".join(folders)


def _scope(path: str) -> str:
    return "in_" + re.sub(r"\W", "_", path)
