#!/usr/bin/env python3
"""Many at one server: a real day of several firms, by so many clients for so many seconds, then by more of them.

    .venv/bin/python tools/load_server.py 50 200 --seconds 60 --firms 4

A server of its own over an empty store. The people of each firm (owner, office, crew) sign in by their passwords, its
customers come by their links, each from an address of its own. Most stay signed in from the day before, as devices do.
They open lists and jobs, change jobs, plan, look at the calendar and at what is due, write the site log, make papers,
read price lists, ask questions. Printed for each kind: how many, how many failed (an answer of 500 and above, a refusal
without a reason, no answer within the time), how many were asked to wait (429) or came second (409), the median, the
95th percentile, the longest; what the greater number of clients makes of it; and the time of the processor. At the end
the server is stopped and all that it acknowledged is read back from the store.
"""

from __future__ import annotations

import argparse
import http.client
import itertools
import json
import os
import random
import select
import statistics
import sys
import tempfile
import threading
import time
from collections import Counter, defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote, urlencode

import argon2

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT / "tests" / "browser"))
from served import Served  # noqa: E402 - after the path

from pavewright.desk import demo_document  # noqa: E402 - after the path
from pavewright.job.operations import between  # noqa: E402 - after the path
from pavewright.store import open_installation  # noqa: E402 - after the path
from pavewright.web.sign_in._keys import SLOW  # noqa: E402 - after the path

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from pavewright.store import Installation

THINKING_S = (5.0, 15.0)
"""How long a person looks at what came before the next thing is asked: evenly between both. [s]"""
COMING_S = 0.1
"""Clients come one after the other within this part of the time. [-]"""
ANSWER_S, PAPERS_S = 30.0, 180.0
"""No answer after so long counts as failed; papers, which a page waits for with a bar, may take longer. [s]"""
JOBS_EACH = 6
"""Jobs of each firm; as many people as there are work on them."""
PASSWORD = "wet gloves twice a day"  # noqa: S105 - of nobody
ROLES = ("owner", "office", "office", "office", "crew", "crew", "crew", "crew", "customer", "customer")
"""Who comes, in turn."""
DAYS = {
    "office": {
        "list": 15,
        "job": 12,
        "save": 12,
        "plan": 12,
        "due": 6,
        "calendar": 6,
        "price list": 2,
        "papers": 1,
        "sign-in": 1,
    },
    "crew": {"list": 3, "job": 3, "site plan": 8, "site log": 6, "calendar": 2, "due": 1, "sign-in": 1},
    "customer": {"quotation": 6, "total": 4, "pdf": 2, "question": 1},
}
"""What each does, and how often of all that he does: assumed, nobody counted a day."""
_PATIO = json.loads((ROOT / "tests" / "patio.json").read_text("utf-8"))
_BOOK = json.loads((ROOT / "examples" / "firm" / "book.json").read_text("utf-8"))
_FAILED, _WAIT, _SECOND, _SIGN_IN = 500, 429, 409, 401
_GOOD = range(200, 400)


@dataclass(frozen=True)
class Kept:
    """Something that the server said is kept.

    Attributes:
        firm: Name of the firm.
        kind: What it was.
        job: The job; empty for what belongs to none.
        name: By what it is known again.
    """

    firm: str
    kind: str
    job: str
    name: str


@dataclass
class Reported:
    """What a number of clients saw, by kind.

    Attributes:
        times_ms: How long good answers took.
        failed: What failed, in words.
        waits: How many were asked to wait.
        seconds: How many came second.
        kept: What was acknowledged.
    """

    times_ms: defaultdict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    failed: defaultdict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    waits: Counter[str] = field(default_factory=Counter)
    seconds: Counter[str] = field(default_factory=Counter)
    kept: list[Kept] = field(default_factory=list)


@dataclass(frozen=True)
class Firm:
    """A firm under load: its name in the store, its jobs, and the links of its customers."""

    id: str
    jobs: tuple[str, ...]
    links: tuple[str, ...]


