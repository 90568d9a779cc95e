"""A watched folder: what is dropped is done once, what cannot be taken is told, nothing is deleted."""

from __future__ import annotations

import itertools
import json
import queue
import signal
import subprocess
import sys
import threading
import time

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.cli._watch import until_settled
from pavewright.cli._watched import Watched
from pavewright.desk import demo_document

GEOJSON = {
    "type": "FeatureCollection",
    "features": [
        {
            "type": "Feature",
            "properties": {"name": "S1"},
            "geometry": {"type": "Point", "coordinates": [1.0, 2.0, 10.0]},
        }
    ],
}


def watch(folder, *words):
    return CliRunner().invoke(main, ["watch", str(folder), "--once", "--no-papers", *words])


@pytest.fixture
def box(tmp_path):
    folder = tmp_path / "box"
    folder.mkdir()
    return folder


def test_jobs_are_planned_once_and_again_when_they_change(box):
    (box / "terrace.json").write_bytes(demo_document())
    first = watch(box)
    assert first.exit_code == 0, first.output
    assert "terrace.json: planned" in first.output
    assert json.loads((box / "results" / "terrace.json" / "plan.json").read_bytes())["cost"]["total_minor"] > 0
    assert ": planned" not in watch(box).output
    (box / "terrace.json").write_bytes(demo_document() + b"\n")
    assert "terrace.json: planned" in watch(box).output


def test_what_cannot_be_taken_gets_a_sentence_and_stays(box):
    for name, content in (("bad.json", b"{"), ("list.json", b"[]"), ("points.csv", b"A,1,2\n"), ("cloud.las", b"LASF")):
        (box / name).write_bytes(content)
    done = watch(box)
    assert done.exit_code == 0, done.output
    for name in ("bad.json", "list.json", "points.csv", "cloud.las"):
        assert (box / name).exists()
        said = (box / "results" / name / "not-taken.txt").read_text()
        assert len(said.split()) > 3, name
    assert "--order" in (box / "results" / "points.csv" / "not-taken.txt").read_text()
    assert ": not taken" not in watch(box).output


def test_files_of_points_are_brought_in(box, tmp_path):
    (box / "survey.geojson").write_text(json.dumps(GEOJSON))
    done = watch(box, "-o", str(tmp_path / "out"))
    told = tmp_path / "out" / "survey.geojson"
    assert (told / "points.json").exists() or (told / "not-taken.txt").exists(), done.output
    assert not (box / "results").exists()


def test_a_file_that_is_still_written_is_waited_for(box):
    path, grown = box / "slow.json", []

    def sleep(_seconds):
        grown.append(1)
        if len(grown) < 4:
            path.write_bytes(path.read_bytes() + b" ")

    path.write_bytes(b"{")
    until_settled(box, lambda: (path,), sleep)
    assert len(grown) == 4
    until_settled(box, tuple, sleep)
    assert len(grown) == 4


def test_results_need_a_folder_of_their_own(box):
    assert watch(box, "-o", str(box)).exit_code == 2
    assert watch(box / "gone").exit_code == 2


def test_a_file_that_is_written_anew_while_another_one_is_done_is_left_for_the_next_turn(box, tmp_path):
    for name in ("a.json", "b.json"):
        (box / name).write_bytes(b"[]")
    watched = Watched(box, tmp_path / "out", None, papers=False)
    told = {}
    for path, what in watched.do_all():
        told[path.name] = what
        if path.name == "a.json":
            (box / "b.json").write_bytes(b"[[")
    assert "written anew" in told["b.json"]
    assert not (tmp_path / "out" / "b.json").exists()
    assert [path.name for path in watched.pending()] == ["b.json"]


class Watching:
    """The command as a process, with what it said line by line."""

    def __init__(self, box):
        words = "import sys; from pavewright.cli import main; sys.exit(main())"
        self.process = subprocess.Popen(
            [sys.executable, "-c", words, "watch", str(box), "--no-papers"],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self._said: queue.Queue[str] = queue.Queue()
        threading.Thread(target=self._read, daemon=True).start()

    def _read(self):
        for line in self.process.stdout:
            self._said.put(line)

    def said(self):
        """Return the next line; a machine that is busy gets long."""
        return self._said.get(timeout=120)

    def rest(self):
        return list(self._said.queue)

    def end(self, by):
        self.process.send_signal(by)
        return self.process.wait(timeout=120)


@pytest.fixture
def watching(box):
    running = Watching(box)
    assert "Watching" in running.said()
    yield running
    running.process.kill()
    running.process.wait()
    running.process.stdout.close()


def plan_of(box, name):
    return json.loads((box / "results" / name / "plan.json").read_bytes())


def test_a_folder_is_watched_until_it_is_told_to_end(box, watching):
    # one that is not whole yet has a name that begins with a dot, or no known ending
    (box / ".half.json").write_bytes(b"{")
    (box / "half.json.part").write_bytes(b"{")
    (box / "terrace.json").write_bytes(demo_document())
    assert watching.said().startswith("terrace.json: planned")
    first = plan_of(box, "terrace.json")
    changed = json.loads(demo_document())
    changed["identity"]["title"] = "Another terrace"
    changed["identity"]["job"] = "Another terrace"
    (box / "terrace.json").write_text(json.dumps(changed))
    assert watching.said().startswith("terrace.json: planned")
    assert plan_of(box, "terrace.json")["cost"] == first["cost"]
    (box / "half.json.part").rename(box / "whole.json")
    assert watching.said().startswith("whole.json: not taken")
    assert watching.end(signal.SIGTERM) == 0
    assert watching.rest() == []
    assert {path.name for path in (box / "results").iterdir()} == {"done.json", "terrace.json", "whole.json"}


def test_a_half_written_file_is_not_taken_and_ctrl_c_ends_as_well(box, watching):
    document, path = demo_document(), box / "slow.json"
    half = len(document) // 2
    stopped = threading.Event()
    times = [time.monotonic()]
    path.write_bytes(document[:half])

    def write():
        """Write on and on, blanks behind what is there, and the whole of it at the end."""
        while not stopped.wait(0.05):
            with path.open("ab") as file:
                file.write(b" ")
            times.append(time.monotonic())
        path.write_bytes(document)

    writer = threading.Thread(target=write)
    writer.start()
    stopped.wait(4)  # looks are a second apart: so long the file grows under them
    said = watching.rest()
    stopped.set()
    writer.join()
    if max(after - before for before, after in itertools.pairwise(times)) > 0.9:
        pytest.skip("this machine is too busy to write a file without a pause")
    assert said == []
    assert watching.said().startswith("slow.json: planned")
    assert watching.end(signal.SIGINT) == 0
    assert watching.rest() == []
