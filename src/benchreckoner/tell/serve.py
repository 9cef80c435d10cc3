"""Hand a folder of pages to a phone: from this machine alone, or, if asked, to everybody on the local network."""

import contextlib
import functools
import http.server
import ipaddress
import socket

import segno

_LOOPBACK = "127.0.0.1"
_NOWHERE = ("192.0.2.1", 9)  # set aside for examples by RFC 5737: nothing is sent to it, only the way out is asked for

_WHITE_ON_BLACK, _AS_BEFORE = "\x1b[40;97m", "\x1b[0m"  # ECMA-48, select graphic rendition


class _Pages(http.server.SimpleHTTPRequestHandler):
    """The pages of one folder and nothing else that lies there."""

    def send_head(self):
        """Answer with a page, or say that there is none."""
        name = self.path.partition("?")[0].lstrip("/") or "index.html"
        if "/" in name or not name.endswith(".html"):
            self.send_error(404)
            return None
        self.path = f"/{name}"
        return super().send_head()

    def log_message(self, format, *values):
        """Say nothing: a host's terminal is no place for a line a request."""


def local_address():
    """This machine's address on its local network.

    Returns
    -------
    str
        The loopback address where there is no network.
    """
    with contextlib.closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as asked:
        try:
            asked.connect(_NOWHERE)
        except OSError:
            return _LOOPBACK
        return asked.getsockname()[0]


def open_server(folder, *, network=False, port=0):
    """A server of one folder's pages, not yet running.

    Parameters
    ----------
    folder : path-like
    network : bool
        Whether others on the local network may fetch them. Without it only this machine can.
    port : int
        Zero takes any that is free.

    Returns
    -------
    http.server.ThreadingHTTPServer
    """
    handler = functools.partial(_Pages, directory=str(folder))
    return http.server.ThreadingHTTPServer((local_address() if network else _LOOPBACK, port), handler)


def words_for(server):
    """What to tell the host: the address, and a matrix code of it where a phone can reach it.

    Parameters
    ----------
    server : http.server.ThreadingHTTPServer

    Returns
    -------
    str
        Lines for a terminal.
    """
    host, port = server.server_address[:2]
    address = f"http://{host}:{port}/index.html"
    if ipaddress.ip_address(host).is_loopback:
        return f"The pages are at {address}, for this machine alone. End with Ctrl-C."
    rows = segno.make(address, micro=False).matrix_iter(border=4)
    # White on black is asked for, whatever the terminal's colours: a phone wants dark squares on a light ground.
    code = "\n".join(_WHITE_ON_BLACK + "".join("  " if dark else "\u2588\u2588" for dark in row) + _AS_BEFORE for row in rows)
    return (f"The pages are at {address}, for everybody on this network, without a password. A phone's camera reads the address from here:\n{code}\n"
            "End with Ctrl-C.")


def serve(folder, *, network=False, tell=print):
    """Serve a folder until Ctrl-C is pressed.

    Parameters
    ----------
    folder : path-like
    network : bool
    tell : callable
        Hears the address.
    """
    with open_server(folder, network=network) as server:
        tell(words_for(server))
        with contextlib.suppress(KeyboardInterrupt):
            server.serve_forever()
