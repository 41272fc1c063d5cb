//! The published cases: every judged value within its tolerance, none missing, and the main results digit by digit.

use planewright::check::{self, Comparison, Report, Summary, Tolerance, Verdict, table::table};

fn all() -> Vec<Comparison> {
    check::all().expect("the published cases can be computed")
}

fn of_source(author: &str) -> Vec<Comparison> {
    all().into_iter().filter(|each| each.source.starts_with(author)).collect()
}

/// Rows of a data file: neither scope nor heading.
fn rows(text: &str) -> usize {
    text.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).count() - 1
}

fn assert_all_met(comparisons: &[Comparison], judged: usize, shown: usize) {
    for each in comparisons {
        assert_ne!(each.verdict(), Verdict::Missed, "{each:#?}\ndifference {}", each.difference());
    }
    assert_eq!(Summary::of(comparisons), Summary { within: judged, judged, shown });
}

/// The printed value of a case, and that the computed one lies within an absolute distance of it.
fn assert_close(author: &str, case: &str, quantity: &str, printed: f64, distance: f64) {
    let all = of_source(author);
    let mut found = all.iter().filter(|each| each.case == case && each.quantity == quantity);
    let each = found.next().unwrap_or_else(|| panic!("no {quantity} of {case}"));
    assert!(found.next().is_none(), "two of {quantity} of {case}");
    assert_eq!(each.printed, printed, "{quantity} of {case}");
    let difference = each.computed - printed;
    assert!(difference.abs() <= distance, "{quantity} of {case}: {} off {printed}", each.computed);
}

/// Savitsky (1964), Marine Technology 1(1), Tables 1 and 2.
#[test]
fn published_savitsky_1964() {
    let table_1 = rows(include_str!("../../data/published/Savitsky1964Table1.csv"));
    let cases = rows(include_str!("../../data/published/Savitsky1964Results.csv"));
    assert_eq!((table_1, cases), (3, 2));
    let comparisons = of_source("Savitsky (1964)");
    // Ten columns but the trim that is given; four of the loading; trim, drag and power of each
    // case; the trim interpolated, keel, chine and draft of the general, the wetted length of the
    // concurrent case. Shown: the general wetted length, and trim, wetted length and drag of the
    // full balance by two lift models.
    assert_all_met(&comparisons, 10 * table_1 + 4 + 3 * cases + 4 + 1, 1 + 2 * 3);
}

/// Printed digits of Savitsky (1964), Table 1, with 1 % of wetted length at 2° and 3° and 5 % at 4°.
#[test]
fn published_savitsky_1964_table_1_digits() {
    let author = "Savitsky (1964)";
    let [two, three, four] = [2, 3, 4].map(|trim| format!("Table 1, {trim} deg"));
    for (case, quantity, printed, distance) in [
        (&two, "wetted length / beam", 3.85, 0.0385),
        (&three, "wetted length / beam", 2.60, 0.026),
        (&four, "wetted length / beam", 1.86, 0.093),
        (&two, "friction", 7340.0, 110.0),
        (&three, "friction", 5160.0, 77.0),
        (&four, "friction", 3760.0, 188.0),
        (&two, "drag", 9434.0, 141.0),
        (&three, "drag", 8304.0, 124.0),
        (&four, "drag", 7948.0, 317.0),
        // 2 %, 1.5 % and 3.6 % of weight × LCG, 1 740 000 lbf ft.
        (&two, "residual moment", -149_960.0, 35_250.0),
        (&three, "residual moment", 336_600.0, 25_150.0),
        (&four, "residual moment", 648_350.0, 62_550.0),
    ] {
        assert_close(author, case, quantity, printed, distance);
    }
}

/// Printed digits of Savitsky (1964), Tables 1 and 2: trim to 0.05°, drag and power to 1 %, wetted keel and chine to 0.5 %.
#[test]
fn published_savitsky_1964_result_digits() {
    let author = "Savitsky (1964)";
    for (case, quantity, printed, distance) in [
        ("general case", "running trim", 2.3, 0.05),
        ("general case", "drag", 9095.0, 90.95),
        ("general case", "effective power", 1115.0, 11.15),
        ("general case", "wetted keel", 55.9, 0.2795),
        ("general case", "wetted chine", 36.1, 0.1805),
        ("general case", "draft", 2.24, 0.005),
        ("concurrent case", "running trim", 2.23, 0.05),
        ("concurrent case", "wetted length / beam", 3.45, 0.0345),
        ("concurrent case", "drag", 9010.0, 90.1),
        ("concurrent case", "effective power", 1100.0, 11.0),
        ("speed and load", "sqrt(lift coefficient / 2)", 0.186, 0.0005),
        ("speed and load", "porpoising limit", 4.5, 0.1),
    ] {
        assert_close(author, case, quantity, printed, distance);
    }
    // The reference trim before the paper's rounding.
    let trim = of_source(author)
        .into_iter()
        .find(|each| each.case == "general case" && each.quantity == "running trim")
        .unwrap();
    assert!((trim.computed - 2.26).abs() <= 0.05, "{}", trim.computed);
}

