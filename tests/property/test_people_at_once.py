"""Two phones and an office, on line and off, a server killed at any step: nothing is lost and nothing is doubled."""

from __future__ import annotations

import copy
import json
import os
import shutil
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule
from tests.property.people import JOB, Office, Phone, Server, kept_beside, numbers_in, settle

RUNS = int(os.environ.get("PEOPLE_RUNS", "30"))
"""More of them on a long evening: PEOPLE_RUNS=1000."""
WHO = st.sampled_from(["one", "two", "office"])
PHONE = st.sampled_from(["one", "two"])
PLACE = st.integers(0, 5)
DEATH = st.one_of(st.none(), st.sampled_from(["after"]), st.integers(0, 12))
"""Whether and where the server is killed while it answers: at a statement, or with all done and the answer not out."""


class PeopleAtOnce(RuleBasedStateMachine):
    """What anybody may do at any time."""

    server = None

    def __init__(self):
        super().__init__()
        self.last = 1000
        self.facts = set()
        self.readings = set()

    @initialize()
    def begin(self):
        self.job = self.server.store.add(json.dumps(JOB)).id
        self.people = {name: Phone(self.server, self.job, name) for name in ("one", "two")}
        self.people["office"] = Office(self.server, self.job, "office")

    def fact(self, *, reading=False):
        """A number that nobody has written down yet."""
        self.last += 1
        self.facts.add(self.last)
        if reading:
            self.readings.add(self.last)
        return self.last

    @rule(who=WHO)
    def tape(self, who):
        tape = {"start": "A", "end": "B", "length_mm": self.fact(reading=True)}

        def act(document):
            if document["measurements"]["tape_plan"] is None:
                document["measurements"]["tape_plan"] = {"base_from": "A", "base_to": "B", "tapes": []}
            document["measurements"]["tape_plan"]["tapes"].append(tape)

        self.people[who].change(act)

    @rule(who=PHONE)
    def tape_by_the_keypad(self, who):
        self.people[who].read("tapes", {"start": "A", "end": "B", "length_mm": self.fact(reading=True)})

    @rule(who=PHONE)
    def laid_by_the_keypad(self, who):
        entry = {"area": "Patio", "x_mm": 1, "y_mm": 2, "level_mm": self.fact(reading=True)}
        self.people[who].read("as_laid", entry)

    @rule(who=WHO, place=PLACE)
    def tape_read_again(self, who, place):
        def act(document):
            tapes = (document["measurements"]["tape_plan"] or {}).get("tapes") or [{}]
            tapes[place % len(tapes)]["length_mm"] = self.fact(reading=True)

        if (self.people[who].view["measurements"]["tape_plan"] or {}).get("tapes"):
            self.people[who].change(act)

    @rule(who=WHO, place=PLACE)
    def tape_deleted(self, who, place):
        def act(document):
            tapes = (document["measurements"]["tape_plan"] or {}).get("tapes") or [{}]
            del tapes[place % len(tapes)]

        self.people[who].change(act)

    @rule(who=WHO)
    def client(self, who):
        self.people[who].change(lambda document: document["identity"].update(client=self.fact()))

    @rule(who=WHO, place=PLACE)
    def level_of_a_wall(self, who, place):
        def act(document):
            walls = document["site"]["walls"]
            if walls:
                walls[place % len(walls)]["dpc_level_mm"] = self.fact()

        self.people[who].change(act)

    @rule(who=WHO, place=PLACE)
    def door(self, who, place):
        def act(document):
            walls = document["site"]["walls"]
            if walls:
                wall = walls[place % len(walls)]
                wall["openings"].append({"name": f"Door {len(wall['openings']) + 1}", "along_mm": self.fact()})

        self.people[who].change(act)

    @rule(who=WHO)
    def wall(self, who):
        def act(document):
            taken = {each["name"] for each in document["site"]["walls"]}
            name = next(f"W{n}" for n in range(100) if f"W{n}" not in taken)
            document["site"]["walls"].append({"name": name, "dpc_level_mm": self.fact(), "openings": []})
            document["areas"][0]["fall"]["away_from"] = name

        self.people[who].change(act)

    @rule(who=WHO, place=PLACE)
    def wall_renamed(self, who, place):
        def act(document):
            walls = document["site"]["walls"]
            if walls and f"North {place}" not in {each["name"] for each in walls}:
                walls[place % len(walls)]["name"] = f"North {place}"

        self.people[who].change(act)

    @rule(who=WHO, place=PLACE)
    def wall_deleted(self, who, place):
        def act(document):
            walls = document["site"]["walls"]
            if walls:
                del walls[place % len(walls)]

        self.people[who].change(act)

    @rule(who=WHO, place=st.integers(0, 1))
    def answer(self, who, place):
        def act(document):
            asked = [each for each in document["site"]["walk_round"] if each["question"] == f"Q{place}"]
            if asked:
                asked[0]["value"] = self.fact()
            else:
                document["site"]["walk_round"].append({"question": f"Q{place}", "value": self.fact()})

        self.people[who].change(act)

    @rule(who=WHO, death=DEATH)
    def send(self, who, death):
        self.people[who].send(death)

    @rule(who=WHO, deaths=st.lists(DEATH, max_size=6))
    def on_line(self, who, deaths):
        for death in [*deaths, *[None] * 20]:
            self.people[who].send(death)

    @rule(chance=PLACE, theirs=st.booleans())
    def picked(self, chance, theirs):
        settle(self.server, self.job, chance, theirs=theirs)

    def teardown(self):
        """Everything arrives at last, and every fact is found."""
        while any(each.waiting for each in self.people.values()):
            for each in self.people.values():
                each.send()
        document = json.loads(self.server.store.job(self.job).document)
        clashes, replaced = kept_beside(self.server, self.job)
        there, beside = numbers_in(document), numbers_in(clashes)
        lost = self.facts - set(there) - set(beside) - replaced
        assert not lost, f"lost: {sorted(lost)}"
        doubled = [each for each in self.facts if there.count(each) > 1]
        assert not doubled, f"doubled: {sorted(doubled)}"
        names = [wall["name"] for wall in document["site"]["walls"]]
        assert len(names) == len(set(names))
        # what an office page shows once it has sent everything is the job as it is kept
        office = self.people["office"]
        if office.rev == self.server.store.job(self.job).rev:
            assert office.there == copy.deepcopy(document)


PeopleAtOnce.TestCase.settings = settings(
    max_examples=RUNS,
    stateful_step_count=40,
    deadline=None,
    phases=[Phase.generate],
    suppress_health_check=list(HealthCheck),
)


class TestPeopleAtOnce(PeopleAtOnce.TestCase):  # type: ignore[valid-type, misc]
    """One store for all runs, each on a job of its own."""

    @classmethod
    def setUpClass(cls):
        cls.folder = Path(tempfile.mkdtemp())
        PeopleAtOnce.server = Server(cls.folder / "jobs.sqlite")

    @classmethod
    def tearDownClass(cls):
        PeopleAtOnce.server.store.close()
        shutil.rmtree(cls.folder)
