"""Where a command works: how it is asked for the cores of this machine or a cluster, and what it says without them."""

from __future__ import annotations

import sys
from contextlib import contextmanager
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from pavewright.cli._stop import UNSOUND

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.desk import Spread
    from pavewright.engine import Engine, Progress

_FILE = click.Path(path_type=Path, exists=True, dir_okay=False)
_OPTIONS = (
    click.option(
        "--workers",
        "--cores",
        "workers",
        type=click.IntRange(1, 256),
        help="Processes on this machine; as many as there are cores.",
    ),
    click.option("--cluster", help="Address of a scheduler that does the work, as tcp://HOST:PORT or tls://HOST:PORT."),
    click.option("--authority", type=_FILE, help="Certificate of the authority of the cluster (PEM), for tls."),
    click.option("--certificate", type=_FILE, help="Certificate of this machine (PEM), for tls."),
    click.option("--private-key", type=_FILE, help="Its key (PEM), for tls."),
)


@dataclass(frozen=True, slots=True)
class EngineAsked:
    """Where a command is to work.

    Attributes:
        workers: Processes on this machine; None where nobody says. [-]
        address: Of a scheduler; None for this machine.
        files: Certificate of the authority, certificate and key of this machine; None each where it is not given.
    """

    workers: int | None
    address: str | None
    files: tuple[Path | None, Path | None, Path | None]

    @property
    def named(self) -> bool:
        """Whether anything was said, so that the work leaves this process."""
        return self.workers is not None or self.address is not None or any(self.files)


def engine_options(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the options of where it works; it takes ``asked_engine``.

    Args:
        command: The function of the command.
    """

    @wraps(command)
    def asked(**given: Any) -> None:  # noqa: ANN401 - whatever else the command takes
        files = (given.pop("authority"), given.pop("certificate"), given.pop("private_key"))
        engine = EngineAsked(given.pop("workers"), given.pop("cluster"), files)
        command(**given, asked_engine=engine)

    found: Callable[..., None] = asked
    for each in reversed(_OPTIONS):
        found = each(found)
    return found


@contextmanager
def engine_or_stop(asked: EngineAsked) -> Iterator[Engine]:
    """Give what does the work, and close it afterwards; leave with a sentence where it cannot be had.

    Args:
        asked: Where it is done.
    """
    from pavewright.engine import (  # noqa: PLC0415 - loading takes its time
        Cluster,
        ClusterFiles,
        EngineLostError,
        EngineMissingError,
        LocalCores,
        OtherProgramError,
    )

    given = [each for each in asked.files if each is not None]
    if given and (asked.address is None or len(given) < len(asked.files)):
        _stop("Give --cluster with all three of --authority, --certificate and --private-key, or none of them.")
    try:
        security = ClusterFiles(*given) if given else None
        with LocalCores(asked.workers) if asked.address is None else Cluster(asked.address, security) as engine:
            yield engine
    except EngineMissingError as missing:
        _stop(str(missing))
    except EngineLostError:
        _stop(f"The scheduler at {asked.address} cannot be reached: see that it runs, then ask again.")
    except OtherProgramError:
        _stop("A worker runs another version of this program: install the same on every machine, then run it again.")


@contextmanager
def spread_or_stop(asked: EngineAsked, job: Path, firm: Path | None, *, quiet: bool) -> Iterator[Spread]:
    """Give where a study of one job is worked out; leave with a sentence where it cannot be.

    Args:
        asked: Where it is asked for.
        job: File of the job.
        firm: File of the firm's book; None for none.
        quiet: Whether progress is not told.
    """
    from pavewright.desk import PartFailedError, Spread, read_job_file  # noqa: PLC0415 - loading takes its time

    def report(progress: Progress) -> None:
        if not quiet and progress.done:
            click.echo(f"… {progress.done} of {progress.of} parts", err=True)

    with engine_or_stop(asked) as engine:
        try:
            yield Spread(engine, read_job_file(job), None if firm is None else firm.read_bytes(), report)
        except PartFailedError as problem:
            _stop(f"A part of the work has no answer: {problem}.")


def _stop(words: str) -> NoReturn:
    click.echo(words, err=True)
    sys.exit(UNSOUND)
