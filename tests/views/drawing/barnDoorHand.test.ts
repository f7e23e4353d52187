import { describe, expect, it } from 'vitest';
import { FIXTURE_PRESETS, fixtureFromPreset } from '../../../src/fixtures/catalog.ts';
import type { Fixture } from '../../../src/fixtures/records.ts';
import { buildSet } from '../../../src/scene/buildSet.ts';
import { leafGrips, leafOpeningAt } from '../../../src/views/drawing/barnDoorHand.ts';
import { makeScene } from './makeScene.ts';

const preset = FIXTURE_PRESETS.find(({ id }) => id === 'spot-150w');
if (!preset) throw new Error('there is a spot on the shelf');

/** A spot that looks along +x, so that front and plan show its leaves from the side. */
function spot(topDeg: number): { fixture: Fixture; surfaces: ReturnType<typeof buildSet>['surfaces'] } {
  const made = fixtureFromPreset(preset as NonNullable<typeof preset>, {
    id: 'fixture:spot',
    name: 'Spot',
    positionM: [-1, 0.5, 0],
    aimM: [0, 0.5, 0],
  });
  if (made.kind !== 'spot' || !made.barnDoors) throw new Error('the spot has barn doors');
  const fixture = { ...made, barnDoors: { ...made.barnDoors, topDeg } };
  return { fixture, surfaces: buildSet({ ...makeScene(), fixtures: [fixture] }).surfaces };
}

describe('barn doors by hand', () => {
  it('are held at the free edge: straight ahead, 0.12 m before the hinge', () => {
    const { fixture, surfaces } = spot(90);
    const top = leafGrips(fixture, surfaces, 'front').find(({ leaf }) => leaf === 'topDeg');
    if (!top) throw new Error('the top leaf shows on the front sheet');
    expect(top.tip[0] - top.hinge[0]).toBeCloseTo(0.12, 4);
    expect(top.tip[1]).toBeCloseTo(top.hinge[1], 4);
  });

  it('shows top and bottom leaf on the front sheet and the side leaves on the plan', () => {
    const { fixture, surfaces } = spot(90);
    const leaves = (projection: 'front' | 'plan') => leafGrips(fixture, surfaces, projection).map(({ leaf }) => leaf);
    expect(leaves('front')).toEqual(expect.arrayContaining(['topDeg', 'bottomDeg']));
    expect(leaves('plan')).toEqual(expect.arrayContaining(['leftDeg', 'rightDeg']));
  });

  it.each([20, 90, 127.5])('swing to where the pointer holds the free edge: %s degrees', (wantedDeg) => {
    const there = spot(wantedDeg);
    const tip = leafGrips(there.fixture, there.surfaces, 'front').find(({ leaf }) => leaf === 'topDeg')?.tip;
    if (!tip) throw new Error('the top leaf shows');
    const { fixture, surfaces } = spot(60);
    expect(leafOpeningAt(fixture, surfaces, 'front', 'topDeg', tip)).toBeCloseTo(wantedDeg, 6);
  });
});
