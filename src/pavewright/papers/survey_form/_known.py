"""What the job knows already of each topic of the walk round, in a few words; nothing where it knows nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import AnswerKind, Soil, WalkTopic
from pavewright.papers._words import level, whole
from pavewright.papers.survey_form._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from pavewright.job import Job, WalkRoundAnswer
    from pavewright.pipeline import Plan
    from pavewright.survey import WalkQuestion


def known_of(plan: Plan, question: WalkQuestion) -> str:
    """Return what is known to a question: its answer, or what was entered; nothing while it is open."""
    answer = answer_to(plan.job, question)
    if answer is not None:
        return answer_words(answer)
    if question.topic is None or question.topic not in _ENTERED:
        return ""
    entered = _ENTERED[question.topic](plan)
    return WORDS.known(what=entered) if entered else ""


def answer_to(job: Job, question: WalkQuestion) -> WalkRoundAnswer | None:
    """Return the answer that a job holds to a question; None while it is open."""
    for each in job.site.walk_round:
        if question.topic is not None and each.topic is question.topic:
            return each
        if each.topic is None and each.question == question.words:
            return each
    return None


def answer_words(answer: WalkRoundAnswer) -> str:
    """Return an answer as it is printed."""
    match answer.answer:
        case AnswerKind.NONE:
            return WORDS.none
        case AnswerKind.COULD_NOT_SEE:
            return WORDS.not_seen
        case AnswerKind.VALUE:
            return answer.value


def _names(names: Iterable[str]) -> str:
    return ", ".join(names)


def _with_level(name: str, level_mm: float | None) -> str:
    return f"{name} {WORDS.level_unknown if level_mm is None else level(level_mm)}"


def _walls(plan: Plan) -> str:
    site = plan.survey.site
    return _names([*(wall.name for wall in site.walls), *(line.name for line in site.boundaries)])


def _tapes(plan: Plan) -> str:
    taken = plan.survey.tapes
    return "" if taken is None else WORDS.known_tapes(count=str(len(taken.residuals)), spare=str(taken.spare))


def _datum(plan: Plan) -> str:
    return _names(f"{mark.point} {level(mark.level_mm)}" for mark in plan.job.measurements.benchmarks)


def _staff(plan: Plan) -> str:
    spots = plan.job.measurements.ground_spots
    return WORDS.known_spots(count=str(len(spots))) if spots else ""


def _dpc(plan: Plan) -> str:
    return _names(_with_level(wall.name, wall.dpc_level_mm) for wall in plan.survey.site.walls if wall.is_house)


def _doors(plan: Plan) -> str:
    walls = plan.survey.site.walls
    return _names(_with_level(door.name, door.threshold_level_mm) for wall in walls for door in wall.openings)


def _air_bricks(plan: Plan) -> str:
    walls = plan.survey.site.walls
    return _names(_with_level(brick.name, brick.underside_level_mm) for wall in walls for brick in wall.air_bricks)


def _drains(plan: Plan) -> str:
    site = plan.survey.site
    return _names([*(each.gully.name for each in site.gullies), *(each.name for each in site.channels)])


def _covers(plan: Plan) -> str:
    return _names(_with_level(each.cover.name, each.level_mm) for each in plan.survey.site.covers)


def _services(plan: Plan) -> str:
    found = []
    for placed in plan.survey.site.services:
        deep = placed.service.depth_mm
        words = WORDS.level_unknown if deep is None else f"{whole(deep)} mm"
        found.append(WORDS.known_service(name=placed.service.name, depth=words))
    return _names(found)


def _trees(plan: Plan) -> str:
    return _names(each.tree.name for each in plan.survey.site.trees)


def _ground(plan: Plan) -> str:
    soil = plan.job.site.ground.soil
    return "" if soil is Soil.UNKNOWN else soil.value.replace("_", " ")


def _access(plan: Plan) -> str:
    wide = plan.job.site.access_width_mm
    return "" if wide is None else f"{whole(wide)} mm"


def _paving(plan: Plan) -> str:
    return _names(
        f"{area.area.name}: {area.area.laying.unit}" for area in plan.survey.site.areas if area.area.laying.unit
    )


_ENTERED: dict[WalkTopic, Callable[[Plan], str]] = {
    WalkTopic.WALLS: _walls,
    WalkTopic.TAPES: _tapes,
    WalkTopic.DATUM: _datum,
    WalkTopic.STAFF: _staff,
    WalkTopic.DPC: _dpc,
    WalkTopic.DOORS: _doors,
    WalkTopic.AIR_BRICKS: _air_bricks,
    WalkTopic.GULLIES: _drains,
    WalkTopic.COVERS: _covers,
    WalkTopic.SERVICES: _services,
    WalkTopic.TREES: _trees,
    WalkTopic.GROUND: _ground,
    WalkTopic.ACCESS: _access,
    WalkTopic.PAVING: _paving,
}
"""What was entered of each topic; what is entered is not all that there is, so the room to write stays."""
