"""Leaving with words and an exit code."""

from __future__ import annotations

import sys

import click

UNSOUND = 2
"""Exit code where the input makes no sense."""


def stop(words: str) -> None:
    """Say what is amiss and leave."""
    click.echo(words, err=True)
    sys.exit(UNSOUND)
