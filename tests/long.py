"""The long tier: everything in full, in parts that are kept, so that a run broken off goes on where it was.

``python tests/long.py`` runs what has not passed on the present commit and writes down each part's result,
with date and commit, in tests/long_results.json. ``--list`` prints them; ``--only WORD`` runs the parts
whose name holds a word. Commit first: parts run on a changed tree are marked so.
"""

import argparse
import json
import os
import re
import subprocess
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

ROOT = Path(__file__).parent.parent
RESULTS = ROOT / "tests" / "long_results.json"
WHOLE = {"MIXERKIT_EXAMPLES": "long"}


def parts():
    """Name, environment and pytest's arguments of each part."""
    yield "everything of the quick tier", {}, []
    yield (
        "properties with many examples",
        WHOLE,
        ["tests", "--ignore=tests/test_remedies.py", "--ignore=tests/test_spoiled.py"],
    )
    for seed in range(1, 11):
        yield (
            f"remedies followed, 40 designs of seed {seed}",
            {"MIXERKIT_MENDED": "40", "MIXERKIT_SPOILED_SEED": str(seed)},
            ["tests/test_remedies.py", "-k", "typed_as_printed"],
        )
    for seed in range(1, 21):
        yield (
            f"referee, 2 designs of seed {seed}",
            {
                "MIXERKIT_REFEREED": "2",
                "MIXERKIT_SPOILED_SEED": str(seed),
                "MIXERKIT_REFEREED_STEPS": "24",
            },
            ["tests/test_remedies.py", "-k", "sweep_of_every_choice", "-s"],
        )
    yield (
        "thicker never fails, 100 designs drawn anew",
        {"MIXERKIT_THICKER": "100"},
        ["tests/test_thicker.py"],
    )
    yield "100 spoiled designs mended", {"MIXERKIT_MENDS": "100"}, ["tests/test_mend.py"]
    yield "200 briefs drafted in three shops", {"MIXERKIT_BRIEFS": "200"}, ["tests/test_briefs.py"]
    yield "second opinion on 200 stepped shafts", {}, ["tests/opinion_beam.py"]
    yield "second opinion on 200 soil tests of each kind", {}, ["tests/opinion_soil.py"]
    yield "second opinion on 200 trains and 200 pairs of teeth", {}, ["tests/opinion_gears.py"]
    yield "spoiled input, 5,000 cases", {"MIXERKIT_SPOILED": "5000"}, ["tests/test_spoiled.py"]


def commit():
    """The commit that stands here, marked where files differ from it."""

    def git(*words):
        return subprocess.run(
            ["git", *words], cwd=ROOT, capture_output=True, text=True, check=True
        ).stdout.strip()

    changed = git(
        "status", "--porcelain", "--untracked-files=no", "--", ":!tests/long_results.json"
    )
    return git("rev-parse", "HEAD") + (" changed" if changed else "")


def run(environment, arguments):
    """Run one part; give what is written down of it."""
    start = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-n", "auto", "--dist", "worksteal", *arguments],
        cwd=ROOT,
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
        check=False,
    )
    lines = done.stdout.strip().splitlines()
    counted = {
        word: int(number)
        for number, word in re.findall(
            r"(\d+) (passed|failed|error|skipped)", lines[-1] if lines else ""
        )
    }
    said = [
        one
        for one in lines
        if re.fullmatch(r"\d+ of \d+", one) or one.startswith(("FAILED", "ERROR"))
    ]
    return {
        "passed": done.returncode == 0,
        "counted": counted,
        "said": said[:40],
        "seconds": round(time.monotonic() - start),
        "date": datetime.now(UTC).strftime("%Y-%m-%d %H:%M"),
    }


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--list", action="store_true", help="print what is written down")
    parser.add_argument("--only", default="", help="run only parts whose name holds this")
    options = parser.parse_args()
    results = json.loads(RESULTS.read_text("utf-8")) if RESULTS.exists() else {}
    now = commit()
    for name, environment, arguments in parts():
        old = results.get(name, {})
        fresh = old.get("passed") and old.get("commit") == now
        if not (options.list or fresh) and options.only in name:
            results[name] = run(environment, arguments) | {"commit": now}
            RESULTS.write_text(json.dumps(results, indent=1) + "\n", "utf-8")
        one = results.get(name)
        if one:
            print(
                f"{'passed' if one['passed'] else 'FAILED'}  {name}  {one['counted']}  {one['seconds']} s  {one['date']}  {one['commit'][:8]}",
                *one["said"],
                sep="\n    ",
                flush=True,
            )
    return 0 if all(one["passed"] for one in results.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
