"""From every version that there was: a filled store goes forwards on a file and on a server, and loses nothing."""

from __future__ import annotations

import hashlib
import itertools
import json

import pytest
import sqlalchemy as sa
from alembic import command
from alembic.script import ScriptDirectory

from pavewright.store import open_installation, open_store
from pavewright.store._all_tables import OF_A_FIRM, OF_INSTALLATION
from pavewright.store._open import _config, engine_for
from pavewright.store.accounts._base import digest_of
from pavewright.store.accounts._tables import PREFIX

NOW = "2027-05-04T08:00:00.000+00:00"
LATER = "2999-05-04T08:00:00.000+00:00"
VERSIONS = [script.revision for script in reversed(list(ScriptDirectory.from_config(_config()).walk_revisions()))]
LARGE = json.dumps({"identity": {"title": "Ünîcode ½"}, "filler": "x" * 20_000})
CONTENT = bytes(range(256)) * 10
TIMES = {"at", "made", "changed", "paired", "seen", "used"}
OF_A_PERSON = {"id", "person_id", "firm_id", "by"}
ENDED = {"ended", "used", "withdrawn"}


def value(column, number, table):
    """Return something for a column of a table of a firm that every version could have held."""
    kind = column["type"]
    name = column["name"]
    if name in {"job_id", "link_id", "run_id", "hook_id", "id"} and (
        name != "id" or table in {"job", "quotation_link", "run", "hook"}
    ):
        return f"{number:016x}"
    if name.endswith("sha256"):
        return hashlib.sha256(CONTENT).hexdigest()
    if name in {"digest", "head"}:
        return f"{number:064x}"
    if name in {"line", "document"}:
        return LARGE
    if name in {"landed", "facts", "body", "gaps"}:
        return "[]"
    if isinstance(kind, sa.Boolean):
        return False
    if isinstance(kind, sa.LargeBinary):
        return CONTENT
    if isinstance(kind, sa.Integer | sa.Numeric | sa.Float):
        return number
    length = getattr(kind, "length", None) or 64
    return NOW[:length] if name in TIMES else f"{name} {number}"[:length]


def account_value(column, number):
    """Return something for a column of the accounts; what opens with the first person has ended with the second."""
    kind, name = column["type"], column["name"]
    told = {
        "digest": digest_of(f"token {number}"),
        "folded": f"sign_in {number}",
        "role": "owner",
        "expires": LATER,
        "grants": '["see_money"]',
        "scopes": '["jobs"]',
        "facts": '{"whom": 1}',
    }
    if name in OF_A_PERSON:
        return f"{number:032x}"
    if name in ENDED:
        return None if number % 2 else NOW
    if name in told:
        return told[name]
    if isinstance(kind, sa.LargeBinary):
        return f"{name} {number}".encode()
    if isinstance(kind, sa.Integer):
        return number
    return NOW if name in TIMES | {"begun", "since"} else f"{name} {number}"


def put(connection, table, columns, row):
    """Put a row into a table as the database itself describes it."""
    written = sa.table(table, *(sa.column(each["name"], each["type"]) for each in columns))
    connection.execute(written.insert().values(row))


def fill(connection, numbers=(1, 2)):
    """Put a row for each number into every table of a firm that there is."""
    looked = sa.inspect(connection)
    there = set(looked.get_table_names())
    tables = [table.name for table in OF_A_FIRM if table.name in there]
    for table, number in itertools.product(tables, numbers):
        columns = [
            each for each in looked.get_columns(table) if each["name"] not in {"firm_id", "deleted", "withdrawn"}
        ]
        row = {each["name"]: value(each, number, table) for each in columns}
        if table == "record_entry":
            row["number"] = 1
        put(connection, table, columns, row)
    return tables