/// Fridsma (1969), Davidson Laboratory report 1275, configuration A at V/√L = 4.
#[test]
fn published_fridsma_1969() {
    assert_eq!(rows(include_str!("../../data/published/Fridsma1969Calm.csv")), 1);
    let comparisons = of_source("Fridsma (1969)");
    assert_all_met(&comparisons, 2, 8);
    assert_close("Fridsma", "A", "running trim", 4.0, 0.5);
    assert_close("Fridsma", "A", "resistance / weight", 0.158, 0.00474);
    // What the assumptions are worth, as the notes and the table of sources say.
    assert_close("Fridsma", "A, towed level", "resistance / weight", 0.158, 0.00474);
    let [cold, warm] = ["A, 5 degC", "A, 25 degC"].map(|case| {
        let of_case =
            |quantity| move |each: &&Comparison| each.case == case && each.quantity == quantity;
        let value = |quantity| comparisons.iter().find(of_case(quantity)).unwrap().computed;
        (value("running trim"), value("resistance / weight"))
    });
    assert!((cold.0 - warm.0).abs() < 0.02, "{cold:?} {warm:?}");
    let change = cold.1 / warm.1 - 1.0;
    assert!((0.045..0.055).contains(&change), "{change}");
}

/// Savitsky & Brown (1976), Marine Technology 13(4): worked example and tables 1 and 2.
#[test]
fn published_savitsky_brown_1976() {
    let results = rows(include_str!("../../data/published/SavitskyBrown1976Results.csv"));
    let added = rows(include_str!("../../data/published/SavitskyBrown1976AddedResistance.csv"));
    let lift = rows(include_str!("../../data/published/SavitskyBrown1976DynamicLift.csv"));
    let drag = rows(include_str!("../../data/published/SavitskyBrown1976WarpedDrag.csv"));
    assert_eq!((results, added, lift, drag), (4, 3, 9, 6));
    let comparisons = of_source("Savitsky & Brown (1976)");
    // Six values of each bare row and four of the one with a flap, two accelerations of all, the load coefficient, the added
    // resistance, theory of prism and warped bottom but for one, effective trims. Shown: the
    // resistance with the mean bottom speed; the tank by two models, that on the warped bottom and
    // the one theory that is not reached; deadrise and drag of the warped bottom.
    let judged = 6 * (results - 1) + 4 + 2 * results + 1 + added + 2 * lift - 1 + drag;
    assert_all_met(&comparisons, judged, (results - 1) + 3 * lift + 1 + 3 * drag);
}

/// Printed digits of the worked example: trims to 0.05°, the digit of the nomograph, resistance to 50 lbf and
/// that half digit of trim, 162 lbf.
#[test]
fn published_savitsky_brown_1976_smooth_water_digits() {
    let author = "Savitsky & Brown (1976)";
    for (speed, trim_deg, length, resistance_lbf) in
        [("25.4", 3.6, 2.9, 17_500.0), ("38.1", 3.5, 2.3, 21_500.0), ("50.8", 2.7, 2.1, 24_800.0)]
    {
        let case = format!("{speed} kn, bare");
        assert_close(author, &case, "running trim", trim_deg, 0.05);
        assert_close(author, &case, "wetted length / beam", length, 0.05);
        assert_close(author, &case, "resistance", resistance_lbf, 212.4);
    }
    // What the mean speed along the bottom takes off, as the note says.
    let all = of_source(author);
    for each in all.iter().filter(|each| each.quantity == "resistance, 1964") {
        let share = each.computed / each.printed - 1.0;
        assert!((-0.02..-0.005).contains(&share), "{}: {share}", each.case);
    }
}

