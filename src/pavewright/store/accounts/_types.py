"""What the accounts hand out, and what they refuse."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Firm:
    """A firm of the installation.

    Attributes:
        id: Its name in the store.
        name: What it calls itself; empty where nobody said.
        made: When it was entered, UTC.
    """

    id: str
    name: str
    made: str


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who may sign in.

    Attributes:
        id: His name in the store.
        sign_in: What he signs in by, as he wrote it.
        name: What he is called.
        made: When he was entered, UTC.
        ended: When he ceased to belong to any firm, UTC; None while he belongs to one.
    """

    id: str
    sign_in: str
    name: str
    made: str
    ended: str | None


@dataclass(frozen=True, slots=True)
class Member:
    """A person as one of a firm.

    Attributes:
        person: The person.
        firm_id: The firm.
        role: What he is there.
        grants: What he may do beside what his role allows.
        crew_name: What he is called in the firm's book among the crew; None where he does not stand there.
        since: When he joined, UTC.
        ended: When he ceased to belong to the firm, UTC; None while he does.
    """

    person: Person
    firm_id: str
    role: str
    grants: tuple[str, ...]
    crew_name: str | None
    since: str
    ended: str | None


@dataclass(frozen=True, slots=True)
class SignIn:
    """A device on which somebody is signed in.

    Attributes:
        id: Its name in the store.
        person_id: Who is signed in.
        firm_id: The firm in which he works there.
        device: What the device says that it is.
        begun: When he signed in, UTC.
        seen: When it last asked for something, UTC.
        expires: When it has to sign in again, UTC.
    """

    id: str
    person_id: str
    firm_id: str
    device: str
    begun: str
    seen: str
    expires: str


@dataclass(frozen=True, slots=True)
class Passkey:
    """The public half of a passkey.

    Attributes:
        id: Its name in the store.
        person_id: Whose it is.
        credential: Its name, as the device gave it.
        public_key: Its public key.
        count: How often it was used, as the device counts.
        name: What its owner calls it.
        made: When it was added, UTC.
        used: When it was last used, UTC; None while it was not.
    """

    id: str
    person_id: str
    credential: bytes
    public_key: bytes
    count: int
    name: str
    made: str
    used: str | None


@dataclass(frozen=True, slots=True)
class Invitation:
    """A link by which somebody may join a firm, once.

    Attributes:
        id: Its name in the store.
        firm_id: The firm.
        role: What he will be there.
        grants: What he may do beside what his role allows.
        name: What he is called.
        sign_in: What he is to sign in by; empty where he chooses.
        by: Person who invited him.
        made: When it was made, UTC.
        expires: Until when it opens, UTC.
        used: When it was used, UTC; None while it was not.
        withdrawn: When it was withdrawn, UTC; None while it was not.
    """

    id: str
    firm_id: str
    role: str
    grants: tuple[str, ...]
    name: str
    sign_in: str
    by: str
    made: str
    expires: str
    used: str | None
    withdrawn: str | None


@dataclass(frozen=True, slots=True)
class ApiToken:
    """A token of another program.

    Attributes:
        id: Its name in the store.
        firm_id: The firm that it reaches.
        person_id: Whose rights it has, at most.
        name: What its owner calls it.
        scopes: What it may do.
        made: When it was made, UTC.
        expires: Until when it opens, UTC; None where it has no end.
        used: When it was last used, UTC; None while it was not.
    """

    id: str
    firm_id: str
    person_id: str
    name: str
    scopes: tuple[str, ...]
    made: str
    expires: str | None
    used: str | None


@dataclass(frozen=True, slots=True)
class AuditEntry:
    """Something that was done with people, rights or keys.

    Attributes:
        number: Its number; later ones have higher numbers.
        firm_id: The firm; None where it is of none.
        person_id: Who did it; None where nobody was signed in.
        at: When, UTC.
        code: What was done, as a word of the program.
        facts: What belongs to it.
        address: From where it was asked for.
    """

    number: int
    firm_id: str | None
    person_id: str | None
    at: str
    code: str
    facts: dict[str, Any]
    address: str


class UnknownFirm(LookupError):  # noqa: N818 - reported as it is
    """No such firm is kept here."""


class UnknownPerson(LookupError):  # noqa: N818 - reported as it is
    """No such person is kept here, or he does not belong to the firm."""


class SignInTakenError(Exception):
    """Somebody else signs in by this."""


class LastOneError(Exception):
    """With this nobody of that role would be left in the firm; nothing is changed."""


class InvitationClosedError(Exception):
    """An invitation that opens nothing, whatever the reason."""