class Browser:
    """A connection of one person, kept open, with the cookies of a browser and an address of its own."""

    def __init__(self, port: int, number: int, patience_s: float = ANSWER_S) -> None:
        self.cookies: dict[str, str] = {}
        self._port, self._number = port, number
        where = f"127.{1 + number // 65_025}.{1 + number // 255 % 255}.{1 + number % 255 % 254}"
        self._connection = http.client.HTTPConnection(
            "127.0.0.1", port, timeout=patience_s, source_address=(where, 0) if sys.platform == "linux" else None
        )

    def close(self) -> None:
        """End the connection."""
        self._connection.close()

    def again(self) -> Browser:
        """Return the same browser with a new connection in the place of this one."""
        self.close()
        other = Browser(self._port, self._number)
        other.cookies = dict(self.cookies)
        return other

    def ask(self, method: str, path: str, body: object = None, media: str = "application/json") -> tuple[int, bytes]:
        """Return status and answer.

        Raises:
            OSError: no whole answer came in time.
        """
        content = body if body is None or isinstance(body, bytes) else json.dumps(body).encode()
        headers = {"Content-Type": media} if content is not None else {}
        headers["Cookie"] = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        self._let_go_of_closed()
        try:
            self._connection.request(method, path, content, headers)
            answer = self._connection.getresponse()
            text = answer.read()
        except (http.client.HTTPException, OSError) as problem:
            self._connection.close()
            raise OSError(repr(problem)) from problem
        for line in answer.headers.get_all("Set-Cookie") or ():
            name, _, value = line.partition(";")[0].partition("=")
            self.cookies[name] = value
        return answer.status, text

    def _let_go_of_closed(self) -> None:
        """Open a new connection, as browsers do, where the server closed the one that nobody used for some seconds."""
        if self._connection.sock is not None and select.select([self._connection.sock], [], [], 0.0)[0]:
            self._connection.close()

    def sign_in(self, name: str) -> int:
        """Sign in as the form of the page does, and return the status."""
        form = urlencode({"sign_in": name, "password": PASSWORD, "code": ""}).encode()
        status, _ = self.ask("POST", "/sign-in", form, "application/x-www-form-urlencoded")
        self.ask("GET", "/")
        return status