/// Printed digits of the worked example in waves of 4.6 ft, bare and with the flap down.
#[test]
fn published_savitsky_brown_1976_in_waves_digits() {
    let author = "Savitsky & Brown (1976)";
    for (case, centre_g, bow_g, trim_deg) in [
        ("25.4 kn, bare", 0.39, 0.95, 3.6),
        ("38.1 kn, bare", 0.84, 1.66, 3.5),
        ("50.8 kn, bare", 1.16, 1.99, 2.7),
        ("25.4 kn, flap 5 deg", 0.31, 0.77, 2.9),
    ] {
        let case = format!("{case}, in waves");
        let distance = |printed_g: f64| 0.005 + printed_g * 0.05 / trim_deg;
        assert_close(author, &case, "mean peak, centre", centre_g, distance(centre_g));
        assert_close(author, &case, "mean peak, bow", bow_g, distance(bow_g));
    }
    // Half a digit, 50 lbf, and 190, 88 and 65 lbf for half a digit of trim; at 2.8 also 77 lbf for
    // that of V/sqrt L.
    for (ratio, printed_lbf, distance) in
        [("2", 5700.0, 241.0), ("2.8", 6900.0, 216.0), ("4", 8600.0, 115.0)]
    {
        let case = format!("V/sqrt L {ratio}, in waves");
        assert_close(author, &case, "added resistance", printed_lbf, distance);
    }
}

/// Printed digits of table 1: theory to half of the last digit; the equation of 1964 lies 5 to 17 % below the tank.
#[test]
fn published_savitsky_brown_1976_dynamic_lift_digits() {
    let author = "Savitsky & Brown (1976)";
    for (trim, length, theory) in [
        (2, 2, 0.033),
        (2, 3, 0.039),
        (2, 4, 0.043),
        (4, 2, 0.073),
        (4, 3, 0.087),
        (4, 4, 0.098),
        (6, 2, 0.118),
        (6, 3, 0.143),
        (6, 4, 0.164),
    ] {
        let case = format!("Table 1, {trim} deg, wetted {length} beams");
        assert_close(author, &case, "dynamic lift: theory", theory, 0.0005);
    }
    let all = of_source(author);
    let tank: Vec<_> =
        all.iter().filter(|each| each.quantity == "tank, by Savitsky 1964").collect();
    assert_eq!(tank.len(), 9);
    for each in tank {
        assert!((-0.175..-0.045).contains(&each.difference()), "{each:?}");
        assert!(!each.judged);
    }
}

/// Faltinsen (2005), 9.26: restoring coefficients, three to the last digit and one to a unit of it.
#[test]
fn published_faltinsen_2005() {
    assert_eq!(rows(include_str!("../../data/published/Faltinsen2005Restoring.csv")), 1);
    let author = "Faltinsen (2005)";
    assert_all_met(&of_source(author), 4, 4);
    for (quantity, printed, distance) in [
        ("C33/(rho g b^2)", 3.978, 0.0005),
        ("C35/(rho g b^3)", -11.734, 0.0005),
        ("C53/(rho g b^3)", 6.327, 0.0005),
        ("C55/(rho g b^4)", 7.227, 0.001),
    ] {
        assert_close(author, "small trims", quantity, printed, distance);
        // With the tangent of the trim, half a per cent at most.
        assert_close(author, "as the program", quantity, printed, 0.005 * printed.abs());
    }
}

/// Roark: a long plate on two supports; the shorter ones have less stress.
#[test]
fn published_roark_plates() {
    let plates = rows(include_str!("../../data/published/RoarkPlates.csv"));
    let comparisons = of_source("Roark");
    assert_all_met(&comparisons, 1, plates - 1);
    assert_close("Roark", "long side without end", "stress x t^2/(q b^2)", 0.75, 0.005);
    // A strip never reads low of a plate that is held at its ends too.
    assert!(comparisons.iter().all(|each| each.difference() >= -1e-9));
}

/// US National Design Specification for wood: 2850 G² D.
#[test]
fn published_wood_screws() {
    assert_eq!(rows(include_str!("../../data/published/NdsWoodScrews.csv")), 2);
    let author = "US National Design Specification";
    assert_all_met(&of_source(author), 2, 0);
    assert_close(author, "G 0.45, D 0.19 in", "allowable withdrawal", 109.0, 1.18);
    assert_close(author, "G 0.42, D 0.22 in", "allowable withdrawal", 110.6, 0.28);
}

