"""What each route asks of whoever comes: a right, being signed in, or nothing. What is not listed is refused."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.people import Right

if TYPE_CHECKING:
    from pavewright.web._who_asks import SignedIn


@dataclass(frozen=True, slots=True)
class Need:
    """What a route asks.

    Attributes:
        rights: Rights that all have to be there.
        is_public: Whether it is answered to everybody: nothing of a firm is told, or the address itself is a key.
        by_hand: Whether a person has to be signed in on a device: a program with a token is refused.
        from_here: Whether this machine is answered without signing in: its programs watch over the server.
        noted: What stands in the list of who did what, where it was done; empty where that is no matter.
    """

    rights: frozenset[Right] = frozenset()
    is_public: bool = False
    by_hand: bool = False
    from_here: bool = False
    noted: str = ""

    def allows(self, asks: SignedIn) -> bool:
        """Return whether somebody may come in."""
        return self.rights <= asks.rights and not (self.by_hand and asks.token_id is not None)


PUBLIC = Need(is_public=True)
SIGNED = Need()
OWN = Need(by_hand=True)


def _needs(*rights: Right, noted: str = "", by_hand: bool = False) -> Need:
    return Need(frozenset(rights), noted=noted, by_hand=by_hand)


_READ = _needs(Right.READ_JOBS)
_CHANGE = _needs(Right.READ_JOBS, Right.CHANGE_JOBS)
_SITE = _needs(Right.READ_JOBS, Right.SITE)
_MONEY = _needs(Right.READ_JOBS, Right.SEE_MONEY)
_PRICES = _needs(Right.READ_JOBS, Right.SEE_MONEY, Right.CHANGE_MONEY)
_QUOTE = _needs(Right.READ_JOBS, Right.SEE_MONEY, Right.QUOTE)
_BOOK = _needs(Right.SEE_MONEY)
_KEEP_BOOK = _needs(Right.SEE_MONEY, Right.FIRM_BOOK)
_REPLAN = _needs(Right.READ_JOBS, Right.SEE_MONEY, Right.RUN_LONG)
_DEVICES = _needs(Right.DEVICES, by_hand=True)
_CALENDAR = _needs(Right.READ_JOBS, Right.CALENDAR)
_FEEDS = _needs(Right.READ_JOBS, Right.CALENDAR, noted="feed made")
_PEOPLE = _needs(Right.PEOPLE, by_hand=True)
_PROGRAMS = _needs(Right.TOKENS, by_hand=True)

RIGHTS: dict[tuple[str, str], Need] = {
    # jobs
    ("GET", "/api/jobs"): _READ,
    ("POST", "/api/jobs"): _CHANGE,
    ("POST", "/api/documents/up-to-date"): _READ,
    ("GET", "/api/jobs/{job}"): _READ,
    # a whole document holds the money too: who does not see it changes a job by operations
    ("PUT", "/api/jobs/{job}"): _needs(Right.READ_JOBS, Right.CHANGE_JOBS, Right.SEE_MONEY, Right.CHANGE_MONEY),
    ("DELETE", "/api/jobs/{job}"): _needs(Right.READ_JOBS, Right.CHANGE_JOBS, Right.CHANGE_MONEY, noted="job removed"),
    ("POST", "/api/jobs/{job}/deleted"): _needs(Right.READ_JOBS, Right.CHANGE_JOBS, noted="job deleted"),
    ("POST", "/api/jobs/{job}/archived"): _CHANGE,
    ("GET", "/api/jobs/{job}/revisions"): _READ,
    ("GET", "/api/jobs/{job}/revisions/{rev:int}"): _READ,
    ("GET", "/api/jobs/{job}/document.json"): _needs(Right.READ_JOBS, Right.SEE_MONEY, noted="job taken away"),
    ("POST", "/api/jobs/{job}/operations"): _CHANGE,
    ("POST", "/api/jobs/{job}/clashes/{clash}"): _CHANGE,
    # who changes what, told at once, and who is where
    ("GET", "/api/live"): _READ,
    ("POST", "/api/jobs/{job}/here"): _needs(Right.READ_JOBS, by_hand=True),
    # the order book
    ("GET", "/api/places"): _READ,
    ("GET", "/api/due"): _READ,
    ("GET", "/api/money-weeks"): _MONEY,
    ("POST", "/api/jobs/{job}/state"): _CHANGE,
    ("GET", "/api/views"): _READ,
    ("POST", "/api/views"): _CHANGE,
    ("DELETE", "/api/views/{view}"): _CHANGE,
    ("GET", "/api/templates"): _READ,
    ("POST", "/api/templates"): _CHANGE,
    ("DELETE", "/api/templates/{template}"): _CHANGE,
    ("GET", "/api/pages"): SIGNED,
    # plans
    ("POST", "/api/plan"): _READ,
    ("POST", "/api/outcome"): _READ,
    ("POST", "/api/cash"): _MONEY,
    ("POST", "/api/site-log"): _MONEY,
    ("POST", "/api/site-water"): _READ,
    ("POST", "/api/reprice"): _MONEY,
    ("POST", "/api/quote"): _QUOTE,
    ("POST", "/api/preview"): _READ,
    ("POST", "/api/drains"): _READ,
    ("POST", "/api/changes"): _READ,
    ("POST", "/api/drawings/{name}"): _READ,
    ("GET", "/api/jobs/{job}/customer"): _MONEY,
    ("POST", "/api/exchange/{kind}"): _READ,
    ("GET", "/api/schema"): SIGNED,
    ("GET", "/api/openapi.json"): PUBLIC,
    ("GET", "/api/docs"): PUBLIC,
    ("GET", "/api/search"): SIGNED,
    ("GET", "/api/sums"): SIGNED,
    ("POST", "/api/sums"): SIGNED,
    ("POST", "/api/files"): _CHANGE,
    ("POST", "/api/weather"): _CHANGE,
    ("POST", "/api/better"): _needs(Right.READ_JOBS, Right.SEE_MONEY, Right.RUN_LONG),
    ("GET", "/api/better/{long_task}"): _MONEY,
    ("POST", "/api/replans"): _REPLAN,
    ("GET", "/api/replans"): _REPLAN,
    ("GET", "/api/replans/{run}"): _REPLAN,
    ("GET", "/api/replans/{run}/table"): _REPLAN,
    ("DELETE", "/api/replans/{run}"): _REPLAN,
    ("POST", "/api/long-tasks"): _READ,
    ("GET", "/api/long-tasks/{long_task}"): _READ,
    ("DELETE", "/api/long-tasks/{long_task}"): _READ,
    ("GET", "/api/long-tasks/{long_task}/result"): _READ,
    ("GET", "/api/long-tasks/{long_task}/papers"): _READ,
    ("GET", "/api/long-tasks/{long_task}/papers/{name:path}"): _READ,
    ("POST", "/api/account"): _MONEY,
    ("POST", "/api/account/step"): _PRICES,
    # on site
    ("GET", "/api/jobs/{job}/site-plan"): _READ,
    ("GET", "/api/jobs/{job}/site-water"): _READ,
    ("POST", "/api/jobs/{job}/deliveries"): _SITE,
    ("GET", "/api/jobs/{job}/photos"): _READ,
    ("POST", "/api/jobs/{job}/photos"): _SITE,
    ("GET", "/api/jobs/{job}/photos/{photo}"): _READ,
    ("DELETE", "/api/jobs/{job}/photos/{photo}"): _SITE,
    ("GET", "/jobs/{job}/site-sheet.html"): _READ,
    # the record
    ("GET", "/api/jobs/{job}/record"): _MONEY,
    ("POST", "/api/jobs/{job}/record/tokens"): _needs(Right.READ_JOBS, Right.SEE_MONEY, Right.CHANGE_JOBS),
    ("GET", "/api/jobs/{job}/record/{name}"): _needs(Right.READ_JOBS, Right.SEE_MONEY, noted="record taken away"),
    # the firm's book
    ("GET", "/api/firm"): _BOOK,
    ("PUT", "/api/firm"): _KEEP_BOOK,
    ("POST", "/api/firm/check"): _KEEP_BOOK,
    ("GET", "/api/firm/schema"): SIGNED,
    ("GET", "/api/firm/document.json"): _needs(Right.SEE_MONEY, noted="book taken away"),
    ("GET", "/api/firm/units"): _READ,
    ("GET", "/api/firm/revisions"): _BOOK,
    ("GET", "/api/firm/revisions/{rev:int}"): _BOOK,
    ("POST", "/api/firm/prices"): _KEEP_BOOK,
    ("POST", "/api/firm/prices/take"): _KEEP_BOOK,
    ("POST", "/api/firm/logo"): _KEEP_BOOK,
    # the calendar
    ("GET", "/api/calendar"): _READ,
    ("PUT", "/api/calendar"): _CALENDAR,
    ("POST", "/api/calendar/move"): _CALENDAR,
    ("POST", "/api/calendar/arrange"): _CALENDAR,
    ("GET", "/api/calendar/arrange/{long_task}"): _CALENDAR,
    ("GET", "/api/calendar/sheet"): _READ,
    ("POST", "/api/calendar/people"): _CALENDAR,
    ("GET", "/api/calendar/revisions"): _READ,
    ("GET", "/api/calendar/revisions/{rev:int}"): _READ,
    ("GET", "/api/calendar/feeds"): _CALENDAR,
    ("POST", "/api/calendar/feeds"): _FEEDS,
    ("DELETE", "/api/calendar/feeds/{feed}"): _CALENDAR,
    ("GET", "/feeds/{firm}/{token}.ics"): PUBLIC,
    # quotations
    ("GET", "/api/jobs/{job}/quotations"): _MONEY,
    ("POST", "/api/jobs/{job}/quotations"): _QUOTE,
    ("DELETE", "/api/jobs/{job}/quotations/{link}"): _QUOTE,
    ("POST", "/api/jobs/{job}/quotations/{link}/written"): _QUOTE,
    ("GET", "/api/jobs/{job}/quotations/{link}/quotation.pdf"): _MONEY,
    ("POST", "/api/jobs/{job}/questions/{question}"): _QUOTE,
    # keeping
    ("GET", "/api/backup"): _needs(Right.BACKUP, noted="backup"),
    ("POST", "/api/restore"): _needs(Right.BACKUP, noted="restored", by_hand=True),
    ("GET", "/api/devices"): _DEVICES,
    ("POST", "/api/devices/pairing"): _DEVICES,
    ("DELETE", "/api/devices/{device}"): _DEVICES,
    # people
    ("GET", "/sign-in"): PUBLIC,
    ("POST", "/sign-in"): PUBLIC,
    ("POST", "/sign-out"): PUBLIC,
    ("GET", "/join/{token}"): PUBLIC,
    ("POST", "/join/{token}"): PUBLIC,
    ("GET", "/new-password/{token}"): PUBLIC,
    ("POST", "/new-password/{token}"): PUBLIC,
    ("POST", "/api/password-strength"): PUBLIC,
    ("POST", "/api/sign-in/passkey/asked"): PUBLIC,
    ("POST", "/api/sign-in/passkey"): PUBLIC,
    ("POST", "/api/join/{token}/passkey/asked"): PUBLIC,
    ("POST", "/api/join/{token}/passkey"): PUBLIC,
    ("GET", "/api/you"): SIGNED,
    ("POST", "/api/you/password"): OWN,
    ("POST", "/api/you/codes"): OWN,
    ("POST", "/api/you/codes/begun"): OWN,
    ("DELETE", "/api/you/codes"): OWN,
    ("POST", "/api/you/passkeys/asked"): OWN,
    ("POST", "/api/you/passkeys"): OWN,
    ("DELETE", "/api/you/passkeys/{passkey}"): OWN,
    ("DELETE", "/api/you/devices/{device}"): OWN,
    ("DELETE", "/api/you/devices"): OWN,
    ("POST", "/api/you/firm"): OWN,
    ("GET", "/api/people"): _PEOPLE,
    ("POST", "/api/people/first"): _PEOPLE,
    ("POST", "/api/people/invitations"): _PEOPLE,
    ("DELETE", "/api/people/invitations/{invitation}"): _PEOPLE,
    ("PUT", "/api/people/{person}"): _PEOPLE,
    ("DELETE", "/api/people/{person}"): _PEOPLE,
    ("POST", "/api/people/{person}/new-password"): _PEOPLE,
    ("GET", "/api/people/{person}/copy.zip"): _needs(Right.PEOPLE, by_hand=True, noted="person taken away"),
    ("POST", "/api/people/{person}/erased"): _needs(Right.PEOPLE, by_hand=True, noted="person erased"),
    ("GET", "/api/firm/copy.zip"): _needs(Right.BACKUP, Right.PEOPLE, by_hand=True, noted="firm taken away"),
    ("GET", "/api/audit"): _needs(Right.AUDIT),
    # other programs
    ("GET", "/api/hooks"): _PROGRAMS,
    ("POST", "/api/hooks"): _needs(Right.TOKENS, by_hand=True, noted="address entered"),
    ("DELETE", "/api/hooks/{hook}"): _needs(Right.TOKENS, by_hand=True, noted="address deleted"),
    ("POST", "/api/hooks/{hook}/secret"): _needs(Right.TOKENS, by_hand=True, noted="secret made"),
    ("DELETE", "/api/hooks/{hook}/secret/before"): _needs(Right.TOKENS, by_hand=True, noted="secret dropped"),
    ("GET", "/api/hooks/{hook}/messages"): _PROGRAMS,
    ("POST", "/api/hooks/{hook}/messages/{message}/again"): _PROGRAMS,
    ("GET", "/api/tokens"): _PROGRAMS,
    ("POST", "/api/tokens"): _needs(Right.TOKENS, by_hand=True, noted="token made"),
    ("DELETE", "/api/tokens/{token}"): _needs(Right.TOKENS, by_hand=True, noted="token withdrawn"),
    # whoever watches over the server
    ("GET", "/health"): PUBLIC,
    ("GET", "/ready"): PUBLIC,
    ("GET", "/metrics"): Need(frozenset({Right.METRICS}), from_here=True),
    # customers, by the keys in their links
    ("GET", "/quotation/-/{name}"): PUBLIC,
    ("GET", "/quotation/{token}"): PUBLIC,
    ("POST", "/quotation/{token}"): PUBLIC,
    ("POST", "/quotation/{token}/questions"): PUBLIC,
    ("GET", "/quotation/{token}/total"): PUBLIC,
    ("GET", "/quotation/{token}/quotation.pdf"): PUBLIC,
    ("GET", "/quotation/{token}/cancellation.pdf"): PUBLIC,
    ("GET", "/quotation/{token}/pictures/{number}.svg"): PUBLIC,
    **{(method, "/quotation/{rest:path}"): PUBLIC for method in ("GET", "POST", "PUT", "PATCH", "DELETE")},
    # pages: the files of the program, which tell nothing of a firm
    ("GET", "/"): _READ,
    ("GET", "/jobs/{job}"): _READ,
    ("GET", "/jobs/{job}/site"): _READ,
    ("GET", "/jobs/{job}/walk"): _CHANGE,
    ("GET", "/jobs/{job}/customer"): _MONEY,
    ("GET", "/jobs/{job}/record"): _MONEY,
    ("GET", "/sums"): SIGNED,
    ("GET", "/devices"): _DEVICES,
    ("GET", "/firm"): _BOOK,
    ("GET", "/calendar"): _READ,
    ("GET", "/people"): _PEOPLE,
    ("GET", "/programs"): _PROGRAMS,
    ("GET", "/you"): OWN,
    ("GET", "/replan"): _REPLAN,
    ("GET", "/audit"): _needs(Right.AUDIT),
    ("GET", "/sw.js"): PUBLIC,
    ("GET", "/static/{path:path}"): PUBLIC,
}
"""What each route asks, by its method and its path; whoever adds a route adds its line."""
