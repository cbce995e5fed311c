//! The solver where its input is odd, and with shear. Closed forms of beam theory are compared with it in `study::prove::beams`.

mod edges;
mod shear;
