//! A check that reads what its place does not give has no ratio and fails: nothing stands for it that could pass.

use super::{PINE, one, source};
use latewood::Ready;
use latewood::codes::{Found, Places, Prepared, Statics, walk};
use std::path::Path;

/// All checks of a member on the demands of all its places.
fn look(file: &str, prepared: &dyn Prepared, found: &[Found]) -> usize {
    let mut foreign = 0;
    for demanded in found {
        // On a member that leans the loads and moments of one axis may be given, and be nought.
        let no_load = matches!(demanded.demand.statics, Statics::Uniform { load, .. } if load == 0.0);
        let given_nought = demanded.about.places == Places::BothMoments || no_load;
        for (row, about) in prepared.resolved().checks.iter().enumerate() {
            let Some(ratio) = prepared.ratio(row, &demanded.demand) else { continue };
            let what = format!("{file}: {:?} {} on {:?}", about.kind, about.what, demanded.about.places);
            if about.places == demanded.about.places {
                assert!(ratio.value().is_finite(), "{what}");
            } else if !given_nought {
                // It reads what two kinds of places give, or fails.
                assert!(!ratio.is_nothing(), "{what}");
                foreign += usize::from(!ratio.passes());
            }
        }
    }
    foreign
}

#[test]
fn a_check_on_a_place_of_another_kind_never_passes_at_nought() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut foreign = 0;
    for file in [
        "tests/jobs/purlins.yaml",
        "tests/jobs/feet.yaml",
        "tests/jobs/columns.yaml",
        "tests/jobs/glulam.yaml",
        "examples/alpine-school.yaml",
    ] {
        let text = std::fs::read_to_string(root.join(file)).unwrap();
        let Ready { job, code, prepared } = latewood::read(&source(&text)).unwrap();
        let walked = walk(code, &job, prepared, &code.combinations(&job.basis), false).unwrap();
        foreign += walked.iter().map(|one| look(file, one.prepared.as_ref(), &one.checked.found)).sum::<usize>();
    }
    assert!(foreign > 500, "{foreign}");
}

/// The live load is even and has a closed form; the dead load, two points, has none, nor has the whole. A limit of 10 mm on 3 m is L/300 in
/// other words. Once the span of the closed form was nought where the limit was a length, so that the live load bent nothing.
#[test]
fn a_limit_said_as_a_length_is_that_of_its_ratio() {
    let ratio = |limit: &str| {
        let loads = "{point: 1 kN, at: 1 m, case: dead}, {point: 1 kN, at: 2 m, case: dead}, \
                     {line: 1 kN/m, case: live}";
        let member = one(
            "{code: european}",
            &format!(
                "use: beam, section: 80x220, {PINE}, spans: [3 m], braced: {{top: sheathed}}, self-weight: no, \
                 limits: {{instant: {limit}, final: none, net-final: none}}, loads: [{loads}]"
            ),
        );
        member.checks.iter().find(|check| check.check == "deflection").unwrap().ratio
    };
    let (length, over) = (ratio("10 mm"), ratio("L/300"));
    assert!((length / over - 1.0).abs() < 1e-9, "{length} {over}");
}
