/**
 * Hair gaps that keep two surfaces from lying in one plane, where a tracer could not say which comes first. They are
 * what real things do: a glass stands on the rim of its foot, board lies on the high points of the table. In order of
 * height, so that paper may lie on a table, a board on paper and a glass on any of them.
 */
export const PAPER_LIFT_M = 0.00005;
export const BOARD_LIFT_M = 0.0001;
export const GLASS_LIFT_M = 0.0002;

/** Ice keeps this far from the glass and from other ice. */
export const ICE_CLEARANCE_M = 0.0003;
