"""The command that compiles the kernels."""

from __future__ import annotations

from importlib import import_module

import click

from pavewright.compiled import ENTRANCES

KERNELS = (
    "flow._fill_kernel",
    "flow._catchment_kernel",
    "flow._storm_kernel",
    "laying.search._count_kernel",
    "laying.cutting._kernels",
    "laying.cutting._value_kernel",
    "laying.mixed._fill_kernel",
    "files._bins",
    "as_laid.flatness._edge_kernel",
)
"""Modules that hold kernels for Python."""


@click.command("compile")
def compile_command() -> None:
    """Compile the kernels, so that the first plan is as quick as any other; what is compiled already is kept.

    Example: pavewright compile
    """
    for module in KERNELS:
        import_module(f"pavewright.{module}")
    for number, (name, entrance) in enumerate(ENTRANCES.items(), start=1):
        click.echo(f"kernel {number} of {len(ENTRANCES)}: {name.removeprefix('pavewright.')}")
        entrance.ready()
