"""A day of a firm: six of the crew and two of the office work on the same three jobs from seven until the evening.

All eight work at the same time, hour by hour; each takes a job in, and sends what he did by what he has seen, while the
others change the job under him. In the evening all that was taken is in, once; each revision says who made it; and no
answer that the crew was given holds an amount of money, neither of the morning nor of what the office entered later.
"""

from __future__ import annotations

import json
import threading
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

import pytest
import sqlalchemy as sa
from starlette.testclient import TestClient

from pavewright.desk import demo_document
from pavewright.job import load_document, parse
from pavewright.job.operations import between
from pavewright.store import open_installation
from pavewright.store._tables import CLASHES, OPERATIONS
from pavewright.web import Workers, make_app

from tests.property.people import copied, numbers_in
from tests.unit.sign_in.test_without_money import FIRST, amounts_in, marked, text_of

HOURS = (7, 9, 11, 13, 15, 16)
DAY = "2027-06-07"
CREW = tuple(f"crew{number}" for number in range(6))
OFFICE = ("office0", "office1")
JOBS = 3
BUSY, TRIES = 503, 20
"""How a server answers whose disk is too slow for so many at once, and how often it is asked again."""
LATER = FIRST + 5_000_000
"""Amounts that the office enters during the day begin here."""
LOOK = "Formation of the morning"


@dataclass
class Evening:
    """What was sent and how it was answered.

    Attributes:
        facts: Every fact that was taken, with its job and its number of a revision, and who sent it.
        amounts: What the office entered of money, by its job.
        read: Everything that the crew was answered.
        refused: How the crew was answered that wanted to change money.
    """

    facts: list = field(default_factory=list)
    amounts: list = field(default_factory=list)
    read: list = field(default_factory=list)
    refused: list = field(default_factory=list)
    repeated: Counter = field(default_factory=Counter)


