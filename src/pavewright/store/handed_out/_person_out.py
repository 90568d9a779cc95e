"""All that is kept of one person, and nothing of another one."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.store._all_tables import OF_A_FIRM
from pavewright.store._still_named import named_in
from pavewright.store._tables import REVISIONS
from pavewright.store.accounts import _tables as accounts
from pavewright.store.handed_out._words import WORDS
from pavewright.store.handed_out._zip import HandedOut, new_zip
from pavewright.store.whole._look import one_look
from pavewright.store.whole._rows import in_order

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy.engine import Connection

    from pavewright.store._installation import Installation
    from pavewright.store.accounts import Person
    from pavewright.store.handed_out._zip import Zip

_OWN = {
    "sign_ins": (accounts.SIGN_INS, ("firm_id", "device", "begun", "seen", "expires")),
    "passkeys": (accounts.PASSKEYS, ("name", "made", "used")),
    "tokens": (accounts.TOKENS, ("firm_id", "name", "scopes", "made", "expires", "used")),
    "audit": (accounts.AUDIT, ("number", "firm_id", "at", "code", "address")),
}
"""Tables of the person, with what is handed out of each: no secret, and nobody else."""
_REVISION = ("job_id", "rev", "at", "note")


def hand_out_person(kept: Installation, person_id: str, target: Path, *, replace: bool = False) -> HandedOut:
    """Write all that is kept of one person into a zip file, also while people work.

    Args:
        kept: The installation.
        person_id: The person.
        target: The file.
        replace: Whether a file that is there is written over.

    Raises:
        UnknownPerson: none of that name.
        StoreTroubleError: the store cannot be read, or the file cannot be written; nothing is left of it then.
    """
    person = kept.accounts.person(person_id)
    with new_zip(target, replace=replace) as made:
        made.put("README.txt", WORDS.person)
        revisions: list[tuple[Any, ...]] = []
        mentions: list[tuple[Any, ...]] = []
        with one_look(kept) as (version, _, at):
            firms = _own(made, at(""), person)
            for firm_id in firms:
                revisions += _revisions(at(firm_id), firm_id, person_id)
                found = named_in(at(firm_id), OF_A_FIRM, (person.name, person.sign_in))
                mentions += [(firm_id, table, rows) for table, rows in found.items()]
        made.table("revisions.csv", ("firm_id", *_REVISION), revisions)
        made.table("mentions.csv", ("firm_id", "table", "rows"), mentions)
        files = made.close_with({"of": "person", "id": person.id, "tables": version})
    return HandedOut(files, target.stat().st_size, made.rows)


def _own(made: Zip, connection: Connection, person: Person) -> list[str]:
    """Keep what stands in the accounts and return the firms to which he belongs or belonged."""
    members, firms = accounts.MEMBERS, accounts.FIRMS
    columns = (firms.c.id, firms.c.name, members.c.role, members.c.grants, members.c.crew_name)
    query = sa.select(*columns, members.c.since, members.c.ended).join_from(members, firms)
    found = connection.execute(query.where(members.c.person_id == person.id)).all()
    joined = sorted((dict(row._mapping) for row in found), key=lambda row: str(row["id"]))  # noqa: SLF001 - its public face
    profile = {"id": person.id, "sign_in": person.sign_in, "name": person.name, "made": person.made}
    told = profile | {"ended": person.ended, "firms": joined}
    made.put("profile.json", json.dumps(told, ensure_ascii=False, indent=1))
    for name, (table, some) in _OWN.items():
        wanted = [table.c[each] for each in some]
        rows = in_order(connection, table, wanted, table.c.person_id == person.id)
        made.table(f"{name}.csv", some, [tuple(row) for row in rows])
    return [str(row["id"]) for row in joined]


def _revisions(connection: Connection, firm_id: str, person_id: str) -> list[tuple[Any, ...]]:
    wanted = [REVISIONS.c[each] for each in _REVISION]
    found = in_order(connection, REVISIONS, wanted, REVISIONS.c.who == person_id)
    return [(firm_id, *row) for row in found]
