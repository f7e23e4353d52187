import type { Fixture } from '../../../fixtures/records.ts';

/** The fixture whose light is shown: the wanted one while it is there, else the first that burns, else the first. */
export const spillFixture = (fixtures: readonly Fixture[], wantedId: string | null): Fixture | undefined =>
  fixtures.find(({ id }) => id === wantedId) ?? fixtures.find(({ on }) => on) ?? fixtures[0];