class OnSite:
    """Somebody at work: what he asks goes by his own sign-in, from many threads at once."""

    def __init__(self, day, name):
        self.day, self.name, self.number = day, name, (CREW + OFFICE).index(name)
        self.is_crew = name in CREW
        accounts, firm = day["installation"].accounts, day["installation"].first_id
        person = accounts.add_person(name, name.title())
        accounts.join(person.id, firm, "crew" if self.is_crew else "office")
        _, token = accounts.begin_sign_in(person.id, firm, "phone", 1)
        self.id, self.head = person.id, {"cookie": f"pavewright-sign-in={token}"}

    def ask(self, method, path, **more):
        answered = self.day["browser"].request(method, path, headers=self.head, **more)
        for _ in range(TRIES):
            if answered.status_code != BUSY:
                break  # else nothing was kept, as the answer says: it is sent again, under the same name
            answered = self.day["browser"].request(method, path, headers=self.head, **more)
        if self.is_crew:
            self.day["evening"].read.append((method, path, text_of(answered.content, "")))
        return answered

    def hour(self, hour):
        """What he does within an hour, on one job."""
        job = self.day["jobs"][(self.number + hour) % JOBS]
        seen = self.ask("GET", f"/api/jobs/{job}").json()
        self.day["together"].wait()  # all have seen the job as it was; from here on each changes it under the others
        (self.crew_hour if self.is_crew else self.office_hour)(hour, job, seen)

    def crew_hour(self, hour, job, seen):
        label = f"{self.name} at {hour}"
        self.change(job, seen, f"log {label}", lambda document: self.write_log(document, hour, label))
        self.change(job, seen, f"hold {label}", lambda document: self.read_hold(document, f"hold {label}"))
        sent = {"id": f"d{self.number}-{hour}", "kind": "as_laid", "date": DAY, "rev": seen["rev"]}
        place = {"area": "Terrace", "x_mm": 100.0 * hour, "y_mm": 100.0 * self.number, "level_mm": 9_900.0}
        sent["entries"] = [place | {"label": f"laid {label}"}]
        first = self.ask("POST", f"/api/jobs/{job}/deliveries", json=sent)
        self.taken(job, f"laid {label}", first)
        if (hour + self.number) % 3 == 0:  # the answer was lost on its way: the phone sends it again
            again = self.ask("POST", f"/api/jobs/{job}/deliveries", json=sent).json()
            assert (again["state"], again["rev"]) == ("repeated", first.json()["rev"])
            self.day["evening"].repeated["deliveries"] += 1
        rates = {"op": "set", "at": ["rates", "labour_minor_per_hour"], "was": 1, "to": LATER + 900_000}
        asked = {"key": f"m{self.number}-{hour}", "rev": seen["rev"], "operations": [rates], "note": ""}
        refused = self.ask("POST", f"/api/jobs/{job}/operations", json=asked)
        self.day["evening"].refused.append(refused.status_code)
        self.ask("GET", ("/api/jobs", f"/api/jobs/{job}/revisions", "/api/due", "/api/pages")[(hour + self.number) % 4])

    def office_hour(self, hour, job, seen):
        """Both of the office write to the same job in the same hour now and then: the later one finds a clash."""
        amount = LATER + 1_117 * (hour * len(OFFICE) + self.number)

        def act(document):
            document["rates"]["labour_minor_per_hour"] = amount
            document["measurements"]["points"].append(
                {"name": f"{self.name}-{hour}", "x_mm": 1.0 * hour, "y_mm": 2.0, "note": f"point {self.name} at {hour}"}
            )

        self.change(job, seen, f"point {self.name} at {hour}", act)
        self.day["evening"].amounts.append((job, amount))
        assert str(amount) in self.ask("GET", f"/api/jobs/{job}/revisions/{self.last}").text or self.clashed
        assert self.ask("GET", "/api/firm").status_code == 200

    def write_log(self, document, hour, label):
        """The log that this phone writes of the day; what was mixed has its time on the clock of the site."""
        own = next((each for each in document["site_days"] if each["name"] == self.name), None)
        if own is None:
            own = {"name": self.name, "date": DAY, "mixed": []}
            document["site_days"].append(own)
        own["mixed"].append({"mix": f"log {label}", "count": 1, "mixed_min": hour * 60 + self.number})

    def read_hold(self, document, label):
        (look,) = document["hold_checks"]
        look["readings"].append({"label": label, "x_mm": 250.0, "y_mm": 250.0 + self.number, "level_mm": 9_800.0})

    def change(self, job, seen, fact, act):
        """Send what was done by the job as it was seen at the beginning of the hour."""
        after = copied(seen["document"])
        act(after)
        operations = copied(between(seen["document"], after))
        key = "".join(sign for sign in fact if sign.isalnum())
        asked = {"key": key, "rev": seen["rev"], "operations": operations, "note": fact, "from": self.name}
        answered = self.ask("POST", f"/api/jobs/{job}/operations", json=asked)
        self.taken(job, fact, answered)
        self.last, self.clashed = answered.json()["rev"], bool(answered.json()["clashes"])
        if fact.startswith("hold") and self.number % 2:
            again = self.ask("POST", f"/api/jobs/{job}/operations", json=asked).json()
            assert again["repeated"] and again["rev"] >= self.last
            self.day["evening"].repeated["operations"] += 1

    def taken(self, job, fact, answered):
        assert answered.status_code == 200, (fact, answered.text)
        self.day["evening"].facts.append((job, fact, answered.json()["rev"], self.id))


