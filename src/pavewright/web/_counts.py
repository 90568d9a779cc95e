"""What the server counts of itself: requests by route, how long they took, long tasks, the store, failed sign-ins."""

from __future__ import annotations

from typing import TYPE_CHECKING

from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram, ProcessCollector, generate_latest

if TYPE_CHECKING:
    from collections.abc import Callable

_REFUSED_FROM, _UNKNOWN_TOKEN = 400, 401
"""Statuses of answers."""
_STEPS_S = (0.01, 0.03, 0.1, 0.3, 1.0, 3.0, 10.0, 30.0, 100.0)
"""The times by which answers are sorted. [s]"""
_WAYS = {("POST", "/sign-in"): "password", ("POST", "/api/sign-in/passkey"): "passkey"}
"""Where somebody signs in, and how."""


class Counts:
    """Counts of one server, since it began; none holds a name, an address or what was sent."""

    def __init__(self) -> None:
        """Begin at zero."""
        self._registry = CollectorRegistry()
        ProcessCollector(registry=self._registry)
        of_request = ("route", "method", "status")
        self._requests = self._counter("requests", "Requests that were answered.", of_request)
        self._failed = self._counter("sign_in_failures", "Sign-ins that failed.", ("way", "status"))
        self._took = Histogram(
            "pavewright_request_seconds",
            "How long answers took.",
            ("route", "method"),
            buckets=_STEPS_S,
            registry=self._registry,
        )
        self._tasks = Gauge("pavewright_long_tasks_open", "Long tasks that wait or are done.", registry=self._registry)
        self._bytes = Gauge("pavewright_store_bytes", "What the stores in use hold.", registry=self._registry)

    def _counter(self, name: str, words: str, labels: tuple[str, ...]) -> Counter:
        return Counter(f"pavewright_{name}", words, labels, registry=self._registry)

    def watch_tasks(self, open_tasks: Callable[[], int]) -> None:
        """Take who knows how many long tasks are open."""
        self._tasks.set_function(open_tasks)

    def answered(self, route: str, method: str, status: int, took_s: float, *, with_token: bool) -> None:
        """Count a request.

        Args:
            route: The route as it stands in the list.
            method: How it was asked, one of those that there are.
            status: Of the answer.
            took_s: How long the answer took. [s]
            with_token: Whether a program came with a token.
        """
        self._requests.labels(route, method, status).inc()
        self._took.labels(route, method).observe(took_s)
        way = _WAYS.get((method, route))
        if way is not None and status >= _REFUSED_FROM:
            self._failed.labels(way, status).inc()
        elif with_token and status == _UNKNOWN_TOKEN:
            self._failed.labels("token", status).inc()

    def text(self, store_bytes: int) -> bytes:
        """Return all counts in the text form of Prometheus.

        Args:
            store_bytes: What the stores in use hold. [bytes]
        """
        self._bytes.set(store_bytes)
        return generate_latest(self._registry)
