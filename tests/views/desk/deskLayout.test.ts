import { describe, expect, it } from 'vitest';
import { fixtureSchema } from '../../../src/fixtures/records.ts';
import { layDesk } from '../../../src/views/desk/deskLayout.ts';

const lights = ['key', 'fill', 'rim', 'paper'].map((id) =>
  fixtureSchema.parse({
    kind: 'bulb',
    id,
    name: id,
    positionM: [0, 1, 0],
    aimM: [0, 0, 0],
    output: { unit: 'lumens', value: 100 },
  }),
);
const laid = (groups: { id: string; name: string; fixtureIds: string[] }[]) =>
  layDesk(lights, groups).map(({ group, fixtures }) => [group?.id ?? null, fixtures.map(({ id }) => id).join(' ')]);

describe('the desk', () => {
  it('lays two lights of a group together where the first of them stands', () => {
    expect(laid([{ id: 'g', name: 'G', fixtureIds: ['paper', 'fill'] }])).toEqual([
      [null, 'key'],
      ['g', 'fill paper'],
      [null, 'rim'],
    ]);
  });

  it('passes over a group whose lights are all gone or hidden', () => {
    expect(laid([{ id: 'g', name: 'G', fixtureIds: ['sold'] }]).map(([group]) => group)).toEqual([
      null,
      null,
      null,
      null,
    ]);
  });
});
