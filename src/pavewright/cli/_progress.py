"""A progress line for work that takes longer than a breath."""

from __future__ import annotations

import time
from dataclasses import dataclass, field

import click

_QUIET_FOR_S = 1.0
"""Work that is done sooner says nothing. [s]"""


@dataclass
class Progress:
    """Tells each stage on the error stream once the work has lasted a second, unless asked to be quiet."""

    quiet: bool
    begun: float = field(default_factory=time.monotonic)

    def __call__(self, stage: str) -> None:
        """Say which stage begins."""
        if not self.quiet and time.monotonic() - self.begun > _QUIET_FOR_S:
            click.echo(f"… {stage}", err=True)
