"""Invented boats of usual proportions."""

import random

import pandas


def many(count: int, seed: int = 1) -> pandas.DataFrame:
    """So many boats, each by its number."""
    chosen = random.Random(seed)
    rows = []
    for place in range(count):
        length = chosen.uniform(4.5, 12)
        beam = length * chosen.uniform(0.27, 0.37)
        rows.append(
            {
                "hull_no": f"H{place}",
                "hull.bottom_length [m]": round(length, 3),
                "hull.chine_beam [m]": round(beam, 3),
                "hull.deadrise [deg]": round(chosen.uniform(5, 25), 1),
                "weight.mass [kg]": round(1000 * length * beam**2 * chosen.uniform(0.05, 0.11)),
                "weight.lcg [m]": round(length * chosen.uniform(0.33, 0.42), 3),
                "weight.vcg [m]": round(beam * chosen.uniform(0.25, 0.4), 3),
                "planes.span [mm]": round(1000 * beam * chosen.uniform(0.15, 0.35)),
                "planes.chord [mm]": round(chosen.uniform(150, 300)),
            }
        )
    return pandas.DataFrame(rows)
