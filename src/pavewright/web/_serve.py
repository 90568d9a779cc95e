"""Serving on this machine, and to paired devices of its network."""

from __future__ import annotations

import io
import socket
import ssl
import threading
import time
import webbrowser
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import segno
import uvicorn

from pavewright.store import open_installation
from pavewright.web._addresses import LOOPBACK, HostName, own_names
from pavewright.web._app import make_app
from pavewright.web._customers import ForCustomers
from pavewright.web._device_routes import OnNetwork
from pavewright.web._log import write_log
from pavewright.web._pairing import Pairing
from pavewright.web._scanning import Scanner

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from starlette.applications import Starlette

    from pavewright.store import Installation


class PortTakenError(Exception):
    """Something else listens there."""


@dataclass(frozen=True, slots=True)
class Certificate:
    """A certificate of this machine and its key, as files in PEM.

    Attributes:
        certificate: The certificate, with those that vouch for it.
        private_key: Its key.
    """

    certificate: Path
    private_key: Path

    def check(self) -> None:
        """Look whether they can be used.

        Raises:
            CertificateError: they cannot.
        """
        try:
            ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER).load_cert_chain(self.certificate, self.private_key)
        except (OSError, ssl.SSLError) as problem:  # an error of the connection is one of the system too
            raise CertificateError(self) from problem


class CertificateError(Exception):
    """A certificate or its key cannot be used."""

    def __init__(self, certificate: Certificate) -> None:
        """Say which."""
        super().__init__(
            f"{certificate.certificate} and {certificate.private_key} are no certificate with its key: "
            f"both have to be files in PEM, and to belong together."
        )


@dataclass(frozen=True, slots=True)
class Reach:
    """From where the pages are reached.

    Attributes:
        port: Where to listen.
        on_network: Whether other devices of the network reach it, once they are paired.
        certificate: For secure connections; None where they are not.
        customers: How customers reach their quotations.
        names: Names by which others call this server, each with its port where that is another one.
    """

    port: int = 8321
    on_network: bool = False
    certificate: Certificate | None = None
    customers: ForCustomers = field(default_factory=ForCustomers)
    names: tuple[HostName, ...] = ()


def serve(
    data: Path | str,
    reach: Reach,
    *,
    browser: bool,
    say: Callable[[str], None],
    log: str | None = None,
    files: str | None = None,
    scan: tuple[str, ...] = (),
) -> None:
    """Serve until stopped.

    Args:
        data: File of the database, made where it is missing; or the address of a database server.
        reach: From where it is reached.
        browser: Whether to open the browser.
        say: Told where the pages are, and how a device is paired.
        log: How a line is written for each request and trouble: ``json`` or ``plain``; None for troubles alone.
        files: Where photos and papers are kept: a folder or ``s3://BUCKET/PREFIX``; None for the database itself.
        scan: Program with its options that looks at each file that is sent; empty where none does.

    Raises:
        PortTakenError: something else listens there.
        CertificateError: the certificate or its key cannot be used.
        StoreTroubleError: the file is no store, or cannot be opened or written.
    """
    if reach.certificate is not None:
        reach.certificate.check()
    if log is not None:
        write_log(log)
    store = open_installation(data, files)
    try:
        _serve(store, reach, browser=browser, say=say, own_log=log is not None, scan=scan)
    finally:
        store.close()


def _serve(
    store: Installation,
    reach: Reach,
    *,
    browser: bool,
    say: Callable[[str], None],
    own_log: bool,
    scan: tuple[str, ...],
) -> None:
    """Serve an open store."""
    listener = _listener(_EVERYWHERE if reach.on_network else _HERE, reach.port)
    port, secure = listener.getsockname()[1], reach.certificate is not None
    address = f"{'https' if secure else 'http'}://{_HERE}:{port}/"
    network = OnNetwork(port, secure, Pairing(), reach.names) if reach.on_network else None
    customers = reach.customers
    hosts = LOOPBACK | (own_names() if network else set()) | {each.name for each in reach.names}
    listeners = [listener, *([_listener(_HERE, customers.port)] if customers.port is not None else [])]
    scanner = Scanner(scan) if scan else None
    app = make_app(store, hosts=hosts, on_network=network, for_customers=customers, scanner=scanner)
    config = _config(app, reach.certificate, own_log=own_log)
    say(f"{address}  (stop with Ctrl+C; jobs are kept in {store.first.name})")
    if customers.port is not None:
        say(f"Quotations, and nothing else, are answered at {_HERE}:{customers.port} for {customers.address}")
    if network is not None:
        _say_network(network, say)
    if browser:
        threading.Thread(target=_open, args=(address,), daemon=True).start()
    _Server(config, app).run(sockets=listeners)


def _config(app: Starlette, certificate: Certificate | None, *, own_log: bool) -> uvicorn.Config:
    """Return how requests are taken: nothing says what answers them, and what is secure is so by today's measure."""
    config = uvicorn.Config(
        app,
        log_level="warning",
        log_config=None if own_log else uvicorn.config.LOGGING_CONFIG,
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=3,
        ssl_certfile=certificate.certificate if certificate else None,
        ssl_keyfile=certificate.private_key if certificate else None,
    )
    config.load()
    if config.ssl is not None:
        config.ssl.minimum_version = ssl.TLSVersion.TLSv1_2
    return config


class _Server(uvicorn.Server):
    """A server that ends what pages listen to before it waits for what is under way."""

    def __init__(self, config: uvicorn.Config, app: Starlette) -> None:
        super().__init__(config)
        self._app = app

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop: no stream is waited for."""
        self._app.state.live.close()
        await super().shutdown(sockets)


_HERE = "127.0.0.1"
_EVERYWHERE = "0.0.0.0"  # noqa: S104 - asked for, and nothing is answered to who is not paired


def _say_network(network: OnNetwork, say: Callable[[str], None]) -> None:
    """Say how a phone is paired: the address, and the same as a code to scan."""
    addresses = network.addresses()
    if not addresses:
        say("This machine is in no network: join one, then open Devices on the page to pair a phone.")
        return
    paired = f"{addresses[0]}/pair/{network.pairing.new()}"
    drawn = io.StringIO()
    segno.make(paired, micro=False).terminal(drawn, compact=True)
    say(drawn.getvalue().rstrip())
    say(f"Scan this with a phone in the same network, or open {paired}")
    say("It pairs one device, within ten minutes. More devices: open Devices on the page.")
    if not network.secure:
        say(
            "Without a certificate anybody in this network can listen, and phones do not keep the pages without signal."
        )


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
    listener.listen()  # who comes before the pages are ready waits
    return listener


def _open(address: str) -> None:
    time.sleep(0.5)
    webbrowser.open(address)