class Client:
    """Somebody who works until the time is over."""

    def __init__(self, browser: Browser, firm: Firm, who: tuple[int, str], reported: Reported) -> None:
        self.browser, self.firm, self.reported = browser, firm, reported
        number, self.sign_in = who
        self.number, self.chance, self.counted = number, random.Random(number), itertools.count()
        self.open: dict[str, tuple[int, dict[str, Any]]] = {}

    def run(self, begin_s: float, until: float) -> None:
        """Do one thing after the other."""
        time.sleep(begin_s)
        role = self.sign_in.partition("-")[0] or "customer"
        day = DAYS["office" if role == "owner" else role]
        while time.monotonic() < until:
            kind = self.chance.choices(list(day), list(day.values()))[0]
            getattr(self, "do_" + kind.replace(" ", "_").replace("-", "_"))()
            time.sleep(self.chance.uniform(*THINKING_S))
        self.browser.close()

    def timed(self, kind: str, ask: Callable[[], tuple[int, bytes]]) -> bytes | None:
        """Return a good answer, and note how long it took; None and why where there is none."""
        begun = time.perf_counter()
        try:
            status, text = ask()
        except OSError as problem:
            self.reported.failed[kind].append(f"no answer: {problem}")
            return None
        if status in _GOOD:
            self.reported.times_ms[kind].append(1e3 * (time.perf_counter() - begun))
            return text
        if status == _SIGN_IN and self.sign_in:  # an answer that brought a cookie was lost: the page leads to the form
            self.do_sign_in()
        if status == _WAIT:
            self.reported.waits[kind] += 1
        elif status == _SECOND:
            self.reported.seconds[kind] += 1
        else:
            self.reported.failed[kind].append(f"{status} {text[:160].decode('utf-8', 'replace')}")
        return None

    def get(self, kind: str, path: str) -> bytes | None:
        """Ask for something."""
        return self.timed(kind, lambda: self.browser.ask("GET", path))

    def post(self, kind: str, path: str, body: object, media: str = "application/json") -> bytes | None:
        """Send something."""
        return self.timed(kind, lambda: self.browser.ask("POST", path, body, media))

    def note(self, kind: str, job: str, name: str) -> None:
        """Note that something was acknowledged."""
        self.reported.kept.append(Kept(self.firm.id, kind, job, name))

    def named(self) -> str:
        """Return a name that nothing else has."""
        return f"c{self.number}-{next(self.counted)}"

    def do_sign_in(self) -> None:
        """Sign in once more."""
        self.timed("sign-in", lambda: (self.browser.sign_in(self.sign_in), b""))

    def do_list(self) -> None:
        """Look for jobs."""
        self.get("list", "/api/jobs?words=" + quote(self.chance.choice(("", "job", "patio"))))

    def do_job(self) -> str:
        """Open one of the firm's jobs, and return its name."""
        job = self.chance.choice(self.firm.jobs)
        text = self.get("job", f"/api/jobs/{job}")
        if text is not None:
            kept = json.loads(text)
            self.open[job] = (kept["rev"], kept["document"])
        return job

    def _at(self) -> str | None:
        """Return the job that is open here; None where none could be opened."""
        job = next(reversed(self.open), None) or self.do_job()
        return job if job in self.open else None

    def do_save(self) -> None:
        """Change the joint of an area, and look at the plan as the page does."""
        if (job := self._at()) is None:
            return
        rev, document = self.open[job]
        changed, name = json.loads(json.dumps(document)), self.named()
        changed["areas"][0]["laying"]["joint_mm"] = 6.0 + self.chance.randrange(80) / 10
        body = {"key": name, "rev": rev, "operations": list(between(document, changed)), "note": name}
        text = self.post("save", f"/api/jobs/{job}/operations", body)
        if text is not None:
            answer = json.loads(text)
            self.open[job] = (answer["rev"], answer.get("document") or changed)
            self.note("save", job, name)
        self.do_plan()

    def do_site_log(self) -> None:
        """Write a day into the site log."""
        if (job := self._at()) is None:
            return
        (rev, document), name = self.open[job], self.named()
        day = {"name": name, "date": "2027-06-01", "note": "invented"}
        changed = document | {"site_days": [*document.get("site_days", []), day]}
        entries = list(between(document, changed))
        body = {"id": name, "kind": "operations", "rev": rev, "entries": entries, "note": name}
        text = self.post("site log", f"/api/jobs/{job}/deliveries", body)
        if text is not None:
            self.open[job] = (json.loads(text)["rev"], changed)
            self.note("site log", job, name)

    def do_plan(self) -> None:
        """Look at the plan of the job that is open."""
        if (job := self._at()) is not None:
            self.post("plan", "/api/plan", self.open[job][1])

    def do_site_plan(self) -> None:
        """Take a job along to the site."""
        self.get("site plan", f"/api/jobs/{self.chance.choice(self.firm.jobs)}/site-plan")

    def do_due(self) -> None:
        """Look at what is due."""
        self.get("due", "/api/due")

    def do_calendar(self) -> None:
        """Look at the calendar."""
        self.get("calendar", "/api/calendar")

    def do_price_list(self) -> None:
        """Read a price list, and take it into the book."""
        book = self.get("book", "/api/firm")
        if book is None:
            return
        supplier, price = self.named(), 5 + self.chance.randrange(500) / 100
        query, listed = price_list(supplier, price)
        shown = self.post("price list", f"/api/firm/prices?{query}", listed, "text/csv")
        if shown is None:
            return
        query, _ = price_list(supplier, price, rev=json.loads(book)["rev"], uses=json.loads(shown)["suggested"])
        if self.post("price list", f"/api/firm/prices/take?{query}", listed, "text/csv") is not None:
            self.note("price list", "", supplier)

    def do_papers(self) -> None:
        """Have a quotation made, and wait for it as the page does."""
        if (job := self._at()) is not None:
            begun = {"verb": "paper", "paper": "quotation", "document": self.open[job][1]}
            self.timed("papers", lambda: self._made(begun))

    def _made(self, begun: dict[str, Any]) -> tuple[int, bytes]:
        status, text = self.browser.ask("POST", "/api/long-tasks", begun)
        name, until = "", time.monotonic() + PAPERS_S
        while status in _GOOD and time.monotonic() < until:
            name = json.loads(text).get("long_task") or name
            status, text = self.browser.ask("GET", f"/api/long-tasks/{name}")
            if json.loads(text).get("state") == "done":
                return self.browser.ask("GET", f"/api/long-tasks/{name}/papers/all.zip")
            if json.loads(text).get("state") not in {"waiting", "working"}:
                return _FAILED, text
            time.sleep(0.5)
        return (_FAILED, b"not done in time") if status in _GOOD else (status, text)

    def _link(self) -> str:
        return self.firm.links[self.number % len(self.firm.links)]

    def do_quotation(self) -> None:
        """Open the link."""
        self.get("quotation", self._link())

    def do_total(self) -> None:
        """Look at the total."""
        self.get("total", f"{self._link()}/total")

    def do_pdf(self) -> None:
        """Open the quotation as a file."""
        self.get("pdf", f"{self._link()}/quotation.pdf")

    def do_question(self) -> None:
        """Ask the contractor something."""
        words = self.named()
        form = urlencode({"words": words}).encode()
        sent = self.post("question", f"{self._link()}/questions", form, "application/x-www-form-urlencoded")
        if sent is not None:
            self.note("question", "", words)