def fill_accounts(connection):
    """Put two rows into every table of the accounts that there is; the first firm is one of them where there is none."""
    looked = sa.inspect(connection)
    there = set(looked.get_table_names())
    tables = [table.name for table in OF_INSTALLATION if table.name in there]
    for table, number in itertools.product(tables, (1, 2)):
        columns = [each for each in looked.get_columns(table) if each["name"] != "number"]
        row = {each["name"]: account_value(each, number) for each in columns}
        if table == "account_firm":
            known = connection.exec_driver_sql("SELECT count(*) FROM account_firm WHERE first").scalar_one()
            row["first"] = not known
        put(connection, table, columns, row)
    return tables


def columns_of(connection, tables):
    """Return the columns of tables whose contents every later version keeps; what is worked out anew it does not."""
    looked = sa.inspect(connection)
    return {
        table: [
            each["name"]
            for each in looked.get_columns(table)
            if each["name"] != "summary_rev" and (each["name"] != "firm_id" or table.startswith(PREFIX))
        ]
        for table in tables
    }


def contents(connection, columns):
    """Return what stands in each table: how many rows, and a hash of the columns that there were."""
    found = {}
    for table, names in columns.items():
        rows = connection.execute(sa.select(*(sa.column(name) for name in names)).select_from(sa.table(table))).all()
        plain = sorted(repr([bytes(each) if isinstance(each, memoryview) else each for each in row]) for row in rows)
        found[table] = (len(rows), hashlib.sha256("\n".join(plain).encode()).hexdigest())
    return found


def as_one_firm(connection, firm=None):
    """On a server that keeps firms apart already: work for one, the first where none is said."""
    if connection.dialect.name == "postgresql" and "account_firm" in sa.inspect(connection).get_table_names():
        first = "SELECT id FROM account_firm WHERE first"
        firm = firm or connection.exec_driver_sql(first).scalar_one_or_none()
        if firm:
            connection.exec_driver_sql(f"SET LOCAL pavewright.firm = '{firm}'")


