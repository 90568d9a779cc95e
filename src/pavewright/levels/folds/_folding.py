"""Every way to fold an area: designed, drained, compared."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from shapely.geometry import Point

from pavewright import units
from pavewright.geometry import unit_vector
from pavewright.job import Folding
from pavewright.levels._types import FoldOption, FoldStudy
from pavewright.levels.cars import cars_pass
from pavewright.levels.design import (
    Bound,
    ChangePrice,
    Earth,
    FallRange,
    RuleKind,
    Task,
    bounds,
    crossed_valley,
    design,
    mitres,
    one_plane,
    ridge,
    samples,
    stepped,
    to_gully,
    valley,
)
from pavewright.levels.edges import drained_cells, to_walls_m
from pavewright.levels.edges import words as drained_words
from pavewright.levels.folds._lids import lids_fit

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.geometry import XY, FoldedSurface
    from pavewright.job import Job
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels._types import Draining
    from pavewright.levels.design import Arrangement, Designed
    from pavewright.survey import PlanArea, SitePlan, Survey

_MAX_FACETS = 40
"""A curved outline would give a plane to every chord; more than this is no way to lay paving."""


@dataclass(frozen=True)
class Candidate:
    """One way to fold an area.

    Attributes:
        kind: Its name, as in the job document.
        words: What it is.
        task: What it has to meet.
        designed: Its levels; None where no levels keep every rule.
        drains: Where water goes on it; None where it has no levels.
        accepted: Whether it keeps every rule and drains.
        folds_m: Length of its folds, along which units are cut where no joint lies. [m]
        refused: Why it is not accepted though it may drain, in words; empty where nothing stands against it.
    """

    kind: Folding
    words: str
    task: Task
    designed: Designed | None
    drains: Draining | None
    accepted: bool
    folds_m: float
    refused: str = ""

    def option(self) -> FoldOption:
        """Return the way without what it was asked, for the plan."""
        made = self.designed
        return FoldOption(
            kind=self.kind,
            words=self.words,
            surface=made.surface if made is not None else None,
            cost_minor=made.cost if made is not None else None,
            cut_m3=made.cut_m3 if made is not None else None,
            fill_m3=made.fill_m3 if made is not None else None,
            drains=self.drains,
            accepted=self.accepted,
            folds_m=self.folds_m,
            verdict=self.verdict,
        )

    @property
    def verdict(self) -> str:
        """Whether it can be laid so, in words."""
        if self.drains is None:
            return "no levels keep every limit"
        folds = f"; {self.folds_m:.1f} m of folds" if self.folds_m > 0.0 else ""
        if self.refused:
            return f"{self.refused}: " + drained_words(self.drains) + folds
        return ("drains: " if self.accepted else "does not drain: ") + drained_words(self.drains) + folds


@dataclass(frozen=True)
class Candidates:
    """All ways to fold an area with what each was asked, in the order tried.

    Attributes:
        area: Name of the area.
        options: The ways.
        chosen: Number of the one taken.
    """

    area: str
    options: tuple[Candidate, ...]
    chosen: int

    def study(self) -> FoldStudy:
        """Return the ways without what they were asked, for the plan."""
        return FoldStudy(self.area, tuple(each.option() for each in self.options), self.chosen)


def study(
    job: Job,
    area: PlanArea,
    direction: XY,
    survey: Survey,
    figures: LevelFigures,
    under_mm: float | None,
    meeting: Callable[[tuple[XY, ...]], tuple[Bound, ...]],
    *,
    every: bool = False,
) -> Candidates:
    """Return the ways to fold an area as its job asks, and the one taken.

    Args:
        job: The job.
        area: The area.
        direction: Main direction of fall, away from the house where there is one.
        survey: The site.
        figures: The figures of the levels.
        under_mm: Build-up under the finished level; None where it is not known. [mm]
        meeting: Gives the limits that neighbours set at the corners of the planes.
        every: Whether to try every way, whatever the job asks.
    """
    wish = area.area.fall
    earth = _earth(job, area, survey, figures, under_mm)
    falls = fall_range(area, figures)
    options = []
    for arrangement in _arrangements(area, direction, survey, figures):
        if not every and wish.folding not in {Folding.CHEAPEST, arrangement.kind}:
            continue
        corners = tuple(corner for facet in arrangement.facets for corner in facet.outline)
        limits = (*bounds(area, survey, figures, corners), *meeting(corners), *_asked(area, survey))
        task = Task(arrangement, limits, falls, earth)
        options.append(candidate(area, survey, task, design(task) if task.is_held else None, figures))
    return Candidates(area.name, tuple(options), _best(options))


def fall_range(area: PlanArea, figures: LevelFigures) -> FallRange:
    """Return the falls allowed on an area: as asked, else the rulebook's."""
    wish = area.area.fall
    steepest = figures.falls.steepest(area.area.use).value
    return FallRange(
        units.one_in_n_to_fall(wish.one_in or figures.falls.main.value),
        units.one_in_n_to_fall(wish.steepest_one_in or steepest),
        units.one_in_n_to_fall(wish.valley_one_in or figures.falls.valley.value),
    )


def change_prices(job: Job, figures: LevelFigures) -> dict[RuleKind, ChangePrice]:
    """Return the price of giving way in each kind of rule: the job's, else the rulebook's. [minor units]."""
    prices = {RuleKind(kind): ChangePrice(*price) for kind, price in figures.changes.items()}
    own = {
        RuleKind(each.key): ChangePrice(float(each.once_minor), float(each.each_minor)) for each in job.rates.changes
    }
    return prices | own


