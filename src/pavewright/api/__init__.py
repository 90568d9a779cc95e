"""API: the program for other programs in Python, in as few lines as a notebook has room for.

A job goes in as a path, a dictionary or JSON; its plan comes out as plain frozen values whose names say their units, as
rows, or as tables. What a job does not say is not known, and the plan goes as far as what is known.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.api._calls import AnyJob, pack, plan, plan_many, price, validate
    from pavewright.api._planned import Planned, Price
    from pavewright.api._tables import TABLES, MissingTablesError, UnknownTableError
    from pavewright.desk import PartFailedError
    from pavewright.engine import Cluster, LocalCores
    from pavewright.job import Fault, JobInvalid
else:
    __getattr__ = face(__name__)

__all__ = [
    "TABLES",
    "AnyJob",
    "Cluster",
    "Fault",
    "JobInvalid",
    "LocalCores",
    "MissingTablesError",
    "PartFailedError",
    "Planned",
    "Price",
    "UnknownTableError",
    "pack",
    "plan",
    "plan_many",
    "price",
    "validate",
]
