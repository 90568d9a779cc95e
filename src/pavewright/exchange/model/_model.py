"""The whole model: project, units, site, and everything that is built on it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.exchange._exchange_words import WORDS
from pavewright.exchange.model._drains import add_drains
from pavewright.exchange.model._file import ModelFile
from pavewright.exchange.model._paving import add_dig, add_flights, add_paving
from pavewright.exchange.model._site import Site

if TYPE_CHECKING:
    from pavewright.exchange._place import Whereabouts
    from pavewright.exchange.model._file import Entity
    from pavewright.pipeline import Plan

_PRECISION_M = 1e-5


def to_ifc(plan: Plan, where: Whereabouts | None = None) -> bytes:
    """Return the finished work as a building model, IFC 4.3; the same plan gives the same bytes.

    Args:
        plan: The plan.
        where: Where on the earth the site lies; None for local coordinates, and the file says so.

    Raises:
        ExchangeRefusedError: the library that writes building models is not installed.
    """
    who = plan.job.identity
    model = ModelFile(f"{who.job}\x1f{who.title}\x1f{who.address}")
    context, body, surface = _contexts(model, plan)
    project = model.rooted(
        "IfcProject",
        ("project",),
        Name=who.job,
        LongName=who.title,
        RepresentationContexts=[context],
        UnitsInContext=_units(model),
    )
    site = Site(model, _site(model, plan, where), body, surface)
    model.rooted("IfcRelAggregates", ("site",), RelatingObject=project, RelatedObjects=[site.entity])
    add_paving(site, plan)
    add_flights(site, plan)
    add_drains(site, plan)
    add_dig(site, plan)
    site.contain()
    return model.written(who.title, who.date.isoformat(), who.contractor)


def _contexts(model: ModelFile, plan: Plan) -> tuple[Entity, Entity, Entity]:
    """Return the context of the model, that of bodies and that of surfaces."""
    origin = model.add("IfcAxis2Placement3D", model.point(0.0, 0.0, 0.0))
    north = plan.survey.site.north_bearing_deg
    turn = None if north is None else math.radians(north)
    true_north = None if turn is None else model.direction(math.sin(turn), math.cos(turn))
    whole = model.add("IfcGeometricRepresentationContext", None, "Model", 3, _PRECISION_M, origin, true_north)

    def part(identifier: str) -> Entity:
        return model.add(
            "IfcGeometricRepresentationSubContext",
            ContextIdentifier=identifier,
            ContextType="Model",
            ParentContext=whole,
            TargetView="MODEL_VIEW",
        )

    return whole, part("Body"), part("Surface")


def _units(model: ModelFile) -> Entity:
    kinds = (
        ("LENGTHUNIT", "METRE"),
        ("AREAUNIT", "SQUARE_METRE"),
        ("VOLUMEUNIT", "CUBIC_METRE"),
        ("PLANEANGLEUNIT", "RADIAN"),
    )
    return model.add("IfcUnitAssignment", [model.add("IfcSIUnit", None, kind, None, name) for kind, name in kinds])


def _site(model: ModelFile, plan: Plan, where: Whereabouts | None) -> Entity:
    who = plan.job.identity
    origin = None if where is None else where.lon_lat((0.0, 0.0))
    site = model.rooted(
        "IfcSite",
        ("site",),
        Name=who.address or who.title,
        Description=WORDS.local if where is None else WORDS.placed,
        ObjectPlacement=model.placement(),
        CompositionType="ELEMENT",
        RefLatitude=None if origin is None else _compound(origin[1]),
        RefLongitude=None if origin is None else _compound(origin[0]),
    )
    said = {
        "Georeferenced": model.value("IfcBoolean", where is not None),
        "Revision": model.value("IfcInteger", who.revision),
        "RulebookEdition": model.value("IfcLabel", plan.edition),
        "Invented": model.value("IfcBoolean", who.invented),
    }
    model.properties(site, ("site",), "Pset_PavewrightJob", said)
    return site


_SIXTY = 60
_MILLIONTHS = 1_000_000


def _compound(angle_deg: float) -> list[int]:
    """Return an angle as whole degrees, minutes, seconds and millionths of a second, all of one sign."""
    sign = -1 if angle_deg < 0.0 else 1
    left, millionths = divmod(round(abs(angle_deg) * _SIXTY * _SIXTY * _MILLIONTHS), _MILLIONTHS)
    left, seconds = divmod(left, _SIXTY)
    degrees, minutes = divmod(left, _SIXTY)
    return [sign * each for each in (degrees, minutes, seconds, millionths)]
