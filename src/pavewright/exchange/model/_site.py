"""The site of a model: it takes things in, and says at the end what it holds."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.exchange._meshes import Mesh
    from pavewright.exchange.model._file import Entity, ModelFile


class Site:
    """The site under way."""

    def __init__(self, model: ModelFile, entity: Entity, body: Entity, surface: Entity) -> None:
        """Keep the model, the site in it, and its contexts of bodies and of surfaces."""
        self.model, self.entity = model, entity
        self.body, self.surface = body, surface
        self._held: list[Entity] = []

    def thing(
        self,
        kind: str,
        named: Sequence[str],
        meshes: Sequence[Mesh],
        *,
        within: Entity | None = None,
        **fields: Any,  # noqa: ANN401 - what an entity holds
    ) -> Entity:
        """Add a thing with its bodies, or its surfaces where it has no body, to the site or to what it is a part of."""
        model = self.model
        shown = [mesh for mesh in meshes if mesh.triangles]
        closed = all(mesh.closed for mesh in shown)
        context, identifier = (self.body, "Body") if closed else (self.surface, "Surface")
        look = (
            model.shape(context, identifier, "Tessellation", [model.faces(mesh) for mesh in shown]) if shown else None
        )
        found = model.rooted(kind, named, ObjectPlacement=model.placement(), Representation=look, **fields)
        if within is None:
            self._held.append(found)
        return found

    def contain(self) -> None:
        """Say what the site holds."""
        if self._held:
            self.model.rooted(
                "IfcRelContainedInSpatialStructure",
                ("site",),
                RelatedElements=self._held,
                RelatingStructure=self.entity,
            )
