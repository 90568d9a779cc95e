"""Small jobs for every room: a rectangle or any outline, to be changed by each test."""

from __future__ import annotations

import functools
import json
import os
import pickle
import time
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import Phase, settings

from pavewright import rulebook
from pavewright.desk import demo_document, make_pack, make_plan
from pavewright.job import Job, parse
from pavewright.survey import Survey, survey

from tests.gone_through import gone_through_document


if os.environ.get("CI"):
    # the same examples on every run, and a failure told as it was found: making it smaller can take minutes
    settings.register_profile(
        "steady", settings.get_profile("ci"), phases=(Phase.explicit, Phase.generate, Phase.target)
    )
    settings.load_profile("steady")


class SmallJob:
    """A small job as a document, with what follows from it."""

    def __init__(self) -> None:
        self.rules = rulebook.load("england")
        self.document: dict[str, Any] = {
            "format": "pavewright.job",
            "version": 2,
            "identity": {"job": "T9", "title": "Test", "date": "2027-05-04", "locality": "england", "invented": True},
            "measurements": {"points": []},
            "site": {"walls": [], "ground": {"soil": "sandy_clay"}},
            "areas": [],
            "units": [
                {
                    "name": "Slab",
                    "length_mm": 600.0,
                    "width_mm": 600.0,
                    "thickness_mm": 40.0,
                    "kg_each": 33.0,
                    "per_pack": 20,
                    "pack_price_minor": 30000,
                }
            ],
            "rates": {"labour_minor_per_hour": 3000},
            "crew": {"people": 2},
            "calendar": {"start": "2027-06-01"},
        }

    @property
    def site(self) -> dict[str, Any]:
        return self.document["site"]

    @property
    def unit(self) -> dict[str, Any]:
        return self.document["units"][0]

    def point(self, name: str, x_mm: float, y_mm: float, level_mm: float | None = None) -> str:
        entered = {"name": name, "x_mm": float(x_mm), "y_mm": float(y_mm)}
        if level_mm is not None:
            entered["level_mm"] = float(level_mm)
        self.document["measurements"]["points"].append(entered)
        return name

    def area(
        self, corners: list[tuple[float, float] | tuple[float, float, float]], name: str = "Patio", **laying: Any
    ) -> dict[str, Any]:
        """Add an area from corners x, y and, for an arc to the next corner, its rise."""
        outline = []
        for number, (x, y, *rise) in enumerate(corners):
            point = self.point(f"{name[0]}{number}", x, y)
            outline.append({"point": point, "rise_mm": float(rise[0])} if rise else {"point": point})
        entered = {
            "name": name,
            "outline": outline,
            "fall": {"bearing_deg": 0.0, "level_at": outline[0]["point"], "level_mm": 1000.0},
            "laying": {"unit": "Slab", **laying},
        }
        self.document["areas"].append(entered)
        return entered

    def rectangle(self, wide_mm: float, deep_mm: float, name: str = "Patio", **laying: Any) -> dict[str, Any]:
        return self.area([(0, 0), (wide_mm, 0), (wide_mm, deep_mm), (0, deep_mm)], name, **laying)

    def flat_ground(self, level_mm: float, reach_mm: float = 20000.0) -> None:
        names = [
            self.point(f"G{number}", x * reach_mm, y * reach_mm, level_mm)
            for number, (x, y) in enumerate(((-1, -1), (1, -1), (1, 1), (-1, 1)))
        ]
        self.document["measurements"]["ground_points"] = names

    def job(self) -> Job:
        return parse(self.document)

    def surveyed(self) -> tuple[Job, Survey]:
        job = self.job()
        return job, survey(job, self.rules)


@pytest.fixture
def small() -> SmallJob:
    return SmallJob()


def _ply(places: Any, *, text: bool = False, big_endian: bool = False) -> bytes:
    form = "ascii" if text else f"binary_{'big' if big_endian else 'little'}_endian"
    fields = "".join(f"property float {axis}\n" for axis in "xyz")
    head = f"ply\nformat {form} 1.0\nelement vertex {len(places)}\n{fields}end_header\n".encode("ascii")
    rows = np.asarray(places, dtype=">f4" if big_endian else "<f4")
    if not text:
        return head + rows.tobytes()
    return head + "".join(f"{' '.join(f'{value:.9g}' for value in row)}\n" for row in rows.tolist()).encode("ascii")


@pytest.fixture(scope="session")
def ply() -> Any:
    """Writes a PLY cloud byte by byte, so that no reader is checked against itself."""
    return _ply


_JOBS = (Path(__file__).parents[1] / "examples", Path(__file__).parent / "pipeline" / "jobs")


@functools.cache
def _made_plan(name: str) -> Any:
    if name == "demo":
        return make_plan(demo_document())
    if name == "gone_through":
        return make_plan(json.dumps(gone_through_document()))
    path = next(folder / f"{name}.json" for folder in _JOBS if (folder / f"{name}.json").exists())
    return make_plan(path.read_bytes())


@pytest.fixture(scope="session")
def made_plan() -> Any:
    """Gives the plan by name of an example, of a job of the tests, of the demo, or of the job that went through everything, made once for all tests.

    For tests that look at a plan. One that holds two plans against each other, or changes the job, makes its own.
    """
    return _made_plan


@pytest.fixture(scope="session")
def made_pack(tmp_path_factory: pytest.TempPathFactory, worker_id: str) -> Any:
    """Gives the plan and the papers by name, as above; the papers are made once for all processes of the tests."""
    home = tmp_path_factory.getbasetemp()
    folder = (home if worker_id == "master" else home.parent) / "packs"
    folder.mkdir(exist_ok=True)

    @functools.cache
    def made(name: str) -> tuple[Any, dict[str, bytes]]:
        plan = _made_plan(name)
        return plan, once_for_all(folder / name, lambda: {paper.name: paper.content for paper in make_pack(plan)})

    return made


def once_for_all(path: Path, make: Any) -> Any:
    """Return what is made once and kept in a file, by whichever process comes first; the others wait for it."""
    mark, kept = path.with_suffix(".making"), path.with_suffix(".kept")
    try:
        mark.touch(exist_ok=False)
    except FileExistsError:
        for _ in range(_PATIENCE):
            if kept.exists():
                return pickle.loads(kept.read_bytes())
            time.sleep(0.1)
        return make()  # who began it has gone
    made = make()
    part = path.with_suffix(".part")
    part.write_bytes(pickle.dumps(made))
    part.replace(kept)
    return made


_PATIENCE = 3000
"""Tenths of a second after which nobody waits any longer."""
