"""A file of a building model: marks that stay, bodies, materials and sets of properties."""

from __future__ import annotations

import uuid
from typing import TYPE_CHECKING, Any

from pavewright import units
from pavewright.exchange._exchange_words import WORDS
from pavewright.exchange._place import ExchangeRefusedError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.exchange._meshes import Mesh

SCHEMA = "IFC4X3_ADD2"
_MARKS = uuid.UUID("5c0f6b0e-6d0a-5a1f-9d57-6f3b5a2f7f10")
"""The name space of the marks of all models that this program writes."""
_DIGITS = 6
"""Digits behind the point of a metre: a thousandth of a millimetre."""

Entity = Any
"""An entity of a model; the library has no types of its own for them."""


def library() -> Any:  # noqa: ANN401 - a module
    """Return the library that writes building models.

    Raises:
        ExchangeRefusedError: it is not installed.
    """
    try:
        import ifcopenshell  # noqa: PLC0415 - large, and an extra
    except ImportError as problem:
        raise ExchangeRefusedError(WORDS.no_library) from problem
    return ifcopenshell


class ModelFile:
    """A file under way."""

    def __init__(self, seed: str) -> None:
        """Take what the marks of all things are made from: what names the job."""
        self._library = library()
        self._seed = seed
        self._materials: dict[str, Entity] = {}
        self.file: Any = self._library.file(schema="IFC4X3")

    def mark(self, *parts: str) -> str:
        """Return the mark of a thing: the same for the same job and the same parts of its name."""
        made = uuid.uuid5(_MARKS, "\x1f".join((self._seed, *parts)))
        return str(self._library.guid.compress(made.hex))

    def add(self, kind: str, *args: Any, **fields: Any) -> Entity:  # noqa: ANN401 - what an entity holds
        """Add an entity."""
        return self.file.create_entity(kind, *args, **fields)

    def rooted(self, kind: str, named: Sequence[str], **fields: Any) -> Entity:  # noqa: ANN401 - what an entity holds
        """Add an entity that has a mark, made from its kind and the parts of its name."""
        return self.file.create_entity(kind, GlobalId=self.mark(kind, *named), **fields)

    def point(self, *mm: float) -> Entity:
        """Add a point. [mm]."""
        return self.add("IfcCartesianPoint", [metres(each) for each in mm])

    def direction(self, *ratios: float) -> Entity:
        """Add a direction."""
        return self.add("IfcDirection", [float(each) for each in ratios])

    def placement(self) -> Entity:
        """Add a placement at the origin of the site grid."""
        axes = self.add("IfcAxis2Placement3D", self.point(0.0, 0.0, 0.0))
        return self.add("IfcLocalPlacement", None, axes)

    def faces(self, mesh: Mesh) -> Entity:
        """Add a body or a surface."""
        places = self.add("IfcCartesianPointList3D", [tuple(map(metres, point)) for point in mesh.points])
        corners = [tuple(number + 1 for number in triangle) for triangle in mesh.triangles]
        return self.add("IfcTriangulatedFaceSet", Coordinates=places, Closed=mesh.closed, CoordIndex=corners)

    def shape(self, context: Entity, identifier: str, kind: str, items: Sequence[Entity]) -> Entity:
        """Add what a thing looks like."""
        view = self.add("IfcShapeRepresentation", context, identifier, kind, list(items))
        return self.add("IfcProductDefinitionShape", Representations=[view])

    def properties(self, thing: Entity, named: Sequence[str], name: str, values: Mapping[str, Entity | None]) -> None:
        """Give a thing a set of properties; those without a value are left out."""
        held = [
            value if value.is_a("IfcProperty") else self.add("IfcPropertySingleValue", Name=key, NominalValue=value)
            for key, value in values.items()
            if value is not None
        ]
        if held:
            found = self.rooted("IfcPropertySet", (name, *named), Name=name, HasProperties=held)
            self._defined(thing, found, name, named)

    def quantities(
        self, thing: Entity, named: Sequence[str], name: str, values: Mapping[str, tuple[str, float]]
    ) -> None:
        """Give a thing a set of quantities.

        Args:
            thing: The thing.
            named: The parts of its name.
            name: Name of the set.
            values: By name the kind of each, length, area or volume, and how much it is. [m, m² or m³ by its kind]
        """
        held = [
            self.add(f"IfcQuantity{kind}", Name=key, **{f"{kind}Value": float(round(value, 9))})
            for key, (kind, value) in values.items()
        ]
        method = "pavewright"
        found = self.rooted(
            "IfcElementQuantity", (name, *named), Name=name, MethodOfMeasurement=method, Quantities=held
        )
        self._defined(thing, found, name, named)

    def _defined(self, thing: Entity, found: Entity, name: str, named: Sequence[str]) -> None:
        self.rooted(
            "IfcRelDefinesByProperties",
            (name, *named),
            RelatedObjects=[thing],
            RelatingPropertyDefinition=found,
        )

    def value(self, kind: str, content: Any) -> Entity:  # noqa: ANN401 - a number or a text
        """Add a value of a kind."""
        return self.add(kind, content)

    def chosen(self, name: str, choice: str) -> Entity:
        """Add a property whose value is one of a list."""
        return self.add("IfcPropertyEnumeratedValue", Name=name, EnumerationValues=[self.add("IfcLabel", choice)])

    def made_of(self, thing: Entity, named: Sequence[str], name: str) -> None:
        """Say what a thing is made of."""
        if name not in self._materials:
            self._materials[name] = self.add("IfcMaterial", Name=name)
        material = self._materials[name]
        self.rooted("IfcRelAssociatesMaterial", named, RelatedObjects=[thing], RelatingMaterial=material)

    def written(self, title: str, on: str, organisation: str) -> bytes:
        """Return the file, headed with a day of the job and not with that of the clock."""
        head = self.file.header
        head.file_description.description = ("ViewDefinition [ReferenceView]",)
        head.file_name.name = title
        head.file_name.time_stamp = f"{on}T00:00:00"
        head.file_name.author = ("",)
        head.file_name.organization = (organisation,)
        head.file_name.preprocessor_version = "pavewright"
        head.file_name.originating_system = "pavewright"
        head.file_name.authorization = ""
        return str(self.file.to_string()).encode("utf-8")


def metres(length_mm: float) -> float:
    """Return a length as it stands in the file. [m]."""
    return float(round(units.mm_to_m(length_mm), _DIGITS)) + 0.0
