"""How far the tools at hand go wrong: those that the job names, else the usual ones of the rulebook, as assumed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.job.on_site import SquareTool

if TYPE_CHECKING:
    from pavewright.job.on_site import LevelTool, TapeClass, ToolsAtHand
    from pavewright.rules import Figure, Rulebook

_USUAL = "usual"


class ToolKey(StrEnum):
    """A tool, or what is known of it, that may be assumed."""

    TAPE = "tape"
    TAPE_LENGTH = "tape_length"
    TAPE_READ = "tape_read"
    SQUARE = "square"
    LEVEL = "level"
    STRING = "string"
    PULL = "pull"


@dataclass(frozen=True, slots=True)
class AssumedTool:
    """What nobody said of the tools, and the figure taken instead.

    Attributes:
        tool: What was left out.
        figure: The figure of the rulebook that is taken; None where a triangle of tapes is taken for a square.
    """

    tool: ToolKey
    figure: Figure | None


@dataclass(frozen=True, slots=True)
class ToolErrors:
    """What the tools at hand are, and how far they go wrong.

    Attributes:
        tape: Class of the tape; None where it is assumed.
        tape_read_sd_mm: Standard deviation of holding and reading one tape. [mm]
        tape_fixed_mm: The part of the tape's own error that does not grow with its length. [mm]
        tape_per_m_mm: The part that grows with its length, the same for all lengths of one tape. [mm/m]
        tape_length_mm: Length of the tape. [mm]
        square: What turns a right angle.
        square_sd_deg: Standard deviation of a right angle; None where a triangle of tapes turns it. [deg]
        level: What carries heights; None where it is assumed.
        level_sd_mm: Standard deviation of one height. [mm]
        mark_sd_mm: Standard deviation of a mark on the head of a peg, each way. [mm]
        string_kg_per_km: Mass of the string. [kg/km]
        string_pull_kg: Pull on it, as a mass hung on it. [kg]
        assumed: What nobody said.
    """

    tape: TapeClass | None
    tape_read_sd_mm: float
    tape_fixed_mm: float
    tape_per_m_mm: float
    tape_length_mm: float
    square: SquareTool
    square_sd_deg: float | None
    level: LevelTool | None
    level_sd_mm: float
    mark_sd_mm: float
    string_kg_per_km: float
    string_pull_kg: float
    assumed: tuple[AssumedTool, ...] = ()


def tool_errors(tools: ToolsAtHand, rules: Rulebook) -> ToolErrors:
    """Return how far the tools at hand go wrong."""
    assumed: list[AssumedTool] = []

    def known(given: float | None, tool: ToolKey, figure: Figure) -> float:
        if given is None:
            assumed.append(AssumedTool(tool, figure))
        return figure.value if given is None else given

    classes, levels = rules.table("setting_out.tape_class"), rules.table("setting_out.level_sd_mm")
    row = _USUAL if tools.tape is None else tools.tape.value
    if tools.tape is None:
        assumed.append(AssumedTool(ToolKey.TAPE, classes.figure(row, "per_m_mm")))
    if tools.square is None:
        assumed.append(AssumedTool(ToolKey.SQUARE, None))
    square = tools.square or SquareTool.TAPE_TRIANGLE
    return ToolErrors(
        tape=tools.tape,
        tape_read_sd_mm=known(tools.tape_read_sd_mm, ToolKey.TAPE_READ, rules.figure("setting_out.tape_read_sd_mm")),
        tape_fixed_mm=classes.figure(row, "fixed_mm").value,
        tape_per_m_mm=classes.figure(row, "per_m_mm").value,
        tape_length_mm=known(tools.tape_length_mm, ToolKey.TAPE_LENGTH, rules.figure("setting_out.tape_length_mm")),
        square=square,
        square_sd_deg=_square_sd_deg(square, tools, rules),
        level=tools.level,
        level_sd_mm=known(
            tools.level_sd_mm,
            ToolKey.LEVEL,
            levels.figure(_USUAL if tools.level is None else tools.level.value, "sd_mm"),
        ),
        mark_sd_mm=rules.value("setting_out.mark_sd_mm"),
        string_kg_per_km=known(tools.string_kg_per_km, ToolKey.STRING, rules.figure("setting_out.string_kg_per_km")),
        string_pull_kg=known(tools.string_pull_kg, ToolKey.PULL, rules.figure("setting_out.string_pull_kg")),
        assumed=tuple(assumed),
    )


def _square_sd_deg(square: SquareTool, tools: ToolsAtHand, rules: Rulebook) -> float | None:
    """Return the standard deviation of a right angle; None where a triangle of tapes turns it. [deg]."""
    if square is SquareTool.TAPE_TRIANGLE:
        return None
    if tools.square_sd_deg is not None:
        return tools.square_sd_deg
    return rules.table("setting_out.square_sd_deg").figure(square.value, "sd_deg").value
