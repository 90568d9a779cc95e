"""All that is kept of one firm."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.record import sealed
from pavewright.store import _tables as kept_tables
from pavewright.store._all_tables import OF_A_FIRM, runs
from pavewright.store._all_tables import hooks as hook_tables
from pavewright.store._all_tables import orders as order_tables
from pavewright.store.accounts import _tables as accounts
from pavewright.store.handed_out._words import WORDS
from pavewright.store.handed_out._zip import HandedOut, ending_of, new_zip, safe_name
from pavewright.store.outside._named import digest_column
from pavewright.store.whole._look import one_look
from pavewright.store.whole._rows import in_order, is_file

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from sqlalchemy.engine import Connection

    from pavewright.store._installation import Installation
    from pavewright.store.handed_out._zip import Zip
    from pavewright.store.outside._of_firm import Outside

SECRET = {
    "device": {"digest"},
    "calendar_feed": {"digest"},
    "quotation_link": {"digest"},
    "hook": {"secret", "secret_before"},
    "account_invitation": {"digest"},
    "account_sign_in": {"digest"},
    "account_token": {"digest"},
}
"""Columns by which somebody could come in or sign as the firm: none of them is handed out."""
WORKED_OUT = (runs.RUNS, runs.RUN_RESULTS, runs.KEPT_PLANS)
"""Tables that are worked out again from the others."""
_APART = (kept_tables.RECORD_ENTRIES, kept_tables.JOBS, kept_tables.REVISIONS, kept_tables.PHOTOS)
"""Tables that stand as files of each job."""
_WITH_CSV = (
    *order_tables.OF_A_JOB,
    kept_tables.QUOTATION_LINKS,
    kept_tables.QUOTATION_QUESTIONS,
    kept_tables.DEVICES,
    kept_tables.REMOVED_RECORDS,
    hook_tables.HOOKS,
)
"""Tables that are flat enough for CSV too."""
_MONEY = {
    "bills": ("number", "kind", "on", "due_on", "stage", "variation", "credits", "words", "held_minor", "freed_minor"),
    "received": ("on", "amount_minor", "bill", "note"),
}
"""What jobs hold of money that came due or came in, and the columns of it that are flat."""
_MEMBER = ("role", "grants", "crew_name", "since", "ended")


def hand_out_firm(kept: Installation, firm_id: str, target: Path, *, replace: bool = False) -> HandedOut:
    """Write all that is kept of one firm into a zip file, also while people work.

    Args:
        kept: The installation.
        firm_id: The firm.
        target: The file.
        replace: Whether a file that is there is written over.

    Raises:
        UnknownFirm: no such firm.
        StoreTroubleError: the store cannot be read, or the file cannot be written; nothing is left of it then.
    """
    firm = kept.accounts.firm(firm_id)
    with new_zip(target, replace=replace) as made:
        made.put("README.txt", WORDS.firm)
        with one_look(kept) as (version, _, at):
            _people(made, at(""), firm_id)
            outside = kept.store_of(firm_id).outside
            _jobs(made, at(firm_id), outside)
            _tables(made, at(firm_id), outside)
        files = made.close_with({"of": "firm", "id": firm.id, "name": firm.name, "tables": version})
    return HandedOut(files, target.stat().st_size, made.rows)


def handed_columns(table: sa.Table) -> list[sa.Column[Any]]:
    """Return the columns of a table that are handed out, in their order."""
    return [column for column in table.columns if column.name not in SECRET.get(table.name, ())]


def _rows(
    connection: Connection, table: sa.Table, columns: Sequence[sa.Column[Any]], where: sa.ColumnElement[bool] | None
) -> Iterator[tuple[Any, ...]]:
    return (tuple(row) for row in in_order(connection, table, columns, where))


def _flat(
    made: Zip, path: str, connection: Connection, table: sa.Table, where: sa.ColumnElement[bool] | None = None
) -> None:
    columns = [column for column in handed_columns(table) if not is_file(column)]
    names = [column.name for column in columns]
    made.table(path, names, _rows(connection, table, columns, where))


def _people(made: Zip, connection: Connection, firm_id: str) -> None:
    people, members = accounts.PEOPLE, accounts.MEMBERS
    columns = (people.c.id, people.c.sign_in, people.c.name, *(members.c[name] for name in _MEMBER))
    query = sa.select(*columns).join_from(members, people).where(members.c.firm_id == firm_id)
    found = sorted(tuple(row) for row in connection.execute(query))
    made.table("people/people.csv", [column.name for column in columns], found)
    for table, name in (
        (accounts.INVITATIONS, "invitations"),
        (accounts.SIGN_INS, "sign_ins"),
        (accounts.TOKENS, "tokens"),
        (accounts.AUDIT, "audit"),
    ):
        _flat(made, f"people/{name}.csv", connection, table, table.c.firm_id == firm_id)


def _jobs(made: Zip, connection: Connection, outside: Outside) -> None:
    jobs, revisions, photos = kept_tables.JOBS, kept_tables.REVISIONS, kept_tables.PHOTOS
    listed: list[tuple[Any, ...]] = []
    money: dict[str, list[tuple[Any, ...]]] = {name: [] for name in _MONEY}
    head = (jobs.c.id, jobs.c.rev, jobs.c.title, jobs.c.archived, jobs.c.changed, jobs.c.deleted)
    for *told, document in _rows(connection, jobs, (*head, jobs.c.document), None):
        path = f"jobs/{safe_name(told[0])}/job.json"
        made.put(path, document)
        listed.append((*told, path))
        for name, rows in money.items():
            rows.extend(_money(told[0], document, name))
    made.table("jobs/jobs.csv", [*(column.name for column in head), "file"], listed)
    for name, rows in money.items():
        made.table(f"money/{name}.csv", ("job_id", *_MONEY[name]), rows)
    listed = []
    some = (revisions.c.job_id, revisions.c.rev, revisions.c.at, revisions.c.note, revisions.c.who)
    for *told, document in _rows(connection, revisions, (*some, revisions.c.document), None):
        path = made.put(f"jobs/{safe_name(told[0])}/revisions/{told[1]:06d}.json", document)
        listed.append((*told, path))
    made.table("jobs/revisions.csv", [*(column.name for column in some), "file"], listed)
    _photos(made, connection, photos, outside)
    _records(made, connection, [told[0] for told in _rows(connection, jobs, (jobs.c.id,), None)])


def _money(job_id: str, document: str, name: str) -> Iterator[tuple[Any, ...]]:
    try:
        found = json.loads(document).get(name, ())
        for row in found:
            yield (job_id, *(row.get(column) for column in _MONEY[name]))
    except (ValueError, AttributeError, TypeError):
        return  # it stands in the document as it is


def _photos(made: Zip, connection: Connection, photos: sa.Table, outside: Outside) -> None:
    columns = [column for column in photos.columns if not is_file(column)]
    names = [column.name for column in columns]
    listed = []
    for row in list(_rows(connection, photos, columns, None)):
        told = dict(zip(names, row, strict=True))
        which = (photos.c.job_id == told["job_id"], photos.c.id == told["id"])
        row_holds = bytes(connection.execute(sa.select(photos.c.image).where(*which)).scalar_one())
        image = outside.read(row_holds, told["sha256"])
        path = f"jobs/{safe_name(told['job_id'])}/photos/{safe_name(told['id'])}{ending_of(image)}"
        listed.append((*row, made.put(path, image)))
    made.table("jobs/photos.csv", [*names, "file"], listed)


def _records(made: Zip, connection: Connection, job_ids: Sequence[str]) -> None:
    entries, rows = kept_tables.RECORD_ENTRIES, 0
    for job_id in job_ids:
        found = list(_rows(connection, entries, (entries.c.line, entries.c.digest), entries.c.job_id == job_id))
        if found:
            content = sealed(job_id, [line for line, _ in found], found[-1][1])
            made.put(f"jobs/{safe_name(job_id)}/record.jsonl", content)
            rows += len(found)
    made.rows["jobs/*/record.jsonl"] = rows


def _tables(made: Zip, connection: Connection, outside: Outside) -> None:
    for table in OF_A_FIRM:
        if table in WORKED_OUT or table in _APART:
            continue
        made.lines(f"tables/{table.name}.jsonl", list(_told(made, connection, table, outside)))
        if table in _WITH_CSV:
            _flat(made, f"tables/{table.name}.csv", connection, table)
    for table, name in ((kept_tables.FIRM, "book"), (kept_tables.CALENDAR, "calendar")):
        last = sa.select(table.c.document).order_by(table.c.rev.desc()).limit(1)
        document = connection.execute(last).scalar()
        if document is not None:
            made.put(f"{name}.json", document)


def _told(made: Zip, connection: Connection, table: sa.Table, outside: Outside) -> Iterator[dict[str, Any]]:
    """Give the rows of a table; its files stand beside it and are named by where they stand."""
    columns = handed_columns(table)
    names = [column.name for column in columns]
    files = [column.name for column in columns if is_file(column)]
    for row in _rows(connection, table, columns, None):
        told = dict(zip(names, row, strict=True))
        for name in files:
            if told[name] is not None:
                named = digest_column(table.name, name)
                content = bytes(told[name]) if named is None else outside.read(bytes(told[name]), told[named])
                told[name] = made.put(f"quotations/{safe_name(told['id'])}-{name}{ending_of(content)}", content)
        yield told
