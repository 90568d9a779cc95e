"""What becomes of the files of a watched folder."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING, Any

from pavewright.cli._watch_words import WORDS
from pavewright.desk import file_told, make_pack_so_far, make_plan_so_far, plain, read_book, write_pack
from pavewright.files import FileRefusedError
from pavewright.job import FORMAT, JobInvalid, load_document
from pavewright.papers import PapersTooLargeError, PlanPart, plan_json

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_DONE = "done.json"
"""In the folder of results: the digest of each file that was done, by its name."""
_POINTS = {".geojson": "geojson", ".xml": "landxml", ".las": "las", ".laz": "las", ".ply": "ply"}
_TOLD = {".csv": WORDS.ask_order, ".txt": WORDS.ask_order, ".dxf": WORDS.ask_layer}
_TAKEN = frozenset({".json", *_POINTS, *_TOLD})
_MAX_BYTES = 500_000_000
_EVERY_MM = 500.0


class Watched:
    """A folder, and what was done of it."""

    def __init__(self, folder: Path, results: Path, firm: bytes | None, *, papers: bool) -> None:
        """Keep both folders, the firm's book, and whether papers are made."""
        self._folder, self._results, self._firm, self._papers = folder, results, firm, papers
        self._book = None if firm is None else read_book(firm)

    def pending(self) -> tuple[Path, ...]:
        """Return the files that are not done as they lie there now, by name."""
        done = self._done()
        found = []
        for path in sorted(self._folder.iterdir()):
            if not path.is_file() or path.name.startswith(".") or path.suffix.lower() not in _TAKEN:
                continue
            try:
                if done.get(path.name) != self._digest(path):
                    found.append(path)
            except OSError:
                continue
        return tuple(found)

    def do_all(self) -> Iterator[tuple[Path, str]]:
        """Do every file that is not done, and give what became of each in words."""
        looks = {path: look(path) for path in self.pending()}
        for path, before in looks.items():
            if look(path) != before:  # written anew while another one was done
                yield path, WORDS.changing
                continue
            try:
                digest = self._digest(path)
                place = self._results / path.name
                place.mkdir(parents=True, exist_ok=True)
                sentence = place / "not-taken.txt"
                sentence.unlink(missing_ok=True)
                try:
                    what = self._taken(path, place)
                except (JobInvalid, FileRefusedError, PapersTooLargeError, OSError) as problem:
                    why = _why(problem)
                    sentence.write_text(why + "\n", "utf-8")
                    what = WORDS.refused(why=why.partition("\n")[0])
                self._note(path.name, digest)
                yield path, what
            except OSError as problem:
                yield path, WORDS.refused(why=str(problem.strerror))

    def _taken(self, path: Path, place: Path) -> str:
        ending = path.suffix.lower()
        if path.stat().st_size > _MAX_BYTES:
            raise FileRefusedError(WORDS.not_json)
        if ending in _TOLD:
            raise FileRefusedError(_TOLD[ending])
        content = path.read_bytes()
        if ending in _POINTS or (ending == ".json" and _is_geojson(content)):
            return self._points(content, _POINTS.get(ending, "geojson"), place)
        return self._job(content, place)

    def _points(self, content: bytes, kind: str, place: Path) -> str:
        asked = {"kind": kind, "order": "", "unit": "", "layers": [], "every_mm": _EVERY_MM, "ground_only": False}
        points = file_told(content, asked)["points"]
        (place / "points.json").write_text(json.dumps(plain(points), indent=1, ensure_ascii=False), "utf-8")
        return WORDS.points(points=len(points))

    def _job(self, content: bytes, place: Path) -> str:
        made = make_plan_so_far(content, None, self._firm)
        if made.faults:
            raise JobInvalid(made.faults)
        (place / "plan.json").write_bytes(plan_json(made, tuple(PlanPart)))
        papers = make_pack_so_far(made, None, self._book)[0] if self._papers else ()
        return WORDS.planned(papers=len(write_pack(papers, place)))

    def _digest(self, path: Path) -> str:
        """Return a digest of a file, the firm's book and what is wanted: another book is done anew."""
        digest = hashlib.sha256(b"papers" if self._papers else b"plan")
        digest.update(hashlib.sha256(self._firm or b"").digest())
        with path.open("rb") as file:
            while part := file.read(1 << 20):
                digest.update(part)
        return digest.hexdigest()

    def _done(self) -> dict[str, str]:
        try:
            found: Any = json.loads((self._results / _DONE).read_text("utf-8"))
        except (OSError, ValueError):
            return {}
        return {str(key): str(value) for key, value in found.items()} if isinstance(found, dict) else {}

    def _note(self, name: str, digest: str) -> None:
        """Note that a file is done, whole or not at all."""
        self._results.mkdir(parents=True, exist_ok=True)
        part = self._results / f".{_DONE}.part"
        part.write_text(json.dumps(self._done() | {name: digest}, indent=1), "utf-8")
        part.replace(self._results / _DONE)


def look(path: Path) -> tuple[int, int] | None:
    """Return how large a file is and when it was written, [bytes] and [ns]; None where it is there no more."""
    try:
        stat = path.stat()
    except OSError:
        return None
    return stat.st_size, stat.st_mtime_ns


def _is_geojson(content: bytes) -> bool:
    """Return whether JSON is a collection of features and no job."""
    try:
        found = load_document(content)
    except JobInvalid:
        return False
    return isinstance(found, dict) and found.get("format") != FORMAT and "features" in found


def _why(problem: Exception) -> str:
    if isinstance(problem, JobInvalid):
        return "\n".join(f"{fault.path}: {fault.message}" if fault.path else fault.message for fault in problem.faults)
    return str(problem)
