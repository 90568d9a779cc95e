"""A firm of invented people with jobs that are accepted, arranged on its calendar."""

from __future__ import annotations

import time

PEOPLE = [("Ada Fern", "layer"), ("Bo Marsh", "groundworker"), ("Cy Reed", "any"), ("Di Moor", "any")]


def with_a_calendar(served, people=PEOPLE, jobs=2):
    """Enter people, accept copies of the demo, let the calendar settle, and return the jobs in order."""
    told = served.call("GET", "/api/firm")
    book = {"format": "pavewright.firm", "version": 1}
    book["people"] = [{"name": name, "skill": skill, "cost_minor_per_hour": 2_000} for name, skill in people]
    served.call("PUT", "/api/firm", {"rev": told["rev"], "document": book, "note": "people"})
    served.call("POST", "/api/calendar/people", {})
    made = [accepted(served, f"Patio {number + 1}") for number in range(jobs)]
    settled(served)
    return made


def accepted(served, title, address="1 Mill Lane, Ashford Green", **calendar):
    """Make a copy of the demo that somebody accepted, and return its id."""
    document = served.call("GET", f"/api/jobs/{served.demo}")["document"]
    document["identity"] |= {"title": title, "address": address}
    document["standing"] = {"by_hand": {"state": "accepted", "on": "2026-11-01"}}
    document["calendar"].pop("start", None)
    document["calendar"] |= calendar
    return served.call("POST", "/api/jobs", {"document": document})["id"]


def told_whole(served):
    """Return the calendar once every job is worked out."""
    for _ in range(600):
        told = served.call("GET", "/api/calendar")
        if not told["waiting"]:
            return told
        time.sleep(0.2)
    raise AssertionError("jobs are still being worked out")


def settled(served):
    """Let the calendar settle and keep it."""
    rev = told_whole(served)["rev"]
    name = served.call("POST", "/api/calendar/arrange", {"effort": "quick"})["long_task"]
    for _ in range(600):
        far = served.call("GET", f"/api/long-tasks/{name}")
        if far["state"] == "done":
            break
        assert far["state"] in {"waiting", "working"}, far
        time.sleep(0.2)
    made = served.call("GET", f"/api/long-tasks/{name}/result")
    served.call("PUT", "/api/calendar", {"rev": rev, "document": made["document"], "note": "settled"})
    return made
