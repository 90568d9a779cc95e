"""The words of a server about itself, which tell nothing of what it keeps."""

from __future__ import annotations

from pavewright.store import Amiss

ALIVE = "It runs."
READY = "It is ready."
COUNTS_HERE = "Counts are shown on the server's own machine, or to a program with a token for them."
NOT_READY = {
    Amiss.STORE: "The store does not answer.",
    Amiss.TABLES: "The tables of the store are not those of this version of the program: start it again.",
    Amiss.DISK: "The disk has hardly any room left: free some space.",
}
"""Why it is not ready, each with what to do where somebody can do something."""
