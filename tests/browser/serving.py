"""A plain web server on this machine for a folder of pages."""

from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Thread


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        """Say nothing: the browser tells what failed."""


class _Server(ThreadingHTTPServer):
    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing: a browser that closes or moves on leaves answers half read."""


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """The address of a folder, ending in a slash, for as long as the context lasts."""
    server = _Server(("127.0.0.1", 0), partial(_Quiet, directory=str(folder)))
    thread = Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/"
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
