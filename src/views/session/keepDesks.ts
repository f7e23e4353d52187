import type { DocumentChange } from '../../document/changes.ts';
import type { Frame, Setup } from '../../document/setup.ts';

/** What a desk sets of a light. */
export const DESK_KEYS = ['on', 'dimStops', 'cctK', 'duv'] as const;
const isDeskKey = (key: string): boolean => DESK_KEYS.some((known) => known === key);

/**
 * Keeps desks apart. In a frame with a desk of its own, switch, dimmer and colour are set for that frame alone; in a frame
 * that shares the common desk they are set for all that share it, and those with their own desk keep what they had.
 */
export function keepDesks(
  setup: Setup,
  frame: Frame | undefined,
  changes: readonly DocumentChange[],
): readonly DocumentChange[] {
  if (!frame || !setup.frames.some(({ ownDesk }) => ownDesk)) return changes;
  return changes.flatMap((change): DocumentChange[] => {
    if (change.op !== 'update' || change.collection !== 'fixtures') return [change];
    const entries = Object.entries(change.patch);
    const ofDesk = Object.fromEntries(entries.filter(([key]) => isDeskKey(key)));
    const rest = Object.fromEntries(entries.filter(([key]) => !isDeskKey(key)));
    if (Object.keys(ofDesk).length === 0) return [change];
    if (frame.ownDesk) {
      return [
        ...(Object.keys(rest).length > 0 ? [{ ...change, patch: rest }] : []),
        { op: 'override', frameId: frame.id, collection: 'fixtures', id: change.id, patch: ofDesk },
      ];
    }
    return [change, ...holdOthers(setup, frame, change.id, Object.keys(ofDesk))];
  });
}

/** After the shared desk has changed: what the other frames' own desks had of this light. */
function holdOthers(setup: Setup, frame: Frame, fixtureId: string, keys: readonly string[]): DocumentChange[] {
  const fixture = setup.fixtures.find(({ id }) => id === fixtureId);
  if (!fixture) return [];
  // An override in this frame takes the change; the shared record stays as it is.
  const here = frame.overrides.find(({ id }) => id === fixtureId)?.patch ?? {};
  return setup.frames.flatMap((other): DocumentChange[] => {
    if (!other.ownDesk || other.id === frame.id) return [];
    const own = other.overrides.find(({ id }) => id === fixtureId)?.patch ?? {};
    const held = keys.filter((key) => !Object.hasOwn(own, key) && !Object.hasOwn(here, key));
    if (held.length === 0) return [];
    const patch = Object.fromEntries(Object.entries(fixture).filter(([key]) => held.includes(key)));
    return [{ op: 'override', frameId: other.id, collection: 'fixtures', id: fixtureId, patch }];
  });
}

/** Gives up a frame's own desk: its lights stand as on the shared one again. */
export function shareDeskChanges(setup: Setup, frame: Frame): DocumentChange[] {
  const back = setup.fixtures.flatMap((fixture): DocumentChange[] => {
    const own = frame.overrides.find(({ id }) => id === fixture.id);
    if (!own || !Object.keys(own.patch).some(isDeskKey)) return [];
    const patch = Object.fromEntries(Object.entries(fixture).filter(([key]) => isDeskKey(key)));
    return [{ op: 'override', frameId: frame.id, collection: 'fixtures', id: fixture.id, patch }];
  });
  return [...back, { op: 'updateFrame', id: frame.id, patch: { ownDesk: null } }];
}
