//! Published cases and tables that are law, by the call behind `prove`.

use latewood::results::proof::{Kind, Proof};
use latewood::study::prove::prove;
use std::sync::LazyLock;

static PROOF: LazyLock<Proof> = LazyLock::new(prove);

#[test]
fn every_published_figure_agrees() {
    let mut wrong = Vec::new();
    for case in &PROOF.cases {
        if !case.fault.is_empty() {
            wrong.push(format!("{}: {}", case.id, case.fault));
        }
        for f in case.figures.iter().filter(|f| !f.agrees) {
            let computed = f.computed.map_or_else(|| "nothing".to_owned(), |v| v.to_string());
            wrong.push(format!(
                "{}: {} {} under {} is {computed}, printed {} {} ({})",
                case.id, f.check, f.symbol, f.combination, f.expected, f.unit, f.because
            ));
        }
    }
    let counts = &PROOF.counts;
    assert!(wrong.is_empty(), "{} of {} figures of {} cases:\n{}", wrong.len(), counts.figures, counts.cases, wrong.join("\n"));
    assert!(counts.cases >= 124 && counts.figures >= 630, "{counts:?}");
    assert_eq!(PROOF.cases.iter().filter(|c| c.code == "beam theory").count(), 37);
    for code in ["american", "european"] {
        assert!(PROOF.cases.iter().filter(|c| c.code == code).count() >= 15, "{code}");
    }
}

/// What a source printed is never mixed up with what we worked or recalled ourselves.
#[test]
fn the_kinds_of_figures_are_told_apart() {
    let of = |kind: Kind| PROOF.counts.kinds.iter().find(|of| of.kind == kind).unwrap();
    assert_eq!(PROOF.counts.kinds.iter().map(|of| of.cases).sum::<usize>(), PROOF.counts.cases);
    assert_eq!(PROOF.counts.kinds.iter().map(|of| of.figures).sum::<usize>(), PROOF.counts.figures);
    assert!(of(Kind::Published).cases >= 55 && of(Kind::ClosedForm).cases >= 17 && of(Kind::FromMemory).cases >= 20, "{:?}", PROOF.counts);
    for case in &PROOF.cases {
        let own = ["own", "constructed", "memory"].iter().any(|word| case.status.contains(word));
        assert!(!own || case.kind != Kind::Published, "{}: {}", case.id, case.status);
        for figure in case.figures.iter().filter(|f| f.because.starts_with("own arithmetic")) {
            assert_eq!(figure.kind, Kind::OwnArithmetic, "{}: {}", case.id, figure.because);
        }
    }
    for one in &PROOF.abbreviations {
        assert!(PROOF.cases.iter().any(|case| case.source.contains(&one.short)), "{} stands nowhere", one.short);
    }
    // Capital letters alone and a number that open a source are an abbreviation that the report explains.
    let short = |source: &str| {
        let mut words = source.split(' ');
        let capitals = words.next().is_some_and(|word| word.len() == 3 && word.chars().all(|c| c.is_ascii_uppercase()));
        capitals && !source.starts_with("NDS") && words.next().is_some_and(|word| word.starts_with(|c: char| c.is_ascii_digit()))
    };
    for case in PROOF.cases.iter().filter(|case| short(&case.source)) {
        assert!(PROOF.abbreviations.iter().any(|a| case.source.starts_with(&a.short)), "{}: {}", case.id, case.source);
    }
}

/// Joists, rafters and ceilings agree to the nearest inch. The loads behind the header table are a fit, which misses two of its cells by
/// 0.05 and 0.22 in, as its file says.
#[test]
fn every_cell_that_is_law_agrees_to_the_nearest_inch() {
    let (mut wrong, mut joists, mut headers, mut missed) = (Vec::new(), 0, 0, 0);
    for law in &PROOF.laws {
        let fitted = law.table.contains("R602.7");
        *(if fitted { &mut headers } else { &mut joists }) += law.cells.len();
        for cell in law.cells.iter().filter(|c| !c.agrees) {
            missed += 1;
            if !cell.known || !fitted {
                wrong.push(format!("{} {}: {:.3} in, printed {}", law.table, cell.what, cell.computed, cell.printed));
            }
        }
    }
    assert!(wrong.is_empty(), "{} cells differ:\n{}", wrong.len(), wrong.join("\n"));
    assert_eq!((joists, headers, missed), (506, 24, 2));
    assert!(PROOF.agrees);
}

#[test]
fn the_report_says_what_it_could_not_check() {
    let says = |what: &str| PROOF.not_checked.iter().any(|n| n.what.contains(what));
    assert!(says("R602.7"), "the headers of a storey above");
    assert!(says("Supplement"), "values from memory");
    assert!(PROOF.tables.len() > 20 && PROOF.tables.iter().any(|t| t.read > 100), "{:?}", PROOF.tables);
    let of = |table: &str| PROOF.tables.iter().find(|t| t.table.contains(table)).unwrap();
    let lumber = of("Table 4A");
    assert!(lumber.fixed >= 12 && lumber.recalled_twice == 2, "{} fixed, {} recalled twice", lumber.fixed, lumber.recalled_twice);
    assert!(
        lumber
            .unconfirmed
            .iter()
            .any(|row| row == "Spruce-Pine-Fir (South), Standard: F_b, F_t, F_v, F_c_perp, F_c (1000 and 975), E, E_min")
    );
    assert!(lumber.unconfirmed.iter().all(|row| !row.starts_with("Hem-Fir, No.2: F_b")), "fixed by span tables");
    let text = serde_json::to_string(&*PROOF).unwrap();
    assert_eq!(serde_json::from_str::<Proof>(&text).unwrap(), *PROOF);
}
