"""Resistance over LCG and span of the planes, as a carpet plot.

    python src/python/examples/carpet.py data/boats/lantern.toml carpet.png

Every node of the carpet is a boat of her own; along its lines one of the two stays as it is. The
offset to the right has no meaning but to draw the lines apart.
"""

import sys

import matplotlib

matplotlib.use("Agg")
import matplotlib.pyplot as plt
import numpy
import pandas
import planewright

SPEED, DEFLECTION = "20 kn", "6 deg"
SPANS_MM = [400, 500, 600, 700, 800]
# LCG from so much aft of hers to so much forward, m.
SHIFTS_M = [-0.3, -0.2, -0.1, 0.0, 0.1, 0.2, 0.3]


def answered(boat: planewright.Boat) -> pandas.DataFrame:
    """Resistance at every combination."""
    # Whatever loads she has: the shift moves where their centre acts.
    grid = pandas.MultiIndex.from_product(
        [SHIFTS_M, SPANS_MM], names=["trial.lcg_shift [m]", "planes.span [mm]"]
    ).to_frame(index=False)
    return planewright.run_table(
        grid, SPEED, DEFLECTION, boat=boat, keep=list(grid), fields=["resistance", "trim"]
    )


def named(axes, text: str, x: float, y: float, offset: tuple[int, int], side: str) -> None:
    """A value at the end of its line."""
    axes.annotate(text, (x, y), offset, textcoords="offset points", ha=side)


def drawn(table: pandas.DataFrame, name: str, path: str) -> None:
    """The carpet: a line for each span, and one across them for each shift."""
    shape = (len(SHIFTS_M), len(SPANS_MM))
    force = table["resistance_n"].to_numpy().reshape(shape)
    step = numpy.arange(len(SHIFTS_M))[:, None] + 1.6 * numpy.arange(len(SPANS_MM))[None, :]
    figure, axes = plt.subplots(figsize=(9, 5.6), layout="constrained")
    for place, span in enumerate(SPANS_MM):
        axes.plot(step[:, place], force[:, place], color="#1f4e79")
        named(axes, f"{span} mm", step[0, place], force[0, place], (4, 5), "left")
    for place, shift in enumerate(SHIFTS_M):
        axes.plot(step[place, :], force[place, :], color="#9a5b13", linewidth=0.9)
        named(axes, f"{shift:+.1f} m", step[place, 0], force[place, 0], (-6, -4), "right")
    untested = table["flags"].notna().to_numpy().reshape(shape)
    axes.plot(step[untested], force[untested], "x", color="#555555", label="flagged: see the column flags")
    axes.set(xticks=[], ylabel="Resistance (N)", title=f"{name}: {SPEED}, planes at {DEFLECTION}")
    axes.set_xlabel(
        "LCG shifted forward by the values along the left edge, span of one plane at the top ends.\n"
        "Estimate for calm water; confirm by a sea trial.",
        fontsize=8,
    )
    axes.margins(x=0.1)
    axes.legend(frameon=False)
    figure.savefig(path, dpi=150)


if __name__ == "__main__":
    file, picture = sys.argv[1:3]
    boat = planewright.Boat.read(file)
    answers = answered(boat)
    faults = answers["fault"].dropna().unique()
    if len(faults):
        sys.exit("\n".join(faults))
    drawn(answers, boat.name, picture)
