#!/usr/bin/env python3
"""Write what the scripts of the pages know of a plan and a job, from the types of the program.

python tools/make_types.py
python tools/make_types.py --check
"""

from __future__ import annotations

import ast
import dataclasses
import datetime as dt
import importlib
import inspect
import json
import sys
import types
import typing
from enum import Enum
from functools import cache
from pathlib import Path
from typing import Any

import click
from pydantic import BaseModel

from pavewright.desk import job_schema
from pavewright.desk._site_view import SiteFigures
from pavewright.papers._plan_json import WORDS_TOO
from pavewright.pipeline import Plan, PlanSoFar, Risk
from pavewright.quantities import Key

ROOT = Path(__file__).resolve().parent.parent
TYPES = ROOT / "src" / "pavewright" / "web" / "static" / "types"
MADE_BY = "// made by tools/make_types.py from the types of the program; do not edit\n"
WIDE = 120
PLAIN = {
    str: "string",
    int: "number",
    float: "number",
    bool: "boolean",
    type(None): "null",
    None: "null",
} | dict.fromkeys((dt.date, dt.datetime), "string")


@cache
def names_of(module: str) -> dict[str, Any]:
    """Return the names that annotations of a module can use, also those that are imported for checking only."""
    found = importlib.import_module(module)
    names = dict(vars(found))
    for node in ast.walk(ast.parse(inspect.getsource(found))):
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            for line in node.body:
                if isinstance(line, ast.Import | ast.ImportFrom):
                    exec(compile(ast.Module([line], []), module, "exec"), names)  # noqa: S102 - lines of the program itself
    return names


class Dataclasses:
    """Declarations of dataclasses as they stand in the JSON of a plan, each one once."""

    def __init__(self, models: str) -> None:
        """Begin with none.

        Args:
            models: What stands before the name of a pydantic model.
        """
        self._models = models
        self._named: dict[str, type] = {}
        self.done: dict[str, str] = {}

    def of(self, kind: Any) -> str:  # noqa: ANN401, C901, PLR0911 - one line for each kind of annotation
        """Return the TypeScript of an annotation; what it names is declared too."""
        if kind in PLAIN:
            return PLAIN[kind]
        origin, given = typing.get_origin(kind), typing.get_args(kind)
        if origin in (typing.Union, types.UnionType):
            return " | ".join(dict.fromkeys(self.of(each) for each in given))
        if origin is typing.Literal:
            return " | ".join(json.dumps(each) for each in given)
        if origin is typing.Annotated:
            return self.of(given[0])
        if origin is tuple and given[-1] is not ...:
            return f"[{', '.join(self.of(each) for each in given)}]"
        if origin in (tuple, list):
            return f"{in_brackets(self.of(given[0]))}[]"
        if origin is dict:
            return f"Record<string, {self.of(given[1])}>"
        if typing.is_typeddict(kind):
            return self._declared(kind)
        if not isinstance(kind, type):
            message = f"no type of the pages is known for {kind!r}"
            raise TypeError(message)
        if issubclass(kind, Key):
            return "string"
        if issubclass(kind, Enum):
            return " | ".join(json.dumps(each.value) for each in kind)
        if issubclass(kind, BaseModel):
            return f"{self._models}{kind.__name__}"
        return self._declared(kind)

    def _declared(self, kind: type) -> str:
        name = kind.__name__.lstrip("_")
        known = self._named.setdefault(name, kind)
        if known is not kind:
            name = kind.__module__.split(".")[1].title().replace("_", "") + name
            self._named[name] = kind
        if name not in self.done:
            self.done[name] = ""  # a type may hold itself
            hints = names_of(kind.__module__)
            lines = [(name_, self.of(eval(given, hints))) for name_, given in fields_of(kind)]  # noqa: S307
            lines += [(words, "string") for words in WORDS_TOO.get(kind, ())]
            self.done[name] = declared(name, lines)
        return name


def fields_of(kind: type) -> list[tuple[str, str]]:
    """Return the fields of a dataclass or a typed dictionary with their annotations as they are written."""
    if typing.is_typeddict(kind):
        return [(name, given.__forward_arg__) for name, given in kind.__annotations__.items()]
    return [(field.name, str(field.type)) for field in dataclasses.fields(kind)]


def in_brackets(kind: str) -> str:
    """Return a type so that something can follow it."""
    return f"({kind})" if " | " in kind else kind


def declared(name: str, lines: list[tuple[str, str]]) -> str:
    """Return a declaration."""
    return f"export interface {name} {{\n" + "".join(f"  {field}: {broken(kind)};\n" for field, kind in lines) + "}\n"


def broken(kind: str) -> str:
    """Return a type on several lines where it is long."""
    return kind if len(kind) < WIDE // 2 else "\n    | " + "\n    | ".join(kind.split(" | "))


