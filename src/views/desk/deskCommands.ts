import type { DocumentChange } from '../../document/changes.ts';
import type { DeskGroup, FixtureState, Look } from '../../document/frameRecords.ts';
import { blendLooks, lookOf, statesOfLook } from '../../document/looks.ts';
import type { Frame } from '../../document/setup.ts';
import { documentStore, getFrame, getFrameScene, updateRecord } from '../session/index.ts';

export type LookSlot = 'lookA' | 'lookB';

/** Sets lights to states. Only what differs is written. */
const stateChanges = (states: readonly FixtureState[]): readonly DocumentChange[] => {
  const fixtures = new Map(getFrameScene().fixtures.map((fixture) => [fixture.id, fixture]));
  return states.flatMap(({ fixtureId, on, dimStops, cctK, duv }): DocumentChange[] => {
    const now = fixtures.get(fixtureId);
    if (!now) return [];
    const wanted = { on, dimStops, cctK, duv };
    const patch = Object.fromEntries(
      Object.entries(wanted).filter(([key, value]) => now[key as keyof typeof wanted] !== value),
    );
    return Object.keys(patch).length > 0 ? [updateRecord('fixtures', fixtureId, patch)] : [];
  });
};

const deskChange = (frame: Frame, patch: Readonly<Record<string, unknown>> | null): DocumentChange => ({
  op: 'updateFrame',
  id: frame.id,
  patch: { desk: patch },
});

const LOOK_SHARE: Readonly<Record<LookSlot, number>> = { lookA: 0, lookB: 1 };
const LOOK_NAMES: Readonly<Record<LookSlot, string>> = { lookA: 'Look A', lookB: 'Look B' };

/** Keeps the lights as they stand, in one of the two places. */
export function keepLook(slot: LookSlot): void {
  const look: Look = lookOf(LOOK_NAMES[slot], getFrameScene().fixtures);
  documentStore.apply(`Keep ${LOOK_NAMES[slot].toLowerCase()}`, [
    deskChange(getFrame(), { [slot]: look, blendShare: LOOK_SHARE[slot] }),
  ]);
}

/** Sets the lights as they stood. */
export function goToLook(slot: LookSlot): void {
  const frame = getFrame();
  const look = frame.desk?.[slot];
  if (!look) return;
  documentStore.apply(look.name, [
    ...stateChanges(statesOfLook(look, getFrameScene().fixtures)),
    deskChange(frame, { blendShare: LOOK_SHARE[slot] }),
  ]);
}

export function forgetLooks(): void {
  const frame = getFrame();
  const groups = frame.desk?.groups ?? [];
  documentStore.apply('Forget the looks', [
    deskChange(frame, groups.length > 0 ? { lookA: null, lookB: null, blendShare: null } : null),
  ]);
}

/** The changes that set the lights between the two looks; none while one of them is missing. */
export function blendChanges(share: number): readonly DocumentChange[] {
  const frame = getFrame();
  const { lookA, lookB } = frame.desk ?? {};
  if (!lookA || !lookB) return [];
  return [
    ...stateChanges(blendLooks(lookA, lookB, share, getFrameScene().fixtures)),
    deskChange(frame, { blendShare: share }),
  ];
}

/** Groups are the same in every frame: people group lights by what they do on the set. */
export function setGroups(label: string, groups: readonly DeskGroup[]): void {
  const { frames } = documentStore.getState().setup;
  documentStore.apply(
    label,
    frames.map((frame) => {
      const empty = groups.length === 0 && !frame.desk?.lookA && !frame.desk?.lookB;
      return deskChange(frame, empty ? null : { groups });
    }),
  );
}

/** Puts lights in a group of their own, out of any other. */
export function makeGroup(fixtureIds: readonly string[]): void {
  const before = getFrame().desk?.groups ?? [];
  const taken = new Set(before.map(({ id }) => id));
  let number = 1;
  while (taken.has(`group:${number}`)) number += 1;
  setGroups('Group lights', [
    ...before.flatMap((group) => {
      const kept = group.fixtureIds.filter((id) => !fixtureIds.includes(id));
      return kept.length > 0 ? [{ ...group, fixtureIds: kept }] : [];
    }),
    { id: `group:${number}`, name: `Group ${number}`, fixtureIds: [...fixtureIds] },
  ]);
}

export function renameGroup(groupId: string, name: string): void {
  const groups = getFrame().desk?.groups ?? [];
  setGroups(
    'Name of a group',
    groups.map((group) => (group.id === groupId ? { ...group, name } : group)),
  );
}

export function takeGroupApart(groupId: string): void {
  setGroups(
    'Take a group apart',
    (getFrame().desk?.groups ?? []).filter(({ id }) => id !== groupId),
  );
}
