"""From every version that there was: a filled store goes forwards on a file and on a server, and loses nothing."""

from __future__ import annotations

import hashlib
import itertools
import json

import pytest
import sqlalchemy as sa
from alembic import command
from alembic.script import ScriptDirectory

from pavewright.store import open_store
from pavewright.store._all_tables import OF_A_FIRM
from pavewright.store._open import _config, engine_for

NOW = "2027-05-04T08:00:00.000+00:00"
VERSIONS = [script.revision for script in reversed(list(ScriptDirectory.from_config(_config()).walk_revisions()))]
LARGE = json.dumps({"identity": {"title": "Ünîcode ½"}, "filler": "x" * 20_000})


def value(column, number, table):
    """Return something for a column that every version could have held."""
    kind = column["type"]
    name = column["name"]
    if name in {"job_id", "link_id", "run_id", "hook_id", "id"} and (
        name != "id" or table in {"job", "quotation_link", "run", "hook"}
    ):
        return f"{number:016x}"
    if name == "firm_id":
        return None
    if name in {"digest", "head"} or name.endswith("sha256"):
        return f"{number:064x}"
    if name in {"line", "document"}:
        return LARGE
    if name in {"landed", "facts", "body", "gaps"}:
        return "[]"
    if isinstance(kind, sa.Boolean):
        return False
    if isinstance(kind, sa.LargeBinary):
        return bytes(range(256)) * 10
    if isinstance(kind, sa.Integer | sa.Numeric | sa.Float):
        return number
    length = getattr(kind, "length", None) or 64
    return NOW[:length] if name in {"at", "made", "changed", "paired", "seen", "used"} else f"{name} {number}"[:length]


def fill(connection):
    """Put two rows into every table of a firm that there is, as the database itself describes them."""
    looked = sa.inspect(connection)
    there = set(looked.get_table_names())
    tables = [table.name for table in OF_A_FIRM if table.name in there]
    for table, number in itertools.product(tables, (1, 2)):
        columns = [
            each for each in looked.get_columns(table) if each["name"] not in {"firm_id", "deleted", "withdrawn"}
        ]
        row = {each["name"]: value(each, number, table) for each in columns}
        if table == "record_entry":
            row["number"] = 1
        written = sa.table(table, *(sa.column(each["name"], each["type"]) for each in columns))
        connection.execute(written.insert().values(row))
    return tables


def contents(connection, tables, columns):
    """Return what stands in each table: how many rows, and a hash of the columns that there were."""
    found = {}
    for table in tables:
        names = columns[table]
        rows = connection.execute(sa.select(*(sa.column(name) for name in names)).select_from(sa.table(table))).all()
        plain = sorted(repr([bytes(each) if isinstance(each, memoryview) else each for each in row]) for row in rows)
        found[table] = (len(rows), hashlib.sha256("\n".join(plain).encode()).hexdigest())
    return found


def as_one_firm(connection):
    """On a server that keeps firms apart already: work for the first one."""
    if connection.dialect.name == "postgresql" and "account_firm" in sa.inspect(connection).get_table_names():
        firm = connection.exec_driver_sql("SELECT id FROM account_firm WHERE first").scalar_one_or_none()
        if firm:
            connection.exec_driver_sql(f"SET LOCAL pavewright.firm = '{firm}'")


@pytest.fixture(params=["file", "server"])
def empty_url(request, tmp_path):
    if request.param == "file":
        yield f"sqlite:///{tmp_path / 'jobs.sqlite'}"
        return
    server = request.getfixturevalue("server")
    url = server.new_database()
    yield url
    server.drop(url)


@pytest.mark.parametrize("version", VERSIONS)
def test_a_filled_store_of_each_version_goes_forwards_and_loses_nothing(empty_url, version):
    engine = engine_for(empty_url)
    config = _config()
    with engine.connect().execution_options(write=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.upgrade(config, version)
        as_one_firm(connection)
        tables = fill(connection)
        looked = sa.inspect(connection)
        # what is worked out anew is not kept
        columns = {
            table: [
                each["name"] for each in looked.get_columns(table) if each["name"] not in {"firm_id", "summary_rev"}
            ]
            for table in tables
        }
        before = contents(connection, tables, columns)
    engine.dispose()
    assert all(count == 2 for count, _ in before.values())
    store = open_store(empty_url)
    with store.reading() as connection:
        assert contents(connection, tables, columns) == before
    assert len(store.jobs()) == 2
    assert store.save(f"{1:016x}", 1, "{}") == 2
    store.close()
    again = open_store(empty_url)
    assert {row.rev for row in again.jobs()} == {1 + 1, 2}
    again.close()


def test_each_version_follows_one_other():
    script = ScriptDirectory.from_config(_config())
    assert len(script.get_heads()) == 1
    assert VERSIONS == sorted(VERSIONS)
    assert [each.down_revision for each in script.walk_revisions()] == [*reversed(VERSIONS[:-1]), None]
