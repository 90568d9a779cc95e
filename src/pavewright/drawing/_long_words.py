"""What is said of a pipe run beside its section; what is not known is said to be not known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing._scene import SCALES
from pavewright.drawing._type import width_of
from pavewright.job import OutfallKind
from pavewright.rules import Status
from pavewright.water import DrainKind, DrainState, RunFall
from pavewright.writing import length_mark, level_mark, size_mark

if TYPE_CHECKING:
    from pavewright.rules import Figure
    from pavewright.water import DrainRun, RunCrossing, RunEnd

TYPE_MM = 2.9
"""Height of the type of sections along drains on paper. [mm]"""
NOT_TAKEN = "? not taken"
NOT_KNOWN = "? not known"
_KINDS: dict[DrainKind | OutfallKind, str] = {
    DrainKind.GULLY: "gully",
    DrainKind.CHANNEL: "channel",
    OutfallKind.BORDER: "border",
    OutfallKind.LAWN: "lawn",
    OutfallKind.SOAKAWAY: "soakaway",
    OutfallKind.WATERCOURSE: "watercourse",
    OutfallKind.SURFACE_WATER_SEWER: "surface water sewer",
    OutfallKind.COMBINED_SEWER: "combined sewer",
    OutfallKind.UNKNOWN: "outfall not known",
}
_STATES = {DrainState.EXISTING: "there already", DrainState.NEW: "new", DrainState.NOT_KNOWN: "not said whether new"}


def title_of(run: DrainRun) -> str:
    """Return what a section shows."""
    to = "no outfall named" if run.end is None else f"to {run.end.name}"
    return f"Drain from {run.start.name} ({_KINDS[run.start.kind]}, {_STATES[run.state]}) {to}"


def kind_of(end: RunEnd) -> str:
    """Return what an end of a run is."""
    return _KINDS[end.kind]


def level_of(level_mm: float | None) -> str:
    """Return a level, or that nobody took it."""
    return NOT_TAKEN if level_mm is None else level_mark(level_mm)


def surface_of(end: RunEnd) -> str:
    """Return the level of the surface over an end, or that it is not known."""
    return NOT_KNOWN if end.cover_level_mm is None else level_mark(end.cover_level_mm)


def deep_of(end: RunEnd) -> str:
    """Return how deep an invert lies, or that it is not known."""
    return NOT_KNOWN if end.deep_mm is None else size_mark(end.deep_mm)


def length_of(run: DrainRun) -> str:
    """Return the length of a pipe, or that nobody took it."""
    known = run.pipe.length_m
    return NOT_TAKEN if known is None else f"{length_mark(units.m_to_mm(known))}{'' if run.line_known else ' as given'}"


def fall_of(run: DrainRun) -> str:
    """Return the fall of a pipe: in all, and over its length where that is known."""
    if run.fall_mm is None:
        return NOT_KNOWN
    whole = f"{size_mark(run.fall_mm)} in all"
    return f"{whole}, over a length not known" if run.fall is None else f"{whole}, {units.fall_text(run.fall)}"


def pipe_of(run: DrainRun) -> str:
    """Return the bore that is taken."""
    return f"bore {size_mark(run.bore.value)}, {_how(run.bore)}"


def _how(figure: Figure) -> str:
    return "not verified" if figure.status is Status.MEMORY else figure.status.words


def said_of(run: DrainRun) -> tuple[list[str], list[str]]:
    """Return what to heed of a run, and what else to know of it."""
    return _to_heed(run), _to_know(run)


def _to_heed(run: DrainRun) -> list[str]:
    found = []
    if run.verdict is RunFall.NONE:
        found.append("THE PIPE DOES NOT FALL to its outfall: take both inverts again.")
    if run.verdict is RunFall.FLAT and run.min_one_in is not None:
        limit = f"1 in {run.min_one_in.value:g} ({_how(run.min_one_in)})"
        found.append(f"TOO FLAT: less than {limit} for this bore.")
    if run.verdict is RunFall.NOT_KNOWN:
        found.append(f"Whether it falls enough is not known: {_missing(run)}.")
    for end in (run.start, run.end):
        over = None if end is None or end.deep_mm is None else end.deep_mm - run.bore.value
        if end is not None and over is not None and over < run.min_cover.value:
            found.append(
                f"At {end.name} {size_mark(max(over, 0.0))} of ground over the pipe, less than "
                f"{size_mark(run.min_cover.value)} ({_how(run.min_cover)}): protect it as the local code says."
            )
        if end is not None and end.assumed:
            found.append(f"Levels of {end.name} are assumed, not measured.")
    return found


def _missing(run: DrainRun) -> str:
    """Return what is to be taken."""
    wanted = [
        f"the invert of {end.name}" for end in (run.start, run.end) if end is not None and end.invert_level_mm is None
    ]
    if run.end is None:
        wanted.append("where it leads")
    if run.pipe.length_m is None:
        wanted.append("the length of the pipe")
    return "find out " + ", ".join(wanted) if wanted else "nothing is said of this bore"


def _to_know(run: DrainRun) -> list[str]:
    bed, trench = size_mark(run.bed.value), size_mark(run.trench.value)
    found = [
        f"Gravel {bed} under the pipe and over it in a trench {trench} wide ({_how(run.bed)}). Bends are left out."
    ]
    if run.start.kind is DrainKind.CHANNEL and run.start.at is None:
        found.append("Which end of the channel is its outlet is not known, so that the surface over it is not either.")
    if run.silt_traps:
        found.append("A silt trap goes before the soakaway; its place is not set.")
    if run.line_known:
        found += [f"{number}: {_crossing(each)}." for number, each in enumerate(run.crossings, start=1)]
        if not run.crossings:
            found.append("A straight line is taken; it crosses no service that was entered.")
    else:
        found.append("Its line in plan is not known: services that it crosses could not be looked for.")
    return found


def _crossing(each: RunCrossing) -> str:
    deep = "depth not known" if each.depth_mm is None else f"said to be {size_mark(each.depth_mm)} deep"
    return f"crosses {each.name} at {length_mark(each.along_mm)} from the inlet, {deep}: trace it, dig by hand"


def fitting(text: str, wide_mm: float, height_mm: float = TYPE_MM) -> str:
    """Return bold words cut to the room that they have."""
    while len(text) > 1 and width_of(text, height_mm, bold=True) > wide_mm:
        text = f"{text.rstrip('…')[:-1]}…"
    return text


def scale_for(extent_mm: float, room_mm: float) -> int:
    """Return the largest scale at which an extent fits."""
    return next((each for each in (*SCALES, 1000, 2000, 5000) if extent_mm / each <= room_mm), 10000)
