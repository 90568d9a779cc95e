"""A plain twin of the search: every start of every stretch is tried, and nothing is left out."""

from __future__ import annotations

import datetime as dt
import itertools

from pavewright.job import Skill


def least(asked):
    """Return the least that any arrangement of all jobs weighs, whoever is sent; None where there is none."""
    days = [asked.first + dt.timedelta(days=n) for n in range((asked.last - asked.first).days + 1)]
    days = [d for d in days if d not in asked.closed and any(d.weekday() in p.weekdays for p in asked.people)]
    best = [None]
    stretches = [(job, number) for job in asked.jobs for number in range(len(job.stretches))]

    def go(place, taken, weight):
        if best[0] is not None and weight >= best[0]:
            return
        if taken and not all(_held(asked, day, taken) for day in taken[-1][2]):
            return
        if place == len(stretches):
            weight += asked.change_job_days * fewest(asked, taken) if asked.change_job_days else 0.0
            best[0] = weight if best[0] is None else min(weight, best[0])
            return
        job, number = stretches[place]
        usable = [d for d in days if d.weekday() in job.weekdays and d not in job.shut]
        length = len(job.stretches[number].days)
        for start in range(len(usable) - length + 1):
            own = tuple(usable[start : start + length])
            if not _may(asked, job, number, own, taken):
                continue
            go(place + 1, [*taken, (job, number, own)], weight + _weight(asked, job, number, own))

    go(0, [], 0.0)
    return best[0]


def _may(asked, job, number, own, taken):
    for pin in asked.pins:
        if (pin.job, pin.stretch) == (job.id, number) and pin.first != own[0]:
            return False
    if job.earliest is not None and own[0] < job.earliest:
        return False
    for need in job.deliveries:
        if need.at[0] == number and need.earliest is not None and own[need.at[1]] < need.earliest:
            return False
    before = {n: ds for j, n, ds in taken if j.id == job.id}
    if number and own[0] <= before[number - 1][-1]:
        return False
    for link in job.links:
        if link.after[0] == number and link.before[0] in before:
            if (own[link.after[1]] - before[link.before[0]][link.before[1]]).days < link.days:
                return False
    return True


def _weight(asked, job, number, own):
    found = sum(job.wet_share.get(d.month, 0.0) for need, d in zip(job.stretches[number].days, own) if need.rain)
    if number == len(job.stretches) - 1:
        found += (own[-1] - asked.first).days + 1
        if job.promised is not None:
            found += asked.late_job_days * max(0, (own[-1] - job.promised).days)
    return found


def _held(asked, day, taken):
    needs = [job.stretches[number].days[ds.index(day)] for job, number, ds in taken if day in ds]
    for machine, count in asked.plant.items():
        if sum(machine in need.machines for need in needs) > count:
            return False
    return next(_sendings(asked, day, needs), None) is not None


def _sendings(asked, day, needs):
    """Give every way to send everybody who is there to one of the needs of a day, or nowhere."""
    there = [p for p in asked.people if p.works_on(day)]
    for sent in itertools.product(range(-1, len(needs)), repeat=len(there)):
        crews = [[p for p, where in zip(there, sent) if where == n] for n in range(len(needs))]
        if all(
            len(crew) == need.hands
            and all(any(skill in p.skills or Skill.ANY in p.skills for p in crew) for skill in need.skills)
            for crew, need in zip(crews, needs)
        ):
            yield {p.id: where for p, where in zip(there, sent) if where >= 0}


def fewest(asked, taken):
    """Return how few changes of place the days take, whoever is sent: every sending of every day is tried."""
    standing = {(): 0}
    for day in sorted({day for _, _, own in taken for day in own}):
        work = [(job, job.stretches[number].days[own.index(day)]) for job, number, own in taken if day in own]
        reached = {}
        for sent in _sendings(asked, day, [need for _, need in work]):
            goes = {person: work[where][0].place for person, where in sent.items()}
            for before, count in standing.items():
                was = dict(before)
                more = sum(bool(to and was.get(one) and was[one] != to) for one, to in goes.items())
                key = tuple(sorted((was | goes).items()))
                reached[key] = min(reached.get(key, count + more), count + more)
        standing = reached
    return min(standing.values())
