"""Command line: a thin door. It reads words and files, asks one thing of the rooms below, and prints the answer.

Each command loads the rooms that it needs, and no others. Exit codes: 0 clean, 1 a finding says stop or a case does not
hold, 2 the input makes no sense, 3 the program has a fault.
"""

import click

from pavewright.cli._group import Commands


@click.group(cls=Commands)
@click.version_option(package_name="pavewright")
def main() -> None:
    """From a contractor's readings to a plan that can be trusted."""


__all__ = ["main"]
