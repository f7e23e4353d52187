/** What a surface of a glass record belongs to, told from its role. */
export type GlassGroup = 'vessel' | 'drink' | 'ice' | 'dressing' | 'detail';

/** Bubbles, drops, cuts, crystals and the cloud in ice: small things that drawings leave out and quick views may. */
const DETAIL = /^(bubble|drop|cut|crystal|ice \d+ (haze|core))$/;
const DRINK = /^(meniscus|liquid|foam)/;
const ICE = /^ice /;
const VESSEL: ReadonlySet<string> = new Set([
  'underside',
  'foot edge',
  'foot',
  'stem',
  'outer wall',
  'rim',
  'inner wall',
  'inner floor',
]);

/** The group of a role of a glass. Handle, label, stopper, crust and garnish are dressing. */
export function glassGroupOfRole(role: string): GlassGroup {
  if (DETAIL.test(role)) return 'detail';
  if (VESSEL.has(role)) return 'vessel';
  if (DRINK.test(role)) return 'drink';
  return ICE.test(role) ? 'ice' : 'dressing';
}

/** True for the many small surfaces (bubbles, drops, crystals, cuts, cloud) that an outline does not need. */
export const isFineDetail = (role: string): boolean => DETAIL.test(role);
