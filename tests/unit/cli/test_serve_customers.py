"""The port of customers and their address are given together, and the address is one."""

from __future__ import annotations

import click
import pytest

from pavewright.cli._serve import _address_of


def test_an_address_is_kept_without_its_last_slash():
    assert _address_of(8322, "https://quotes.example/") == "https://quotes.example"
    assert _address_of(None, None) == ""


@pytest.mark.parametrize(
    ("port", "address"),
    [
        (8322, None),
        (None, "https://quotes.example"),
        (8322, "quotes.example"),
        (8322, "https://quotes.example/q"),
        (8322, "https://quotes.example/?a=1"),
        (8322, "file:///quotes"),
    ],
)
def test_what_is_no_address_of_customers_is_refused(port, address):
    with pytest.raises(click.UsageError):
        _address_of(port, address)
