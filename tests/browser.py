"""A JupyterLab server and a headless Chromium for tests and for the pictures in README."""

from __future__ import annotations

import contextlib
import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import TimeoutError as Timeout
from playwright.sync_api import sync_playwright

LIVE = ".jp-OutputArea .widget-vbox img"

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium() -> str | None:
    """Path of an installed Chromium, or None."""
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
    return next(filter(None, map(shutil.which, names)), None)


@contextmanager
def page(width: int = 1400, height: int = 1000) -> Iterator[Any]:
    """Give a browser page; everything it started ends with it."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium(), args=FLAGS)
        try:
            yield browser.new_page(viewport={"width": width, "height": height})
        finally:
            browser.close()


@contextmanager
def jupyter_lab(folder: Path) -> Iterator[str]:
    """Serve a folder in JupyterLab on this machine only; gives the address."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    address = f"http://127.0.0.1:{port}"
    settings = folder / ".jupyter"
    quiet = settings / "@jupyterlab" / "apputils-extension" / "notification.jupyterlab-settings"
    quiet.parent.mkdir(parents=True, exist_ok=True)
    quiet.write_text('{"fetchNews": "false"}')
    command = [
        sys.executable,
        "-m",
        "jupyterlab",
        "--no-browser",
        "--allow-root",
        f"--port={port}",
        "--ip=127.0.0.1",
        "--IdentityProvider.token=",
        "--ServerApp.password=",
        f"--LabApp.user_settings_dir={settings}",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    ]
    environment = {
        **os.environ,
        "JUPYTER_CONFIG_DIR": str(settings),
    }
    server = subprocess.Popen(
        command, cwd=folder, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    try:
        deadline = time.monotonic() + 90
        while True:
            try:
                urllib.request.urlopen(f"{address}/api/status", timeout=2)
                break
            except OSError:
                if time.monotonic() > deadline or server.poll() is not None:
                    raise
                time.sleep(0.3)
        yield address
    finally:
        server.terminate()
        server.wait(20)


def run_notebook(
    tab: Any, address: str, name: str, live: str = LIVE, *, table: bool = True
) -> None:
    """Open a notebook in JupyterLab, run all its cells and wait for what shows that it is alive."""
    tab.goto(f"{address}/lab/tree/{name}?reset")
    tab.wait_for_selector(".jp-Notebook .jp-CodeCell", timeout=90_000)
    # only the status bar tells a kernel that is connected from one that is still to be chosen
    for _ in range(4):
        tab.wait_for_selector("text=/[|] Idle/", timeout=90_000)
        tab.get_by_role("menuitem", name="Run", exact=True).click()
        tab.locator(".lm-Menu-itemLabel", has_text="Run All Cells").first.click()
        with contextlib.suppress(Timeout):
            tab.wait_for_selector(live, state="attached", timeout=20_000)
            break
    if table:
        tab.wait_for_function(
            "document.querySelectorAll('.jp-OutputArea .widget-vbox table tbody tr').length > 0"
        )