def price_list(supplier: str, price: float, **more: object) -> tuple[str, bytes]:
    """Return a price list with one line, and what stands in the address with it."""
    listed = f"Code,Description,Unit,Price\nC1,Cement,25 kg,{price:.2f}\n".encode()
    return urlencode({"asked": json.dumps({"supplier": supplier, "on": "2026-11-01"} | more)}), listed


def people_of(installation: Installation, firms: int, clients: int) -> list[tuple[str, str]]:
    """Enter firms and people into an empty store; return of each client the firm and as whom he signs in."""
    digest = argon2.PasswordHasher.from_parameters(SLOW).hash(PASSWORD)
    ids = [installation.first_id, *(installation.accounts.add_firm(f"Firm {one}").id for one in range(1, firms))]
    found, firm_of = [], itertools.cycle(ids)
    for number in range(max(clients, firms * len(ROLES))):
        firm, role = next(firm_of), ROLES[number // firms % len(ROLES)]
        name = "" if role == "customer" else f"{role}-{number}"
        if name:
            person = installation.accounts.add_person(name, name.title())
            installation.accounts.keep_password(person.id, digest)
            installation.accounts.join(person.id, firm, role)
        found.append((firm, name))
    return found


def firm_made(port: int, firm: str, owner: str, links: int) -> Firm:
    """Fill a firm as its owner would: the book, a price list, jobs, a plan, and links for customers.

    Whoever works for each kind of request has loaded by then, as at a server that was started in the morning.

    Raises:
        RuntimeError: the server refuses.
    """
    browser = Browser(port, 60_000, PAPERS_S)
    browser.sign_in(owner)

    def sent(method: str, path: str, body: object, media: str = "application/json") -> Any:  # noqa: ANN401
        status, text = browser.ask(method, path, body, media)
        if status not in _GOOD:
            message = f"{method} {path}: {status} {text[:300]!r}"
            raise RuntimeError(message)
        return json.loads(text)

    sent("PUT", "/api/firm", {"rev": 0, "document": _BOOK, "note": "invented"})
    query, listed = price_list("first", 5.0)
    sent("POST", f"/api/firm/prices?{query}", listed, "text/csv")
    sent("POST", "/api/plan", _PATIO)
    day = {"name": "first", "date": "2027-05-31", "note": "invented"}
    made = []
    for number in range(JOBS_EACH):
        title = {"title": f"Job {number}", "client": f"Client {number}"}
        document = _PATIO | {"identity": _PATIO["identity"] | title, "site_days": [day]}
        made.append(sent("POST", "/api/jobs", {"document": document, "key": f"job-{number}"})["id"])
    shown = json.loads(demo_document())
    shown["units"][0]["supplier"] = "Hidden Valley Merchants"
    quoted = sent("POST", "/api/jobs", {"document": shown, "key": "quoted"})["id"]
    asked = {"withdraw_others": False}
    ways = [sent("POST", f"/api/jobs/{quoted}/quotations", asked)["ways"][0]["address"] for _ in range(links)]
    browser.close()
    return Firm(firm, tuple(made), tuple("/quotation/" + each.rpartition("/quotation/")[2] for each in ways))


def signed_in(port: int, made: dict[str, Firm], people: list[tuple[str, str]]) -> list[tuple[Browser, Firm, str]]:
    """Let everybody sign in on a device of his own.

    Raises:
        RuntimeError: somebody is refused.
    """
    found = []
    for number, (firm, name) in enumerate(people):
        browser = Browser(port, number, PAPERS_S)
        if name and browser.sign_in(name) not in _GOOD:
            message = f"{name} cannot sign in"
            raise RuntimeError(message)
        found.append((browser.again(), made[firm], name))
    return found


def worked(who: Iterable[tuple[Browser, Firm, str]], seconds: float, numbers: Iterable[int]) -> Reported:
    """Let clients work for so long, and return what they saw. [s]."""
    reported = Reported()
    until = time.monotonic() + seconds
    threads = []
    for number, (browser, firm, name) in zip(numbers, who, strict=False):
        client = Client(browser.again(), firm, (number, name), reported)
        begin_s = COMING_S * seconds * client.chance.random()
        threads.append(threading.Thread(target=client.run, args=(begin_s, until)))
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return reported


def read_back(data: Path, kept: Iterable[Kept]) -> tuple[list[Kept], list[Kept]]:
    """Return what was acknowledged and is not in the store, and what is there more than once."""
    lost, doubled = [], []
    installation = open_installation(data)
    for (firm, job), ones in _grouped(kept).items():
        store = installation.store_of(firm)
        found: Counter[str] = Counter()
        if job:
            found.update(each.note for each in store.revisions(job))
            days = Counter(each["name"] for each in json.loads(store.job(job).document)["site_days"])
        else:
            found.update(each.words for each in store.quotations.questions())
            found.update(each.note.removeprefix("price list of ") for each in store.firm.revisions())
        for one in ones:
            count = found[one.name]
            if one.kind == "site log":
                count = max(count, days[one.name]) if count and days[one.name] else 0
            (lost if count == 0 else doubled if count > 1 else []).append(one)
    installation.close()
    return lost, doubled


def _grouped(kept: Iterable[Kept]) -> dict[tuple[str, str], list[Kept]]:
    found: defaultdict[tuple[str, str], list[Kept]] = defaultdict(list)
    for one in kept:
        found[one.firm, one.job].append(one)
    return found


def loaded(data: Path, counts: tuple[int, ...], seconds: float, firms: int) -> dict[int, Reported]:
    """Return what each number of clients saw at a server of its own over an empty store. [s].

    Raises:
        RuntimeError: the server refuses what fills the firms, or somebody who signs in.
    """
    installation = open_installation(data)
    people = people_of(installation, firms, max(counts))
    installation.close()
    served = Signed(data)
    try:
        first = {firm: name for firm, name in reversed(people) if name.startswith("owner")}
        made = {firm: firm_made(served.port, firm, name, links=1) for firm, name in first.items()}
        who = signed_in(served.port, made, people)
        found = {}
        for turn, count in enumerate(counts):
            before = processor_s(served.process.pid)
            found[count] = worked(who[:count], seconds, itertools.count(turn * 10_000))
            used = tuple(now - then for now, then in zip(processor_s(served.process.pid), before, strict=True))
            answers = sum(map(len, found[count].times_ms.values()))
            print(
                f"{count} clients: {answers} good; processor: {used[0]:.1f} s of the server, {used[1]:.1f} s of "
                f"its workers; memory {memory_mb(served.process.pid)} MB",
                flush=True,
            )
    finally:
        served.stop()
    return found


class Signed(Served):
    """A server of its own at which everybody signs in."""

    def __init__(self, data: Path) -> None:  # no demo: nobody may make one without signing in
        self.data, self.options, self.port = data, (), 0
        self.start()

    def call(self, method: str, path: str, body: object = None, cookie: str | None = None) -> Any:  # noqa: ANN401
        """Ask whether it is there; what needs no sign-in answers that."""
        return super().call(method, "/health" if path == "/api/jobs" else path, body, cookie)


def processor_s(server: int) -> tuple[float, float]:
    """Return the processor's time so far of the server, and of all that it started and that still works. [s]."""
    tick, own, others = os.sysconf("SC_CLK_TCK"), 0.0, 0.0
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if int(stat.parent.name) == server:
            own = (int(fields[11]) + int(fields[12])) / tick
            others += (int(fields[13]) + int(fields[14])) / tick
        elif int(fields[1]) == server:
            others += (int(fields[11]) + int(fields[12])) / tick
    return own, others


def memory_mb(server: int) -> list[int]:
    """Return the memory of the server and of all that it started. [MB]."""
    found = []
    for status in Path("/proc").glob("[0-9]*/status"):
        try:
            fields = dict(line.split(":", 1) for line in status.read_text().splitlines())
        except OSError:
            continue
        if int(status.parent.name) == server or int(fields["PPid"]) == server:
            found.append(int(fields.get("VmRSS", "0 kB").split()[0]) // 1024)
    return sorted(found)


def p95(ordered: list[float]) -> float:
    """Return the 95th percentile of numbers in their order."""
    return ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]


def tell(count: int, seconds: float, reported: Reported) -> None:
    """Print what a number of clients saw."""
    kinds = sorted({*reported.times_ms, *reported.failed, *reported.waits, *reported.seconds})
    failed = sum(map(len, reported.failed.values()))
    print(f"\n{count} clients for {seconds:.0f} s, {failed} failed; ms\n")
    print("| asked | good | failed | to wait | came second | median | 95 % | longest |")
    print("|---|---|---|---|---|---|---|---|")
    for kind in kinds:
        times = sorted(reported.times_ms[kind]) or [float("nan")]
        good, bad = len(reported.times_ms[kind]), len(reported.failed[kind])
        numbers = (good, bad, reported.waits[kind], reported.seconds[kind])
        lasted = (statistics.median(times), p95(times), times[-1])
        cells = [kind, *map(str, numbers), *(f"{each:.0f}" for each in lasted)]
        print("| " + " | ".join(cells) + " |")
    for kind in kinds:
        for words, often in Counter(reported.failed[kind]).most_common(5):
            print(f"{kind}, {often} times: {words}")


def tell_growth(few: Reported, many: Reported) -> None:
    """Print what more clients make of each kind, as a ratio."""
    print("\n| asked | median, more to fewer | 95 %, more to fewer |\n|---|---|---|")
    for kind in sorted({*few.times_ms} & {*many.times_ms}):
        one, other = (sorted(each.times_ms[kind]) for each in (few, many))
        if one and other:
            ratios = (statistics.median(other) / statistics.median(one), p95(other) / p95(one))
            print(f"| {kind} | {ratios[0]:.1f} | {ratios[1]:.1f} |")


def main() -> None:
    """Start a server of its own, let the clients work, print what came of it."""
    asked = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    asked.add_argument("clients", type=int, nargs="*", default=[50, 200])
    asked.add_argument("--seconds", type=float, default=60.0)
    asked.add_argument("--firms", type=int, default=4)
    told = asked.parse_args()
    before = os.getloadavg()[0]
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder) / "jobs.sqlite"
        found = loaded(data, tuple(told.clients), told.seconds, told.firms)
        kept = [each for reported in found.values() for each in reported.kept]
        lost, doubled = read_back(data, kept)
    for count, reported in found.items():
        tell(count, told.seconds, reported)
    for (_, few), (_, many) in itertools.pairwise(found.items()):
        tell_growth(few, many)
    by_kind = Counter(each.kind for each in kept)
    print(f"\n{len(kept)} things were acknowledged ({by_kind}); {len(lost)} lost, {len(doubled)} doubled", flush=True)
    print(f"load of the machine: {before:.1f} before, {os.getloadavg()[0]:.1f} after")
    failed = any(any(reported.failed.values()) for reported in found.values())
    sys.exit(1 if failed or lost or doubled else 0)


if __name__ == "__main__":
    main()
