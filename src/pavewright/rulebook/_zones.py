"""Time zones of regions that have no more than one."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files


@cache
def region_zones() -> dict[str, str]:
    """Return the name of the time zone of each region that has one and no more."""
    found: dict[str, str] = tomllib.loads((files("pavewright.rulebook") / "data" / "zones.toml").read_text("utf-8"))
    return found
