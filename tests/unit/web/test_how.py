"""Every line of how a field is measured is of a field that the job document has, with a picture that there is."""

from __future__ import annotations

import re

from pavewright.desk import job_schema
from pavewright.web._pages import static_files

_TEXT = static_files()["lib/how.js"].decode()


def _fields():
    """Return every field of the document as its owner's field and its own."""
    schema = job_schema()
    found = set()

    def walk(node, owner, seen):
        while "$ref" in node:
            name = node["$ref"].rpartition("/")[2]
            if name in seen:
                return
            node, seen = schema["$defs"][name], seen | {name}
        for way in node.get("anyOf", ()):
            walk(way, owner, seen)
        if "items" in node:
            walk(node["items"], owner, seen)
        for name, inner in node.get("properties", {}).items():
            found.add(f"{owner}.{name}")
            walk(inner, name, seen)

    walk(schema, "", frozenset())
    return found


def test_the_fields_are_those_of_the_document():
    named = re.findall(r'^  "([a-z_]+\.[a-z_]+)": \[', _TEXT, re.MULTILINE)
    assert len(named) > 30
    assert set(named) <= _fields()


def test_each_picture_is_there_and_used():
    pictures = set(re.findall(r"^  ([a-z]+): \{$|^  ([a-z]+): \{ there", _TEXT, re.MULTILINE))
    drawn = {one or other for one, other in pictures}
    used = set(re.findall(r'": \["([a-z]+)",|": \[\n    "([a-z]+)",', _TEXT))
    assert {one or other for one, other in used} == drawn - {"layers"}
