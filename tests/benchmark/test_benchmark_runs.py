"""The benchmark runs and prints its tables; nothing here looks at the clock."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_the_benchmark_prints_time_against_slabs_and_stages():
    done = subprocess.run(
        [sys.executable, "tools/benchmark.py", "20", "40"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert "ratio" in done.stdout
    assert done.stdout.count("laying") == 3
    assert re.search(r"pack of \d\d papers", done.stdout)
    rows = [line.split() for line in done.stdout.split("rectpack s\n")[1].splitlines()]
    assert [int(row[0]) for row in rows] == [30, 60, 100]
    for _, slabs, bound, gap, _, rectpack, *_ in rows:
        assert int(bound) <= int(slabs) <= int(rectpack)
        assert 0.0 <= float(gap) < 5.0


def test_the_benchmark_prints_what_filling_and_a_storm_cost():
    done = subprocess.run(
        [sys.executable, "tools/benchmark.py", "flow", "40", "60"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert "other/fill" in done.stdout
    assert "storm s" in done.stdout
    assert len(done.stdout.splitlines()) == 6


def test_the_benchmark_prints_how_the_fill_of_mixed_sizes_grows():
    done = subprocess.run(
        [sys.executable, "tools/benchmark_mixed.py", "5", "10"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert "against first" in done.stdout
    assert done.stdout.count("5 of 5") == 4


def test_the_benchmark_of_networks_names_slips():
    done = subprocess.run(
        [sys.executable, "tools/benchmark_networks.py", "60"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert "0 blamed on another" in done.stdout.splitlines()[1]
    assert "200 points" in done.stdout


def test_the_benchmark_of_clouds_prints_the_ratio_to_reading():
    done = subprocess.run(
        [sys.executable, "tools/benchmark_clouds.py", "20000"], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert "ratio" in done.stdout
    assert done.stdout.splitlines()[1].split()[0] == "20000"


def test_ratios_are_kept_and_set_beside_each_other(tmp_path):
    kept = tmp_path / "kept.json"
    kept.write_text('{"design of 40 planes": 2.0}')
    words = [sys.executable, "tools/ratios.py", "planes", "--beside", str(kept), "--save", str(tmp_path / "now.json")]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)
    now = json.loads((tmp_path / "now.json").read_text())["design of 40 planes"]
    assert now > 0.0
    row = done.stdout.splitlines()[-1].split()
    assert row[-3:] == [f"{now:.2f}", "2.00", f"{now / 2.0:.2f}"]


def test_what_a_revision_cannot_do_is_a_dash(tmp_path):
    words = [sys.executable, "tools/ratios.py", "planes", "--source", str(tmp_path)]
    (tmp_path / "pavewright").mkdir()
    (tmp_path / "pavewright" / "__init__.py").write_text("")
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1].split()[-1] == "-"
