//! What the numbers were computed with: one table, with sources and the ranges that were tested.

use crate::document::{Block, Column, Table};

/// One equation, or a set that belongs together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Equation {
    /// What it gives.
    pub gives: &'static str,
    /// The equation in short.
    pub says: &'static str,
    /// Author, year and number.
    pub source: &'static str,
    /// Range in which it was tested, or what is known of it.
    pub range: &'static str,
    /// Whether it was recalled rather than read.
    pub from_memory: bool,
}

/// A row of the table.
const fn equation(
    gives: &'static str,
    says: &'static str,
    source: &'static str,
    range: &'static str,
    from_memory: bool,
) -> Equation {
    Equation { gives, says, source, range, from_memory }
}

/// Every equation that a paper's numbers stand on.
pub const EQUATIONS: &[Equation] = &[
    equation(
        "lift of a flat bottom",
        "C_L0 = τ^1.1 (0.0120 √λ + 0.0055 λ^2.5/Cv²)",
        "Savitsky 1964, eq 15",
        "0.60 ≤ Cv ≤ 13, 2° ≤ τ ≤ 15°, λ ≤ 4",
        false,
    ),
    equation(
        "lift with deadrise",
        "C_Lβ = C_L0 − 0.0065 β C_L0^0.60",
        "Savitsky 1964, eq 16",
        "β ≤ 30°",
        false,
    ),
    equation(
        "centre of pressure",
        "C_p = 0.75 − 1/(5.21 Cv²/λ² + 2.39)",
        "Savitsky 1964, eq 20",
        "as the lift",
        false,
    ),
    equation(
        "wetted keel and chine",
        "(L_k − L_c)/b = tan β/(π tan τ)",
        "Savitsky 1964, eq 9 to 14",
        "Cv ≥ 2; at Cv 1 for β ≤ 10°",
        false,
    ),
    equation(
        "friction of the bottom",
        "ITTC 1957 line with a roughness allowance, at the mean bottom speed",
        "Savitsky 1964, eq 21 to 25; ITTC 1957",
        "turbulent, Re ≥ 1e5",
        false,
    ),
    equation(
        "resistance near the hump",
        "M = 0.98 + 2 (LCG/b)^1.45 e^(−2(F∇ − 0.85)) − 3 (LCG/b) e^(−3(F∇ − 0.85)), at least 1",
        "Blount & Fox 1976",
        "F∇ ≥ 1; held below",
        true,
    ),
    equation(
        "lift of the planes",
        "0.046 for each degree of deflection, on dynamic pressure and area",
        "Brown 1971; Savitsky & Brown 1976",
        "0 ≤ δ ≤ 15°, τ ≤ 10°, 2 ≤ Cv ≤ 7, chord ≤ 0.10 λ b",
        true,
    ),
    equation(
        "drag of the planes",
        "0.0052 (τ + δ) for each newton of their lift",
        "Brown 1971; Savitsky & Brown 1976",
        "as their lift",
        true,
    ),
    equation(
        "porpoising, first limit",
        "curves of limiting trim over √(C_L/2)",
        "Day & Haag 1952, from Savitsky 1964 figure 18",
        "√(C_L/2) from 0.13 to 0.30, β ≤ 20°, read to ±0.3°",
        false,
    ),
    equation(
        "porpoising, second limit",
        "τ = 0.1197 β^0.7651 e^(15.7132 √(C_L/2) β^−0.2629)",
        "Celano 1998",
        "β above 5°; the lower of the two limits is used",
        true,
    ),
    equation(
        "load on the plate and hinge",
        "thin plate with a hinged flap, half the load of an aerofoil",
        "Glauert 1927; Wagner 1932; derived here",
        "attached flow, steady running; a design factor stands for slamming",
        true,
    ),
    equation(
        "lift of the bottom, second opinion",
        "half of low-aspect-ratio wing theory, cross flow, and a static term",
        "Shuford 1958; static term Brown 1971",
        "pure planing, β of 0, 20 and 40°",
        true,
    ),
    equation(
        "resistance before planing",
        "regression on seven series of 118 models",
        "Mercier & Savitsky 1973",
        "F∇ from 1.0 to 2.0; form parameters as in its flag",
        true,
    ),
    equation(
        "accelerations in head seas",
        "fit to tank tests in irregular waves",
        "Savitsky & Brown 1976; Fridsma 1971",
        "as in its flag",
        true,
    ),
    equation(
        "heel without planes",
        "each half of the bottom at its own deadrise",
        "after Lewandowski 1996",
        "a rough estimate, not checked",
        true,
    ),
];

/// The table, as a section.
pub(super) fn section() -> Vec<Block> {
    let of = |value: fn(&Equation) -> String| EQUATIONS.iter().map(value).collect();
    let columns = vec![
        Column::words("gives", of(|e| e.gives.to_owned())),
        Column::words("equation", of(|e| e.says.to_owned())),
        Column::words(
            "source",
            of(|e| format!("{}{}", e.source, if e.from_memory { " *" } else { "" })),
        ),
        Column::words("tested range", of(|e| e.range.to_owned())),
    ];
    vec![
        Block::Section("Equations used".to_owned()),
        Block::Table(Table {
            columns,
            notes: vec![
                "* from memory: recalled, not read from the source beside the code. Angles in degrees; τ trim, δ deflection, β deadrise, λ mean wetted length over beam, b chine beam, Cv = V/√(g b), F∇ = V/√(g ∇^⅓).".to_owned(),
                "The thrust is taken out of the balance along the course; the vertical balance then gives the wetted length at a trim, and the pitch moment about the centre of gravity the running trim.".to_owned(),
            ],
            ..Table::default()
        }),
    ]
}
