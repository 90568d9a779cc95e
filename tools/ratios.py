"""Print what the slow things cost as ratios, and set two revisions side by side.

    python tools/ratios.py                     every measure, each against a yardstick run in turn with it
    python tools/ratios.py start plans         these groups: start, plans, packs, fill, planes, networks, clouds,
                                               screens, drive
    python tools/ratios.py --save now.json     keep what was found
    python tools/ratios.py --beside now.json   print it beside what was kept
    python tools/ratios.py --source DIR        measure the program in DIR (the src of another revision)

A measure is processor time of the work over processor time of its yardstick, the smaller of a few turns of either,
taken in turn: a noisy machine slows both. The yardstick of a start is the start of the libraries; of a fill, a network
and a cloud, another library at the same task; of all else, a fixed piece of work. Each measure runs in a process of its
own, so that what one loads does not help the next; modules are kept compiled, as they are where the program is
installed. What a revision cannot do is a dash.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).resolve().parents[1]
TURNS = 3
EXAMPLES = ("l_terrace", "front_drive", "gully_yard", "curved_path")


def yardstick() -> float:
    """Return what a fixed piece of work gives: steps in Python, and arrays."""
    import numpy as np  # noqa: PLC0415 - the start of the program is measured without it

    total = 0.0
    for number in range(300_000):
        total += (number % 7) * 0.5
    rows = np.random.default_rng(1).random(400_000)
    for _ in range(5):
        total += float(np.sort(rows).sum())
    return total


def in_turn(work: Callable[[], object], other: Callable[[], object], turns: int = TURNS) -> float:
    """Return the processor time of some work over that of another, the smaller of a few turns of either."""
    work()
    other()
    spent: tuple[list[float], list[float]] = ([], [])
    for _ in range(turns):
        for kept, each in zip(spent, (work, other), strict=True):
            begun = time.process_time()
            each()
            kept.append(time.process_time() - begun)
    return min(spent[0]) / min(spent[1])


def children(words: list[str]) -> float:
    """Return the processor time of a command from its start to its end. [s]."""
    before = os.times()
    subprocess.run([sys.executable, *words], check=True, capture_output=True, cwd=ROOT)
    after = os.times()
    return after.children_user + after.children_system - before.children_user - before.children_system


def starts_in_turn(words: list[str]) -> float:
    """Return the processor time of a command over that of starting the libraries."""
    libraries = ["-c", "import numpy, shapely, pydantic, click"]
    spent = [(children(words), children(libraries)) for _ in range(TURNS)]
    return min(one for one, _ in spent) / min(other for _, other in spent)


def _help() -> float:
    return starts_in_turn(["-m", "pavewright.cli", "--help"])


def _one_sum() -> float:
    return starts_in_turn(["-m", "pavewright.cli", "sum", "fall", "run_mm=3000", "one_in=60"])


def _cold_plan() -> float:
    return starts_in_turn(["-m", "pavewright.cli", "plan", str(ROOT / "examples" / "l_terrace.json")])


def _plan(name: str) -> float:
    from pavewright.desk import make_plan  # noqa: PLC0415 - each measure loads what it measures

    text = (ROOT / "examples" / f"{name}.json").read_bytes()
    return in_turn(lambda: make_plan(text), yardstick)


def _pack(name: str) -> float:
    from pavewright.desk import make_pack, make_plan  # noqa: PLC0415 - the same

    made = make_plan((ROOT / "examples" / f"{name}.json").read_bytes())
    before = os.times()
    yards, packs = [], []
    for turn in range(TURNS):
        begun = time.process_time()
        yardstick()
        yards.append(time.process_time() - begun)
        before = os.times()
        make_pack(made)
        after = os.times()
        if turn:  # the first one may fill caches
            packs.append(sum(after[:4]) - sum(before[:4]))
    return min(packs) / min(yards)


def _fill() -> float:
    import numpy as np  # noqa: PLC0415 - the same
    from skimage.morphology import reconstruction  # noqa: PLC0415 - the same

    from pavewright import flow  # noqa: PLC0415 - the same

    yard = _tool("benchmark").rough_plane(1000)  # type: ignore[attr-defined]
    seed = np.where(yard.exits >= 0, yard.levels_mm, np.inf)
    seed[~np.isfinite(seed)] = yard.levels_mm.max()
    return in_turn(lambda: flow.fill(yard), lambda: reconstruction(seed, yard.levels_mm, method="erosion"))


def _planes() -> float:
    tool = _tool("benchmark_levels")
    task = tool.fan(40)  # type: ignore[attr-defined]
    return in_turn(lambda: tool.design(task), yardstick)  # type: ignore[attr-defined]


def _network(points: int) -> float:
    import numpy as np  # noqa: PLC0415 - the same

    tool = _tool("benchmark_networks")
    rng = np.random.default_rng(7)
    places, freedom, tapes = tool.wide_garden(rng, points)  # type: ignore[attr-defined]
    return in_turn(lambda: tool.adjust_network(places, freedom, tapes), yardstick, 1)  # type: ignore[attr-defined]


def _cloud() -> float:
    import tempfile  # noqa: PLC0415 - the same

    tool = _tool("benchmark_clouds")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "cloud.las"
        tool.written(path, 1_000_000)  # type: ignore[attr-defined]
        return in_turn(lambda: tool.gridded(path), lambda: tool.read_alone(path))  # type: ignore[attr-defined]


def _drive(*, stopped: bool) -> float:
    from pavewright.desk import make_plan  # noqa: PLC0415 - the same

    document = _tool("benchmark_drag").job(841)  # type: ignore[attr-defined] # a square of 17.7 m
    document["units"][0] |= {
        "name": "Block",
        "length_mm": 200.0,
        "width_mm": 100.0,
        "thickness_mm": 60.0,
        "kg_each": 2.8,
    }
    document["areas"][0]["laying"] |= {"unit": "Block", "pattern": "herringbone"}
    if stopped:
        high = {"name": "Path", "start": "D", "end": "C", "start_level_mm": 10_400.0, "end_level_mm": 10_400.0}
        document["site"]["tie_ins"] = [high | {"beyond": "own_paving"}]
    return in_turn(lambda: make_plan(json.dumps(document)), yardstick, 1)


def _answer(name: str) -> float:
    """Return what writing the plan of a job costs for a screen, once the plan is made."""
    from pavewright.desk import SCREEN_VERBS  # noqa: PLC0415 - the same

    payload = b"survey,levels,laying,cost\n" + json.dumps(_tool("benchmark_drag").JOBS[name][0]()).encode()  # type: ignore[attr-defined]
    SCREEN_VERBS["plan_parts"](payload, lambda _: None)
    return in_turn(lambda: SCREEN_VERBS["plan_parts"](payload, lambda _: None), yardstick)


def _preview(name: str) -> float:
    """Return what a preview costs while a corner is moved a little each time."""
    from pavewright.desk import SCREEN_VERBS  # noqa: PLC0415 - the same

    document = _tool("benchmark_drag").JOBS[name][0]()  # type: ignore[attr-defined]
    points = document["measurements"].get("points") or [{"x_mm": 0.0}]

    def moved() -> object:
        points[-1]["x_mm"] += 5.0
        return SCREEN_VERBS["preview"](json.dumps(document).encode(), lambda _: None)

    return in_turn(moved, yardstick)


def _tool(name: str) -> object:
    """Return a benchmark beside this one."""
    sys.path.insert(0, str(Path(__file__).parent))
    return __import__(name)


GROUPS: dict[str, dict[str, Callable[[], float]]] = {
    "start": {"list of commands": _help, "one sum": _one_sum, "cold plan of the terrace": _cold_plan},
    "plans": {f"plan of {name}": lambda name=name: _plan(name) for name in EXAMPLES},  # type: ignore[misc]
    "packs": {f"pack of {name}": lambda name=name: _pack(name) for name in EXAMPLES[:2]},  # type: ignore[misc]
    "fill": {"fill of a million cells, against scikit-image": _fill},
    "planes": {"design of 40 planes": _planes},
    "networks": {f"network of {points} points": lambda points=points: _network(points) for points in (200, 1000)},  # type: ignore[misc]
    "clouds": {"a million points to a grid, against reading them": _cloud},
    "screens": {
        "answer for a screen of 25,000 setts": lambda: _answer("setts"),
        "preview of a folded yard": lambda: _preview("yard"),
        "preview of 40 areas": lambda: _preview("areas"),
        "preview of a drive of 25,000 setts": lambda: _preview("setts"),
    },
    "drive": {
        "plan of a drive of 300 m² of blocks": lambda: _drive(stopped=False),
        "the same with a stop whose options are tried": lambda: _drive(stopped=True),
    },
}


def measured(group: str, name: str, source: str) -> float | None:
    """Return a measure, made in a process of its own; nothing where this revision cannot do it."""
    done = subprocess.run(
        [sys.executable, __file__, "--one", group, name],
        env={**os.environ, "PYTHONPATH": source, "PYTHONDONTWRITEBYTECODE": ""},
        capture_output=True,
        text=True,
        check=False,
    )
    return float(done.stdout) if done.returncode == 0 else None


def main() -> int:
    """Measure and print."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("groups", nargs="*", choices=[*GROUPS, []], help="groups of measures; all where none is named")
    asked.add_argument("--save", type=Path)
    asked.add_argument("--beside", type=Path)
    asked.add_argument("--source", default=str(ROOT / "src"))
    asked.add_argument("--one", nargs=2, help=argparse.SUPPRESS)
    words = asked.parse_args()
    if words.one:
        group, name = words.one
        print(GROUPS[group][name]())
        return 0
    kept = json.loads(words.beside.read_text("utf-8")) if words.beside else {}
    found: dict[str, float | None] = {}
    print(f"{'':50} {'ratio':>9}" + (f" {'kept':>9} {'now/kept':>9}" if kept else ""))
    for group in words.groups or GROUPS:
        for name in GROUPS[group]:
            found[name] = now = measured(group, name, words.source)
            before = kept.get(name)
            beside = f" {_text(before):>9} {_text(now / before if now and before else None):>9}" if kept else ""
            print(f"{name:50} {_text(now):>9}{beside}", flush=True)
    if words.save:
        words.save.write_text(json.dumps(found, indent=1) + "\n", "utf-8")
    return 0


def _text(value: float | None) -> str:
    return "-" if value is None else f"{value:.2f}"


if __name__ == "__main__":
    sys.exit(main())