def of_schema(node: dict[str, Any]) -> str:  # noqa: PLR0911 - one line for each kind of node
    """Return the TypeScript of a node of a JSON schema."""
    if "$ref" in node:
        return node["$ref"].rpartition("/")[2]
    for several in ("anyOf", "oneOf"):
        if several in node:
            return " | ".join(dict.fromkeys(of_schema(each) for each in node[several]))
    if "const" in node:
        return json.dumps(node["const"])
    if "enum" in node:
        return " | ".join(json.dumps(each) for each in node["enum"])
    kind = node.get("type")
    if kind == "array":
        if "prefixItems" in node:
            return f"[{', '.join(of_schema(each) for each in node['prefixItems'])}]"
        return f"{in_brackets(of_schema(node['items']))}[]"
    if kind == "object":
        if "properties" in node:
            message = "an object without a name"
            raise TypeError(message)
        inner = node.get("additionalProperties")
        return f"Record<string, {of_schema(inner) if isinstance(inner, dict) else 'unknown'}>"
    simple = {"string": "string", "number": "number", "integer": "number", "boolean": "boolean", "null": "null"}
    return simple[str(kind)]


def job_types(schema: dict[str, Any], main: str, *, whole: bool) -> str:
    """Return the declarations of a JSON schema.

    Args:
        schema: The schema with its definitions.
        main: Name of the outermost type.
        whole: Whether every field is there, as the program writes it.
    """
    parts = []
    for name, node in sorted({**schema.get("$defs", {}), main: schema}.items()):
        if "properties" not in node:
            parts.append(f"export type {name} = {broken(of_schema(node))};\n")
            continue
        needed = set(node["properties"]) if whole else set(node.get("required", ()))
        lines = [
            (field if field in needed else f"{field}?", of_schema(inner)) for field, inner in node["properties"].items()
        ]
        parts.append(declared(name, lines))
    return "\n".join(parts)


def names(of_plan: list[str], document: str) -> str:
    """Return the names that every script knows: ``plan.Piece``, ``doc.Area`` and what is used everywhere."""
    of_document = [line.split()[2] for line in document.splitlines() if line.startswith("export ")]
    parts = [MADE_BY, "// Names that every script of the pages knows.\n"]
    for space, file, known in (("plan", "plan", of_plan), ("doc", "document", of_document)):
        lines = (f'  export type {name} = import("./{file}.js").{name};\n' for name in known)
        parts.append(f"\ndeclare namespace {space} {{\n{''.join(lines)}}}\n")
    whole = "type Plan = plan.Plan;\ntype PlanSoFar = plan.PlanSoFar;\ntype Finding = plan.Finding;\n"
    parts.append(f"\ntype JobDocument = doc.JobDocument;\n{whole}")
    parts.append('type JobState = import("../job/job-state.js").JobState;\n')
    parts.append("/** What a phone takes along of a plan. */\n")
    parts.append(
        'type SiteView = plan.SiteFigures & Pick<PlanSoFar, "levels" | "setting_out" | "findings" | "missing">'
    )
    parts.append(' & { survey: Omit<plan.Survey, "ground"> };\n')
    parts.append("/** A job whose plan has what a stage needs. */\ntype Planned = JobState & { plan: Plan };\n")
    return "".join(parts)


def pages() -> dict[str, str]:
    """Return the files by name."""
    from pavewright.job import Job  # noqa: PLC0415 - the model, for what it writes

    plan = Dataclasses("job.")
    plan.of(Plan)
    plan.of(PlanSoFar)
    plan.of(SiteFigures)
    plan.of(Risk)
    document = job_types(job_schema(), "JobDocument", whole=False)
    body = "\n".join(text for _, text in sorted(plan.done.items()))
    return {
        "document.d.ts": MADE_BY + "// A job document as it is kept: fields with a default may be missing.\n\n"
        + document,
        "job.d.ts": MADE_BY + "// The job inside a plan: every field is there.\n\n"
        + job_types(Job.model_json_schema(mode="serialization"), "Job", whole=True),
        "names.d.ts": names(sorted(plan.done), document),
        "plan.d.ts": MADE_BY + '// The whole plan as JSON.\n\nimport type * as job from "./job.js";\n\n' + body,
    }  # fmt: skip


@click.command()
@click.option("--check", is_flag=True, help="Write nothing; end with 1 where a file is stale.")
def main(*, check: bool) -> None:
    """Write or check the files."""
    stale = []
    for name, text in pages().items():
        path = TYPES / name
        if path.is_file() and path.read_text("utf-8") == text:
            continue
        stale.append(name)
        if not check:
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, "utf-8")
    if check and stale:
        sys.exit(f"stale: {', '.join(stale)}; run tools/make_types.py")


if __name__ == "__main__":
    main()