@pytest.fixture(scope="module")
def day(tmp_path_factory):
    """The whole day, worked."""
    installation = open_installation(tmp_path_factory.mktemp("day") / "jobs.sqlite")
    store, jobs, amounts = installation.first, [], []
    look = {"name": LOOK, "kind": "formation", "area": "Terrace", "date": DAY, "readings": []}
    for number in range(JOBS):
        document, more = marked(json.loads(demo_document()), FIRST + 1_000_000 * number)
        document |= {"site_days": [], "hold_checks": [look]}
        jobs.append(store.add(json.dumps(document)).id)
        amounts += more
    app = make_app(installation, Workers({}))
    with TestClient(app, base_url="http://127.0.0.1", raise_server_exceptions=False) as browser:
        found = {"installation": installation, "store": store, "jobs": jobs, "browser": browser, "marks": amounts}
        found |= {"evening": Evening(), "together": threading.Barrier(len(CREW + OFFICE), timeout=120)}
        people = [OnSite(found, name) for name in (*CREW, *OFFICE)]
        with ThreadPoolExecutor(len(people)) as site:
            for hour in HOURS:
                list(site.map(lambda who, now=hour: who.hour(now), people))
        yield found
    installation.close()


def documents(day):
    return {job: json.loads(day["store"].job(job).document) for job in day["jobs"]}


def test_all_that_was_taken_is_in_once_and_in_its_own_job(day):
    there = {job: Counter(words_in(document)) for job, document in documents(day).items()}
    facts = day["evening"].facts
    assert len(facts) == len(HOURS) * (3 * len(CREW) + len(OFFICE))
    wrong = [(job, fact, there[job][fact]) for job, fact, _, _ in facts if there[job][fact] != 1]
    elsewhere = [fact for job, fact, _, _ in facts if any(there[each][fact] for each in day["jobs"] if each != job)]
    assert (wrong, elsewhere) == ([], [])
    assert day["evening"].repeated["deliveries"] > 6 and day["evening"].repeated["operations"] > 6
    for document in documents(day).values():
        parse(load_document(json.dumps(document)))
        logs = [each["name"] for each in document["site_days"]]
        assert sorted(logs) == sorted(set(logs))
        for log in document["site_days"]:
            minutes = [each["mixed_min"] for each in log["mixed"]]
            assert minutes == sorted(minutes) and {each % 60 for each in minutes} == {CREW.index(log["name"])}


def test_what_the_office_entered_of_money_stands_in_the_job_in_a_clash_or_was_replaced_knowingly(day):
    entered = day["evening"].amounts
    with day["store"]._engine.connect() as connection:
        for job, document in documents(day).items():
            bodies = connection.execute(sa.select(CLASHES.c.body).where(CLASHES.c.job_id == job)).scalars().all()
            logs = connection.execute(sa.select(OPERATIONS.c.landed).where(OPERATIONS.c.job_id == job)).scalars().all()
            kept = set(numbers_in([document, *map(json.loads, bodies), *map(json.loads, logs)]))
            assert [amount for each, amount in entered if each == job and amount not in kept] == []


def test_each_revision_says_who_made_it(day):
    who = {(job, one.rev): one.who for job in day["jobs"] for one in day["store"].revisions(job)}
    assert [(job, fact) for job, fact, rev, person in day["evening"].facts if who[job, rev] != person] == []
    made = Counter((job, rev) for job, _, rev, _ in day["evening"].facts)
    assert set(made.values()) == {1}
    # nothing was kept that nobody sent: the first revision of each job is of the morning
    assert set(who) - set(made) == {(job, 1) for job in day["jobs"]}


def test_the_crew_saw_no_amount_of_money_all_day(day):
    amounts = day["marks"] + [amount for _, amount in day["evening"].amounts]
    read = day["evening"].read
    assert len(read) > len(HOURS) * len(CREW) * 5
    assert [(method, path, found[:3]) for method, path, text in read if (found := amounts_in(text, amounts))] == []
    assert set(day["evening"].refused) == {403}
    # the marks would be found: an answer to the office holds them
    kept = day["store"].job(day["jobs"][0]).document
    assert amounts_in(kept, amounts)


def words_in(value):
    """All texts of a JSON value, each as often as it stands there."""
    if isinstance(value, dict):
        return [found for each in value.values() for found in words_in(each)]
    if isinstance(value, list):
        return [found for each in value for found in words_in(each)]
    return [value] if isinstance(value, str) else []
