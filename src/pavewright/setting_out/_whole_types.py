"""What setting out hands on as a whole."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from pavewright.job.on_site import ToolsAtHand

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.job.on_site import InstrumentSetUp, StringAsSet
    from pavewright.setting_out._types import (
        BaseLine,
        HouseInTheWay,
        Peg,
        ServiceBand,
        StringLine,
        TapeCheck,
    )
    from pavewright.setting_out.errors import ComesBack, ToolErrors, WorkStep
    from pavewright.setting_out.hanging import Crossing, SightHeight, StrayReading, StringHung
    from pavewright.setting_out.shapes import CurveSetOut


@dataclass(frozen=True, slots=True)
class AtHand:
    """What the site says back: its tools, the heights of its strings, and where an instrument stands.

    Attributes:
        tools: The tools at hand.
        strings_set: Heights of strings as read.
        set_ups: Set-ups of an instrument.
    """

    tools: ToolsAtHand = field(default_factory=ToolsAtHand)
    strings_set: tuple[StringAsSet, ...] = ()
    set_ups: tuple[InstrumentSetUp, ...] = ()


@dataclass(frozen=True, slots=True)
class Work:
    """How the setting-out is done with the tools at hand.

    Attributes:
        tools: The tools, and what of them is assumed.
        steps: Base lines and corners in the order in which they are set out, each with its expected error and check.
        lost: How each pin comes back, should it be knocked out.
        not_back: Names of the pins that no two tapes from fixed things bring back.
        hung: Strings as they hang.
        crossings: Pegs under strings, with the layers below the string as it hangs.
        stray: Heights of strings that were read at pegs which are not there any more.
        sights: Set-ups of an instrument.
        curves: Arcs, as they are set out.
        height_limit_mm: Two heights carried to one place differ by more than this only where something is wrong. [mm]
        peg_found_mm: A height read at a peg counts where the peg stands within so far of where it was read. [mm]
    """

    tools: ToolErrors
    steps: tuple[WorkStep, ...]
    lost: tuple[ComesBack, ...]
    not_back: tuple[str, ...]
    hung: tuple[StringHung, ...]
    crossings: tuple[Crossing, ...]
    stray: tuple[StrayReading, ...]
    sights: tuple[SightHeight, ...]
    curves: tuple[CurveSetOut, ...]
    height_limit_mm: float
    peg_found_mm: float


@dataclass(frozen=True)
class SettingOut:
    """Pegs, strings and checks.

    Attributes:
        string_height_mm: Height of every string over the finished surface. [mm]
        base_lines: The base line of each area.
        pegs: In the order of driving.
        strings: Strings.
        checks: Tapes to check.
        findings: What was noticed.
        services: Known services with the ground beside them in which no pin is driven.
        services_words: What to say of services on every sheet that leads a pin or a spade.
        houses: Houses that tapes are kept out of.
        work: The order of work with what proves each step, and strings as they hang.
    """

    string_height_mm: float
    base_lines: tuple[BaseLine, ...]
    pegs: tuple[Peg, ...]
    strings: tuple[StringLine, ...]
    checks: tuple[TapeCheck, ...]
    findings: tuple[Finding, ...]
    work: Work
    services: tuple[ServiceBand, ...] = ()
    services_words: str = ""
    houses: tuple[HouseInTheWay, ...] = ()
