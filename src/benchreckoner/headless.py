"""A JupyterLab and a Chromium without a window, for browser tests and benchmarks.

Everything is thrown away afterwards: the server reads and writes only its own temporary
folder, listens on this machine only, asks for a token and asks nothing of the network.
"""

import contextlib
import json
import os
import secrets
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

from benchreckoner import lab

NAMES = ("chromium", "chromium-browser")
SWITCHES = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update",
            "--disable-sync", "--no-first-run", "--disable-quic")
_PATIENCE = 90  # seconds for JupyterLab to answer on a slow machine


def find_chromium(*, environment=os.environ, which=shutil.which):
    """The browser named by BENCH_RECKONER_CHROMIUM, else the first that is installed, else None."""
    return environment.get("BENCH_RECKONER_CHROMIUM") or next(filter(None, map(which, NAMES)), None)


@contextlib.contextmanager
def chromium(*, program):
    """Open a browser without a window and close it again."""
    from playwright.sync_api import sync_playwright  # a test's need, not a reader's

    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=program, args=list(SWITCHES))
        yield opened
        opened.close()


@contextlib.contextmanager
def jupyterlab(*, folder, own, environment=None):
    """Start JupyterLab on a folder and stop it again.

    Parameters
    ----------
    folder : pathlib.Path
        What it shows.
    own : pathlib.Path
        A temporary folder for its settings, workspaces and running files.
    environment : dict, optional
        Further variables for the server and its kernels.

    Yields
    ------
    callable
        ``address("book.ipynb")`` is where a browser finds that file.

    Raises
    ------
    RuntimeError
        With the server's own words when it does not start.
    """
    settings = Path(own) / "lab_settings"
    settings.mkdir(parents=True)
    # Cells that scroll out of sight keep their outputs, so that a test can look at any of them.
    settings.joinpath("overrides.json").write_text(json.dumps({
        "@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False},
        "@jupyterlab/notebook-extension:tracker": {"windowingMode": "none"}}), encoding="utf-8")
    token, port = secrets.token_hex(16), _free_port()
    options = {
        "ServerApp.root_dir": folder, "ServerApp.ip": "127.0.0.1", "ServerApp.port": port, "ServerApp.port_retries": 0,
        "ServerApp.open_browser": False, "IdentityProvider.token": token,
        "LabApp.app_settings_dir": settings, "LabApp.expose_app_in_browser": True,
    }
    homes = {"JUPYTER_CONFIG_DIR": "config", "JUPYTER_RUNTIME_DIR": "runtime", "JUPYTERLAB_SETTINGS_DIR": "settings",
             "JUPYTERLAB_WORKSPACES_DIR": "workspaces", "IPYTHONDIR": "ipython"}
    variables = {**os.environ, **{name: str(Path(own) / home) for name, home in homes.items()}, **(environment or {})}
    with Path(own).joinpath("server.log").open("w+", encoding="utf-8") as log:
        server = subprocess.Popen([sys.executable, "-m", "jupyterlab", *lab.words(options)],
                                  env=variables, stdout=log, stderr=subprocess.STDOUT)
        try:
            _wait_for(server, f"http://127.0.0.1:{port}/api/status?token={token}", log)
            # A workspace of its own each time: one that remembers would put the last book behind this one.
            yield lambda name: (f"http://127.0.0.1:{port}/doc/workspaces/{secrets.token_hex(4)}/tree/{name}"
                                f"?token={token}")
        finally:
            server.terminate()
            try:
                server.wait(timeout=20)
            except subprocess.TimeoutExpired:
                server.kill()
                server.wait()


def open_book(page, address):
    """Open a notebook in JupyterLab and wait until its kernel can be used."""
    page.goto(address)
    page.locator(".jp-Notebook .jp-Cell").first.wait_for(timeout=_PATIENCE * 1000)
    page.wait_for_function("""() => {
        const panel = window.jupyterapp.shell.currentWidget;
        return panel?.sessionContext?.isReady && panel.sessionContext.session?.kernel?.status === "idle";
    }""", timeout=_PATIENCE * 1000)


def run_all(page, *, patience=_PATIENCE):
    """Run all cells of the open notebook and wait for the last one."""
    page.evaluate("() => window.jupyterapp.commands.execute('notebook:run-all-cells')")
    page.wait_for_function("""() => {
        const cells = [...window.jupyterapp.shell.currentWidget.content.widgets];
        const code = cells.filter((cell) => cell.model.type === "code" && cell.model.sharedModel.getSource().trim());
        return code.every((cell) => cell.model.executionCount !== null)
            && window.jupyterapp.shell.currentWidget.sessionContext.session.kernel.status === "idle";
    }""", timeout=patience * 1000)


def _free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def _wait_for(server, address, log):
    direct = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    begun = time.monotonic()
    while time.monotonic() - begun < _PATIENCE:
        with contextlib.suppress(urllib.error.URLError, ConnectionError, TimeoutError):
            direct.open(address, timeout=5).close()
            return
        if server.poll() is not None:
            break
        time.sleep(0.2)
    log.seek(0)
    raise RuntimeError(f"JupyterLab did not start; its own words:\n{log.read()}")