/// Fridsma (1971), Davidson Laboratory report 1495, irregular head seas at V/√L = 4; and 18 runs at three speeds.
#[test]
fn published_fridsma_1971() {
    assert_eq!(rows(include_str!("../../data/published/Fridsma1971Waves.csv")), 3);
    assert_eq!(rows(include_str!("../../data/published/Fridsma1971Runs.csv")), 18);
    let author = "Fridsma (1971)";
    assert_all_met(&of_source(author), 6 + 9, 9);
    // Geometric means of the printed peaks at a speed, worked out apart from the program; twice
    // ln 1.22 over the root of the number of runs is what the middle of the range may be off by.
    for (case, quantity, printed, distance) in [
        ("V/sqrt L 2, 5 runs", "peak at centre: middle", 0.2683, 0.18 * 0.2683),
        ("V/sqrt L 4, 8 runs", "peak at centre: middle", 0.6127, 0.141 * 0.6127),
        ("V/sqrt L 6, 5 runs", "peak at centre: middle", 1.1508, 0.18 * 1.1508),
    ] {
        let all = of_source(author);
        let found = all.iter().find(|each| each.case == case && each.quantity == quantity);
        let each = found.unwrap_or_else(|| panic!("no {quantity} of {case}"));
        assert!((each.printed - printed).abs() < 5e-4, "{} is not {printed}", each.printed);
        assert!((each.computed - printed).abs() <= distance, "{case}: {}", each.computed);
    }
    for (waves, centre_g, bow_g) in
        [("0.222", 0.45, 1.65), ("0.444", 0.71, 2.35), ("0.667", 1.05, 3.09)]
    {
        let case = format!("waves {waves} beams");
        assert_close(author, &case, "mean peak, centre", centre_g, 0.10 * centre_g);
        assert_close(author, &case, "mean peak, bow", bow_g, 0.25 * bow_g);
    }
}

/// Gaylo & Roske (2019), Appendix F: the mean hinge moment of eleven runs within its standard error, 16 %.
#[test]
fn published_gaylo_roske_2019_pressure() {
    let author = "Gaylo & Roske (2019), BSc thesis, Webb Institute, Appendix F";
    let runs = rows(include_str!("../../data/published/GayloRoske2019Pressure.csv"));
    assert_eq!(runs, 11);
    // Single runs are shown: three taps on one line do not settle them.
    assert_all_met(&of_source(author), 1, runs);
    assert_close(author, "all runs, 1 to 5 deg", "measured / computed", 1.0, 0.16);
}

/// Weinstein & Kapryan (1953), NACA TN 2981, Table I.
#[test]
fn published_naca_1953() {
    let data = include_str!("../../data/published/WeinsteinKapryan1953FlatPlate.csv");
    assert_eq!(rows(data), 9);
    let comparisons = of_source("Weinstein & Kapryan (1953)");
    let (savitsky, shuford): (Vec<_>, Vec<_>) =
        comparisons.into_iter().partition(|each| each.quantity == "lift coefficient");
    assert_all_met(&savitsky, rows(data) - 1, 1);
    // By Shuford: two plates under a beam and one that contradicts the others are shown.
    assert_all_met(&shuford, rows(data) - 3, 3);
    let author = "Weinstein";
    for (speed, printed) in [("13.66", 0.045660), ("13.72", 0.045262), ("21.87", 0.044533)] {
        let case = format!("2 deg, Cv {speed}, wetted 3.00 beams");
        assert_close(author, &case, "lift coefficient", printed, 0.03 * 0.0446);
        assert_close(author, &case, "lift coefficient, Shuford", printed, 0.05 * 0.0446);
    }
    let case = "2 deg, Cv 12.20, wetted 4.79 beams";
    assert_close(author, case, "lift coefficient, Shuford", 0.057243, 0.05 * 0.057243);
    let beyond_speed = savitsky.iter().filter(|each| each.judged && each.note.is_some());
    assert_eq!(beyond_speed.count(), 6);
    let shown = savitsky.iter().find(|each| !each.judged).unwrap();
    assert_eq!(shown.printed, 0.057243);
    assert!(shown.note.is_some());
}

/// TEOS-10, IAPWS-95 and Sharqawy et al. (2010).
#[test]
fn published_water() {
    let files = [
        ("IOC", include_str!("../../data/published/Ioc2010SeaWater.csv"), 1),
        ("IAPWS-95", include_str!("../../data/published/Iapws1995FreshWater.csv"), 2),
        ("Sharqawy", include_str!("../../data/published/Sharqawy2010SeaWater.csv"), 1),
    ];
    for (author, data, columns) in files {
        assert_eq!(rows(data), 7);
        assert_all_met(&of_source(author), 7 * columns, 0);
    }
    assert!(of_source("Sharqawy").iter().all(|each| each.note.is_some()));
    assert_close("IOC", "15 degC", "density", 1025.976, 0.102);
    assert_close("IAPWS-95", "15 degC", "density", 999.103, 0.0999);
    assert_close("IAPWS-95", "20 degC", "kinematic viscosity", 1.00340e-6, 5e-9);
    assert_close("Sharqawy", "15 degC", "kinematic viscosity", 1.1894e-6, 5.9e-9);
}

