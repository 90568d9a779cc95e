"""Saved views of the list of jobs, and templates to begin a job from."""

from __future__ import annotations

import json
import secrets
from typing import TYPE_CHECKING

import sqlalchemy as sa

from pavewright.store._clock import now
from pavewright.store._documents import checked
from pavewright.store._types import UnknownJob
from pavewright.store.orders._tables import JOB_TEMPLATES, SAVED_VIEWS
from pavewright.store.orders._types import JobTemplate, SavedView

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection

    _Opens = Callable[[], AbstractContextManager[Connection]]


class Views:
    """The saved views and the templates of one store."""

    def __init__(self, reading: _Opens, writing: _Opens) -> None:
        """Keep how the store gives a connection to read by, and one to write by."""
        self._reading, self._writing = reading, writing

    def all(self) -> tuple[SavedView, ...]:
        """Return the saved views by name."""
        query = sa.select(SAVED_VIEWS).order_by(sa.func.lower(SAVED_VIEWS.c.name), SAVED_VIEWS.c.id)
        with self._reading() as connection:
            return tuple(SavedView(row.id, row.name, json.loads(row.body)) for row in connection.execute(query).all())

    def keep(self, name: str, body: Mapping[str, str]) -> SavedView:
        """Keep filters under a name, in place of a view that is called the same."""
        view = SavedView(secrets.token_hex(8), name, dict(body))
        row = {"id": view.id, "name": name, "made": now(), "body": json.dumps(view.body, ensure_ascii=False)}
        with self._writing() as connection:
            connection.execute(SAVED_VIEWS.delete().where(SAVED_VIEWS.c.name == name))
            connection.execute(SAVED_VIEWS.insert().values(row))
        return view

    def remove(self, view_id: str) -> bool:
        """Delete a view; return False where there is none of that name."""
        with self._writing() as connection:
            return connection.execute(SAVED_VIEWS.delete().where(SAVED_VIEWS.c.id == view_id)).rowcount == 1

    def templates(self) -> tuple[JobTemplate, ...]:
        """Return the templates by name, without their documents."""
        table = JOB_TEMPLATES
        query = sa.select(table.c.id, table.c.name, table.c.made).order_by(sa.func.lower(table.c.name), table.c.id)
        with self._reading() as connection:
            return tuple(JobTemplate(*row) for row in connection.execute(query).all())

    def template(self, template_id: str) -> JobTemplate:
        """Return a template with its document.

        Raises:
            UnknownJob: none of that name.
        """
        with self._reading() as connection:
            row = connection.execute(sa.select(JOB_TEMPLATES).where(JOB_TEMPLATES.c.id == template_id)).one_or_none()
        if row is None:
            raise UnknownJob(template_id)
        return JobTemplate(row.id, row.name, row.made, row.document)

    def keep_template(self, name: str, document: str) -> JobTemplate:
        """Keep a document to begin jobs from.

        Raises:
            DocumentRefusedError: the document could not be read again.
        """
        text, _ = checked(document)
        made = JobTemplate(secrets.token_hex(8), name, now(), text)
        row = {"id": made.id, "name": name, "made": made.made, "document": text}
        with self._writing() as connection:
            connection.execute(JOB_TEMPLATES.insert().values(row))
        return made

    def remove_template(self, template_id: str) -> bool:
        """Delete a template; return False where there is none of that name."""
        with self._writing() as connection:
            return connection.execute(JOB_TEMPLATES.delete().where(JOB_TEMPLATES.c.id == template_id)).rowcount == 1
