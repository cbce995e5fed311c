//! The letters of the European code: dimension, plain form, Typst form, words, unit shown.

#![allow(non_upper_case_globals)]

use crate::codes::Lettered;
use crate::notation;
use crate::units::{
    Area, AreaLoad, AreaMass, Force, Frequency, HZ, Inertia, KG_PER_M2, KN, KN_M, KN_PER_M, KPA, Length, LineLoad, M as METRE, M_PER_NS2,
    MM, MM2, MM3, MM4, Mobility, Modulus, Moment, N_M2_PER_M, N_PER_MM2, NONE, Ratio, SECOND, Seconds, Stress, WidthRigidity,
};

notation! {
    // Section and geometry.
    b: Length = "b", "b", "b", &MM;
    h: Length = "h", "h", "h", &MM;
    b_1: Length = "b_1", "b_1", "b 1", &MM;
    h_cr: Length = "h_ef", "h_\"ef\"", "h ef", &MM;
    h_number: Ratio = "h/mm", "h slash \"mm\"", "h in millimetres", &NONE;
    A: Area = "A", "A", "A", &MM2;
    W_y: Modulus = "W_y", "W_y", "W y", &MM3;
    W_z: Modulus = "W_z", "W_z", "W z", &MM3;
    I_y: Inertia = "I_y", "I_y", "I y", &MM4;
    I_z: Inertia = "I_z", "I_z", "I z", &MM4;
    I_tor: Inertia = "I_tor", "I_\"tor\"", "I tor", &MM4;
    b_ef: Length = "b_ef", "b_\"ef\"", "b ef", &MM;
    l: Length = "l", "ell", "l", &METRE;
    l_braced: Length = "l_0", "ell_0", "l nought", &MM;
    l_ef: Length = "l_ef", "ell_\"ef\"", "l ef", &MM;
    l_b: Length = "l_b", "ell_b", "l b", &MM;
    l_1in: Length = "l_1,in", "ell_(1,\"in\")", "l 1 in", &MM;
    l_1out: Length = "l_1,out", "ell_(1,\"out\")", "l 1 out", &MM;
    h_ef: Length = "h_ef", "h_\"ef\"", "h ef", &MM;
    x: Length = "x", "x", "x", &MM;
    a: Length = "a", "a", "a", &MM;
    l_in: Length = "l_in", "ell_\"in\"", "l in", &MM;
    l_out: Length = "l_out", "ell_\"out\"", "l out", &MM;
    pi: Ratio = "pi", "pi", "pi", &NONE;
    sin_alpha: Ratio = "sin alpha", "sin alpha", "sine alpha", &NONE;
    cos_alpha: Ratio = "cos alpha", "cos alpha", "cosine alpha", &NONE;

    // Loads and statics.
    q_d: LineLoad = "q_d", "q_d", "q d", &KN_PER_M;
    F_d: Force = "F_d", "F_d", "F d", &KN;
    M_yd: Moment = "M_y,d", "M_(y,d)", "M y d", &KN_M;
    M_zd: Moment = "M_z,d", "M_(z,d)", "M z d", &KN_M;
    V_zd: Force = "V_z,d", "V_(z,d)", "V z d", &KN;
    V_d: Force = "V_d", "V_d", "V d", &KN;
    F_c90d: Force = "F_c,90,d", "F_(c,90,d)", "F c 90 d", &KN;
    F_cad: Force = "F_c,alpha,d", "F_(c,alpha,d)", "F c alpha d", &KN;
    g_k: LineLoad = "g_k", "g_k", "g k", &KN_PER_M;
    q_k: LineLoad = "q_k", "q_k", "q k", &KN_PER_M;
    q_Hk: LineLoad = "q_H,k", "q_(H,k)", "q H k", &KN_PER_M;
    s_k: LineLoad = "s_k", "s_k", "s k", &KN_PER_M;
    w_k: LineLoad = "w_k", "w_k", "w k", &KN_PER_M;
    G_k: Force = "G_k", "G_k", "G k", &KN;
    Q_k: Force = "Q_k", "Q_k", "Q k", &KN;
    Q_Hk: Force = "Q_H,k", "Q_(H,k)", "Q H k", &KN;
    S_k: Force = "S_k", "S_k", "S k", &KN;
    W_k: Force = "W_k", "W_k", "W k", &KN;

    // Characteristic values.
    f_mk: Stress = "f_m,k", "f_(m,k)", "f m k", &N_PER_MM2;
    f_vk: Stress = "f_v,k", "f_(v,k)", "f v k", &N_PER_MM2;
    f_c0k: Stress = "f_c,0,k", "f_(c,0,k)", "f c 0 k", &N_PER_MM2;
    f_c90k: Stress = "f_c,90,k", "f_(c,90,k)", "f c 90 k", &N_PER_MM2;
    E_mean: Stress = "E_0,mean", "E_(0,\"mean\")", "E 0 mean", &N_PER_MM2;
    E_05: Stress = "E_0,05", "E_(0,05)", "E 0 05", &N_PER_MM2;
    G_mean: Stress = "G_mean", "G_\"mean\"", "G mean", &N_PER_MM2;
    G_05: Stress = "G_0,05", "G_(0,05)", "G 0 05", &N_PER_MM2;

    // Design values and stresses.
    sigma_md: Stress = "sigma_m,d", "sigma_(m,d)", "sigma m d", &N_PER_MM2;
    sigma_myd: Stress = "sigma_m,y,d", "sigma_(m,y,d)", "sigma m y d", &N_PER_MM2;
    sigma_mzd: Stress = "sigma_m,z,d", "sigma_(m,z,d)", "sigma m z d", &N_PER_MM2;
    sigma_mcrit: Stress = "sigma_m,crit", "sigma_(m,\"crit\")", "sigma m crit", &N_PER_MM2;
    sigma_c90d: Stress = "sigma_c,90,d", "sigma_(c,90,d)", "sigma c 90 d", &N_PER_MM2;
    sigma_cad: Stress = "sigma_c,alpha,d", "sigma_(c,alpha,d)", "sigma c alpha d", &N_PER_MM2;
    tau_zd: Stress = "tau_z,d", "tau_(z,d)", "tau z d", &N_PER_MM2;
    tau_d: Stress = "tau_d", "tau_d", "tau d", &N_PER_MM2;
    f_md: Stress = "f_m,d", "f_(m,d)", "f m d", &N_PER_MM2;
    f_myd: Stress = "f_m,y,d", "f_(m,y,d)", "f m y d", &N_PER_MM2;
    f_mzd: Stress = "f_m,z,d", "f_(m,z,d)", "f m z d", &N_PER_MM2;
    f_md_crit: Stress = "k_crit f_m,d", "k_\"crit\" f_(m,d)", "k crit f m d", &N_PER_MM2;
    f_vd: Stress = "f_v,d", "f_(v,d)", "f v d", &N_PER_MM2;
    f_vd_notch: Stress = "k_v f_v,d", "k_v f_(v,d)", "k v f v d", &N_PER_MM2;
    f_c0d: Stress = "f_c,0,d", "f_(c,0,d)", "f c 0 d", &N_PER_MM2;
    f_c90d: Stress = "f_c,90,d", "f_(c,90,d)", "f c 90 d", &N_PER_MM2;
    f_c90d_held: Stress = "k_c,90 f_c,90,d", "k_(c,90) f_(c,90,d)", "k c 90 f c 90 d", &N_PER_MM2;
    f_cad: Stress = "f_c,alpha,d", "f_(c,alpha,d)", "f c alpha d", &N_PER_MM2;

    // Factors.
    gamma_M: Ratio = "gamma_M", "gamma_M", "gamma M", &NONE;
    k_mod: Ratio = "k_mod", "k_\"mod\"", "k mod", &NONE;
    k_def: Ratio = "k_def", "k_\"def\"", "k def", &NONE;
    k_h: Ratio = "k_h", "k_h", "k h", &NONE;
    k_hy: Ratio = "k_h,y", "k_(h,y)", "k h y", &NONE;
    k_hz: Ratio = "k_h,z", "k_(h,z)", "k h z", &NONE;
    k_m: Ratio = "k_m", "k_m", "k m", &NONE;
    k_sys: Ratio = "k_sys", "k_\"sys\"", "k sys", &NONE;
    k_crit: Ratio = "k_crit", "k_\"crit\"", "k crit", &NONE;
    k_cr: Ratio = "k_cr", "k_\"cr\"", "k cr", &NONE;
    k_c90: Ratio = "k_c,90", "k_(c,90)", "k c 90", &NONE;
    k_n: Ratio = "k_n", "k_n", "k n", &NONE;
    k_v: Ratio = "k_v", "k_v", "k v", &NONE;
    k_notch: Ratio = "k_0", "k_0", "k nought", &NONE;
    alpha: Ratio = "alpha", "alpha", "alpha", &NONE;
    lambda_relm: Ratio = "lambda_rel,m", "lambda_(\"rel\",m)", "lambda rel m", &NONE;
    m_l: Ratio = "m_l", "m_ell", "m l", &NONE;

    // Deflection: by action what is there at once, and with creep.
    w_G: Length = "w_inst,G", "w_(\"inst\",G)", "w inst G", &MM;
    w_Q: Length = "w_inst,Q", "w_(\"inst\",Q)", "w inst Q", &MM;
    w_H: Length = "w_inst,H", "w_(\"inst\",H)", "w inst H", &MM;
    w_S: Length = "w_inst,S", "w_(\"inst\",S)", "w inst S", &MM;
    w_W: Length = "w_inst,W", "w_(\"inst\",W)", "w inst W", &MM;
    w_fin_G: Length = "w_fin,G", "w_(\"fin\",G)", "w fin G", &MM;
    w_fin_Q: Length = "w_fin,Q", "w_(\"fin\",Q)", "w fin Q", &MM;
    w_fin_H: Length = "w_fin,H", "w_(\"fin\",H)", "w fin H", &MM;
    w_fin_S: Length = "w_fin,S", "w_(\"fin\",S)", "w fin S", &MM;
    w_fin_W: Length = "w_fin,W", "w_(\"fin\",W)", "w fin W", &MM;
    psi_0_Q: Ratio = "psi_0,Q", "psi_(0,Q)", "psi 0 Q", &NONE;
    psi_0_H: Ratio = "psi_0,H", "psi_(0,H)", "psi 0 H", &NONE;
    psi_0_S: Ratio = "psi_0,S", "psi_(0,S)", "psi 0 S", &NONE;
    psi_0_W: Ratio = "psi_0,W", "psi_(0,W)", "psi 0 W", &NONE;
    psi_2_Q: Ratio = "psi_2,Q", "psi_(2,Q)", "psi 2 Q", &NONE;
    psi_2_H: Ratio = "psi_2,H", "psi_(2,H)", "psi 2 H", &NONE;
    psi_2_S: Ratio = "psi_2,S", "psi_(2,S)", "psi 2 S", &NONE;
    psi_2_W: Ratio = "psi_2,W", "psi_(2,W)", "psi 2 W", &NONE;
    w_y: Length = "w_y", "w_y", "w y", &MM;
    w_z: Length = "w_z", "w_z", "w z", &MM;
    w_inst: Length = "w_inst", "w_\"inst\"", "w inst", &MM;
    w_fin: Length = "w_fin", "w_\"fin\"", "w fin", &MM;
    w_c: Length = "w_c", "w_c", "w c", &MM;
    w_net_fin: Length = "w_net,fin", "w_(\"net\",\"fin\")", "w net fin", &MM;
    w_given: Length = "w", "w", "w", &MM;
    w_most: Length = "w_max", "w_\"max\"", "w max", &MM;

    // Vibration.
    s: Length = "s", "s", "s", &MM;
    s_number: Ratio = "s_mm", "s_\"mm\"", "s in millimetres", &NONE;
    b_floor: Length = "b_fl", "b_\"fl\"", "b floor", &METRE;
    E_d: Stress = "E_d", "E_d", "E of the decking", &N_PER_MM2;
    t_d: Length = "t_d", "t_d", "t of the decking", &MM;
    EI_l: WidthRigidity = "(EI)_l", "(E I)_ell", "E I l", &N_M2_PER_M;
    EI_b: WidthRigidity = "(EI)_b", "(E I)_b", "E I b", &N_M2_PER_M;
    EI_b_number: Ratio = "(EI)_b,mm", "(E I)_(b,\"mm\")", "E I b in newton square millimetres per metre", &NONE;
    g_floor: AreaLoad = "g_fl", "g_\"fl\"", "g floor", &KPA;
    m_floor: AreaMass = "m", "m", "m", &KG_PER_M2;
    zeta: Seconds = "zeta", "zeta", "zeta", &SECOND;
    F_1: Force = "F", "F", "F", &KN;
    k_strut: Ratio = "k_strut", "k_\"strut\"", "k strut", &NONE;
    k_share: Ratio = "k_dist", "k_\"dist\"", "k dist", &NONE;
    k_dist: Ratio = "k_dist", "k_\"dist\"", "k dist", &NONE;
    k_amp: Ratio = "k_amp", "k_\"amp\"", "k amp", &NONE;
    l_eq: Length = "l_eq", "ell_\"eq\"", "l eq", &MM;
    w_F: Length = "w", "w", "w", &MM;
    a_F: Length = "a", "a", "a", &MM;
    f_1: Frequency = "f_1", "f_1", "f 1", &HZ;
    n_40: Ratio = "n_40", "n_40", "n 40", &NONE;
    v: Mobility = "v", "v", "v", &M_PER_NS2;
    b_v: Mobility = "b", "b", "b", &M_PER_NS2;
    v_most: Mobility = "v_max", "v_\"max\"", "v max", &M_PER_NS2;

    u_1: Ratio = "u_1", "u_1", "u 1", &NONE;
    u_2: Ratio = "u_2", "u_2", "u 2", &NONE;
    u: Ratio = "u", "u", "u", &NONE;
    u_most: Ratio = "u_max", "u_\"max\"", "u max", &NONE;
    ratio: Ratio = "ratio", "\"ratio\"", "ratio", &NONE;
}

/// Letters that the sheets use without a word beside them.
pub(super) static LETTERS: &[Lettered] = &[
    Lettered { plain: "b, h", typst: "b, h", meaning: "breadth and depth of a section" },
    Lettered { plain: "A, W, I", typst: "A, W, I", meaning: "area, section modulus, second moment of area" },
    Lettered { plain: "l b", typst: "ell_b", meaning: "length of bearing" },
    Lettered { plain: "l nought, l ef", typst: "ell_0, ell_\"ef\"", meaning: "length between lateral supports, and the effective length" },
    Lettered { plain: "q, M, V", typst: "q, M, V", meaning: "line load, moment, shear" },
    Lettered { plain: "sigma, tau; f", typst: "sigma, tau\\; f", meaning: "stresses; strength" },
    Lettered { plain: "E, G, w", typst: "E, G, w", meaning: "moduli of elasticity and shear, deflection" },
    Lettered { plain: "foot k, foot d", typst: "\"..\"_k, \"..\"_d", meaning: "characteristic, design value" },
    Lettered { plain: "m l, k nought", typst: "m_ell, k_0", meaning: "shorthand of ours, set out where used" },
];
