"""Time the report and the shop sheets of the demo, warm; prints, asserts nothing.

Run it with ``python tests/bench/bench_report.py``.
"""

import time

from mixerkit import Design, Machine
from mixerkit.shop.workshop import read_workshop
from mixerkit.show.report import report_html
from mixerkit.show.sheets import sheets_html


def best(action):
    """Least of three wall times in seconds, after a first one that warms up."""
    times = []
    for _ in range(4):
        start = time.perf_counter()
        action()
        times.append(time.perf_counter() - start)
    return min(times[1:])


def main():
    """Print the times and ratios."""
    design, shop = Design.demo(), read_workshop()
    report = best(lambda: report_html(Machine(design), shop=shop))
    sheets = best(lambda: sheets_html(design, shop))
    whole = best(lambda: Machine(design).checks)
    print(f"report: {report:.2f} s (aim: under 3 s), {report / whole:.0f} times the checks")
    print(f"shop sheets alone: {sheets:.2f} s, {sheets / report:.2f} of it")


if __name__ == "__main__":
    main()
