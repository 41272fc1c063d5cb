"""Partitions on two worker processes, of which one is ended in the middle: nothing lost, nothing doubled."""

import os
import signal

import dask.dataframe
import pandas
import planewright
from distributed import Client, LocalCluster, as_completed

from boats import many

PARTITIONS = 16
SPEEDS = [f"{speed} kn" for speed in range(12, 32)]


def test_practice_a_worker_is_lost_and_no_row_is():
    boats = many(4000)
    asked = {"keep": "hull_no", "fields": ["trim", "resistance"]}
    expected = planewright.run_table(boats, SPEEDS, **asked)
    frame = dask.dataframe.from_pandas(boats, npartitions=PARTITIONS)
    meta = planewright.run_table(boats.head(0), SPEEDS, **asked)
    answers = frame.map_partitions(planewright.run_table, SPEEDS, meta=meta, **asked)
    with (
        LocalCluster(n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None) as cluster,
        Client(cluster) as client,
    ):
        client.run(__import__, "planewright")
        workers = client.run(os.getpid)
        assert len(set(workers.values())) == 2 and os.getpid() not in workers.values()
        pieces = client.compute(answers.to_delayed())
        first = next(iter(as_completed(pieces)))
        # The one that holds what is done already, so that this has to be done again too.
        lost = next(iter(client.who_has([first])[first.key]))
        unfinished = sum(not piece.done() for piece in pieces)
        os.kill(workers[lost], signal.SIGKILL)
        assert unfinished > 0, "it was ended in the middle"
        whole = pandas.concat(client.gather(pieces), ignore_index=True)
        assert set(client.run(os.getpid).values()) != set(workers.values())
    assert len(whole) == len(boats) * len(SPEEDS)
    # Each piece counts its own rows; the hull's number is the table's.
    columns = [column for column in whole if column != "row"]
    pandas.testing.assert_frame_equal(
        whole[columns].astype(expected[columns].dtypes), expected[columns]
    )
