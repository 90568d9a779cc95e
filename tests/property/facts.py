"""Facts of a job that may be unknown: how each is left out of a document, and the rooms that may then be others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.pipeline import Room

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

MONEY = frozenset({Room.COST, Room.HOLD_POINTS})
"""With the rates by which hold points tell at once what a surface that is off takes."""
TIME = MONEY | {Room.PROGRAMME, Room.QUANTITIES}
"""With the days of work: what is bought by the day hangs on them too."""
WORK = TIME | {Room.LABOUR}
TAKEN_OFF = WORK
WATER = TAKEN_OFF | {Room.WATER}
DUG = TAKEN_OFF | {Room.EARTHWORKS}
GROUND = DUG | {Room.BUILD_UPS, Room.SETTING_OUT}
HEIGHTS = GROUND | {Room.LEVELS, Room.WATER, Room.AS_LAID}
FOLDED = HEIGHTS | {Room.LAYING}
"""What may change with heights where an area is folded or steps take part of it: its units are cut to them too."""
ALL = frozenset(Room)


@dataclass(frozen=True)
class Fact:
    """Something that a document says and could leave out."""

    name: str
    changes: frozenset[Room]
    leave_out: Callable[[dict[str, Any]], None]


def facts_of(document: dict[str, Any]) -> list[Fact]:
    """Return every fact of a document that may be unknown."""
    folded = bool(document.get("steps")) or any("folding" in area.get("fall", {}) for area in document["areas"])
    heights = FOLDED if folded else HEIGHTS
    return [
        *_of_the_site(document["site"], heights),
        *_of_the_ground(document, heights, folded=folded),
        *_of_the_areas(document, heights),
        *_of_the_office(document),
    ]


def _field(path: tuple[str | int, ...], changes: frozenset[Room]) -> Fact:
    def leave_out(document: dict[str, Any]) -> None:
        here: Any = document
        for step in path[:-1]:
            here = here[step]
        here.pop(path[-1], None)

    return Fact(".".join(map(str, path)), changes, leave_out)


def _of_the_site(site: dict[str, Any], heights: frozenset[Room]) -> Iterator[Fact]:
    levels = ("grating_level_mm", "invert_level_mm", "level_mm", "start_level_mm", "end_level_mm", "top_level_mm",
              "corner_levels_mm", "dpc_level_mm")  # fmt: skip
    for kind in ("walls", "gullies", "channels", "covers", "tie_ins", "boundaries"):
        for number, each in enumerate(site.get(kind, ())):
            yield from (
                _field(("site", kind, number, level), heights) for level in levels if each.get(level) is not None
            )
            for inner, level in (("openings", "threshold_level_mm"), ("air_bricks", "underside_level_mm")):
                for place, part in enumerate(each.get(inner, ())):
                    if part.get(level) is not None:
                        yield _field(("site", kind, number, inner, place, level), heights)
    for number, outfall in enumerate(site.get("outfalls", ())):
        if outfall.get("soakaway"):
            yield _field(("site", "outfalls", number, "soakaway"), WATER)
        if outfall["confirmed"]:
            yield Fact(
                f"outfall {number} seen",
                WATER,
                lambda made, n=number: made["site"]["outfalls"][n].update(confirmed=False),
            )
    if site.get("outfalls"):
        yield Fact("outfalls", WATER | {Room.LEVELS, Room.AS_LAID} | GROUND, _without_outfalls)
    for number, service in enumerate(site.get("services", ())):
        if service.get("depth_mm") is not None:
            yield _field(("site", "services", number, "depth_mm"), DUG | {Room.SETTING_OUT})
    yield from (_field(("site", name), WORK) for name in ("access_width_mm", "carry_mm") if name in site)


def _without_outfalls(document: dict[str, Any]) -> None:
    document["site"]["outfalls"] = []
    for each in (*document["site"].get("gullies", ()), *document["site"].get("channels", ())):
        each.pop("outfall", None)


def _of_the_ground(document: dict[str, Any], heights: frozenset[Room], *, folded: bool) -> Iterator[Fact]:
    ground = document["site"].get("ground", {})
    if ground:

        def forget(made: dict[str, Any]) -> None:
            for name in ("soil", "cbr_percent", "strata", "assumed"):
                made["site"]["ground"].pop(name, None)

        yield Fact("soil", heights | {Room.LEVELS} if folded else GROUND, forget)
    if ground.get("topsoil_mm"):
        yield _field(("site", "ground", "topsoil_mm"), heights if folded else GROUND | WATER)
    if document["measurements"].get("ground_points"):

        def unread(made: dict[str, Any]) -> None:
            made["measurements"]["ground_points"] = []
            made["measurements"].pop("break_lines", None)
            made["measurements"].pop("ground_gaps", None)

        yield Fact("ground points", heights, unread)
    for number, _ in enumerate(document["measurements"].get("level_books", ())):
        yield Fact(f"level book {number}", heights, lambda made, n=number: made["measurements"]["level_books"].pop(n))
    plan = document["measurements"].get("tape_plan") or {"tapes": ()}
    for number in range(0, len(plan["tapes"]), 5):
        yield Fact(f"tape {number}", ALL, lambda made, n=number: _drop_tape(made, n))


def _drop_tape(made: dict[str, Any], number: int) -> None:
    tapes = made["measurements"]["tape_plan"]["tapes"]
    if number < len(tapes):
        tapes.pop(number)


def _of_the_areas(document: dict[str, Any], heights: frozenset[Room]) -> Iterator[Fact]:
    for number, area in enumerate(document["areas"]):
        fall = area.get("fall", {})
        if fall.get("level_at"):

            def unfixed(made: dict[str, Any], at: int = number) -> None:
                made["areas"][at]["fall"].pop("level_at", None)
                made["areas"][at]["fall"].pop("level_mm", None)

            yield Fact(f"areas.{number} level", heights, unfixed)
        for name in ("away_from", "bearing_deg", "one_in"):
            if name in fall:
                yield _field(("areas", number, "fall", name), heights)
        simple = area.get("laying", {}).get("pattern", "stack") not in {"mixed", "coursed"}
        if simple and not area.get("zones"):
            yield _field(("areas", number, "laying", "unit"), ALL - {Room.SURVEY})


def _of_the_office(document: dict[str, Any]) -> Iterator[Fact]:
    rates = document["rates"]
    for number, _ in enumerate(document["units"]):
        yield _field(("units", number, "pack_price_minor"), MONEY | {Room.LAYING} | TAKEN_OFF)
    for name, entries in (("materials", "pack_price_minor"), ("plant", "day_price_minor")):
        for number, each in enumerate(rates.get(name, ())):
            if entries in each:
                yield _field(("rates", name, number, entries), MONEY)
    if rates.get("disposal"):
        yield _field(("rates", "disposal", "load_price_minor"), MONEY)
        yield _field(("rates", "disposal"), DUG)
    for name in ("labour_minor_per_hour", "overhead_percent", "margin_percent", "tax_percent"):
        yield _field(("rates", name), MONEY)
    yield _field(("rates",), FOLDED)
    yield _field(("crew", "people"), TIME)
    yield _field(("crew",), WORK)
    yield _field(("calendar", "start"), TIME)
    yield _field(("calendar",), TIME)
    if document.get("as_laid"):
        yield _field(("as_laid",), frozenset({Room.AS_LAID}))
