"""Classes of work, each with workers and limits of its own."""

from __future__ import annotations

from dataclasses import dataclass

_MB = 1_000_000


@dataclass(frozen=True)
class Lane:
    """A class of work.

    Attributes:
        workers: How many work at once.
        for_one: How many of them one person may hold, so that one is left for somebody else.
        memory_bytes: Most memory of its own that a worker takes; one that has loaded holds 310 MB. [bytes]
        nice: By how much its workers stand back from the processor for those of other classes.
        grace_s: How long work goes on that nobody waits for any more, since ending a worker costs too. [s]
        waiting: How many requests may wait.
        waiting_for_one: How many of one person.
    """

    workers: int = 2
    for_one: int = 1
    memory_bytes: int = 1_500 * _MB
    nice: int = 0
    grace_s: float = 5.0
    waiting: int = 500
    waiting_for_one: int = 30


LANES = {
    "quick": Lane(memory_bytes=800 * _MB),
    "plan": Lane(nice=5),
    "long": Lane(nice=10, memory_bytes=2_000 * _MB, grace_s=0.0),
    "file": Lane(nice=5, memory_bytes=1_000 * _MB, grace_s=0.0, waiting=30, waiting_for_one=5),
}
"""The classes of work."""
IDLE_VERBS = frozenset({"summary"})
"""What nobody waits for: it is done while no worker of its class has anything else to do."""
