import type { DeskGroup } from '../../document/frameRecords.ts';
import type { Fixture } from '../../fixtures/records.ts';

export interface DeskPlace {
  /** Null for a light in no group. */
  readonly group: DeskGroup | null;
  readonly fixtures: readonly Fixture[];
}

/** Lights in their order; those of a group stand together where the first of them stands. Groups of no light that is there go. */
export function layDesk(fixtures: readonly Fixture[], groups: readonly DeskGroup[]): readonly DeskPlace[] {
  const groupOf = (id: string): DeskGroup | undefined => groups.find(({ fixtureIds }) => fixtureIds.includes(id));
  return fixtures.flatMap((fixture): DeskPlace[] => {
    const group = groupOf(fixture.id);
    if (!group) return [{ group: null, fixtures: [fixture] }];
    const members = fixtures.filter(({ id }) => groupOf(id) === group);
    return members[0] === fixture ? [{ group, fixtures: members }] : [];
  });
}
