"""Every table that the store has: those of a firm and those of the installation."""

from __future__ import annotations

from pavewright.store import _run_tables as runs
from pavewright.store._tables import METADATA
from pavewright.store.accounts import _tables as accounts
from pavewright.store.hooks import _tables as hooks
from pavewright.store.orders import _tables as orders

OF_INSTALLATION = tuple(table for table in METADATA.sorted_tables if table.name.startswith(accounts.PREFIX))
"""Firms, people and how they come in."""

OF_A_FIRM = tuple(table for table in METADATA.sorted_tables if table not in OF_INSTALLATION)
"""What is kept of a firm, apart from every other one."""

__all__ = ["METADATA", "OF_A_FIRM", "OF_INSTALLATION", "hooks", "orders", "runs"]
