//! Bending together with a force along the member. NDS 3.9; eccentric forces 15.4.
//!
//! The standard's sums are cut to one line an axis: t_1 and t_2 are their second and third terms, u its equation 3.9-4; they are ours.

#![allow(non_snake_case)]

use super::compression::{self, Column};
use super::loaded::{Loaded, Manner, Sense};
use super::{bending, biaxial, glued, notation, tension};
use crate::codes::Statics;
use crate::eq;
use crate::equation::Trace;
use crate::units::{Moment, Ratio, Stress, number, sq};

/// A term of the sum that is as large as this only says that the member fails.
pub const PLENTY: f64 = 10.0;
/// Why a term is [`PLENTY`].
pub const NEAR: &str = "more than 10, and without bound as the stress nears the critical one: 10 stands for it";

/// Bending alone, about one axis: nothing acts along the member. NDS 3.3.1.
pub fn bending_alone<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Nothing || o.bends_1() == o.bends_2() {
        return None;
    }
    if o.bends_1() {
        let f_b1 = strong(l, o)?;
        let (F_b_adj, _) = bending::adjusted(&l.m, &l.q, &o.how);
        eq!(ratio = f_b1 / F_b_adj; "NDS 3.3.1");
        return Some(ratio);
    }
    let f_b2 = weak(l, o)?;
    let F_b2_adj = biaxial::across(&l.m, &l.q, &o.how);
    eq!(ratio = f_b2 / F_b2_adj; "NDS 3.3.1");
    Some(ratio)
}

/// Bending about both axes, nothing along the member. NDS 3.9.2.
pub fn bending_both<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Nothing || !(o.bends_1() && o.bends_2()) {
        return None;
    }
    biaxial::biaxial_bending(&l.m, &l.q, &o.how)
}

/// Bending and compression. NDS Eq. 3.9-3; with eccentric forces Eq. 15.4-1.
///
/// Near a critical stress a magnified term grows without bound, and at it has none. Past [`PLENTY`] it only says that the member fails: it
/// stays there up to the critical stress and then grows with the load, so that more load never gives a smaller ratio.
pub fn bending_and_compression<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Press || !(o.bends_1() || o.bends_2()) {
        return None;
    }
    let column = compression::column(l, o);
    let Column { f_c, F_c_adj, .. } = column;
    eq!(sum_most = f_c.one(); o.equation());
    let first = o.bends_1().then(|| Strong::of(l, o, &column)).flatten();
    let second = if o.bends_2() {
        let f_b2 = weak(l, o);
        let u = loss(o, &column, first.as_ref());
        let F_b2_adj = biaxial::across(&l.m, &l.q, &o.how);
        let f_e2 = o.eccentric[1].then(|| {
            eq!(e_2 = l.x.M_e2 / l.x.P; "statics");
            eq!(f_e2 = f_c * (6.0 * e_2 / l.x.d_2); "NDS 15.4.1");
            f_e2
        });
        Some(third_term(o, f_b2, f_e2, F_b2_adj, u)?)
    } else {
        None
    };
    let sum_c = match (first.map(|f| f.term), second) {
        (Some(t_1), Some(t_2)) => {
            eq!(sum_c = sq(f_c / F_c_adj) + t_1 + t_2; o.equation());
            sum_c
        }
        (Some(one), None) | (None, Some(one)) => {
            eq!(sum_c = sq(f_c / F_c_adj) + one; o.equation());
            sum_c
        }
        (None, None) => return None,
    };
    eq!(ratio = sum_c / sum_most; "NDS 3.9.2");
    Some(ratio)
}

/// The condition on compression and strong-axis bending that keeps the member from buckling sideways. NDS Eq. 3.9-4, 15.4-2.
pub fn stability<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Press || !(o.bends_1() || o.bends_2()) {
        return None;
    }
    let column = compression::pressed(l, o);
    let first = o.bends_1().then(|| Strong::unmagnified(l, o, &column)).flatten();
    let u = loss(o, &column, first.as_ref())?;
    eq!(sum_most = u.one(); o.second_equation());
    eq!(ratio = u / sum_most; "NDS 3.9.2");
    Some(ratio)
}

/// What bending about the strong axis adds.
#[derive(Clone, Copy)]
struct Strong<T: Copy> {
    /// Stress, eccentricity included, not magnified.
    stress: Stress<T>,
    /// Critical stress of lateral buckling; none where the compression edge is held throughout.
    F_bE: Option<Stress<T>>,
    /// The second term of the sum.
    term: Ratio<T>,
}

