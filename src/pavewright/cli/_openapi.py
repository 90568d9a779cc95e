"""The command that prints what every route of the server takes and answers."""

from __future__ import annotations

import json

import click


@click.command("openapi")
def openapi_command() -> None:
    """Print what every route of the server takes and answers, as OpenAPI 3.1.

    Example: pavewright openapi > pavewright-openapi.json
    """
    from pavewright.web.openapi import openapi_document  # noqa: PLC0415 - the server is loaded for this command only

    click.echo(json.dumps(openapi_document(), indent=1, ensure_ascii=False))
