import type { Fixture } from '../../fixtures/records.ts';

/** Ends of a dimmer, stops; those of the records. */
const LOWEST_STOPS = -12;
const FULL_STOPS = 0;

/** Where a group stands: at its brightest dimmer. Null for a group of nothing. */
export const groupDimStops = (members: readonly Pick<Fixture, 'dimStops'>[]): number | null =>
  members.length === 0 ? null : Math.max(...members.map(({ dimStops }) => dimStops));

/**
 * Dimmers of a group that is moved so that its brightest stands at `toStops`. All go by the same stops, so their ratios
 * stay; the group stops where the first of them meets an end.
 */
export function movedGroup<F extends Pick<Fixture, 'dimStops'>>(
  members: readonly F[],
  toStops: number,
): readonly { readonly member: F; readonly dimStops: number }[] {
  const brightest = groupDimStops(members);
  if (brightest === null) return [];
  const dimmest = Math.min(...members.map(({ dimStops }) => dimStops));
  const by = Math.min(FULL_STOPS - brightest, Math.max(LOWEST_STOPS - dimmest, toStops - brightest));
  return members.map((member) => ({ member, dimStops: Math.round((member.dimStops + by) * 1e4) / 1e4 + 0 }));
}
