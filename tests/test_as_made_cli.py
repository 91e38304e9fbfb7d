"""Every mistake of the as-made tests through the command line, its sizes in a file, ways out included."""

import pytest
import spoil
import test_as_made as traps
import tomlkit

DESIGN = spoil.DESIGNS["larkfield"].encode()
GO_ON = ("cutter of another module", "all bores moved")
"""Mistakes that no step waits for by themselves."""


def asked(content, folder):
    case = spoil.Case(
        "hold-points",
        ("hold-points", "d.toml", "s.toml"),
        {
            "d.toml": DESIGN,
            "s.toml": tomlkit.dumps(content).encode(),
            "my_shop.toml": spoil.SHOP.encode(),
        },
    )
    found = spoil.judge(case, folder)
    status, out, err = spoil.typed(case.arguments, folder)
    return found, status, out, err


@pytest.mark.parametrize("name", traps.MISTAKES)
def test_a_mistake_in_the_file_stops_the_step_and_is_named(name, tmp_path):
    content, _, words = traps.MISTAKES[name]
    found, status, out, _ = asked(content, tmp_path)
    assert found == []
    stops = [line for line in out.splitlines() if line.startswith("stop")]
    assert status == (1 if stops else 0)
    if stops:
        assert words in out
    # what no step of the work asks for cannot stop one
    assert stops or name in GO_ON or "tooth_count" in str(content)


@pytest.mark.parametrize("turns", [0, 1, 2, 1000])
@pytest.mark.parametrize("holes", [0, 1, 21, 1000])
@pytest.mark.parametrize("circle", [0, 1, 21, 39])
def test_any_setting_of_the_dividing_head_is_judged(turns, holes, circle, tmp_path):
    found, status, out, _ = asked(traps.head(turns, holes, circle), tmp_path)
    assert found == []
    # 40 turns for one of the spindle, 30 teeth: 1 1/3 turns of the crank, and by no other way
    right = circle and holes < circle and 3 * (turns * circle + holes) == 4 * circle
    assert status == (0 if right else 1)
    assert ("dividing head for the direct path" in out) is not right