impl<T: Trace> Strong<T> {
    fn of(l: &Loaded<T>, o: &Manner, column: &Column<T>) -> Option<Self> {
        let parts = Parts::of(l, o, column)?;
        let (F_b_adj, F_bE) = bending::adjusted(&l.m, &l.q, &o.how);
        let F_bE = F_bE.or_else(|| (o.how.held.is_none() && o.bends_2()).then(|| lateral(l, o)));
        let f_c = column.f_c;
        if let Some(F_cE1) = column.F_cE1.filter(|F_cE1| f_c.at_least(*F_cE1)) {
            eq!(t_1 = PLENTY * (f_c / F_cE1); o.equation(); "f_c is not below F_cE1, as 3.9.2 asks: no value, the member fails; ten times the part stands for it");
            return Some(Self { stress: parts.sum, F_bE, term: t_1 });
        }
        let t_1 = match (column.F_cE1, parts) {
            (Some(F_cE1), Parts { side: Some(f_b1), eccentric: None, .. }) => {
                eq!(t_1 = f_b1 / (F_b_adj * (1.0 - f_c / F_cE1)); o.equation(); "second term");
                t_1
            }
            (Some(F_cE1), Parts { side: Some(f_b1), eccentric: Some(f_e1), .. }) => {
                eq!(t_1 = (f_b1 + f_e1 * (1.0 + 0.234 * (f_c / F_cE1))) / (F_b_adj * (1.0 - f_c / F_cE1)); o.equation(); "second term");
                t_1
            }
            (Some(F_cE1), Parts { side: None, eccentric: Some(f_e1), .. }) => {
                eq!(t_1 = f_e1 * (1.0 + 0.234 * (f_c / F_cE1)) / (F_b_adj * (1.0 - f_c / F_cE1)); o.equation(); "second term");
                t_1
            }
            (_, Parts { sum, .. }) => {
                eq!(t_1 = sum / F_b_adj; o.equation(); "second term; held throughout about the strong axis, nothing is magnified");
                t_1
            }
        };
        let term = if t_1.at_most(PLENTY) {
            t_1
        } else {
            eq!(t_1 = number(t_1, PLENTY); o.equation(); NEAR);
            t_1
        };
        Some(Self { stress: parts.sum, F_bE, term })
    }

    /// Stress and critical stress only.
    fn unmagnified(l: &Loaded<T>, o: &Manner, column: &Column<T>) -> Option<Self> {
        let parts = Parts::of(l, o, column)?;
        let F_bE = o.how.held.is_none().then(|| lateral(l, o));
        Some(Self { stress: parts.sum, F_bE, term: number(parts.sum, 0.0) })
    }
}

/// Stresses about the strong axis by what makes them.
#[derive(Clone, Copy)]
struct Parts<T: Copy> {
    side: Option<Stress<T>>,
    eccentric: Option<Stress<T>>,
    sum: Stress<T>,
}

impl<T: Trace> Parts<T> {
    fn of(l: &Loaded<T>, o: &Manner, column: &Column<T>) -> Option<Self> {
        let side = strong(l, o);
        let eccentric = o.eccentric[0].then(|| {
            eq!(e_1 = l.x.M_e1 / l.x.P; "statics");
            eq!(f_e1 = column.f_c * (6.0 * e_1 / l.x.d_1); "NDS 15.4.1");
            f_e1
        });
        let sum = match (side, eccentric) {
            (Some(f_b1), Some(f_e1)) => {
                eq!(f_1 = f_b1 + f_e1; "NDS 15.4.1");
                f_1
            }
            (Some(one), None) | (None, Some(one)) => one,
            (None, None) => return None,
        };
        Some(Self { side, eccentric, sum })
    }
}

/// The critical stress of lateral buckling. NDS 3.3.3.8.
fn lateral<T: Trace>(l: &Loaded<T>, o: &Manner) -> Stress<T> {
    let R_B = bending::slenderness_ratio(&l.m, &l.q, &o.how);
    let E_min_adj = bending::stiffness(&l.m, &o.how);
    eq!(F_bE = 1.20 * E_min_adj / sq(R_B); "NDS 3.3.3.8");
    F_bE
}

