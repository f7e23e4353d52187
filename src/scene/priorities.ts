/**
 * Which medium fills the room where two overlap: the higher wins, and boundaries of the lower inside it do nothing.
 * Lowest first. A drop stops at the glass it sits on, a drink at ice, a hollow cut into glass is air for all but ice.
 */
export const DROPLET_PRIORITY = 5;
export const DRINK_PRIORITY = 10;
export const BUBBLE_PRIORITY = 15;
/** Handle and raised bars: the same medium as the glass, so that it does not matter which of them wins. */
export const GLASS_ADDITION_PRIORITY = 19;
export const SOLID_PRIORITY = 20;
/** Glass straws, stirrers and stoppers. */
export const CLEAR_EXTRA_PRIORITY = 24;
export const CUT_PRIORITY = 26;
export const ICE_PRIORITY = 30;
export const ICE_CORE_PRIORITY = 31;
