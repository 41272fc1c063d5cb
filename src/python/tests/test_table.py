"""Tables: the same answers whatever library brings them, faults in their rows, on all cores."""

import multiprocessing
import threading
import time
from pathlib import Path

import duckdb
import pandas
import planewright
import polars
import pyarrow
import pytest
from planewright import Boat, BoatError

from boats import many

WREN = Path(__file__).parents[3] / "data" / "boats" / "wren.toml"


@pytest.fixture(scope="module")
def boats():
    return many(200)


@pytest.fixture(scope="module")
def answers(boats):
    return planewright.run_table(boats, "20 kn", keep="hull_no")


def test_regression_every_library_gets_its_own_type_and_the_same_numbers(boats, answers):
    assert isinstance(answers, pandas.DataFrame)
    arrow = pyarrow.Table.from_pandas(boats)
    of_arrow = planewright.run_table(arrow, "20 kn", keep="hull_no")
    assert isinstance(of_arrow, pyarrow.Table)
    of_polars = planewright.run_table(polars.DataFrame(boats), "20 kn", keep="hull_no")
    assert isinstance(of_polars, polars.DataFrame)
    relation = duckdb.sql("select * from boats")
    of_duckdb = pyarrow.table(planewright.run_table(relation, "20 kn", keep="hull_no"))
    expected = of_arrow.to_pylist()
    assert of_polars.to_arrow().to_pylist() == expected
    assert of_duckdb.to_pylist() == expected
    pandas.testing.assert_frame_equal(answers, of_arrow.to_pandas())
    # And back: the answers may be asked by name where they stand.
    count = duckdb.sql("select count(*) from answers where outcome = 'running'").fetchall()[0][0]
    assert count == (answers["outcome"] == "running").sum() > 150


def test_regression_a_row_is_the_boat_by_herself(boats, answers):
    for place in [0, 57, 199]:
        row = boats.iloc[place]
        quantity = {key: f"{row[key]} {key.rpartition('[')[2].rstrip(']')}" for key in boats if "[" in key}
        boat = {"hull": {}, "weight": {}, "planes": {}}
        for heading, text in quantity.items():
            table, _, key = heading.split(" ")[0].partition(".")
            boat[table][key] = text
        point = Boat(**boat).run("20 kn")[0]
        mine = answers.iloc[place]
        assert mine["hull_no"] == row["hull_no"] and mine["row"] == place + 1
        for key in ["trim_deg", "resistance_n", "wetted_keel_m"]:
            assert mine[key] == point[key]


def test_regression_units_stand_in_the_schema(boats):
    table = pyarrow.Table.from_pandas(boats.drop(columns="hull_no"))
    table = planewright.run_table(table, "20 kn", fields=["trim"])
    assert table.schema.field("trim_deg").metadata == {b"unit": b"deg"}
    assert table.schema.names == [
        "row", "speed_m_s", "deflection_deg", "outcome", "trim_deg", "flags", "questions", "fault", "cure",
    ]


def test_error_a_fault_is_a_column_and_the_rows_around_it_stay(boats, answers):
    wrong = boats.copy()
    wrong.loc[3, "hull.chine_beam [m]"] = 99.0
    wrong.loc[4, "weight.mass [kg]"] = float("nan")
    table = planewright.run_table(wrong, "20 kn", keep="hull_no")
    assert "99 m is outside" in table["fault"][3] and table["cure"][3]
    assert "weight.mass is missing" in table["fault"][4]
    assert table["trim_deg"].isna()[[3, 4]].all()
    rest = [place for place in range(len(boats)) if place not in (3, 4)]
    pandas.testing.assert_frame_equal(table.iloc[rest], answers.iloc[rest])


def test_regression_pieces_make_the_whole(boats, answers):
    pieces = [
        planewright.run_table(boats[first : first + 37], "20 kn", keep="hull_no", first_row=first + 1)
        for first in range(0, len(boats), 37)
    ]
    whole = pandas.concat(pieces, ignore_index=True)
    pandas.testing.assert_frame_equal(whole, answers)