/// What compression and strong-axis bending take of the member's stiffness sideways; none where nothing does.
fn loss<T: Trace>(o: &Manner, column: &Column<T>, first: Option<&Strong<T>>) -> Option<Ratio<T>> {
    let Column { f_c, F_cE2, .. } = *column;
    let bent = first.and_then(|first| Some((first.stress, first.F_bE?)));
    let clause = o.second_equation();
    match (F_cE2, bent) {
        (Some(F_cE2), Some((f_b, F_bE))) => {
            eq!(u = f_c / F_cE2 + sq(f_b / F_bE); clause);
            Some(u)
        }
        (Some(F_cE2), None) => {
            eq!(u = f_c / F_cE2; clause);
            Some(u)
        }
        (None, Some((f_b, F_bE))) => {
            eq!(u = sq(f_b / F_bE); clause; "held throughout about the weak axis");
            Some(u)
        }
        (None, None) => None,
    }
}

/// The third term of the sum.
fn third_term<T: Trace>(
    o: &Manner,
    side: Option<Stress<T>>,
    eccentric: Option<Stress<T>>,
    F_b2_adj: Stress<T>,
    u: Option<Ratio<T>>,
) -> Option<Ratio<T>> {
    let clause = o.equation();
    if let Some(u) = u.filter(|u| u.at_least(1.0)) {
        eq!(t_2 = PLENTY * u; clause; "u is not below 1, as 3.9.2 asks: no value, the member fails; ten times u stands for it");
        return Some(t_2);
    }
    let t_2 = match (side, eccentric, u) {
        (Some(f_b2), None, Some(u)) => {
            eq!(t_2 = f_b2 / (F_b2_adj * (1.0 - u)); clause; "third term");
            t_2
        }
        (Some(f_b2), Some(f_e2), Some(u)) => {
            eq!(t_2 = (f_b2 + f_e2 * (1.0 + 0.234 * u)) / (F_b2_adj * (1.0 - u)); clause; "third term");
            t_2
        }
        (None, Some(f_e2), Some(u)) => {
            eq!(t_2 = f_e2 * (1.0 + 0.234 * u) / (F_b2_adj * (1.0 - u)); clause; "third term");
            t_2
        }
        (Some(f_b2), Some(f_e2), None) => {
            eq!(t_2 = (f_b2 + f_e2) / F_b2_adj; clause; "third term; nothing is magnified");
            t_2
        }
        (Some(one), None, None) | (None, Some(one), None) => {
            eq!(t_2 = one / F_b2_adj; clause; "third term; nothing is magnified");
            t_2
        }
        (None, None, _) => return None,
    };
    if t_2.at_most(PLENTY) {
        return Some(t_2);
    }
    eq!(t_2 = number(t_2, PLENTY); clause; NEAR);
    Some(t_2)
}

/// Bending stress about the strong axis by side loads; none where none bends it so.
fn strong<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Stress<T>> {
    if !o.side[0] {
        return None;
    }
    let M_x = side_moment(l, o);
    eq!(f_b1 = M_x / l.m.S; "NDS 3.3.2");
    Some(f_b1)
}

fn side_moment<T: Trace>(l: &Loaded<T>, o: &Manner) -> Moment<T> {
    if matches!(o.how.statics, Statics::Uniform { .. }) {
        let (w, L) = (l.q.w, l.q.L);
        eq!(M_x = w * sq(L) / 8.0; "statics");
        return M_x;
    }
    l.q.M_x
}

/// Bending stress about the weak axis by side loads; none where none bends it so.
fn weak<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Stress<T>> {
    if !o.side[1] {
        return None;
    }
    eq!(f_b2 = l.q.M_y / l.m.S_y; "NDS 3.3.2");
    Some(f_b2)
}

/// Bending and tension, on the tension edge. NDS Eq. 3.9-1.
pub fn bending_and_tension<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Pull || !(o.bends_1() || o.bends_2()) {
        return None;
    }
    let f_t = tension::stress(l, o);
    let F_t_adj = tension::adjusted(l, o);
    let (f_b1, f_b2) = pulled(l, o);
    let sum_t = match (f_b1, f_b2) {
        (Some(f_b1), None) => {
            let F_b_star = unstabilised(l, o);
            eq!(sum_t = f_t / F_t_adj + f_b1 / F_b_star; "NDS Eq. 3.9-1");
            sum_t
        }
        (None, Some(f_b2)) => {
            let F_b2_adj = biaxial::across(&l.m, &l.q, &o.how);
            eq!(sum_t = f_t / F_t_adj + f_b2 / F_b2_adj; "NDS Eq. 3.9-1");
            sum_t
        }
        (Some(f_b1), Some(f_b2)) => {
            let F_b_star = unstabilised(l, o);
            let F_b2_adj = biaxial::across(&l.m, &l.q, &o.how);
            eq!(sum_t = f_t / F_t_adj + f_b1 / F_b_star + f_b2 / F_b2_adj; "NDS Eq. 3.9-1"; "both axes added");
            sum_t
        }
        (None, None) => return None,
    };
    eq!(sum_most = f_t.one(); "NDS Eq. 3.9-1");
    eq!(ratio = sum_t / sum_most; "NDS 3.9.1");
    Some(ratio)
}

