//! What one ratio costs, without trace and with it, against the same formula written by hand in f64.

use divan::{Bencher, black_box};
use latewood::codes::Statics;
use latewood::codes::american::bending::bending;
use latewood::codes::american::member::{Asked, How, Member, NotchLimit};
use latewood::equation::{Coherent, Facts, Tape};
use latewood::units::{FT, IN, IN2, IN3, IN4, LBF, LBF_FT, Length, PSI, Q, Ratio, figures, rounded};

fn main() {
    divan::main();
}

fn member() -> Member {
    let one = Ratio::new(1.0);
    Member {
        b: IN.of(3.5),
        d: IN.of(11.25),
        A: IN2.of(39.375),
        S: IN3.of(73.828),
        I: IN4.of(415.28),
        F_b: PSI.of(1000.0),
        F_v: PSI.of(180.0),
        F_c: PSI.of(1500.0),
        F_t: PSI.of(675.0),
        F_c_perp: PSI.of(625.0),
        E: PSI.of(1.7e6),
        E_min: PSI.of(620_000.0),
        C_M_b: one,
        C_M_v: one,
        C_M_c: one,
        C_M_t: one,
        C_M_perp: one,
        C_M_E: one,
        C_t_b: one,
        C_t_v: one,
        C_t_c: one,
        C_t_t: one,
        C_t_perp: one,
        C_t_E: one,
        C_F_b: Ratio::new(1.1),
        C_F_c: one,
        C_F_t: one,
        C_fu_b: one,
        C_fu_E: one,
        C_i_b: one,
        C_i_v: one,
        C_i_c: one,
        C_i_t: one,
        C_i_perp: one,
        C_i_E: one,
        C_r: one,
        S_y: IN3.of(22.969),
        I_y: IN4.of(40.195),
        F_bx_pos: PSI.of(1000.0),
        F_bx_neg: PSI.of(1000.0),
        F_vx: PSI.of(180.0),
        E_x: PSI.of(1.7e6),
        E_x_min: PSI.of(620_000.0),
        E_y_min: PSI.of(620_000.0),
        C_c: one,
        C_I: one,
        b_most: IN.of(10.75),
        d_size: IN.of(11.25),
        F_by: PSI.of(1000.0),
        F_vy: PSI.of(180.0),
        E_y: PSI.of(1.7e6),
        C_F_y: Ratio::new(1.1),
        C_fu_y: one,
        C_fu_Ey: one,
        C_r_y: one,
        K_F_b: one,
        K_F_v: one,
        K_F_c: one,
        K_F_t: one,
        K_F_perp: one,
        K_F_E: one,
        phi_b: one,
        phi_v: one,
        phi_c: one,
        phi_t: one,
        phi_E: one,
    }
}

fn asked(moment: f64) -> Asked {
    let (zero, one) = (Length::new(0.0), Ratio::new(1.0));
    Asked {
        C_D: one,
        lambda: one,
        w: Q::new(0.0),
        P: Q::new(0.0),
        L: zero,
        M: LBF_FT.of(moment),
        M_x: Q::new(0.0),
        M_y: Q::new(0.0),
        V: Q::new(0.0),
        V_y: Q::new(0.0),
        R: Q::new(0.0),
        delta: zero,
        delta_x: zero,
        delta_y: zero,
        delta_most: zero,
        L_0: zero,
        C_vr: one,
        l_u: IN.of(114.0),
        l_b: zero,
        b_b: zero,
        d_n: zero,
        e_n: zero,
        depth_n: zero,
        sin_theta: one,
        cos_theta: one,
        R_B_most: Ratio::new(50.0),
    }
}

const HOW: How = How {
    layup: None,
    lrfd: false,
    statics: Statics::Diagram,
    held: None,
    effective: (1.63, 3.0),
    reduced: false,
    plain_bearing: None,
    square: true,
    inner_notch: false,
    tension_notch: true,
    net_section: false,
    notch_limit: NotchLimit { over: 4.0, most: None, clause: "NDS 4.4.3" },
    added: 0.375,
    over: None,
    overhang: false,
    both_ways: false,
    limits: "IBC Table 1604.3",
};

/// The same check as an engineer in a hurry would write it.
#[allow(clippy::too_many_arguments)]
#[inline(never)]
fn by_hand(m: f64, s: f64, b: f64, d: f64, l_u: f64, f_b: f64, e_min: f64, factors: &[f64; 9]) -> f64 {
    let f = m / s;
    let star = f_b * factors[0] * factors[1] * factors[2] * factors[3] * factors[4] * factors[5];
    let l_e = 1.63 * l_u + 3.0 * d;
    let r_b = (l_e * d / (b * b)).sqrt();
    let e = e_min * factors[6] * factors[7] * factors[8];
    let r = 1.20 * e / (r_b * r_b) / star;
    let alpha = (1.0 + r) / 1.9;
    let c_l = alpha - (alpha * alpha - r / 0.95).sqrt();
    f / (star * c_l)
}

#[divan::bench]
fn written_by_hand(bencher: Bencher) {
    let m = member();
    let factors = [1.0, 1.0, 1.0, 1.1, 1.0, 1.0, 1.0, 1.0, 1.0];
    bencher.bench_local(|| {
        by_hand(
            black_box(8.0e6),
            black_box(m.S.value()),
            black_box(m.b.value()),
            black_box(m.d.value()),
            black_box(2895.6),
            black_box(m.F_b.value()),
            black_box(m.E_min.value()),
            black_box(&factors),
        )
    });
}

#[divan::bench]
fn without_trace(bencher: Bencher) {
    let (m, q) = (member(), asked(6140.0));
    bencher.bench_local(|| bending(black_box(&m), black_box(&q), black_box(&HOW)));
}

#[divan::bench]
fn with_trace_and_printed(bencher: Bencher) {
    let (m, q) = (member(), asked(6140.0));
    let sets = [Coherent { length: &IN, force: &LBF }, Coherent { length: &FT, force: &LBF }];
    bencher.bench_local(|| {
        let tape = Tape::new();
        bending(&black_box(&m).traced(&tape), &q.traced(&tape), &HOW);
        tape.steps(&Facts::default(), &sets).len()
    });
}

/// A number of four figures as it stands in a line, and the same rounded to be compared.
#[divan::bench]
fn number_in_print(bencher: Bencher) {
    bencher.bench_local(|| figures(black_box(1234.5678), black_box(4)));
}

#[divan::bench]
fn number_rounded(bencher: Bencher) {
    bencher.bench_local(|| rounded(black_box(1234.5678), black_box(4)));
}
