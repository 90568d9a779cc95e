"""One trial: something hostile goes in, and what came of it is reported as a word that can be counted."""

from __future__ import annotations

import contextlib
import json
import re
import signal
import time
import traceback
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.testclient import TestClient

from pavewright.drawing import DRAWINGS
from pavewright.desk import SCREEN_VERBS, ScreenRefusalError, make_pack, make_plan, sums_told
from pavewright.files import FileRefusedError, file_told
from pavewright.job import JobInvalid, load_document, parse
from pavewright.store import open_store
from pavewright.web import make_app

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

LONGEST_S = 10.0
"""No answer takes longer. [s of the processor]"""
TAKEN, REFUSED, TRACEBACK, SERVER_FAULT, TOO_LONG, NO_WORDS = (
    "taken",
    "refused in words",
    "tracebacks",
    "answers 500",
    "over 10 s",
    "refused without a sentence",
)
BAD = (TRACEBACK, SERVER_FAULT, TOO_LONG, NO_WORDS)


@dataclass(frozen=True)
class Outcome:
    """What came of a trial."""

    word: str
    name: str
    seconds: float = 0.0
    reported: str = ""

    @property
    def bad(self) -> bool:
        """Whether it must not be so."""
        return self.word in BAD


class TooLongError(BaseException):
    """The trial took longer than it may; no handler of errors takes it for one of its own."""


def sentences(*messages: str) -> bool:
    """Return whether every message is a sentence that a person can act on."""
    return bool(messages) and all(each.strip() and "Traceback" not in each and _ends(each) for each in messages)


def _ends(message: str) -> bool:
    return message.rstrip().endswith((".", "?", "!", ")", '"', "”", "…"))


@contextlib.contextmanager
def _watched() -> Iterator[None]:
    """End what runs longer than it may, by the processor's time: a busy machine changes nothing."""

    def late(*_: object) -> None:
        raise TooLongError

    before = signal.signal(signal.SIGPROF, late)
    signal.setitimer(signal.ITIMER_PROF, LONGEST_S)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        signal.signal(signal.SIGPROF, before)


def tried(name: str, act: Callable[[], str]) -> Outcome:
    """Return what comes of an act that answers with taken or refused."""
    started = time.process_time()
    try:
        with _watched():
            word, _, reported = act().partition(": ")
    except TooLongError:
        word, reported = TOO_LONG, traceback.format_exc()
    except Exception as problem:  # noqa: BLE001 - that is what is looked for
        late = isinstance(problem.__context__ or problem.__cause__, TooLongError)  # machine code wraps what ends it
        word, reported = TOO_LONG if late else TRACEBACK, traceback.format_exc()
    return Outcome(word, name, time.process_time() - started, reported)


def _verb(name: str, payload: bytes) -> Any:
    return json.loads(SCREEN_VERBS[name](payload, lambda _: None))


def job_read(text: str) -> str:
    """Read a job and no more."""
    try:
        parse(load_document(text.encode("utf-8", "surrogatepass")))
    except JobInvalid as invalid:
        return REFUSED if sentences(*(fault.message for fault in invalid.faults)) else NO_WORDS
    return TAKEN


def job_planned(text: str) -> str:
    """Plan a job as the screens do."""
    reported = _verb("plan", text.encode("utf-8", "surrogatepass"))
    if reported["plan"] is not None:
        return TAKEN
    return REFUSED if sentences(*(each["message"] for each in reported["faults"])) else NO_WORDS


def job_everywhere(text: str) -> str:
    """Plan a job and ask for all that screens show of it: each answers, or refuses in words."""
    payload = text.encode("utf-8", "surrogatepass")
    word = job_planned(text)
    for verb in ("preview", "summary", "site", "outcome"):
        _verb(verb, payload)
    acts = [("customer", payload)] + [("drawing", each.key.encode() + b"\n" + payload) for each in DRAWINGS]
    for verb, asked in acts if word == TAKEN else acts[:2]:
        try:
            SCREEN_VERBS[verb](asked, lambda _: None)
        except ScreenRefusalError as refusal:
            if not sentences(str(refusal)):
                return NO_WORDS
    return word


def sum_answered(name: str, given: dict[str, Any]) -> str:
    """Ask for a sum as the page of quick sums does."""
    try:
        _verb("sum", json.dumps({"name": name, "given": given}).encode())
    except ScreenRefusalError as refusal:
        return REFUSED if sentences(str(refusal)) else NO_WORDS
    return TAKEN


def file_read(content: bytes, asked: dict[str, Any]) -> str:
    """Read a file in a child of its own."""
    try:
        file_told(content, asked)
    except FileRefusedError as refused:
        return REFUSED if sentences(str(refused)) else NO_WORDS
    return TAKEN


def request_answered(client: Any, visit: Any) -> str:
    """Send a request and judge its answer."""
    answer = client.request(visit.method, visit.path, content=visit.content, headers=visit.headers)
    if answer.status_code >= 500 and answer.status_code not in _BUSY:
        return f"{SERVER_FAULT}: {answer.text[:300]}"
    if answer.status_code < 400:
        return TAKEN
    if visit.method == "HEAD":
        return REFUSED
    if answer.headers.get("content-type", "").startswith("text/"):  # a page, which refuses in words of its own
        return REFUSED if _page_words(answer.text) else f"{NO_WORDS}: {answer.status_code} {answer.text[:300]}"
    try:
        message = answer.json()["message"]
    except (ValueError, KeyError, TypeError):
        return f"{NO_WORDS}: {answer.status_code} {answer.text[:300]}"
    return REFUSED if sentences(message) else f"{NO_WORDS}: {answer.status_code} {message[:300]}"


def _page_words(page: str) -> bool:
    """Whether a page that refuses shows a sentence of its own."""
    body = re.sub(r"(?s)<(script|style|head)\b.*?</\1>", " ", page)
    return sentences(*[each for each in re.split(r"<[^>]*>", body) if each.strip().endswith(".")][:1] or [""])


_BUSY = frozenset({503, 507})
"""Statuses that say in words that something else has to end first."""


def sums_known() -> list[dict[str, Any]]:
    """Return the sums that a page of quick sums offers."""
    return sums_told()


def job_in_papers(text: str) -> str:
    """Make every paper of a job."""
    try:
        made = make_plan(text.encode("utf-8", "surrogatepass"), lambda _: None)
    except JobInvalid:
        return REFUSED
    made_papers = list(make_pack(made, lambda _: None))
    assert all(paper.content for paper in made_papers)
    return TAKEN


@contextlib.contextmanager
def served(folder: str) -> Iterator[Any]:
    """Serve a new store, and answer with a client of it."""
    store = open_store(f"sqlite:///{folder}/jobs.sqlite")
    try:
        with TestClient(make_app(store), base_url="http://127.0.0.1", raise_server_exceptions=False) as client:
            yield client
    finally:
        store.close()
