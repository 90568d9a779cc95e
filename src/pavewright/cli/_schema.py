"""The command that prints the form of a job document."""

from __future__ import annotations

import json

import click

from pavewright.desk import job_schema


@click.command("schema")
def schema_command() -> None:
    """Print the JSON Schema of the job document.

    Example: pavewright schema > job-schema.json
    """
    click.echo(json.dumps(job_schema(), indent=1, ensure_ascii=False))
