"""Model: the finished work as a building model in the open format of building models, IFC 4.3.

Paving stands as pavements with their courses, kerbs, flights, drains and chambers beside them, and the dig as a cut in
the ground. Every thing keeps its mark from one writing to the next, so that another program finds it again.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.exchange.model._model import to_ifc
else:
    __getattr__ = face(__name__)

__all__ = ["to_ifc"]
