"""Make the picture in README: the gear path panel as JupyterLab shows it.

Run it with ``python tests/make_pictures.py`` where Chromium is installed.
"""

import os
import shutil
import tempfile
from pathlib import Path

import browser

NOTEBOOKS = Path(__file__).parents[1] / "notebooks"


def main():
    """Open the notebook, run it, and take the picture of its panel."""
    os.environ["MIXERKIT_DESIGN"] = "/no such folder/my_mixer.toml"
    (NOTEBOOKS / "pictures").mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        shutil.copy(NOTEBOOKS / "05_gear_paths.ipynb", folder)
        with browser.jupyter_lab(Path(folder)) as address, browser.page(1500, 1300) as tab:
            browser.run_notebook(tab, address, "05_gear_paths.ipynb")
            panel = tab.locator(".jp-OutputArea .widget-vbox").first
            panel.scroll_into_view_if_needed()
            panel.screenshot(path=str(NOTEBOOKS / "pictures" / "gear_paths.png"))


if __name__ == "__main__":
    main()