def at_version(url, version, work):
    """Bring an empty database to a version, and do something with it there."""
    engine = engine_for(url)
    config = _config()
    with engine.connect().execution_options(write=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.upgrade(config, version)
        found = work(connection)
    engine.dispose()
    return found


@pytest.fixture(params=["file", "server"])
def empty_url(request, tmp_path):
    if request.param == "file":
        yield f"sqlite:///{tmp_path / 'jobs.sqlite'}"
        return
    server = request.getfixturevalue("server")
    url = server.new_database()
    yield url
    server.drop(url)


def filled(connection):
    """Fill every table that there is; return what stands in those of a firm and in those of the accounts."""
    as_one_firm(connection)
    accounts = columns_of(connection, fill_accounts(connection))
    as_one_firm(connection)
    of_firm = columns_of(connection, fill(connection))
    return of_firm, contents(connection, of_firm), accounts, contents(connection, accounts)


@pytest.mark.parametrize("version", VERSIONS)
def test_a_filled_store_of_each_version_goes_forwards_and_loses_nothing(empty_url, version):
    of_firm, kept, accounts, people = at_version(empty_url, version, filled)
    assert {count for count, _ in kept.values()} == {2}
    assert bool(people) == (version >= "0009")
    assert all(count == 2 or (table == "account_firm" and count == 3) for table, (count, _) in people.items())
    store = open_store(empty_url)
    with store.reading() as connection:
        assert contents(connection, of_firm) == kept
        assert contents(connection, accounts) == people
    assert len(store.jobs()) == 2
    assert store.save(f"{1:016x}", 1, "{}") == 2
    store.close()
    again = open_store(empty_url)
    assert {row.rev for row in again.jobs()} == {1 + 1, 2}
    again.close()


@pytest.mark.parametrize("version", ["0009", "0013", "0014", VERSIONS[-2]])
def test_people_of_each_version_come_in_as_before_and_who_left_does_not(empty_url, version):
    at_version(empty_url, version, filled)
    one, two = f"{1:032x}", f"{2:032x}"
    opened = open_installation(empty_url)
    accounts = opened.accounts
    assert {one, two} <= {firm.id for firm in accounts.firms()}
    assert (opened.first_id == one) or version >= "0014"
    (member,) = accounts.people(one)
    told = (member.person.id, member.person.sign_in, member.role, member.grants, member.crew_name)
    assert told == (one, "sign_in 1", "owner", ("see_money",), "crew_name 1")
    assert accounts.people(two) == ()
    assert accounts.person_called("SIGN_IN 1").id == one
    assert (accounts.password_digest(one), accounts.totp_secret(one)) == ("password 1", "totp 1")
    assert accounts.passkey(b"credential 1").person_id == one
    assert accounts.person_of_code("kind 1", digest_of("token 1")) == one
    assert accounts.signed_in("token 1")[1].id == one
    assert accounts.invitation("token 1").firm_id == one
    assert accounts.of_api_token("token 1")[0].scopes == ("jobs",)
    for opens in (accounts.signed_in, accounts.invitation, accounts.of_api_token):
        assert opens("token 2") is None
    assert accounts.person_of_code("kind 2", digest_of("token 2")) is None
    assert [(each.code, each.facts) for each in accounts.audit_entries(one)] == [("code 1", {"whom": 1})]
    accounts.audit(one, one, "later", {})
    assert [each.code for each in accounts.audit_entries(one)] == ["later", "code 1"]
    for words in ("UPDATE account_audit SET code = 'x'", "DELETE FROM account_audit"):
        with pytest.raises(sa.exc.DBAPIError, match="stays as it was"), opened.first.writing() as connection:
            connection.exec_driver_sql(words)
    opened.close()


@pytest.mark.parametrize("version", [each for each in VERSIONS[:-1] if each >= "0014"])
def test_each_firm_of_a_server_goes_forwards_with_what_is_worked_out_of_its_rows(server, version):
    """What a change writes beside rows it writes for every firm: hashes of files, state and place beside each day."""
    url, two = server.new_database(), f"{2:032x}"

    def fill_both(connection):
        filled(connection)
        as_one_firm(connection, two)
        of_firm = columns_of(connection, fill(connection, (3, 4)))
        return of_firm, contents(connection, of_firm)

    of_firm, kept = at_version(url, version, fill_both)
    opened = open_installation(url)
    assert {count for count, _ in kept.values()} == {2}
    for store, numbers in ((opened.first, (1, 2)), (opened.store_of(two), (3, 4))):
        assert {row.id for row in store.jobs()} == {f"{number:016x}" for number in numbers}
        with store.reading() as connection:
            if store is not opened.first:
                assert contents(connection, of_firm) == kept
            hashes = "SELECT sha256 FROM photo UNION SELECT pdf_sha256 FROM quotation_link"
            found = connection.exec_driver_sql(f"{hashes} UNION SELECT notice_sha256 FROM quotation_link").scalars()
            assert found.all() == [hashlib.sha256(CONTENT).hexdigest()]
            dues = connection.exec_driver_sql("SELECT job_id, state, by_hand, place FROM due_fact ORDER BY job_id")
            assert [tuple(row) for row in dues.all()] == [
                (f"{number:016x}", f"state {number}", False, f"place {number}") for number in numbers
            ]
            weeks = connection.exec_driver_sql("SELECT state FROM money_week ORDER BY job_id").scalars().all()
            assert weeks == [f"state {number}" for number in numbers]
        assert store.save(f"{numbers[0]:016x}", numbers[0], "{}") == numbers[0] + 1
        assert store.photo(f"{numbers[0]:016x}", f"id {numbers[0]}") == CONTENT
    opened.close()
    server.drop(url)


def test_each_version_follows_one_other():
    script = ScriptDirectory.from_config(_config())
    assert len(script.get_heads()) == 1
    assert VERSIONS == sorted(VERSIONS)
    assert [each.down_revision for each in script.walk_revisions()] == [*reversed(VERSIONS[:-1]), None]