/// Every judged comparison would miss if its computed value lay off by more than the tolerance.
#[test]
fn regression_a_wrong_value_misses() {
    let judged: Vec<Comparison> = all().into_iter().filter(|each| each.judged).collect();
    assert!(!judged.is_empty());
    for right in judged {
        let allowed = match right.tolerance {
            Tolerance::Relative(share) => share * right.printed.abs(),
            Tolerance::Absolute(allowed) => allowed,
        };
        // No tolerance is so wide that zero would pass.
        assert!(allowed <= 0.25 * right.printed.abs(), "{right:?}");
        for computed in
            [right.printed + 1.01 * allowed, right.printed - 1.01 * allowed, 0.0, f64::NAN]
        {
            let wrong = Comparison { computed, ..right.clone() };
            assert_eq!(wrong.verdict(), Verdict::Missed, "{wrong:?}");
            assert!(!Summary::of(&[right.clone(), wrong]).all_met());
        }
    }
}

/// All sources together, and none under a name that no test knows.
#[test]
fn regression_every_comparison_belongs_to_a_tested_source() {
    let authors = [
        "Savitsky (1964)",
        "Savitsky & Brown (1976)",
        "Faltinsen (2005)",
        "Roark",
        "US National Design Specification",
        "Fridsma (1969)",
        "Fridsma (1971)",
        "Gaylo & Roske (2019)",
        "Weinstein & Kapryan (1953)",
        "IOC",
        "IAPWS-95",
        "Sharqawy",
    ];
    let sum: usize = authors.iter().map(|author| of_source(author).len()).sum();
    assert_eq!(all().len(), sum);
    assert!(!Summary::of(&[]).all_met(), "no comparison is no success");
}

/// Every file of published data stands in the table of sources, and the other way round.
#[test]
fn regression_every_data_file_has_its_source() {
    let directory = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("data/published");
    let sources = std::fs::read_to_string(directory.join("SOURCES.md")).unwrap();
    let mut files = 0;
    for entry in std::fs::read_dir(&directory).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if name.ends_with(".csv") {
            assert!(sources.contains(&format!("| `{name}` |")), "{name}");
            files += 1;
        }
    }
    assert_eq!(sources.matches(".csv` |").count(), files);
}

#[test]
fn regression_the_table_fits_and_says_all() {
    let comparisons = all();
    let text = table(&comparisons, false);
    assert!(text.is_ascii());
    for line in table(&comparisons, true).lines().chain(text.lines()) {
        assert!(line.chars().count() <= 100, "{line}");
    }
    for each in &comparisons {
        assert!(text.contains(each.source), "{}", each.source);
    }
    assert_eq!(text.matches("MISSED").count(), 0);
    let summary = Summary::of(&comparisons);
    let last = text.lines().last().unwrap();
    assert_eq!(
        last,
        format!(
            "{0} of {0} within tolerance, {1} shown for information",
            summary.judged, summary.shown
        )
    );
    let mut wrong = comparisons;
    wrong[0].computed *= 2.0;
    let text = table(&wrong, false);
    assert_eq!(text.matches("MISSED").count(), 1);
    assert!(text.contains(&format!("{} of {}", summary.judged - 1, summary.judged)));
}

#[test]
fn regression_json_carries_values_difference_and_verdict() {
    let comparisons = all();
    let json = serde_json::to_value(Report::of(&comparisons)).unwrap();
    assert_eq!(json["comparisons"].as_array().unwrap().len(), comparisons.len());
    let first = &json["comparisons"][0];
    assert_eq!(first["case"], "Table 1, 2 deg");
    assert_eq!(first["printed"], 2.14);
    assert_eq!(first["tolerance"]["absolute"], 0.005);
    assert_eq!(first["verdict"], "met");
    assert_eq!(first["difference"], first["computed"].as_f64().unwrap() - 2.14);
    assert_eq!(json["summary"]["judged"], Summary::of(&comparisons).judged);
}
