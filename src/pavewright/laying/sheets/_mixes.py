"""What is reported of mixed sizes: packs, bays and look of a layout, and the best of several mixes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import shapely

from pavewright import units
from pavewright.job import Fault, JobInvalid, Pattern
from pavewright.laying._figures import figures
from pavewright.laying._types_parts import LaidMixed
from pavewright.laying.mixed import MixedLayout, MixedRefusal, fill_bay, mix_look
from pavewright.laying.pieces import frame_of
from pavewright.laying.setting import bay_joints, made_ready, mixed_fault, packs_of, region_of, setting_of

if TYPE_CHECKING:
    from pavewright.job import Job
    from pavewright.laying._figures import LayingFigures
    from pavewright.laying.mixed import MixLook
    from pavewright.laying.pieces import Frame
    from pavewright.laying.setting import Ready, Setting
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey

_LAST_MIX = 9999


@dataclass(frozen=True, slots=True)
class MixOffer:
    """One mix of an area and what it gives.

    Attributes:
        mix: Its number, to be written in the job document.
        cut: Units that the outline cuts.
        packs: Whole packs that it takes.
        left: Units that are left of those packs.
        look: Whether it looks laid at random, in figures.
    """

    mix: int
    cut: int
    packs: int
    left: int
    look: MixLook


def mixes(
    job: Job, survey: Survey, name: str, rules: Rulebook, *, tried: int = 20, best: int = 3
) -> tuple[MixOffer, ...]:
    """Return the best of several mixes of an area by the figures of an edition; see ``mixes_in``."""
    return mixes_in(job, survey, name, figures(rules), tried=tried, best=best)


def mixes_in(
    job: Job, survey: Survey, name: str, known: LayingFigures, *, tried: int = 20, best: int = 3
) -> tuple[MixOffer, ...]:
    """Return the best of several mixes of an area: fewest cut, then fewest left, then the shortest straight joint.

    The mixes follow each other from that of the job document. Nothing that lies already is looked at: they are for
    before laying. Fewer than the best come back where fewer keep to every rule.

    Args:
        job: The job.
        survey: Its survey.
        name: Name of an area in mixed sizes.
        known: Figures of this room.
        tried: How many mixes.
        best: How many are reported.

    Raises:
        JobInvalid: the area is not laid in mixed sizes, or no mix keeps to every rule.
    """
    area = survey.site.area(name)
    number = job.areas.index(area.area)
    frame = frame_of(area, survey)
    region = region_of(area, frame)
    if area.area.laying.pattern is not Pattern.MIXED or region is None:
        words = f"{name} is not laid in mixed sizes, or nothing of it is left to lay."
        raise JobInvalid((Fault(f"areas.{number}.laying.pattern", words),))
    ready = made_ready(setting_of(job, area, frame, region), area, known)
    if isinstance(ready, MixedRefusal):
        raise JobInvalid((mixed_fault(f"areas.{number}.laying", name, ready),))
    offers: list[MixOffer] = []
    refused: MixedRefusal | None = None
    for mix in range(area.area.laying.mix, area.area.laying.mix + tried):
        found = fill_bay(ready.cells.bay, ready.pack, ready.rules, mix=mix % (_LAST_MIX + 1))
        if isinstance(found, MixedRefusal):
            refused = refused or found
            continue
        offers.append(_offer(mix % (_LAST_MIX + 1), ready, found))
    if not offers and refused is not None:
        raise JobInvalid((mixed_fault(f"areas.{number}.laying", name, refused),))
    return tuple(sorted(offers, key=_worth)[:best])


def _worth(offer: MixOffer) -> tuple[int, int, float, int]:
    return offer.cut, offer.left, offer.look.longest_joint_mm, offer.mix


def _offer(mix: int, ready: Ready, found: MixedLayout) -> MixOffer:
    inside = ready.cells.inside
    cut = sum(
        not inside[unit.row : unit.row + unit.deep_cells, unit.column : unit.column + unit.wide_cells].all()
        for unit in found.placed
    )
    packs = packs_of(found, ready.pack)
    left = packs * sum(ready.pack.counts) - len(found.placed)
    return MixOffer(mix, cut, packs, left, mix_look(found, ready.pack))


def laid_mixed(setting: Setting, frame: Frame) -> LaidMixed | None:
    """Return what is reported of an area in mixed sizes beside its pieces; None for every other pattern."""
    placing = setting.mixed
    if placing is None:
        return None
    lines = bay_joints(setting.layout, placing, shapely.union_all(setting.field))
    look = mix_look(placing.found, placing.pack)
    ends = [[(float(x), float(y)) for x, y in shapely.get_coordinates(frame.out_of(line))] for line in lines]
    return LaidMixed(
        counts=placing.pack.counts,
        units=tuple(size.name for size in placing.pack.sizes),
        packs=packs_of(placing.found, placing.pack),
        lying=placing.lying,
        bays=placing.found.bays,
        bay_joints=tuple((first, last) for first, *_, last in ends),
        bay_joint_m=units.mm_to_m(sum(line.length for line in lines)),
        longest_joint_mm=look.longest_joint_mm,
        equal_neighbour_part=look.equal_neighbour_part,
        units_per_m2=look.units_per_m2,
    )