def test_practice_types_that_data_frames_have(boats):
    frame = boats[:4].copy()
    frame["hull_no"] = pandas.Categorical(frame["hull_no"])
    frame["planes.chord [mm]"] = frame["planes.chord [mm]"].round().astype("int32")
    frame["drive.kind"] = ["outboard", None, "shaft", "jet"]
    frame["launched"] = pandas.to_datetime(["2026-05-01", "2026-06-01", None, "2026-07-01"])
    frame["order"] = [2**60 + 1, 2, 3, 4]
    kept = ["hull_no", "drive.kind", "launched", "order"]
    table = planewright.run_table(frame, ["20 kn", "24 kn"], keep=kept)
    assert table["fault"].isna().all(), table["fault"].tolist()
    # What is kept is what it was, type and all, once for every point.
    twice = frame.loc[[0, 0, 1, 1, 2, 2, 3, 3]].reset_index(drop=True)
    for column in ["hull_no", "launched", "order"]:
        assert table[column].dtype == twice[column].dtype, column
        assert table[column].equals(twice[column]), column
    dated = boats[:1].assign(**{"hull.roughness": pandas.Timestamp("2026-01-01")})
    with pytest.raises(BoatError, match="hull.roughness.* is of the type"):
        planewright.run_table(dated, "20 kn", keep="hull_no")


def test_physics_a_row_asks_at_a_speed_and_deflection_of_its_own(boats):
    frame = boats[:1].loc[[0] * 3].assign(**{"run.speed [kn]": [20.0] * 3, "run.deflection [deg]": [0.0, 5.0, 10.0]})
    table = planewright.run_table(frame, keep="hull_no")
    assert table["deflection_deg"].tolist() == [0, 5, 10]
    assert table["trim_deg"].is_monotonic_decreasing


def test_regression_sizes_are_those_of_each_boat():
    frame = pandas.DataFrame({"name": ["one", None]})
    boat = Boat.read(WREN)
    table = planewright.size_table(frame, boat=boat, fields=["span", "chord", "chance"])
    own = boat.size()
    for row in table.to_dict("records"):
        assert row["answer"] == own["answer"] == "pair"
        assert [row["span_m"], row["chord_m"], row["chance"]] == [own["span_m"], own["chord_m"], own["chance"]]


def test_error_what_no_table_is(boats):
    for wrong, said in [
        (lambda: planewright.run_table([1, 2], "20 kn"), "is no table"),
        (lambda: planewright.run_table(boats, "20 kn"), "hull_no"),
        (lambda: planewright.run_table(boats, keep="hull_no"), "nothing says at which speeds"),
        (lambda: planewright.run_table(boats, "20 kn", keep="hull_no", fields="trimm"), "no field"),
    ]:
        with pytest.raises(BoatError, match=said):
            wrong()


def test_practice_the_interpreter_is_free_meanwhile():
    table = pyarrow.Table.from_pandas(many(4000))
    speeds = [f"{speed} kn" for speed in range(15, 31)]
    done = threading.Event()

    def work():
        planewright.run_table(table, speeds, keep="hull_no")
        done.set()

    thread = threading.Thread(target=work)
    turns, began = 0, time.monotonic()
    thread.start()
    while not done.is_set():
        turns += 1
        time.sleep(0.001)
    thread.join()
    # Held for the whole time there would be hardly one turn.
    assert turns > 10, (turns, time.monotonic() - began)


def asked(table):
    return planewright.run_table(table, "20 kn", keep="hull_no")


def test_practice_a_forked_process_has_threads_of_its_own(boats):
    table = pyarrow.Table.from_pandas(boats)
    expected = asked(table)
    with multiprocessing.get_context("fork").Pool(1) as pool:
        # Waiting for threads that were not forked it would never end.
        assert pool.apply_async(asked, (table,)).get(timeout=60).equals(expected)
