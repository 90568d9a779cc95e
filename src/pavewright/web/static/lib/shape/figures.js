// @ts-check
// made by tools/make_vectors.py from the rulebook; do not edit
/** Figures of the survey: how far readings may disagree, and how far each is trusted. */
/** @typedef {typeof FIGURES} Figures */
export const FIGURES = {
  tape_sd_fixed_mm: 2,
  tape_sd_growing_mm_per_m: 0.2,
  square_corner_sd_mm_per_m: 4,
  on_line_sd_mm: 5,
  weak_point_mm: 10,
  confidence_percent: 95,
  greatest_standardised_residual: 3.29,
  min_redundancy: 0.05,
  sketch_direction_mm_per_m: 100,
  sketch_length_mm_per_m: 500,
  sketch_finger_mm: 100,
  sketch_scale_share: 0.15,
  look_again_sds: 3,
  staff_length_mm: 5000,
};
