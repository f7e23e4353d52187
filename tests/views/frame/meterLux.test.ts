import { describe, expect, it } from 'vitest';
import { projectPoint } from '../../../src/camera/projection.ts';
import { emptySetup } from '../../../src/document/defaults.ts';
import { traceKey } from '../../../src/document/hash.ts';
import { fixtureSchema } from '../../../src/fixtures/records.ts';
import { compileWorld } from '../../../src/transport/compile/compileWorld.ts';
import { directLuxAt } from '../../../src/views/frame/meterLux.ts';
import {
  documentStore,
  getCameraView,
  getFrameScene,
  getSetModel,
  sessionStore,
  worldStore,
} from '../../../src/views/session/index.ts';

/** An isotropic bulb of 1000 lm, 1 m over the table and 0.3 m beside the hero, in front of it. */
function openBulb(patch: Record<string, unknown> = {}): void {
  const bulb = fixtureSchema.parse({
    kind: 'bulb',
    id: 'fixture:bulb',
    name: 'Bulb',
    positionM: [0.2, 1, 0.1],
    aimM: [0.2, 0, 0.1],
    output: { unit: 'lumens', value: 1000 },
    diameterM: 0.02,
    ...patch,
  });
  documentStore.load({ ...emptySetup(), fixtures: [bulb] });
  worldStore.setState({ world: compileWorld(getSetModel()), key: traceKey(getFrameScene()) });
}

const luxAt = (pointM: readonly [number, number, number]): number | null => {
  const place = projectPoint(getCameraView(), pointM);
  if (!place) throw new Error('the point is before the lens');
  return directLuxAt(place.u, place.v);
};

describe('the lux under the pointer', () => {
  // Inverse square and cosine laws: E = (1000 / 4 pi) cos^3 / h^2.
  it('is 79.6 lx 1 m under a bulb of 1000 lm, and follows the cosine law 0.2 m aside, within 1 %', () => {
    openBulb();
    const under = 1000 / (4 * Math.PI);
    const lux = luxAt([0.2, 0, 0.1]) ?? 0;
    expect(Math.abs(lux / under - 1)).toBeLessThan(0.01);
    const cos = 1 / Math.hypot(1, 0.2);
    const aside = luxAt([0.2, 0, -0.1]) ?? 0;
    expect(Math.abs(aside / (under * cos ** 3) - 1)).toBeLessThan(0.01);
  });

  it('goes with dimmer and solo: half at one stop under, 0 while another light is soloed', () => {
    openBulb({ dimStops: -1 });
    expect(Math.abs((luxAt([0.2, 0, 0.1]) ?? 0) / (500 / (4 * Math.PI)) - 1)).toBeLessThan(0.01);
    documentStore.apply('Another', [
      {
        op: 'add',
        collection: 'fixtures',
        record: { ...getFrameScene().fixtures[0], id: 'fixture:off', name: 'Off', on: false, positionM: [0, 1, -0.5] },
      },
    ]);
    worldStore.setState({ world: compileWorld(getSetModel()), key: traceKey(getFrameScene()) });
    sessionStore.setState({ soloFixtureIds: ['fixture:off'] });
    expect(luxAt([0.2, 0, 0.1])).toBe(0);
    sessionStore.setState({ soloFixtureIds: [] });
  });

  it('has no figure while the compiled set is not the one on screen, nor where nothing stands', () => {
    openBulb();
    expect(directLuxAt(0.5, -3)).toBeNull();
    worldStore.setState({ key: 'another set' });
    expect(luxAt([0.2, 0, 0.1])).toBeNull();
  });
});
