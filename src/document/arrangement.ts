import { fail, ok, type Result } from '../core/result.ts';
import { makeIssue, type SetupIssue, showValue } from './issues.ts';
import { parseData } from './parseData.ts';
import { freezeDeep } from './plainData.ts';
import { RECORD_LIST_NAMES, type RecordBase } from './records.ts';
import { type Arrangement, arrangementSchema, type Group, type Setup } from './setup.ts';

/** How things on the set are held together (groups) and held still (locks). */
type Edited = Result<Setup, readonly SetupIssue[]>;

const EMPTY: Arrangement = { groups: [], locked: [] };

/** The group that a record is in; undefined when it is in none. */
export const groupOf = (setup: Setup, recordId: string): Group | undefined =>
  setup.arrangement?.groups.find(({ ids }) => ids.includes(recordId));

/** May no hand move this record? The id of a frame asks for its camera. */
export const isLocked = (setup: Setup, id: string): boolean => setup.arrangement?.locked.includes(id) ?? false;

/** The lowest numbered id, `group:1`, `group:2`, ..., that no group has. */
export function newGroupId(setup: Setup): string {
  const taken = new Set(setup.arrangement?.groups.map(({ id }) => id));
  let number = 1;
  while (taken.has(`group:${number}`)) number += 1;
  return `group:${number}`;
}

export function withLocked(setup: Setup, ids: readonly string[], locked: boolean): Edited {
  const before = setup.arrangement ?? EMPTY;
  const others = before.locked.filter((id) => !ids.includes(id));
  const after = locked ? [...before.locked, ...ids.filter((id) => !before.locked.includes(id))] : others;
  return after.length === before.locked.length ? ok(setup) : withArrangement(setup, { ...before, locked: after });
}

export function withGroup(setup: Setup, group: Group): Edited {
  const before = setup.arrangement ?? EMPTY;
  const others = takeOut(
    before.groups.filter(({ id }) => id !== group.id),
    group.ids,
  );
  return withArrangement(setup, { ...before, groups: [...others, { ...group, ids: [...new Set(group.ids)] }] });
}

export function withoutGroup(setup: Setup, groupId: string): Edited {
  const before = setup.arrangement ?? EMPTY;
  const groups = before.groups.filter(({ id }) => id !== groupId);
  if (groups.length === before.groups.length) {
    return fail([{ path: 'arrangement', message: `There is no group ${showValue(groupId)} to take apart.` }]);
  }
  return withArrangement(setup, { ...before, groups });
}

/** Drops what the arrangement says of a record or frame that is gone. The same setup when it says nothing of it. */
export function forgetInArrangement(setup: Setup, id: string): Setup {
  const { arrangement } = setup;
  if (!arrangement) return setup;
  if (!arrangement.locked.includes(id) && !arrangement.groups.some(({ ids }) => ids.includes(id))) return setup;
  const left = {
    groups: takeOut(arrangement.groups, [id]),
    locked: arrangement.locked.filter((other) => other !== id),
  };
  return putIn(setup, left);
}

/** References to what is not there, and records in two groups. */
export function findArrangementIssues(setup: Setup): SetupIssue[] {
  const { arrangement } = setup;
  if (!arrangement) return [];
  const records = new Set(RECORD_LIST_NAMES.flatMap((list) => setup[list].map((record: RecordBase) => record.id)));
  const frames = new Set(setup.frames.map(({ id }) => id));
  const seen = new Set<string>();
  const groupIds = new Set<string>();
  const ofGroups = arrangement.groups.flatMap((group, i) => {
    const path = ['arrangement', 'groups', i];
    const twice = groupIds.has(group.id) ? [makeIssue([...path, 'id'], 'is taken; give it another', group)] : [];
    groupIds.add(group.id);
    const faults = group.ids.flatMap((id, k) => {
      const known = records.has(id);
      const again = seen.has(id);
      seen.add(id);
      if (!known) return [makeIssue([...path, 'ids', k], `names ${showValue(id)}, which is not there; leave it out`)];
      return again ? [makeIssue([...path, 'ids', k], `names ${showValue(id)}, which is in a group already`)] : [];
    });
    return [...twice, ...faults];
  });
  const ofLocks = arrangement.locked.flatMap((id, i) =>
    records.has(id) || frames.has(id)
      ? []
      : [makeIssue(['arrangement', 'locked', i], `names ${showValue(id)}, which is not there; leave it out`)],
  );
  return [...ofGroups, ...ofLocks];
}

/** Groups without these records; a group of one is none. */
function takeOut(groups: readonly Group[], ids: readonly string[]): Group[] {
  return groups.flatMap((group) => {
    const kept = group.ids.filter((id) => !ids.includes(id));
    if (kept.length === group.ids.length) return [group];
    return kept.length >= 2 ? [{ ...group, ids: kept }] : [];
  });
}

function withArrangement(setup: Setup, arrangement: Arrangement): Edited {
  const parsed = parseData(arrangementSchema, arrangement, ['arrangement'], { previous: setup.arrangement });
  return parsed.ok ? ok(putIn(setup, parsed.value)) : parsed;
}

/** With nothing in it the field goes, so that taking a group apart gives the very setup of before. */
function putIn(setup: Setup, arrangement: Arrangement): Setup {
  const { arrangement: _before, ...rest } = setup;
  const empty = arrangement.groups.length === 0 && arrangement.locked.length === 0;
  return empty ? rest : { ...rest, arrangement: freezeDeep(arrangement) };
}
