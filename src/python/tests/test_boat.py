"""One boat: the answers are those of the program on the same file."""

import json
import os
import pickle
import subprocess
from pathlib import Path

import planewright
import pytest
from planewright import Boat, BoatError

BOATS = Path(__file__).parents[3] / "data" / "boats"
LANTERN = BOATS / "lantern.toml"
PROGRAM = Path(__file__).parents[3] / "target" / "release" / "planewright"


def told(*arguments):
    """What the program answers as JSON."""
    if not PROGRAM.is_file():
        if "PLANEWRIGHT_CI" in os.environ:
            pytest.fail(f"{PROGRAM} is not built")
        pytest.skip("the program is not built")
    done = subprocess.run([PROGRAM, *arguments, "--json"], capture_output=True, check=True)
    return json.loads(done.stdout)


def test_regression_a_run_is_that_of_the_command():
    asked = ["--speed", "16 kn", "--speed", "22 kn", "--deflection", "0 deg", "--deflection", "5 deg"]
    points = told("run", str(LANTERN), *asked)["points"]
    own = Boat.read(LANTERN).run(["16 kn", "22 kn"], ["0 deg", "5 deg"])
    assert len(own) == 4
    for mine, theirs in zip(own, points, strict=True):
        for key in ["speed_m_s", "deflection_deg", "outcome", "flags"]:
            assert mine[key] == theirs[key]
        # A command starts each point from the one before: the last digits may differ.
        for key in ["trim_deg", "resistance_n", "plane_lift_n", "porpoising_limit_deg"]:
            assert mine[key] == pytest.approx(theirs[key], rel=1e-6)


def test_regression_a_size_is_that_of_the_command():
    theirs = told("size", str(LANTERN))
    own = Boat.read(LANTERN).size()
    assert own["other_lift_model"]["answer"] == "pair", "what another theory says is told too"
    assert own["schedule"] and own["variants"]
    for key in own:
        assert own[key] == theirs[key], key


def test_physics_a_doubt_holds_the_boat_as_described():
    boat = Boat.read(LANTERN)
    rows = boat.doubt(draws=500)["speeds"]
    assert boat.doubt(draws=500)["speeds"] == rows, "the same seed, the same answer"
    row = rows[len(rows) // 2]
    trim = boat.run(f"{row['speed_m_s']} m/s")[0]["trim_deg"]
    assert row["trim_deg"]["low"] < trim < row["trim_deg"]["high"]


def test_regression_what_is_drawn_unasked_is_what_the_command_draws():
    theirs = told("size", str(LANTERN))["chances"]
    assert (theirs["draws"], theirs["seed"]) == (planewright.DRAWS, planewright.SEED)
    boat = Boat.read(LANTERN)
    assert boat.size() == boat.size(draws=planewright.DRAWS, seed=planewright.SEED)
    limits = f"{planewright.FEWEST_DRAWS} to {planewright.MOST_DRAWS}"
    for draws in (planewright.FEWEST_DRAWS - 1, planewright.MOST_DRAWS + 1):
        with pytest.raises(BoatError, match=limits):
            boat.size(draws=draws)


def test_regression_keywords_make_the_boat_of_a_file():
    boat = Boat(
        name="Heron",
        hull={"bottom_length": "6.5 m", "chine_beam": "2.25 m", "deadrise": "18 deg"},
        weight={"mass": "2800 kg", "lcg": "2.45 m", "vcg": "0.75 m"},
        planes={"span": "600 mm", "chord": "300 mm"},
        duty=[{"kind": "relief", "at_least": "2 deg"}],
    )
    assert boat.name == "Heron" and boat.conditions == ["as listed"]
    again = Boat.parse(boat.text)
    assert again.run("20 kn", "5 deg") == boat.run("20 kn", "5 deg")
    up, down = boat.run("20 kn", ["0 deg", "5 deg"])
    assert down["trim_deg"] < up["trim_deg"]


def test_error_faults_carry_line_and_cure():
    with pytest.raises(BoatError) as raised:
        Boat.parse('[hull]\nbottom_length = "6.5 m"\nchine_beam = 2.25\n[weight]\nmass = "2800 kg"\n')
    first = raised.value.faults[0]
    assert first.line == 3 and raised.value.line == 3
    assert "hull.chine_beam: 2.25 has no unit" in first.problem
    assert '"2.25 m"' in raised.value.cure
    again = pickle.loads(pickle.dumps(raised.value))
    assert again.faults == raised.value.faults and str(again) == str(raised.value)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (lambda: Boat.read("no-such.toml"), "there is no such file"),
        (lambda: Boat(hull={"chine_bem": "2 m"}), "no key `chine_bem`"),
        (lambda: Boat.read(LANTERN).run("20"), "has no unit"),
        (lambda: Boat.read(LANTERN).run("20 kn", "44 deg"), "deflection"),
        (lambda: Boat.read(LANTERN).run("20 kn", method="best"), "there is no `best`"),
        (lambda: Boat.read(LANTERN).size(draws=3), "draws: 3"),
        (lambda: Boat.read(LANTERN).in_condition("afloat"), "afloat"),
    ],
)
def test_error_what_cannot_be_asked(wrong, said):
    with pytest.raises(BoatError, match=said):
        wrong()


def test_regression_every_flag_of_an_answer_has_its_meaning():
    meanings = planewright.flag_meanings()
    for path in BOATS.glob("*.toml"):
        for point in Boat.read(path).run(deflections="0 deg"):
            assert set(point["flags"]) <= set(meanings)
    assert "sea trial" in planewright.CAUTION
