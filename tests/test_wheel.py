"""The built wheel, used from an empty folder with nothing of the source tree in reach."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def run(arguments, folder, **environment):
    return subprocess.run(
        [sys.executable, *arguments],
        cwd=folder,
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, **environment},
    )


def test_the_wheel_does_the_main_job_in_an_empty_folder(tmp_path):
    built = run(
        ["-m", "build", "--wheel", "--no-isolation", "--outdir", str(tmp_path / "dist"), str(ROOT)],
        tmp_path,
    )
    assert built.returncode == 0, built.stderr
    wheels = list((tmp_path / "dist").glob("*.whl"))
    assert len(wheels) == 1
    installed = tmp_path / "installed"
    done = run(
        [
            "-m",
            "pip",
            "install",
            "--quiet",
            "--no-deps",
            "--target",
            str(installed),
            str(wheels[0]),
        ],
        tmp_path,
    )
    assert done.returncode == 0, done.stderr
    empty = tmp_path / "empty"
    empty.mkdir()
    where = run(
        [
            "-c",
            "import mixerkit, mixerkit.data_files as d; print(mixerkit.__file__, d.data_path())",
        ],
        empty,
        PYTHONPATH=str(installed),
    )
    assert all(Path(one).is_relative_to(installed) for one in where.stdout.split()), where
    for arguments in (
        ["new", "my.toml"],
        ["check", "my.toml"],
        ["report", "my.toml", "--out", "out"],
        ["sheets", "my.toml", "--out", "sheets"],
    ):
        done = run(["-m", "mixerkit", *arguments], empty, PYTHONPATH=str(installed))
        assert done.returncode == 0, done.stderr
    assert (empty / "out" / "report.html").stat().st_size > 100_000
    assert (installed / "mixerkit" / "py.typed").exists()
    assert not list(installed.rglob("*.ipynb"))
