//! The letters of the American code: dimension, plain form, Typst form, words, unit shown.

#![allow(non_upper_case_globals)]

use crate::codes::Lettered;
use crate::notation;
use crate::units::{
    Area, AreaLoad, FT, FT2, Force, IN, IN2, IN3, IN4, Inertia, LBF, LBF_FT, Length, LineLoad, Modulus, Moment, NONE, PLF, PSF, PSI, Ratio,
    Stress,
};

notation! {
    // Section and geometry.
    b: Length = "b", "b", "b", &IN;
    d: Length = "d", "d", "d", &IN;
    A: Area = "A", "A", "A", &IN2;
    S: Modulus = "S", "S", "S", &IN3;
    I: Inertia = "I", "I", "I", &IN4;
    S_y: Modulus = "S_y", "S_y", "S y", &IN3;
    I_y: Inertia = "I_y", "I_y", "I y", &IN4;
    L: Length = "L", "L", "L", &FT;
    L_0: Length = "L_0", "L_0", "L nought", &FT;
    b_most: Length = "b_max", "b_\"max\"", "b max", &IN;
    d_size: Length = "d_ref", "d_\"ref\"", "d ref", &IN;
    l_1: Length = "l_1", "l_1", "l 1", &IN;
    l_2: Length = "l_2", "l_2", "l 2", &IN;
    l_e1: Length = "l_e1", "l_(e 1)", "l e 1", &IN;
    l_e2: Length = "l_e2", "l_(e 2)", "l e 2", &IN;
    d_1: Length = "d_1", "d_1", "d 1", &IN;
    d_2: Length = "d_2", "d_2", "d 2", &IN;
    e_1: Length = "e_1", "e_1", "e 1", &IN;
    e_2: Length = "e_2", "e_2", "e 2", &IN;
    d_h: Length = "d_h", "d_h", "d h", &IN;
    A_n: Area = "A_n", "A_n", "A n", &IN2;
    l_u: Length = "l_u", "l_u", "l u", &IN;
    l_e: Length = "l_e", "l_e", "l e", &IN;
    l_b: Length = "l_b", "l_b", "l b", &IN;
    b_b: Length = "b_b", "b_b", "b b", &IN;
    d_n: Length = "d_n", "d_n", "d n", &IN;
    e_n: Length = "e", "e", "e", &IN;
    depth_n: Length = "h_n", "h_n", "h n", &IN;
    depth_most: Length = "h_max", "h_\"max\"", "h max", &IN;
    sin_theta: Ratio = "sin theta", "sin theta", "sine theta", &NONE;
    cos_theta: Ratio = "cos theta", "cos theta", "cosine theta", &NONE;

    // Loads and statics.
    w: LineLoad = "w", "w", "w", &PLF;
    P: Force = "P", "P", "P", &LBF;
    M: Moment = "M", "M", "M", &LBF_FT;
    M_x: Moment = "M_x", "M_x", "M x", &LBF_FT;
    M_y: Moment = "M_y", "M_y", "M y", &LBF_FT;
    M_e1: Moment = "M_e1", "M_(e 1)", "M e 1", &LBF_FT;
    M_e2: Moment = "M_e2", "M_(e 2)", "M e 2", &LBF_FT;
    V: Force = "V", "V", "V", &LBF;
    V_y: Force = "V_y", "V_y", "V y", &LBF;
    R: Force = "R", "R", "R", &LBF;
    delta: Length = "delta", "delta", "delta", &IN;
    delta_x: Length = "delta_x", "delta_x", "delta x", &IN;
    delta_y: Length = "delta_y", "delta_y", "delta y", &IN;
    delta_most: Length = "delta_max", "delta_\"max\"", "delta max", &IN;

    // Live load by the area that is borne.
    L_o: AreaLoad = "L_o", "L_o", "L o", &PSF;
    A_T: Area = "A_T", "A_T", "A T", &FT2;
    K_LL: Ratio = "K_LL", "K_(L L)", "K L L", &NONE;
    A_I: Area = "A_I", "A_I", "A I", &FT2;
    A_from: Area = "A_min", "A_\"min\"", "A min", &FT2;
    A_to: Area = "A_max", "A_\"max\"", "A max", &FT2;
    F: Ratio = "F", "F", "F", &NONE;
    F_from: Ratio = "F_min", "F_\"min\"", "F min", &NONE;
    F_to: Ratio = "F_max", "F_\"max\"", "F max", &NONE;
    R_1: Ratio = "R_1", "R_1", "R 1", &NONE;
    R_2: Ratio = "R_2", "R_2", "R 2", &NONE;
    L_A: AreaLoad = "L_A", "L_A", "L A", &PSF;
    least: Ratio = "k_min", "k_\"min\"", "k min", &NONE;
    L_least: AreaLoad = "L_min", "L_\"min\"", "L min", &PSF;
    L_red: AreaLoad = "L_red", "L_\"red\"", "L red", &PSF;
    part: Ratio = "k_L", "k_L", "k L", &NONE;

    // Reference values.
    F_b: Stress = "F_b", "F_b", "F b", &PSI;
    F_by: Stress = "F_by", "F_(b y)", "F b y", &PSI;
    F_vy: Stress = "F_vy", "F_(v y)", "F v y", &PSI;
    E_y: Stress = "E_y", "E_y", "E y", &PSI;
    F_bx_pos: Stress = "F_bx+", "F_(b x)^+", "F b x positive", &PSI;
    F_bx_neg: Stress = "F_bx-", "F_(b x)^-", "F b x negative", &PSI;
    F_vx: Stress = "F_vx", "F_(v x)", "F v x", &PSI;
    E_x: Stress = "E_x", "E_x", "E x", &PSI;
    E_x_min: Stress = "E_x,min", "E_(x \"min\")", "E x min", &PSI;
    E_y_min: Stress = "E_y,min", "E_(y \"min\")", "E y min", &PSI;
    F_v: Stress = "F_v", "F_v", "F v", &PSI;
    F_t: Stress = "F_t", "F_t", "F t", &PSI;
    F_c: Stress = "F_c", "F_c", "F c", &PSI;
    F_c_perp: Stress = "F_c,perp", "F_(c perp)", "F c perpendicular", &PSI;
    E: Stress = "E", "E", "E", &PSI;
    E_min: Stress = "E_min", "E_\"min\"", "E min", &PSI;

    // Stresses and adjusted values.
    f_b: Stress = "f_b", "f_(#h(-0.1em) b)", "f b", &PSI;
    f_b1: Stress = "f_b1", "f_(#h(-0.1em) b 1)", "f b 1", &PSI;
    f_b2: Stress = "f_b2", "f_(#h(-0.1em) b 2)", "f b 2", &PSI;
    f_vy: Stress = "f_vy", "f_(#h(-0.1em) v y)", "f v y", &PSI;
    f_v: Stress = "f_v", "f_(#h(-0.1em) v)", "f v", &PSI;
    f_c: Stress = "f_c", "f_(#h(-0.1em) c)", "f c", &PSI;
    f_t: Stress = "f_t", "f_(#h(-0.1em) t)", "f t", &PSI;
    f_e1: Stress = "f_e1", "f_(#h(-0.1em) e 1)", "f e 1", &PSI;
    f_e2: Stress = "f_e2", "f_(#h(-0.1em) e 2)", "f e 2", &PSI;
    f_1: Stress = "f_1", "f_(#h(-0.1em) 1)", "f 1", &PSI;
    f_c_perp: Stress = "f_c,perp", "f_(#h(-0.1em) c perp)", "f c perpendicular", &PSI;
    F_b_star: Stress = "F_b*", "F_b^*", "F b star", &PSI;
    F_b_starred: Stress = "F_b**", "F_b^(**)", "F b two stars", &PSI;
    F_b_adj: Stress = "F'_b", "F'_b", "F b prime", &PSI;
    F_b2_adj: Stress = "F'_b2", "F'_(b 2)", "F b 2 prime", &PSI;
    F_vy_adj: Stress = "F'_vy", "F'_(v y)", "F v y prime", &PSI;
    E_y_adj: Stress = "E'_y", "E'_y", "E y prime", &PSI;
    F_bx_adj: Stress = "F'_bx", "F'_(b x)", "F b x prime", &PSI;
    F_by_adj: Stress = "F'_by", "F'_(b y)", "F b y prime", &PSI;
    E_x_min_adj: Stress = "E'_x,min", "E'_(x \"min\")", "E x min prime", &PSI;
    E_y_min_adj: Stress = "E'_y,min", "E'_(y \"min\")", "E y min prime", &PSI;
    F_v_adj: Stress = "F'_v", "F'_v", "F v prime", &PSI;
    F_c_adj: Stress = "F'_c", "F'_c", "F c prime", &PSI;
    F_t_adj: Stress = "F'_t", "F'_t", "F t prime", &PSI;
    F_cE: Stress = "F_cE", "F_(c E)", "F c E", &PSI;
    F_cE1: Stress = "F_cE1", "F_(c E 1)", "F c E 1", &PSI;
    F_cE2: Stress = "F_cE2", "F_(c E 2)", "F c E 2", &PSI;
    F_c_perp_plate: Stress = "F_c,perp", "F_(c perp)", "F c perpendicular", &PSI;
    F_c_star: Stress = "F_c*", "F_c^*", "F c star", &PSI;
    F_c_perp_adj: Stress = "F'_c,perp", "F'_(c perp)", "F c perpendicular prime", &PSI;
    F_theta_adj: Stress = "F'_theta", "F'_theta", "F theta prime", &PSI;
    E_adj: Stress = "E'", "E'", "E prime", &PSI;
    E_min_adj: Stress = "E'_min", "E'_\"min\"", "E min prime", &PSI;
    F_bE: Stress = "F_bE", "F_(b E)", "F b E", &PSI;
    V_r_adj: Force = "V'_r", "V'_r", "V r prime", &LBF;

    // Factors.
    C_D: Ratio = "C_D", "C_D", "C D", &NONE;
    C_M_b: Ratio = "C_M", "C_M", "C M", &NONE;
    C_M_v: Ratio = "C_M", "C_M", "C M", &NONE;
    C_M_t: Ratio = "C_M", "C_M", "C M", &NONE;
    C_M_plate: Ratio = "C_M", "C_M", "C M", &NONE;
    C_M_c: Ratio = "C_M", "C_M", "C M", &NONE;
    C_M_perp: Ratio = "C_M", "C_M", "C M", &NONE;
    C_M_E: Ratio = "C_M", "C_M", "C M", &NONE;
    C_t_b: Ratio = "C_t", "C_t", "C t", &NONE;
    C_t_v: Ratio = "C_t", "C_t", "C t", &NONE;
    C_t_t: Ratio = "C_t", "C_t", "C t", &NONE;
    C_t_c: Ratio = "C_t", "C_t", "C t", &NONE;
    C_t_perp: Ratio = "C_t", "C_t", "C t", &NONE;
    C_t_E: Ratio = "C_t", "C_t", "C t", &NONE;
    C_F_b: Ratio = "C_F", "C_F", "C F", &NONE;
    C_F_t: Ratio = "C_F", "C_F", "C F", &NONE;
    C_F_c: Ratio = "C_F", "C_F", "C F", &NONE;
    C_fu_b: Ratio = "C_fu", "C_(f u)", "C f u", &NONE;
    C_F_y: Ratio = "C_F", "C_F", "C F", &NONE;
    C_fu_y: Ratio = "C_fu", "C_(f u)", "C f u", &NONE;
    C_fu_Ey: Ratio = "C_fu", "C_(f u)", "C f u", &NONE;
    C_r_y: Ratio = "C_r", "C_r", "C r", &NONE;
    C_fu_E: Ratio = "C_fu", "C_(f u)", "C f u", &NONE;
    C_i_b: Ratio = "C_i", "C_i", "C i", &NONE;
    C_i_v: Ratio = "C_i", "C_i", "C i", &NONE;
    C_i_t: Ratio = "C_i", "C_i", "C i", &NONE;
    C_i_c: Ratio = "C_i", "C_i", "C i", &NONE;
    C_i_perp: Ratio = "C_i", "C_i", "C i", &NONE;
    C_i_E: Ratio = "C_i", "C_i", "C i", &NONE;
    C_r: Ratio = "C_r", "C_r", "C r", &NONE;
    C_b: Ratio = "C_b", "C_b", "C b", &NONE;
    C_V: Ratio = "C_V", "C_V", "C V", &NONE;
    C_c: Ratio = "C_c", "C_c", "C c", &NONE;
    C_I: Ratio = "C_I", "C_I", "C I", &NONE;
    C_vr: Ratio = "C_vr", "C_(v r)", "C v r", &NONE;
    C_L: Ratio = "C_L", "C_L", "C L", &NONE;
    lambda: Ratio = "lambda", "lambda", "lambda", &NONE;
    K_F_b: Ratio = "K_F", "K_F", "K F", &NONE;
    K_F_v: Ratio = "K_F", "K_F", "K F", &NONE;
    K_F_t: Ratio = "K_F", "K_F", "K F", &NONE;
    K_F_c: Ratio = "K_F", "K_F", "K F", &NONE;
    K_F_perp: Ratio = "K_F", "K_F", "K F", &NONE;
    K_F_E: Ratio = "K_F", "K_F", "K F", &NONE;
    phi_b: Ratio = "phi_b", "phi_b", "phi b", &NONE;
    phi_v: Ratio = "phi_v", "phi_v", "phi v", &NONE;
    phi_t: Ratio = "phi_t", "phi_t", "phi t", &NONE;
    phi_c: Ratio = "phi_c", "phi_c", "phi c", &NONE;
    PHI: Ratio = "phi", "phi", "phi", &NONE;
    phi_E: Ratio = "phi_s", "phi_s", "phi s", &NONE;

    // Columns, and the sums of combined action.
    K_e1: Ratio = "K_e1", "K_(e 1)", "K e 1", &NONE;
    K_e2: Ratio = "K_e2", "K_(e 2)", "K e 2", &NONE;
    K_f: Ratio = "K_f", "K_f", "K f", &NONE;
    c: Ratio = "c", "c", "c", &NONE;
    C_P: Ratio = "C_P", "C_P", "C P", &NONE;
    C_P1: Ratio = "C_P1", "C_(P 1)", "C P 1", &NONE;
    C_P2: Ratio = "C_P2", "C_(P 2)", "C P 2", &NONE;
    r_c: Ratio = "r_c", "r_c", "r c", &NONE;
    r_1: Ratio = "r_1", "r_1", "r 1", &NONE;
    r_2: Ratio = "r_2", "r_2", "r 2", &NONE;
    alpha_c: Ratio = "alpha_c", "alpha_c", "alpha c", &NONE;
    alpha_1: Ratio = "alpha_1", "alpha_1", "alpha 1", &NONE;
    alpha_2: Ratio = "alpha_2", "alpha_2", "alpha 2", &NONE;
    slender: Ratio = "l_e/d", "l_e slash d", "l e over d", &NONE;
    slender_most: Ratio = "(l_e/d)_max", "(l_e slash d)_\"max\"", "l e over d max", &NONE;
    t_1: Ratio = "t_1", "t_1", "t 1", &NONE;
    t_2: Ratio = "t_2", "t_2", "t 2", &NONE;
    u: Ratio = "u", "u", "u", &NONE;
    sum_c: Ratio = "sum", "\"sum\"", "sum", &NONE;
    sum_t: Ratio = "sum", "\"sum\"", "sum", &NONE;

    // Stability, and the ratio of a check.
    R_B: Ratio = "R_B", "R_B", "R B", &NONE;
    R_B_most: Ratio = "R_B,max", "R_(B,\"max\")", "R B max", &NONE;
    r: Ratio = "r", "r", "r", &NONE;
    alpha: Ratio = "alpha", "alpha", "alpha", &NONE;
    sum_b: Ratio = "sum f_b/F'_b", "sum f_b / F'_b", "sum of f b over F b prime", &NONE;
    sum_most: Ratio = "limit", "\"limit\"", "limit", &NONE;
    ratio: Ratio = "ratio", "\"ratio\"", "ratio", &NONE;
}

/// Letters that the sheets use without a word beside them.
pub(super) static LETTERS: &[Lettered] = &[
    Lettered { plain: "b, d", typst: "b, d", meaning: "width and depth of a section" },
    Lettered { plain: "A, S, I", typst: "A, S, I", meaning: "area, section modulus, second moment of area" },
    Lettered { plain: "l b", typst: "l_b", meaning: "length of bearing" },
    Lettered { plain: "l u, l e", typst: "l_u, l_e", meaning: "unbraced and effective length" },
    Lettered { plain: "w, M, V", typst: "w, M, V", meaning: "line load, moment, shear" },
    Lettered { plain: "f; F, F prime", typst: "f\\; F, F'", meaning: "stress; design value, and adjusted" },
    Lettered { plain: "E prime, delta", typst: "E', delta", meaning: "adjusted modulus of elasticity, deflection" },
    Lettered { plain: "R B", typst: "R_B", meaning: "slenderness ratio in bending" },
    Lettered { plain: "r, alpha", typst: "r, alpha", meaning: "shorthand of ours, set out where used" },
];
