"""What is printed is written as where the job is: the last step before a page."""

from __future__ import annotations

from contextlib import contextmanager
from functools import lru_cache, wraps
from typing import TYPE_CHECKING, Any, Concatenate, ParamSpec, Protocol, TypeVar

from pavewright import rulebook
from pavewright.job import writing_of
from pavewright.writing import kept_now, now, told_all, written_as

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.job import Job


class _OfJob(Protocol):
    @property
    def job(self) -> Job: ...

    @property
    def edition(self) -> str: ...


P = ParamSpec("P")
R = TypeVar("R")
M = TypeVar("M", bound=_OfJob)


@contextmanager
def written_where(plan: _OfJob) -> Iterator[None]:
    """Have everything that is printed inside written as where the job of a plan is.

    What was typed in the job and what is quoted from a source stays as it is.
    """
    with written_as(writing_of(plan.job), _typed(plan.job) | _quoted(plan.edition)):
        yield


def in_writing(make: Callable[Concatenate[M, P], R]) -> Callable[Concatenate[M, P], R]:
    """Return what makes something of a plan so that numbers and dates in it are written as where the job is."""

    @wraps(make)
    def made(plan: M, /, *args: P.args, **kwargs: P.kwargs) -> R:
        with written_where(plan):
            return make(plan, *args, **kwargs)

    return made


def in_words_of(data: Any, own: frozenset[str] = frozenset()) -> Any:  # noqa: ANN401 - plain data of a page
    """Return plain data as it is shown where the job is: its words, its measures, the marks of its numbers.

    Args:
        data: The plain data.
        own: Words of the firm, which stay as they were typed too.
    """
    with written_as(now(), kept_now() | own):
        return told_all(data)


@lru_cache(maxsize=8)
def _quoted(edition: str) -> frozenset[str]:
    """Return titles of sources and places in them: they are quoted as they stand."""
    rules = rulebook.load(edition)
    titles = {source.title for source in rules.sources.values()}
    return frozenset(titles | {figure.place for figure in rules.figures.values() if figure.place})


def _typed(job: Job) -> frozenset[str]:
    """Return what the user typed, which is never put in other words."""
    return frozenset(_texts(job.model_dump()))


def _texts(data: Any) -> Iterator[str]:  # noqa: ANN401 - plain data of a document
    if type(data) is str:
        yield data
    elif isinstance(data, dict):
        for each in data.values():
            yield from _texts(each)
    elif isinstance(data, list | tuple):
        for each in data:
            yield from _texts(each)
