"""pavewright: from a contractor's readings to a job pack, for patios, paths and drives.

A job is a document. A plan is a pure function of the job and a rulebook edition. Everything else is a door.
"""

__version__ = "0.2.0"
"""The one place of the version: the package's metadata are made from it."""
