/** What a surface of a glass record belongs to, told from its role. */
export type GlassGroup = 'vessel' | 'drink' | 'ice' | 'dressing' | 'detail';

/** Bubbles, drops, cuts and crystals: many small things that drawings leave out and quick views may. */
const DETAIL = /^(bubble|drop|cut|crystal)/;
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
  if (VESSEL.has(role)) return 'vessel';
  if (DRINK.test(role)) return 'drink';
  if (ICE.test(role)) return 'ice';
  return DETAIL.test(role) ? 'detail' : 'dressing';
}

/** True for the many small surfaces (bubbles, drops, crystals, cuts) that an outline does not need. */
export const isFineDetail = (role: string): boolean => DETAIL.test(role);
