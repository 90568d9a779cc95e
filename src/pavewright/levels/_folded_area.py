"""The finished surface of an area that is folded, and what is noticed on it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.findings import Finding, Option, Owner, Severity
from pavewright.job import Fault, Folding, Wanted
from pavewright.levels import _words_folded as words
from pavewright.levels._access import access_findings
from pavewright.levels._checks import boundary_findings, setting_findings
from pavewright.levels._codes import Code
from pavewright.levels._spot_types import SpotKind, SpotLevel
from pavewright.levels._spots import corner_levels, door_steps, spot_levels, wall_clearances
from pavewright.levels._types import FinishedArea
from pavewright.levels.cars import car_findings
from pavewright.levels.clashes import clash
from pavewright.levels.design import choose_falls, fold_as, fold_in_another_way, repairs, rounding_findings
from pavewright.levels.folds import candidate, change_prices, dry, lid_findings, study
from pavewright.sums import Working

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.geometry import XY, FoldedSurface
    from pavewright.job import Job
    from pavewright.levels._figures import LevelFigures
    from pavewright.levels._types import FoldStudy
    from pavewright.levels.design import Bound, Rule
    from pavewright.levels.folds import Candidate, Candidates
    from pavewright.survey import PlanArea, Survey

_SAME_MM = 1.0
"""Corners this near to each other are one. [mm]"""


def folded_area(
    job: Job,
    area: PlanArea,
    survey: Survey,
    figures: LevelFigures,
    under_mm: float | None,
    meeting: Callable[[tuple[XY, ...]], tuple[Bound, ...]],
    path: str,
) -> tuple[FinishedArea, tuple[Finding, ...], FoldStudy] | Fault:
    """Return a folded area with what is noticed and the ways compared, or a fault where it cannot be folded so."""
    falls = choose_falls(area, survey, figures, path)
    if isinstance(falls, Fault):
        return falls
    compared = study(job, area, falls.direction, survey, figures, under_mm, meeting)
    fault = _not_foldable(area, compared, path)
    if fault is not None:
        return fault
    option = compared.options[compared.chosen]
    reported: list[Finding] = []
    held = "within every limit"
    designed = option.designed
    if designed is None:
        prices = change_prices(job, figures)
        # what is the highway's is met as it lies; where that leaves nothing to show, levels are drawn all the same
        ways = repairs(option.task, prices, kept=_of_highway(option)) or repairs(option.task, prices)
        reported.append(clash(area, option, ways, compared, job, survey, figures))
        if not ways:
            return Fault(path, f"{reported[0].message} {' '.join(reported[0].chain_words)}")
        held = "with the first option of its clash taken"
        designed = ways[0].designed
        # what is laid after all has to drain too
        option = candidate(area, survey, ways[0].task, designed, figures)
    surface = designed.surface
    finished = FinishedArea(
        area=area.name,
        surface=surface,
        folding=option.words,
        main_direction=surface.main.plane.downhill,
        main_fall=surface.main.plane.fall,
        cross_fall=0.0,
        corners=corner_levels(area, surface),
        spots=(*spot_levels(area, surface, survey), *_fold_levels(area, surface)),
        clearances=wall_clearances(area, surface, survey, figures),
        doors=door_steps(area, surface, survey, figures),
        fixed_by=f"designed as {option.words}, at least cost of cut and fill {held}",
        workings=_workings(option, surface, job.identity.currency),
    )
    reported += _noticed(area, option, finished, compared, survey, figures)
    return finished, tuple(reported), compared.study()


def _not_foldable(area: PlanArea, compared: Candidates, path: str) -> Fault | None:
    """Return why an area cannot be folded as it is asked; None where it can."""
    if not compared.options:
        return Fault(
            f"{path}.folding",
            words.not_foldable(area.name, area.area.fall.folding.value),
        )
    if not compared.options[compared.chosen].task.is_held:
        return Fault(path, words.no_height(area.name), Wanted.HEIGHT, area.name)
    return None


def _noticed(
    area: PlanArea,
    option: Candidate,
    finished: FinishedArea,
    compared: Candidates,
    survey: Survey,
    figures: LevelFigures,
) -> list[Finding]:
    """Return what is noticed on a folded area, clashes left out."""
    surface, site = finished.surface, survey.site
    return [
        *_option_findings(area, option, figures),
        *_step_findings(area, surface),
        *rounding_findings(area, surface, option.task.falls.least),
        *setting_findings(area, surface, survey),
        *boundary_findings(area, surface, survey, figures),
        *access_findings(area, surface, finished.doors, figures),
        *car_findings(area, surface, site, figures),
        *lid_findings(area, surface, site, _accepted(area, compared)),
    ]


def _of_highway(option: Candidate) -> frozenset[Rule]:
    """Return the rules that no option gives up: edges of the highway."""
    return frozenset(bound.rule for bound in option.task.limits if bound.owner is Owner.HIGHWAY)


def _accepted(area: PlanArea, compared: Candidates) -> tuple[Option, ...]:
    """Return the other ways to fold an area that are accepted; where only one was tried, to compare them all."""
    ways = [
        Option(words.fold_instead(each.words), fold_as(area, each.kind)) for each in compared.options if each.accepted
    ]
    if not ways and area.area.fall.folding is not Folding.CHEAPEST:
        ways = [Option(fold_in_another_way(), fold_as(area, Folding.CHEAPEST))]
    return tuple(ways)


def _fold_levels(area: PlanArea, surface: FoldedSurface) -> tuple[SpotLevel, ...]:
    """Return a named level at every end of a fold that is no corner of the outline."""
    corners = [corner.xy for ring in (area.ring, *area.holes) for corner in ring.corners]
    found: list[SpotLevel] = []
    for fold in surface.folds:
        for at in (fold.start, fold.end):
            near = [*corners, *(each.at for each in found)]
            if all(abs(at[0] - x) + abs(at[1] - y) > _SAME_MM for x, y in near):
                found.append(_fold_end(len(found) + 1, at, surface.level_at(at)))
    for fold in surface.folds:
        for at in (fold.start, fold.end) if fold.step_mm else ():
            levels = sorted(facet.plane.level_at(at) for facet in surface.facets)
            found.append(SpotLevel(SpotKind.STEP_TOP, "top of the step", "top of the step", at, levels[-1]))
            found.append(SpotLevel(SpotKind.STEP_FOOT, "foot of the step", "foot of the step", at, levels[0]))
    return tuple(found)


def _fold_end(number: int, at: XY, level_mm: float) -> SpotLevel:
    return SpotLevel(SpotKind.FOLD, str(number), f"fold {number}", at, level_mm)


def _workings(option: Candidate, surface: FoldedSurface, currency: str) -> tuple[Working, ...]:
    found = [
        Working(
            f"fall of plane {number} = {units.fall_text(facet.plane.fall)}",
            facet.plane.fall,
            "-",
            (),
            f"{units.mm2_to_m2(facet.polygon.area):.2f} m², running to {facet.plane.bearing_deg:.0f} degrees",
        )
        for number, facet in enumerate(surface.facets, start=1)
    ]
    if option.designed is not None and option.designed.cost is not None and option.task.earth is not None:
        earth, designed = option.task.earth, option.designed
        found.append(
            Working(
                f"earthwork = {designed.cut_m3:.2f} m³ × {units.minor_to_text(round(earth.cut_price), currency)} + "
                f"{designed.fill_m3:.2f} m³ × {units.minor_to_text(round(earth.fill_price), currency)}",
                (designed.cost or 0.0) / units.minor_per_major(currency),
                currency,
                (),
                f"smallest of all levels that keep the rules, found in {designed.rounds} rounds; samples 250 mm apart; "
                f"{_topsoil_words(earth.topsoil_mm)}",
            )
        )
    return tuple(found)


def _topsoil_words(topsoil_mm: float | None) -> str:
    if topsoil_mm is None:
        return "the depth of the topsoil is not known and it is left out, so the true cut and fill are larger"
    return f"all {topsoil_mm:g} mm of topsoil dug" if topsoil_mm else "no topsoil"


def _step_findings(area: PlanArea, surface: FoldedSurface) -> list[Finding]:
    """Return a note for a step that splits an area: its riser is built and nothing of it is measured."""
    found = []
    for fold in surface.folds:
        if fold.step_mm:
            message, options = words.split_by_step(area.name, fold)
            found.append(
                Finding(
                    Code.PARTED_BY_STEP,
                    Severity.CHECK,
                    f"area {area.name}",
                    message,
                    fold.step_mm,
                    unit="mm",
                    options=options,
                    at_mm=fold.start,
                )
            )
    return found


def _option_findings(area: PlanArea, option: Candidate, figures: LevelFigures) -> list[Finding]:
    """Return findings on water that stands on the designed surface, is shut in, or runs past the gully."""
    drains, place = option.drains, f"area {area.name}"
    if drains is None or (option.refused and dry(drains, option.task.arrangement, figures)):
        # a car that grounds on it and a fold across a lid are reported by themselves
        return []
    if option.accepted:
        message = words.folded(area.name, option.words, drains)
        return [Finding(Code.FOLDED, Severity.NOTE, place, message, at_mm=area.gross.centre_mm)]
    limit = figures.bypass
    cheapest = () if area.area.fall.folding is Folding.CHEAPEST else fold_as(area, Folding.CHEAPEST)
    ways = (
        Option(words.choose_fold(), cheapest),
        Option(words.move_gully()),
        Option(words.channel_at_edge()),
    )
    stands = drains.standing_l > 0.0 or drains.shut_in_m2 > 0.0 or drains.to_walls_m > 0.0
    if not stands and drains.to_others_m2 > figures.to_others.value:
        message = words.runs_to_others(area.name, option.words, drains)
        least = figures.to_others
        reported = Finding(Code.RUNS_TO_OTHERS, Severity.STOP, place, message, drains.to_others_m2, least.value, "m²")
        return [replace(reported, at_mm=area.gross.centre_mm).with_options(ways)]
    return [
        Finding(
            Code.STANDS_ON_DESIGN if stands else Code.RUNS_PAST_GULLY,
            Severity.STOP if stands else Severity.CHECK,
            place,
            words.does_not_drain(area.name, option.words, drains),
            drains.deepest_mm if stands else drains.past_share * 100.0,
            figures.standing.value if stands else limit.value,
            "mm" if stands else "%",
            figures.standing if stands else limit,
            at_mm=area.gross.centre_mm,
        ).with_options(ways)
    ]
