"""What is printed is written as where the job is: the last step before a page."""

from __future__ import annotations

from functools import wraps
from typing import TYPE_CHECKING, Any, Concatenate, ParamSpec, Protocol, TypeVar

from pavewright.job import writing_of
from pavewright.writing import beside_all, terms_all, written_as

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.job import Job


class _OfJob(Protocol):
    @property
    def job(self) -> Job: ...


P = ParamSpec("P")
R = TypeVar("R")
M = TypeVar("M", bound=_OfJob)


def in_writing(make: Callable[Concatenate[M, P], R]) -> Callable[Concatenate[M, P], R]:
    """Return what makes something of a plan so that numbers and dates in it are written as where the job is."""

    @wraps(make)
    def made(plan: M, /, *args: P.args, **kwargs: P.kwargs) -> R:
        with written_as(writing_of(plan.job)):
            return make(plan, *args, **kwargs)

    return made


def in_words_of(job: Job, data: Any, own: frozenset[str] = frozenset()) -> Any:  # noqa: ANN401 - plain data of a page
    """Return plain data in the words of the trade where the job is, imperial measures beside where they are usual.

    Args:
        job: The job: what was typed in it stays as it was typed.
        data: The plain data.
        own: Words of the firm, which stay as they were typed too.
    """
    writing = writing_of(job)
    told = terms_all(data, writing.region, _typed(job) | own)
    return beside_all(told) if writing.imperial else told


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