/// Bending and tension, on the compression edge; only where bending is more than tension. NDS Eq. 3.9-2.
pub fn pulled_edge<T: Trace>(l: &Loaded<T>, o: &Manner) -> Option<Ratio<T>> {
    if o.sense != Sense::Pull || !o.bends_1() {
        return None;
    }
    let f_t = tension::stress(l, o);
    let (f_b1, f_b2) = pulled(l, o);
    let f_b1 = f_b1.filter(|f_b1| !f_b1.at_most(f_t))?;
    let F_b_adj = match o.how.layup {
        Some(layup) => glued::unreduced(&l.m, &l.q, &o.how, layup),
        None => bending::adjusted(&l.m, &l.q, &o.how).0,
    };
    let sum_t = if let Some(f_b2) = f_b2 {
        let F_b2_adj = biaxial::across(&l.m, &l.q, &o.how);
        eq!(sum_t = (f_b1 - f_t) / F_b_adj + f_b2 / F_b2_adj; "NDS Eq. 3.9-2"; "the weak axis added");
        sum_t
    } else {
        eq!(sum_t = (f_b1 - f_t) / F_b_adj; "NDS Eq. 3.9-2");
        sum_t
    };
    eq!(sum_most = f_t.one(); "NDS Eq. 3.9-2");
    eq!(ratio = sum_t / sum_most; "NDS 3.9.1");
    Some(ratio)
}

/// Bending stresses beside tension, moments of eccentric forces in them.
fn pulled<T: Trace>(l: &Loaded<T>, o: &Manner) -> (Option<Stress<T>>, Option<Stress<T>>) {
    let first = match (o.side[0], o.eccentric[0]) {
        (true, true) => {
            let M_x = side_moment(l, o);
            eq!(f_b1 = (M_x + l.x.M_e1) / l.m.S; "NDS 3.3.2");
            Some(f_b1)
        }
        (false, true) => {
            eq!(f_b1 = l.x.M_e1 / l.m.S; "NDS 3.3.2");
            Some(f_b1)
        }
        (_, false) => strong(l, o),
    };
    let second = match (o.side[1], o.eccentric[1]) {
        (true, true) => {
            eq!(f_b2 = (l.q.M_y + l.x.M_e2) / l.m.S_y; "NDS 3.3.2");
            Some(f_b2)
        }
        (false, true) => {
            eq!(f_b2 = l.x.M_e2 / l.m.S_y; "NDS 3.3.2");
            Some(f_b2)
        }
        (_, false) => weak(l, o),
    };
    (first, second)
}

/// F_b with all factors but C_L. NDS 3.9.1.
fn unstabilised<T: Trace>(l: &Loaded<T>, o: &Manner) -> Stress<T> {
    let (m, q) = (&l.m, &l.q);
    if let Some(layup) = o.how.layup {
        return glued::unstabilised(m, q, &o.how, layup);
    }
    if o.how.lrfd {
        eq!(F_b_star = m.F_b * m.K_F_b * m.phi_b * q.lambda * m.C_M_b * m.C_t_b * m.C_F_b * m.C_i_b * m.C_r; "NDS 3.9.1");
        return F_b_star;
    }
    eq!(F_b_star = m.F_b * q.C_D * m.C_M_b * m.C_t_b * m.C_F_b * m.C_i_b * m.C_r; "NDS 3.9.1");
    F_b_star
}

impl Manner {
    /// The equation of the sum.
    const fn equation(&self) -> &'static str {
        if self.eccentric[0] || self.eccentric[1] { "NDS Eq. 15.4-1" } else { "NDS Eq. 3.9-3" }
    }

    /// The condition beside it.
    const fn second_equation(&self) -> &'static str {
        if self.eccentric[0] || self.eccentric[1] { "NDS Eq. 15.4-2" } else { "NDS Eq. 3.9-4" }
    }
}
