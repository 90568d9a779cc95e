"""What is noticed in this room, by its short name."""

from __future__ import annotations

from enum import StrEnum


class Code(StrEnum):
    """Codes of findings."""

    DEEP_DIG = "earthworks.deep_dig"
    FILL = "earthworks.fill"
    FOUND_DRAIN = "earthworks.found_drain"
    FOUND_OUTSIDE = "earthworks.found_outside"
    GROUND_RUN_ON = "earthworks.ground_run_on"
    NEAR_WALL = "earthworks.near_wall"
    NO_GROUND = "earthworks.no_ground"
    PLATE_LIGHT = "earthworks.plate_light"
    ROOTS = "earthworks.roots"
    SERVICE_IN_DIG = "earthworks.service_in_dig"
    SERVICES_UNKNOWN = "earthworks.services_unknown"
    TOPSOIL_UNKNOWN = "earthworks.topsoil_unknown"
