"""Serving on this machine."""

from __future__ import annotations

import socket
import threading
import time
import webbrowser
from typing import TYPE_CHECKING

import uvicorn

from pavewright.desk import demo_document
from pavewright.store import open_file
from pavewright.web._app import LOOPBACK, make_app

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pavewright.store import Store


class PortTakenError(Exception):
    """Something else listens there."""


def serve(
    data: Path,
    port: int = 8321,
    *,
    host: str = "127.0.0.1",
    names: tuple[str, ...] = (),
    browser: bool,
    say: Callable[[str], None],
) -> None:
    """Serve until stopped.

    Args:
        data: File of the database, made where it is missing with the demo inside.
        port: Where to listen.
        host: Address to listen on; only this machine unless asked otherwise.
        names: Further host names to answer to.
        browser: Whether to open the browser.
        say: Told where the pages are.

    Raises:
        PortTakenError: something else listens there.
        StoreTroubleError: the file is no store, or cannot be opened or written.
    """
    store = open_file(data)
    try:
        if not store.jobs() and not store.jobs(archived=True):
            store.add(demo_document().decode(), "demo")
        _serve(store, data, port, host, names, browser=browser, say=say)
    finally:
        store.close()


def _serve(
    store: Store,
    data: Path,
    port: int,
    host: str,
    names: tuple[str, ...],
    *,
    browser: bool,
    say: Callable[[str], None],
) -> None:
    """Serve an open store."""
    listener = _listener(host, port)
    address = f"http://{host}:{listener.getsockname()[1]}/"
    app = make_app(store, hosts=LOOPBACK | {host} | set(names))
    config = uvicorn.Config(app, log_level="warning", access_log=False, timeout_graceful_shutdown=3)
    say(f"{address}  (stop with Ctrl+C; jobs are kept in {data})")
    if browser:
        threading.Thread(target=_open, args=(address,), daemon=True).start()
    uvicorn.Server(config).run(sockets=[listener])


def _listener(host: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listener = socket.socket(family, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((host, port))
    except OSError as problem:
        listener.close()
        message = f"Something else uses port {port}: choose another one with --port."
        raise PortTakenError(message) from problem
    return listener


def _open(address: str) -> None:
    time.sleep(0.5)
    webbrowser.open(address)
