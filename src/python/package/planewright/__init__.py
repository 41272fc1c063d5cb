"""Sizes a powerboat's trim planes and estimates how the boat runs with them.

One boat is a :class:`Boat`; its answers are dictionaries under the names of the program's JSON, in
SI units with angles in degrees. Tables of boats go through :func:`run_table` and
:func:`size_table`, which take and give Arrow tables: data frames of pandas and Polars, tables of
pyarrow, relations of DuckDB. Every answer carries ``flags``, the words for what to know before
trusting it; :func:`flag_meanings` says what each means.

An estimate for calm water: see :data:`CAUTION`, and confirm by a sea trial before you drill.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Union

from . import _planewright
from ._errors import BoatError, Fault
from ._planewright import (
    CAUTION,
    DRAWS,
    FEWEST_DRAWS,
    MOST_DRAWS,
    RUN_DRAWS,
    SEED,
    Boat,
    __version__,
    flag_meanings,
)

__all__ = [
    "CAUTION",
    "DRAWS",
    "FEWEST_DRAWS",
    "MOST_DRAWS",
    "RUN_DRAWS",
    "SEED",
    "Boat",
    "BoatError",
    "Fault",
    "__version__",
    "flag_meanings",
    "run_table",
    "size_table",
]


Quantities = Union[str, Sequence[str]]
"""A quantity with its unit, or several."""


def run_table(
    table: Any,
    speeds: Quantities | None = None,
    deflections: Quantities | None = None,
    *,
    boat: Boat | None = None,
    keep: str | Sequence[str] | None = None,
    fields: str | Sequence[str] | None = None,
    first_row: int = 1,
    method: str | None = None,
    model: str | None = None,
    friction: str | None = None,
    roughness: float | None = None,
) -> Any:
    """How each boat of a table runs: a row for every deflection and speed of every boat.

    The columns of ``table`` are the keys of a boat file with the unit of their numbers,
    ``hull.chine_beam [m]``, ``weight.mass [kg]``; a missing value is a key left out. What is wrong
    with a boat stands in the columns ``fault`` and ``cure`` of its row. Columns of the answer have
    their unit at the end of their name, ``trim_deg``, ``resistance_n``.

    speeds, deflections
        Quantities with units, ``"20 kn"`` or ``["20 kn", "10 m/s"]``, ``"5 deg"``; or the columns
        ``run.speed [kn]`` and ``run.deflection [deg]`` of the table.
    boat
        A :class:`Boat` for what the rows leave out.
    keep
        Columns to be copied beside the answers; they may be called as you like.
    fields
        Numbers of the answer, such as ``["trim", "resistance", "draft"]``.
    first_row
        Number of the first row, for the column ``row``.
    method, model, friction, roughness
        How the balances are computed; words as on the command line.

    The answer is of the type that came in, for data frames of pandas and Polars and tables of
    pyarrow; for anything else an object with the Arrow C stream interface. An index of pandas is
    not kept: make it a column, and name it in ``keep``. Raises
    :class:`BoatError` where the table or the question as a whole cannot be used.
    """
    return _answered(
        _planewright.run_table,
        table,
        speeds,
        deflections,
        boat=boat,
        keep=keep,
        fields=fields,
        first_row=first_row,
        method=method,
        model=model,
        friction=friction,
        roughness=roughness,
    )


def size_table(
    table: Any,
    *,
    boat: Boat | None = None,
    keep: str | Sequence[str] | None = None,
    fields: str | Sequence[str] | None = None,
    first_row: int = 1,
    draws: int = DRAWS,
    seed: int = SEED,
    model: str | None = None,
) -> Any:
    """Which planes each boat of a table needs: a row for every boat.

    Columns as in :func:`run_table`, which see for ``boat``, ``keep``, ``first_row`` and ``model``.

    fields
        What of the answer is told, such as ``["span", "chord", "chance"]``.
    draws, seed
        Boats drawn on which a chance is counted, ``FEWEST_DRAWS`` to ``MOST_DRAWS``, and the seed of
        the random numbers.

    ``answer`` is ``pair``, ``no-planes-needed`` or ``no-pair-does-all``; ``silence`` says where
    nothing can be said about planes.
    """
    return _answered(
        _planewright.size_table,
        table,
        boat=boat,
        keep=keep,
        fields=fields,
        first_row=first_row,
        draws=draws,
        seed=seed,
        model=model,
    )


def _answered(ask: Callable[..., Any], table: Any, *which: Any, **asked: Any) -> Any:
    """The answers about a table, of the type that it has."""
    return _alike(table, ask(_stream(table), *which, **asked))


def _room(table: Any) -> str:
    return type(table).__module__.partition(".")[0]


def _stream(table: Any) -> Any:
    if _room(table) == "pandas":
        import pyarrow

        # An index is no column of boats.
        return pyarrow.Table.from_pandas(table, preserve_index=False)
    if hasattr(table, "__arrow_c_stream__") or hasattr(table, "__arrow_c_array__"):
        return table
    if hasattr(table, "to_arrow_table"):
        return table.to_arrow_table()
    problem = f"a {type(table).__name__} is no table with the Arrow C stream interface"
    cure = "give a data frame of pandas or Polars, or a table of pyarrow"
    raise BoatError("", [(problem, cure, None)])


def _alike(table: Any, answers: Any) -> Any:
    """The answers as a table of the type that came in."""
    room = _room(table)
    if room == "pandas":
        import pyarrow

        return pyarrow.table(answers).to_pandas()
    if room == "polars":
        import polars

        return polars.DataFrame(answers)
    if room == "pyarrow":
        import pyarrow

        return pyarrow.table(answers)
    return answers
