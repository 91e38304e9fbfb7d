"""The panels as a maker meets them: JupyterLab in a headless Chromium."""

import os
import re
import shutil
from pathlib import Path

import browser
import pytest

from mixerkit import Design, Machine
from mixerkit.data_files import data_path
from mixerkit.shop.shelf_file import Shelf
from mixerkit.shop.workshop import read_workshop
from mixerkit.show import sheets

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


def keep(tab):
    """Keep what is on the bench, and wait until it is said to be kept."""
    tab.get_by_role("button", name="Keep these values").first.click()
    tab.wait_for_function(
        "document.body.innerText.includes('kept in my_mixer.toml')", timeout=30_000
    )


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
        keep(tab)
    assert Design.read(own_folder / "my_mixer.toml").clutch.drawn_in == "neutral"


def test_the_first_notebook_drafts_a_machine_from_answers_and_keeps_it(own_folder):
    with browser.jupyter_lab(own_folder) as address, browser.page() as tab:
        form = ".jp-OutputArea .widget-vbox button"
        browser.run_notebook(tab, address, "00_start_here.ipynb", form, table=False)
        tab.get_by_label("2 One bag").fill("12 kg")
        tab.get_by_role("button", name="Draft my machine").click()
        tab.wait_for_function(
            "document.body.innerText.includes('values were drafted')", timeout=120_000
        )
        assert "to buy: a" in tab.inner_text("body")
        tab.get_by_role("button", name="Keep this machine").click()
        tab.wait_for_function(
            "document.body.innerText.includes('kept in my_mixer.toml')", timeout=30_000
        )
    kept = Design.read(own_folder / "my_mixer.toml")
    assert kept.batch.mass == 12
    assert Machine(kept).verdict != "fails"
    assert (own_folder / "my_brief.toml").exists()


def test_showing_a_panel_changes_nothing(own_folder):
    """A slider that snaps to its steps when it is drawn would change the design unseen."""
    with browser.jupyter_lab(own_folder) as address, browser.page() as tab:
        # those with a panel of knobs; every second of them in the quick tier
        pages = [
            one
            for one in sorted(own_folder.glob("*.ipynb"))
            if re.search(
                r"panels\.(?!open_design|place|begin|mending|comparing)\w+\(bench",
                one.read_text("utf-8"),
            )
        ]
        for path in pages if os.environ.get("MIXERKIT_EXAMPLES") == "long" else pages[::2]:
            browser.run_notebook(tab, address, path.name)
            tab.wait_for_timeout(500)
            keep(tab)
            assert Design.read(own_folder / "my_mixer.toml") == Design.demo(), path.name
            (own_folder / "my_mixer.toml").unlink()


def test_a_design_that_fails_is_mended_with_a_button(own_folder):
    with browser.jupyter_lab(own_folder) as address, browser.page() as tab:
        browser.run_notebook(tab, address, "18_mend.ipynb", table=False)
        tab.get_by_role("button", name="Show one that fails").click()
        tab.wait_for_function("document.body.innerText.includes('checks fail:')", timeout=30_000)
        tab.get_by_role("button", name="Find what mends it").click()
        tab.get_by_role("button", name="Do this").first.click(timeout=120_000)
        tab.wait_for_function("!document.body.innerText.includes('checks fail:')", timeout=30_000)
        keep(tab)
    assert Machine(Design.read(own_folder / "my_mixer.toml")).verdict != "fails"


def test_a_machine_picked_from_many_is_laid_on_the_bench(own_folder):
    with browser.jupyter_lab(own_folder) as address, browser.page() as tab:
        browser.run_notebook(tab, address, "19_compare.ipynb", table=False)
        tab.get_by_role("button", name=re.compile(r"Lay \d+ on the bench")).last.click()
        tab.wait_for_function("document.body.innerText.includes('is on the bench')", timeout=30_000)
        keep(tab)
    assert Machine(Design.read(own_folder / "my_mixer.toml")).verdict != "fails"


def test_hold_points_follow_what_is_typed(own_folder):
    form = ".jp-OutputArea textarea"
    with browser.jupyter_lab(own_folder) as address, browser.page() as tab:
        browser.run_notebook(tab, address, "16_as_made.ipynb", form)
        form_words = ".jp-OutputArea .widget-vbox"
        tab.wait_for_function(
            f"document.querySelector('{form_words}').innerText.includes('right for 28 teeth, not 30')"
        )
        text = tab.input_value(form)
        tab.fill(
            form,
            text.replace('"149.95 mm"', '"159.95 mm"')
            .replace("150.15 mm", "150.01 mm")
            .replace("320.15 mm", "320.01 mm"),
        )
        tab.wait_for_function(
            "!document.querySelector('.jp-OutputArea .widget-vbox').innerText.includes('stop')",
            timeout=30_000,
        )


def fits(tab, address):
    """Sheets whose words or drawings run over their side of paper."""
    tab.emulate_media(media="print")
    tab.goto(address)
    return tab.evaluate(
        "[...document.querySelectorAll('.sheet')].filter(one => one.scrollHeight > one.clientHeight + 1 || "
        "one.scrollWidth > one.clientWidth + 1).map(one => one.querySelector('h3').textContent)"
    )


FULL = {
    "bars": [
        {
            "diameter": f"{size} mm",
            "length": "900 mm",
            "material": material,
            "sure": "tested",
            "count": 4,
        }
        for size, material in (
            (55, "steel 42CrMo4 quenched and tempered"),
            (180, "steel 42CrMo4 quenched and tempered"),
            (100, "steel C45 quenched and tempered"),
            (16, "stainless 1.4462 annealed"),
            (60, "cast tin bronze, greased"),
        )
    ]
}
"""A shelf that all round parts of the demo come from, of which the most is said."""


def shop_of(which):
    """The demo's shop, that of the inch demo, one with a full shelf, or none."""
    files = {"demo": "larkfield_shop", "inch": "inch_room_shop", "shelf": "larkfield_shop"}
    if which not in files:
        return None
    shop = read_workshop(data_path("shops", f"{files[which]}.toml"))
    return shop.changed(shelf=Shelf.from_table(FULL)) if which == "shelf" else shop


@pytest.mark.parametrize("paper", list(sheets.PAPERS))
@pytest.mark.parametrize(
    ("name", "which"),
    [
        ("larkfield", "demo"),
        ("larkfield", "none"),
        ("larkfield", "shelf"),
        ("inch_room", "inch"),
        ("inch_room", "none"),
    ],
)
def test_every_sheet_prints_on_one_side_with_nothing_cut_off(name, which, paper, tmp_path):
    design, shop = Design.demo(name), shop_of(which)
    path = sheets.write_sheets(design, shop, tmp_path, paper)[0]
    with browser.page() as tab:
        assert fits(tab, path.as_uri()) == []
        printed = tab.pdf(prefer_css_page_size=True)
        # nothing of a drawing or a table lies outside its sheet
        outside = tab.evaluate(
            """[...document.querySelectorAll('.sheet')].flatMap(sheet => { const s = sheet.getBoundingClientRect();
            return [...sheet.querySelectorAll('td, text, svg')].filter(one => { const b = one.getBoundingClientRect();
            return b.left < s.left - 1 || b.right > s.right + 1 || b.bottom > s.bottom + 1 }).map(one => one.textContent) })"""
        )
    assert outside == []
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == len(sheets.sheets(design, shop))
    size = re.search(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)", printed)
    _, wide, high = sheets.PAPERS[paper]
    assert float(size[1]) * 25.4 / 72 == pytest.approx(wide, abs=1)
    assert float(size[2]) * 25.4 / 72 == pytest.approx(high, abs=1)
