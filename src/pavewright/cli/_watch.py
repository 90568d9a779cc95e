"""The command that watches a folder: what is dropped there is planned, or brought in; results lie in another folder."""

from __future__ import annotations

import signal
import threading
import time
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from pavewright.cli._stop import stop
from pavewright.cli._watch_words import WORDS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_SETTLED_S = 1.0
"""A file that grew or changed within so long is still being written. [s]"""
_STANDS_MS = 1_000
"""So long the first look at a folder waits for changes: from then on none is missed. [ms]"""


@click.command("watch")
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("-o", "--output", "out", type=click.Path(file_okay=False, path_type=Path), help="Folder of results.")
@click.option("--firm", type=click.Path(path_type=Path, exists=True, dir_okay=False), help="The firm's book.")
@click.option("--papers/--no-papers", default=True, show_default=True, help="Make the papers of a job too.")
@click.option("--once", is_flag=True, help="Do what lies there, and end.")
def watch_command(folder: Path, out: Path | None, firm: Path | None, *, papers: bool, once: bool) -> None:
    """Plan every job that is dropped into FOLDER, and bring every file of points into a list of points.

    Results lie in a folder of the file's own name, in FOLDER/results or where -o says. A file that cannot be taken gets
    a file of one sentence there, and stays where it is: nothing is ever deleted. A file that is still being written
    is waited for. What was done is known by its digest, so that a restart does nothing twice.

    Ctrl+C or SIGTERM ends it when the file in hand is done, with exit code 0; a second one ends it at once.

    \b
    Example: pavewright watch drop-box
             pavewright watch drop-box -o results --once
    """  # noqa: D301 - the sign keeps click from joining lines
    if not folder.is_dir():
        stop(WORDS.no_folder(folder=str(folder)))
    results = (out or folder / "results").absolute()
    if results == folder.absolute():
        stop(WORDS.same)
    with _until_ended(once=once) as ended:
        from pavewright.cli._watched import Watched  # noqa: PLC0415 - loads every room

        watched = Watched(folder, results, None if firm is None else firm.read_bytes(), papers=papers)
        click.echo(WORDS.watching(folder=str(folder), out=str(results)))
        for _ in _whenever(folder, results, ended, once=once):
            until_settled(folder, watched.pending, ended.wait)
            for path, what in () if ended.is_set() else watched.do_all():
                click.echo(WORDS.done(name=path.name, what=what))
                if ended.is_set():
                    break


@contextmanager
def _until_ended(*, once: bool) -> Iterator[threading.Event]:
    """Give what a signal sets; a second signal ends the program at once, as the first does where all is done once."""
    ended = threading.Event()
    before = {} if once else {each: signal.getsignal(each) for each in (signal.SIGINT, signal.SIGTERM)}

    def back() -> None:
        for each, handler in before.items():
            signal.signal(each, handler or signal.SIG_DFL)

    def end(*_: object) -> None:
        ended.set()
        back()

    for each in before:
        signal.signal(each, end)
    try:
        yield ended
    finally:
        back()


def _whenever(folder: Path, results: Path, ended: threading.Event, *, once: bool) -> Iterator[None]:
    """Give a turn now, and whenever something in the folder changed; results in it do not count."""
    if once:
        yield
        return
    from watchfiles import watch  # noqa: PLC0415 - nothing is watched otherwise

    def counts(_change: object, path: str) -> bool:
        return not Path(path).is_relative_to(results)

    changes = watch(
        folder.absolute(),
        watch_filter=counts,
        recursive=False,
        stop_event=ended,
        rust_timeout=_STANDS_MS,
        yield_on_timeout=True,
    )
    next(changes, None)  # what comes while the first turn lasts is not missed
    yield
    for found in changes:
        if found:
            yield


def until_settled(
    folder: Path, pending: Callable[[], tuple[Path, ...]], sleep: Callable[[float], object] = time.sleep
) -> None:
    """Wait until no file that is to be taken grows or changes any more.

    Args:
        folder: The folder.
        pending: Gives the files that are to be taken.
        sleep: Waits, and may say that nobody waits any more. [s]
    """
    before = None
    while (now := _looks(folder, pending())) != before:
        before = now
        if not now:
            return
        if sleep(_SETTLED_S):
            return


def _looks(folder: Path, paths: tuple[Path, ...]) -> dict[Path, tuple[int, int]]:
    found = {}
    for path in paths:
        try:
            stat = (folder / path.name).stat()
        except OSError:
            continue
        found[path] = (stat.st_size, stat.st_mtime_ns)
    return found
