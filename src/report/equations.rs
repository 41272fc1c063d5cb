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
        "C_Lβ = C_L0 − 0.0065 β C_L0^0.60;  N cos τ = C_Lβ q b²",
        "Savitsky 1964, eq 16",
        "β ≤ 30°",
        false,
    ),
    equation(
        "warped bottom",
        "τ + 0.12 θ stands for τ in the lift, τ + 0.5 θ in N sin τ and N cos τ; θ between chine and keel, from the transom to mid-chine length, 0 for a prism;  N acts (b/4) tan β above the keel",
        "Savitsky & Brown 1976, eq 9 and 10, from Brown 1971; where N acts is derived here",
        "one bottom: θ 1.66°, β 10° at the transom, 2° ≤ τ ≤ 6°, 2 ≤ λ ≤ 4",
        false,
    ),
    equation(
        "centre of pressure",
        "l_p = k λ b [0.75 − 1/(5.21 Cv²/λ² + 2.39)], forward of the mean trailing edge, which lies e aft of the transom",
        "Savitsky 1964, eq 20; k below",
        "as the lift; e = 0 with planes up",
        false,
    ),
    equation(
        "best estimate",
        "k = 1 − 0.049 + 0.116 s + (−0.093 + 0.104 s)(β − 20°)/10°, s = Cv⁻²/(1 + (Cv⁻²/0.7)⁴)^¼",
        "fitted here to Fridsma 1969 and 1971 and to Radojčić 1991 (Series 62)",
        "10° ≤ β ≤ 30°, level outside; Cv ≥ 1.19, all but level below",
        false,
    ),
    equation(
        "wetted keel and chine",
        "(L_k − L_c)/b = tan β/(π tan τ);  λ b = (L_k + L_c)/2, all from the mean trailing edge: from the transom both are shorter by e;  draft L_k sin τ",
        "Savitsky 1964, eq 9 to 14",
        "Cv ≥ 2; at Cv 1 for β ≤ 10°, and steeper only where (π/2) tan τ/tan β is over about tan 17°",
        false,
    ),
    equation(
        "mean bottom speed",
        "V_m²/V² = 1 − C_Ld/(λ cos τ);  C_Ld is 0.0120 √λ τ^1.1 with eq 16",
        "Savitsky 1964, eq 21 to 24",
        "as the lift",
        false,
    ),
    equation(
        "friction of the bottom",
        "D_f = ½ ρ V_m² λ b² (C_f + ΔC_f)/cos β, along the keel at the height (b/4) tan β;  Re = V_m λ b/ν",
        "Savitsky 1964, eq 21 to 25",
        "ΔC_f as in ‘The boat’; 0.0004 is usual at full scale",
        false,
    ),
    equation(
        "friction line",
        "0.242/√C_f = log₁₀(Re C_f)",
        "Schoenherr 1932",
        "turbulent, Re ≥ 1e5",
        false,
    ),
    equation(
        "drag of the air",
        "D_a = ½ ρ_a V² C A, horizontal at its height;  ρ_a = 1.225 kg/m³",
        "density after ISO 2533:1975",
        "C is 0.7 unless given: common practice, no source",
        false,
    ),
    equation(
        "balance, vertical",
        "N cos τ + T sin(τ + ε) − D_f sin τ + ΔL = Δ",
        "statics; without planes it is the balance of Savitsky 1964, eq 35",
        "gives λ at a trim",
        false,
    ),
    equation(
        "balance along the course",
        "T cos(τ + ε) = N sin τ + D_f cos τ + ΔD + D_a, where D_a is the drag of the air and of the appendages",
        "statics; without planes it is the balance of Savitsky 1964, eq 35",
        "gives the thrust T",
        false,
    ),
    equation(
        "balance in pitch",
        "N [(LCG − l_p + e) cos φ + (VCG − (b/4) tan β) sin φ] + D_f (VCG − (b/4) tan β) − T f + ΔL [(LCG − x_L) cos τ − VCG sin τ] + ΔL tan τ [VCG cos τ + (LCG − x_L) sin τ] + (ΔD − ΔL tan τ)(VCG cos τ + LCG sin τ) + D_a (VCG − h_a) cos τ = 0, φ = 0.5 θ, 0 for a prism",
        "statics; without planes it is the balance of Savitsky 1964, eq 35",
        "gives the trim τ, 1° to 15°; about the centre of gravity, bow down positive",
        false,
    ),
    equation(
        "resistance near the hump",
        "0.33 (M − 1)(N sin τ + D_f cos τ) is added to R, outside the balance;  M = 0.98 + 2 (LCG/b)^1.45 e^(−2(F∇ − 0.85)) − 3 (LCG/b) e^(−3(F∇ − 0.85)), at least 1",
        "Blount & Fox 1976; the share of 0.33 fitted as k",
        "F∇ ≥ 1; below 1 rounded off to its value at 0.95",
        true,
    ),
    equation(
        "lift of the planes",
        "ΔL = 0.046 w σ δ b q η, σ = 2 s cos β/b, w = c − h/tan δ with h the height of the hinge;  acts x_L = 0.6 b − e ahead of the transom, e = σ w (1 − e^(−δ))",
        "Savitsky & Brown 1976, eq 5 and 7; part span and w derived here, (1 − e^(−δ)) fitted to Gaylo & Roske 2019",
        "0 ≤ δ ≤ 15°, τ ≤ 10°, 2 ≤ Cv ≤ 7, c ≤ 0.10 λ b; η, the effectiveness, is 1 unless a trial found another",
        false,
    ),
    equation(
        "drag of the planes",
        "ΔD = ΔL tan τ + 0.0052 ΔL (τ + δ);  the first where the lift acts, the second at the bottom edge of the transom",
        "Savitsky & Brown 1976, eq 6",
        "as their lift",
        false,
    ),
    equation(
        "difference between two planes",
        "roll of one: (ΔL/cos β) (y/cos β − z sin β), or 0.7 of it; z is 0 or VCG",
        "derived here; statics of a force normal to its panel; 4 corners shown",
        "straight running",
        false,
    ),
    equation(
        "porpoising, first limit",
        "curves of limiting trim over √(C_L/2), C_L = (Δ − ΔL)/(q b²)",
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
        "moment about the hinge of a plane",
        "H = 0.139 ΔL c of that plane",
        "Savitsky & Brown 1976, eq 8",
        "as their lift; a design load of ΔL at mid-chord with a factor stands for slamming",
        false,
    ),
    equation(
        "the same by theory, a cross-check",
        "with φ from E = sin²(φ/2), E the chord over wetted length and chord:  F = q s (c/E) δ φ²/π;  moment as in Glauert, halved",
        "Glauert 1927; Wagner 1932; integrated here",
        "attached flow, steady running",
        true,
    ),
    equation(
        "through-bolts and their backing plate",
        "√(σ² + 3 τ²) ≤ 450 MPa/2 on the stress area;  plate: total pull ≤ 1.45 MPa on wood, w s²/8 and w e²/2 ≤ half its yield stress",
        "von Mises 1913; ISO 3506-1; plywood bearing on its face, wet; beam tables",
        "sound plywood or wood; bolts share alike",
        true,
    ),
    equation(
        "lift of the bottom, second opinion",
        "C_L = (π/2) τ cos²τ (1 − sin β) λ/(1 + λ) + (4/3) λ sin²τ cos³τ cos β + 0.1 π sin 2τ (λ/Cv)², τ in radians",
        "Shuford 1958; static term Brown 1971",
        "pure planing, β of 0, 20 and 40°",
        true,
    ),
    equation(
        "trim, resistance and wetted bottom, second opinion",
        "regressions of up to 27 terms in A_p/∇^⅔, LCG/L_p, L_p/B_pa and β, planes up, for 100 000 lb, corrected for friction;  B_pa = b/1.21, LCG moved aft by T f/Δ",
        "Radojčić 1991, from Molland, Turnock & Hudson 2011, tables A3.19 to A3.22; b/1.21 from memory",
        "F∇ 1.0 to 3.5, A_p/∇^⅔ 4.25 to 9.5, L_p/B_pa 2.36 to 6.73, LCG 30 to 44.8 % of L_p, β 13 to 37.4°",
        false,
    ),
    equation(
        "wet sides",
        "wet over λ_c1 − 3 Cv² sin τ beams, λ_c1 = λ − 0.16 tan β/tan τ;  friction 2 q b² (that length) 0.2 (C_f + ΔC_f), beside the resistance and not in it",
        "Savitsky & Brown 1976, eq 1 to 3; the height of 0.2 b is judged",
        "vertical sides without chine flats or spray rails",
        false,
    ),
    equation(
        "resistance before planing",
        "regression of 14 terms on seven series of 118 models, for 100 000 lb, corrected for friction",
        "Mercier & Savitsky 1973",
        "F∇ from 1.0 to 2.0; form parameters as in its flag",
        true,
    ),
    equation(
        "getting on plane",
        "1.075 m dV/dt = T(V) − R(V);  1/T² = 1/T₀² + (V/P_e)², through the bollard pull T₀ at rest and η_D P/V at top speed",
        "statics, quasi-steady; 7.5 % of added mass and η_D: common practice, no source",
        "straight ahead, calm water",
        false,
    ),
    equation(
        "accelerations in head seas",
        "n = 0.0104 (H/b + 0.084) (τ/4) (5/3 − β/30) (V_k/√L)² (L/b)/C_Δ;  bow: n [1 + 3.8 (L/b − 2.25)/(V_k/√L)];  V_k in knots, L in feet",
        "Savitsky & Brown 1976, from the tests of Fridsma 1971",
        "Δ/(L/100)³ 100 to 250 (long tons, feet), L/b 3 to 5, τ 3 to 7°, β 10 to 30°, H/b 0.2 to 0.7, V_k/√L 2 to 6; nine in ten of the tests lie within a factor of 1.39 about 1/0.78, 1/1.12 and 1/1.17 of it at the centre, 1/0.98, 1/1.10 and 1/0.99 at the bow, at V_k/√L 2, 4 and 6",
        false,
    ),
    equation(
        "added resistance in head seas",
        "V_k/√L = 2: R/(w b³) = 66e-6 (H/b + 0.5)(L/b)³/C_Δ + 0.0043 (τ − 4);  4: R/Δ = 0.3 (H/b)/(1 + 2 H/b) (1.76 − τ/6 − 2 tan³β);  6: R/(w b³) = 0.158 (H/b)/(1 + (H/b)[0.12 β − 21 C_Δ (5.6 − L/b) + 7.5 (6 − L/b)]);  straight lines between",
        "Savitsky & Brown 1976, eq 22 to 24, from the tests of Fridsma 1971",
        "as the accelerations; by its authors accurate to 20, 20 and 10 % at the three speeds; 20, 20 and 16 % are used as one standard deviation, which runs at hand show",
        false,
    ),
    equation(
        "heel without planes",
        "static lift through the metacentre of the wedge in still water; dynamic lift: each half of the bottom at its own deadrise, β ∓ φ, with the same wetted keel",
        "hydrostatics (derived); after Lewandowski 1996",
        "a rough estimate, not checked",
        true,
    ),
];

/// The number of the equation that gives something, in brackets; nothing where there is none.
pub(super) fn number_of(gives: &str) -> String {
    let index = EQUATIONS.iter().position(|equation| equation.gives == gives);
    index.map_or_else(String::new, |index| format!("({})", index + 1))
}

/// The table, as a section.
pub(super) fn section() -> Vec<Block> {
    let of = |value: fn(&Equation) -> String| EQUATIONS.iter().map(value).collect();
    let columns = vec![
        Column::words("no.", of(|e| number_of(e.gives))),
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
                "* from memory: recalled, not read from the source beside the code. Angles in degrees inside the fitted equations, in radians elsewhere.".to_owned(),
                "b chine beam, β deadrise, τ trim, λ mean wetted length over b, Δ weight, V speed, q = ½ ρ V², Cv = V/√(g b), F∇ = V/√(g ∇^⅓) with ∇ the volume displaced at rest, N pressure force, normal to the keel of a prism, T thrust at ε to the keel and f below the centre of gravity, s span of one plane, c its chord, δ deflection below the bottom line, y its mid-span off the centreline, z height of the sideways reaction.".to_owned(),
            ],
            ..Table::default()
        }),
    ]
}
