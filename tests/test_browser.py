"""The panels as a maker meets them: JupyterLab in a headless Chromium."""

import os
import shutil
from pathlib import Path

import browser
import pytest

from mixerkit import Design

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"
PICTURE = ".jp-OutputArea .widget-vbox img"
TABLE = ".jp-OutputArea .widget-vbox table.checks"

pytestmark = pytest.mark.skipif(
    browser.chromium() is None and not os.environ.get("CI"),
    reason="no Chromium on this machine (apt-get install chromium)",
)


@pytest.fixture
def own_folder(tmp_path, monkeypatch):
    """A maker's own copy of the notebooks, with no file of an earlier sitting."""
    folder = tmp_path / "notebooks"
    shutil.copytree(
        NOTEBOOKS, folder, ignore=shutil.ignore_patterns("my_mixer.toml*", ".ipynb_checkpoints")
    )
    monkeypatch.delenv("MIXERKIT_DESIGN")
    return folder


def test_gear_paths_answer_a_slider_and_keep_the_values(own_folder):
    with browser.jupyter_lab(own_folder) as address, browser.page() as tab:
        browser.run_notebook(tab, address, "05_gear_paths.ipynb")
        picture, table = tab.get_attribute(PICTURE, "src"), tab.inner_text(TABLE)
        assert "fails" not in table
        slider = tab.locator(".widget-hslider", has_text="Direct, shaft 1 teeth").locator(
            ".noUi-handle"
        )
        slider.focus()
        slider.press("ArrowRight")
        changed = f"document.querySelector('{TABLE}').innerText.includes('fails')"
        tab.wait_for_function(changed, timeout=30_000)
        assert tab.get_attribute(PICTURE, "src") != picture
        assert "teeth fit the centre distance" in tab.inner_text(TABLE)
        slider.press("ArrowLeft")
        tab.wait_for_function(f"!{changed}", timeout=30_000)
        assert tab.inner_text(TABLE) == table
        tab.get_by_role("button", name="neutral").click()
        tab.wait_for_function(
            f"document.querySelector('{PICTURE}').src != {picture!r}", timeout=30_000
        )
        tab.get_by_role("button", name="Keep these values").click()
        tab.wait_for_function(
            "document.body.innerText.includes('kept in my_mixer.toml')", timeout=30_000
        )
    assert Design.read(own_folder / "my_mixer.toml").clutch.drawn_in == "neutral"


def test_showing_a_panel_changes_nothing(own_folder):
    """A slider that snaps to its steps when it is drawn would change the design unseen."""
    with browser.jupyter_lab(own_folder) as address, browser.page() as tab:
        for path in sorted(own_folder.glob("*.ipynb")):
            browser.run_notebook(tab, address, path.name)
            tab.wait_for_timeout(500)
            tab.get_by_role("button", name="Keep these values").first.click()
            tab.wait_for_function(
                "document.body.innerText.includes('kept in my_mixer.toml')", timeout=30_000
            )
            assert Design.read(own_folder / "my_mixer.toml") == Design.demo(), path.name
            (own_folder / "my_mixer.toml").unlink()