def candidate(
    area: PlanArea, survey: Survey, task: Task, designed: Designed | None, figures: LevelFigures
) -> Candidate:
    """Return a way with its surface filled from its drains and judged."""
    drains = None
    if designed is not None:
        drained = drained_cells(area, survey, designed.surface, figures)
        drains = replace(
            drained.draining(figures.standing.value),
            to_walls_m=to_walls_m(area, survey, designed.surface, figures),
        )
    refused = "" if designed is None else _refused(area, designed.surface, survey.site, figures)
    return Candidate(
        kind=task.arrangement.kind,
        words=task.arrangement.words,
        task=task,
        designed=designed,
        drains=drains,
        accepted=drains is not None and dry(drains, task.arrangement, figures) and not refused,
        refused=refused,
        folds_m=task.arrangement.folds_m,
    )


def _refused(area: PlanArea, surface: FoldedSurface, site: SitePlan, figures: LevelFigures) -> str:
    """Return why a surface is no way to lay the area, though it may drain."""
    if not cars_pass(area, surface, site, figures):
        return "a car grounds on it"
    return "" if lids_fit(area, surface, site) else "a fold runs across a lid"


def dry(drains: Draining, arrangement: Arrangement, figures: LevelFigures) -> bool:
    """Return whether nothing stands, is shut in or runs onto others, and what is folded to a gully runs to it."""
    if drains.standing_l > 0.0 or drains.shut_in_m2 > 0.0 or drains.to_walls_m > 0.0:
        return False
    if drains.to_others_m2 > figures.to_others.value:
        return False
    to_inlet = arrangement.kind in {Folding.VALLEY, Folding.CROSSED_VALLEY, Folding.TO_GULLY}
    return not to_inlet or drains.past_share <= figures.bypass.value / 100.0


def _best(options: list[Candidate]) -> int:
    """Return the number of the best way: one that drains before one that only keeps the rules, then the cheapest."""

    def rank(entry: tuple[int, Candidate]) -> tuple[int, float, int]:
        number, option = entry
        if option.designed is None:
            return 2, 0.0, number
        return (0 if option.accepted else 1), option.designed.cost or 0.0, number

    return min(enumerate(options), key=rank)[0] if options else -1


def _arrangements(area: PlanArea, direction: XY, survey: Survey, figures: LevelFigures) -> list[Arrangement]:
    """Return every way to fold an area that its shape, its gullies and its channels offer."""
    outline = area.gross.outer
    along = -direction[1], direction[0]
    towards = replace(
        one_plane(outline, (-direction[0], -direction[1])),
        kind=Folding.TO_HOUSE,
        words="one plane towards the house, with a channel along the wall",
    )
    found = [one_plane(outline, direction), towards]
    wish, site = area.area.fall, survey.site
    inlets = [
        (placed.at, f"gully {placed.gully.name}")
        for placed in site.gullies
        if area.gross.contains(placed.at) and (wish.gully is None or placed.gully.name == wish.gully)
    ][:1]
    for at, name in inlets:
        found += [made for made in (valley(outline, at, along, name), crossed_valley(outline, at, along, name)) if made]
        fan = to_gully(outline, at, name)
        if fan is not None:
            found.append(fan)
    for channel in site.channels:
        middle = (channel.start[0] + channel.end[0]) / 2.0, (channel.start[1] + channel.end[1]) / 2.0
        if area.gross.contains(middle) and area.gross.polygon.exterior.distance(Point(middle)) > channel.width_mm:
            made = valley(outline, middle, unit_vector(channel.start, channel.end), f"channel {channel.name}")
            if made is not None:
                # a channel takes water along its whole length and carries it in a bottom with a fall of its own
                found.append(replace(made, valleys=()))
    made = ridge(outline, along)
    if made is not None:
        found.append(made)
    risers = figures.steps.min.value, figures.steps.max.value
    parted = stepped(outline, direction, *risers)
    if parted is not None:
        found.append(parted)
    found += mitres(outline)
    return [arrangement for arrangement in found if len(arrangement.facets) <= _MAX_FACETS]


def _asked(area: PlanArea, survey: Survey) -> tuple[Bound, ...]:
    """Return the level that the user fixed, as a limit."""
    wish = area.area.fall
    if wish.level_at is None or wish.level_mm is None:
        return ()
    words = f"{units.metres_text(wish.level_mm)} m at {wish.level_at}, as asked."
    at = survey.point(wish.level_at).xy
    level, path = wish.level_mm, f"{area.path}.fall.level_mm"
    return (Bound(RuleKind.ASKED, wish.level_at, at, level, level, level, locked=True, words=words, path=path),)


def _earth(job: Job, area: PlanArea, survey: Survey, figures: LevelFigures, under_mm: float | None) -> Earth | None:
    """Return the ground under an area with the prices of moving it; None where ground or build-up is not known."""
    if survey.ground is None or under_mm is None:
        return None
    topsoil = job.site.ground.topsoil_mm
    cut, fill = job.rates.cut_price_minor, job.rates.fill_price_minor
    return Earth(
        samples(area.gross.polygon, survey.ground.lowered(topsoil or 0.0)),
        under_mm,
        float(cut) if cut is not None else figures.cut_minor,
        float(fill) if fill is not None else figures.fill_minor,
        topsoil,
    )
