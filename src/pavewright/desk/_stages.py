"""The stages of the screens: one list for what is worked out here and for the pages."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any

from pavewright import drawing, papers
from pavewright.pipeline import Room, leans_on

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.findings import Finding


@dataclass(frozen=True, slots=True)
class Stage:
    """A stage of the trade on the working screen; the page finds its part in the file of its key.

    Attributes:
        key: Name in addresses, and of its file in ``web/static/job/stages``.
        name: Name on the screen.
        words: What it is about, in a sentence.
        rooms: The rooms whose findings are looked at there.
        layers: Layers of the plan that it shows at first.
        needs: Rooms of the plan that its panel shows; without one of them it says what is missing.
    """

    key: str
    name: str
    words: str
    rooms: tuple[str, ...] = ()
    layers: tuple[str, ...] = ()
    needs: tuple[Room, ...] = ()


STAGES: tuple[Stage, ...] = (
    Stage(
        "measure",
        "Measure",
        "Shape, levels and what stands there.",
        ("survey",),
        ("site", "services", "tapes", "heights", "photos"),
    ),
    Stage(
        "levels",
        "Levels",
        "How high the paving lies and which way it falls.",
        ("levels",),
        ("site", "falls", "heights", "findings"),
        (Room.LEVELS,),
    ),
    Stage(
        "paving",
        "Paving",
        "Which slabs, where they begin, what is cut.",
        ("laying",),
        ("slabs", "cuts", "site", "findings"),
        (Room.LAYING,),
    ),
    Stage(
        "ground",
        "Ground",
        "What lies under it and what is dug.",
        ("buildup", "earthworks", "build_up"),
        ("site", "depths", "services"),
        (Room.BUILD_UPS, Room.EARTHWORKS),
    ),
    Stage(
        "water",
        "Water",
        "Where rain runs and whether the drains take it.",
        ("water",),
        ("site", "falls", "water", "findings"),
        (Room.WATER,),
    ),
    Stage(
        "quantities",
        "Quantities",
        "What to order, in whole packs.",
        ("quantities",),
        ("slabs", "cuts", "site"),
        (Room.QUANTITIES,),
    ),
    Stage(
        "price",
        "Price",
        "From cost to price, as a range.",
        ("cost", "cash", "account", "firm"),
        ("slabs", "cuts", "site"),
        (Room.COST,),
    ),
    Stage(
        "programme",
        "Programme",
        "Who does what on which day.",
        ("programme", "site_log"),
        ("slabs", "site"),
        (Room.PROGRAMME,),
    ),
    Stage(
        "set-out",
        "Set out",
        "Pegs, strings and heights.",
        ("setting_out",),
        ("site", "pegs", "services", "findings"),
        (Room.SETTING_OUT,),
    ),
    Stage(
        "check",
        "Check",
        "Levels as laid against the plan.",
        ("as_laid", "bedding", "hold_points"),
        ("site", "asLaid", "findings"),
        (Room.LEVELS,),
    ),
    Stage(
        "papers",
        "Papers",
        "Sheets to work from and to hand over.",
        ("papers",),
        ("slabs", "cuts", "site", "heights", "falls"),
    ),
)
"""Every stage, in the trade's order."""

_BY_ROOM = {room: stage.key for stage in STAGES for room in stage.rooms}


def stage_of(finding: Finding) -> str:
    """Return the stage at which a finding is looked at; the first where its room has none."""
    return _BY_ROOM.get(finding.code.partition(".")[0], STAGES[0].key)


def _leans_on(stage: Stage) -> list[str]:
    """Return every room without which a stage has nothing to show, its own and those that they lean on."""
    return _near_and_far(stage.needs)


def _near_and_far(rooms: Iterable[Room]) -> list[str]:
    return list(dict.fromkeys(each.value for room in rooms for each in (room, *leans_on(room))))


def screen_lists() -> dict[str, Any]:
    """Return the lists that the pages share with the program: stages, drawings and papers."""
    return {
        "stages": [asdict(stage) | {"leans_on": _leans_on(stage)} for stage in STAGES],
        "drawings": [{"key": each.key, "words": each.words} for each in drawing.DRAWINGS],
        "papers": [
            asdict(kind) | {"needs": needs, "leans_on": _near_and_far(needs)}
            for kind in papers.PAPERS
            for needs in (papers.paper_needs(kind.name),)
        ],
    }
