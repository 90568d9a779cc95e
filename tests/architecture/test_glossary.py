"""One word, one meaning: every public field is made of words of the glossary or of plain words."""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import pkgutil
import tomllib
from pathlib import Path

from pydantic import BaseModel

import pavewright
from pavewright.writing import Catalogue

ROOT = Path(__file__).parents[2]
GLOSSARY = tomllib.loads((ROOT / "docs" / "glossary.toml").read_text("utf-8"))


def known():
    words = set(GLOSSARY["plain"]["words"].split())
    for term in GLOSSARY["terms"]:
        words.add(term)
        words |= set(term.replace("-", " ").split())
    return words


def fields():
    for module in pkgutil.walk_packages(pavewright.__path__, "pavewright."):
        loaded = importlib.import_module(module.name)
        for name, kind in vars(loaded).items():
            if not inspect.isclass(kind) or not kind.__module__.startswith("pavewright") or name.startswith("_"):
                continue
            if issubclass(kind, Catalogue):
                continue  # names of sentences, not of facts
            if dataclasses.is_dataclass(kind):
                yield from ((name, field.name) for field in dataclasses.fields(kind))
            elif issubclass(kind, BaseModel):
                yield from ((name, field) for field in kind.model_fields)


def singular(word, words):
    ends = (
        word,
        word.removesuffix("s"),
        word.removesuffix("es"),
        word.removesuffix("ies") + "y",
        word.removesuffix("ed"),
    )
    return any(each in words for each in ends)


def test_every_public_field_is_made_of_known_words():
    words = known()
    strange = {
        f"{owner}.{field}"
        for owner, field in fields()
        for word in field.strip("_").split("_")
        if not singular(word, words)
    }
    assert strange == set()


def test_no_term_is_explained_by_itself():
    for term, meaning in GLOSSARY["terms"].items():
        assert len(meaning.split()) >= 3
        assert meaning.lower() != term
