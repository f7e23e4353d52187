import { beforeAll, describe, expect, it } from 'vitest';
import { createCheckInput } from '../../../src/analysis/checkInput.ts';
import { createRandom } from '../../../src/core/rng.ts';
import { type MeterMatch, matchMeter } from '../../../src/deliverables/meterMatch/matchMeter.ts';
import type { OnSetReading } from '../../../src/deliverables/meterMatch/meterReading.ts';
import { type PredictedReading, predictReadings } from '../../../src/deliverables/sheets/predictedReadings.ts';
import { applyChanges } from '../../../src/document/changes.ts';
import { findFrame, resolveFrame } from '../../../src/document/resolveFrame.ts';
import { openFrame } from '../helpers/openFrames.ts';
import { studioSetup } from '../helpers/studioSetup.ts';

const setup = studioSetup();
const frameSet = openFrame(setup);
const { fixtures } = frameSet.scene;
const REPEAT_STOPS = 0.1;
/** What the six lights truly give, in stops over the setup's figures. */
const TRUE_STOPS = [0.4, -0.7, 0.15, -0.3, 0.9, -1.2];

/** Box and Muller, Annals of Mathematical Statistics 29 (1958). */
function normalFrom(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

describe('matchMeter', () => {
  let predictions: PredictedReading[];
  beforeAll(() => {
    predictions = predictReadings(createCheckInput(frameSet.scene));
  });

  /** Each light alone with the flat cell level at the subject, and all together at six points: twelve readings. */
  function readings(seed: number, spoil: (lux: number, index: number) => number = (lux) => lux): OnSetReading[] {
    const normal = normalFrom(createRandom(seed));
    const truth = (pointId: string, lit: readonly string[]): number => {
      const prediction = predictions.find(({ point }) => point.id === pointId);
      return fixtures.reduce(
        (sum, { id }, i) => sum + (lit.includes(id) ? (prediction?.fixtureLux[i] ?? 0) * 2 ** TRUE_STOPS[i] : 0),
        0,
      );
    };
    const all = fixtures.map(({ id }) => id);
    const plan: [string, readonly string[]][] = [
      ...fixtures.map(({ id }): [string, readonly string[]] => ['subject-level', [id]]),
      ...['subject-dome', 'subject-flat', 'base-left', 'base-right', 'base-front', 'backdrop-middle-centre'].map(
        (point): [string, readonly string[]] => [point, all],
      ),
    ];
    return plan.map(([pointId, lit], index) => ({
      pointId,
      litFixtureIds: lit,
      display: { unit: 'lux' as const, value: spoil(truth(pointId, lit) * 2 ** (REPEAT_STOPS * normal()), index) },
      repeatStops: REPEAT_STOPS,
    }));
  }

  function match(list: readonly OnSetReading[]): MeterMatch {
    const matched = matchMeter({ fixtures, predictions, readings: list });
    if (!matched.ok) throw new Error(matched.error);
    return matched.value;
  }

  it('finds six outputs from twelve readings within the stated uncertainty in 95 of 100 runs or more', () => {
    let within = 0;
    let falseAlarms = 0;
    let chiSquares = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const { outputs, suspect, chiSquare } = match(readings(seed));
      const allWithin = outputs.every(
        ({ overStops, uncertaintyStops }, i) => Math.abs((overStops ?? 99) - TRUE_STOPS[i]) <= (uncertaintyStops ?? 0),
      );
      if (allWithin) within++;
      if (suspect) falseAlarms++;
      chiSquares += chiSquare / 100;
    }
    expect(within).toBeGreaterThanOrEqual(95);
    // One false alarm in 100 is what is promised; 5 or more would come by chance in 4 of 1000 (Poisson).
    expect(falseAlarms).toBeLessThanOrEqual(4);
    // Mean of chi square with 12 - 6 degrees of freedom is 6, standard error sqrt(2 x 6 / 100) = 0.35.
    expect(Math.abs(chiSquares - 6)).toBeLessThan(4 * 0.35);
  });

  it('states no more than it must: a light read alone once to 0.1 stop is known to about 0.1 x 3.1 stops at most', () => {
    // Sidak for six at 99 %: each at 0.99^(1/6) = 0.998326, two-sided z = 3.143. Other readings can only help.
    for (const { uncertaintyStops } of match(readings(7)).outputs) {
      expect(uncertaintyStops).toBeGreaterThan(0.05);
      expect(uncertaintyStops).toBeLessThan(0.1 * 3.143 * 1.15);
    }
  });

  it('names a reading that was taken 1.5 stops wrong, whichever of those that others can check', () => {
    const checkable = match(readings(3)).readings.filter(({ deviations }) => deviations !== null);
    expect(checkable.length).toBeGreaterThanOrEqual(8);
    let named = 0;
    for (const { index } of checkable) {
      const { suspect } = match(readings(3, (lux, i) => (i === index ? lux * 2 ** 1.5 : lux)));
      if (suspect?.index === index) named++;
    }
    // A wrong reading of a light that does little for the sums can hide behind it.
    expect(named).toBeGreaterThanOrEqual(checkable.length - 2);
    const spoiled = match(readings(3, (lux, i) => (i === 8 ? lux / 2 ** 1.5 : lux)));
    expect(spoiled.suspect?.index).toBe(8);
    expect(spoiled.suspect?.deviations).toBeLessThan(-3);
  });

  it('gives changes that make the setup predict what was metered', () => {
    const exact = readings(1).map((reading, i) => ({
      ...reading,
      display: { unit: 'lux' as const, value: trueLux(reading, i) },
    }));
    const { changes } = match(exact);
    const changed = applyChanges(setup, changes);
    if (!changed.ok) throw new Error(changed.error[0]?.message);
    fixtures.forEach(({ id, output }, i) => {
      const now = changed.value.fixtures.find((fixture) => fixture.id === id)?.output.value ?? 0;
      expect(Math.log2(now / output.value)).toBeCloseTo(TRUE_STOPS[i], 3);
    });
    const frame = findFrame(changed.value, 'Wide');
    const scene = frame.ok ? resolveFrame(changed.value, frame.value.id) : frame;
    if (!scene.ok) throw new Error('no frame');
    const dome = predictReadings(createCheckInput(scene.value)).find(({ point }) => point.id === 'subject-dome');
    expect(dome?.totalLux).toBeCloseTo(exact[6].display.value, 0);
  });

  function trueLux({ pointId, litFixtureIds }: OnSetReading, _: number): number {
    const prediction = predictions.find(({ point }) => point.id === pointId);
    return fixtures.reduce(
      (sum, { id }, i) =>
        sum + (litFixtureIds?.includes(id) ? (prediction?.fixtureLux[i] ?? 0) * 2 ** TRUE_STOPS[i] : 0),
      0,
    );
  }

  it('says that a light which gives nothing is dark and switches it off', () => {
    const dead = readings(2).map((reading, i) =>
      i === 3 ? { ...reading, display: { unit: 'lux' as const, value: 0 } } : reading,
    );
    const without = dead.map((reading, i) => {
      if (i < 6) return reading;
      const prediction = predictions.find(({ point }) => point.id === reading.pointId);
      const missing = (prediction?.fixtureLux[3] ?? 0) * 2 ** TRUE_STOPS[3];
      return { ...reading, display: { unit: 'lux' as const, value: Math.max(0, reading.display.value - missing) } };
    });
    const { outputs, changes } = match(without);
    const tube = outputs[3];
    // Down to nothing, or to so little that the setup's figure is many stops off.
    expect(tube.state === 'dark' || (tube.overStops ?? 0) < -4).toBe(true);
    if (tube.state === 'dark') {
      expect(changes).toContainEqual({
        op: 'update',
        collection: 'fixtures',
        id: fixtures[3].id,
        patch: { on: false },
      });
    }
  });

  it('leaves lights alone that no reading tells apart', () => {
    const { outputs, changes } = match([
      { pointId: 'subject-level', litFixtureIds: [fixtures[0].id], display: { unit: 'lux', value: 500 } },
    ]);
    expect(outputs.map(({ state }) => state)).toEqual(['found', 'unknown', 'unknown', 'unknown', 'unknown', 'unknown']);
    expect(changes.map((change) => 'id' in change && change.id)).toEqual([fixtures[0].id]);
  });

  it('reads the same from lux, EV and stop: C = 250, 1000 lx is EV 8.644 at ISO 100 and f/2.828 at 1/50 s', () => {
    // ISO 2720: EV = log2(100 E / C), N^2 = E S t / C.
    const displays = [
      { unit: 'lux', value: 1000 },
      { unit: 'ev100', value: 8.64385619 },
      { unit: 'fNumber', value: 2.82842712, iso: 100, shutterS: 0.02 },
    ] as const;
    const found = displays.map(
      (display) => match([{ pointId: 'subject-level', litFixtureIds: [fixtures[0].id], display }]).outputs[0].overStops,
    );
    expect(found[1]).toBeCloseTo(found[0] ?? 0, 6);
    expect(found[2]).toBeCloseTo(found[0] ?? 0, 6);
  });

  it('explains an unknown point, an unknown light and an impossible reading', () => {
    const asked = (reading: OnSetReading) => matchMeter({ fixtures, predictions, readings: [reading] });
    const lux = { unit: 'lux', value: 100 } as const;
    expect(asked({ pointId: 'attic', display: lux })).toMatchObject({
      ok: false,
      error: expect.stringContaining('attic'),
    });
    expect(asked({ pointId: 'subject-dome', litFixtureIds: ['x'], display: lux })).toMatchObject({ ok: false });
    expect(asked({ pointId: 'subject-dome', display: { unit: 'lux', value: -1 } })).toMatchObject({ ok: false });
    expect(matchMeter({ fixtures, predictions, readings: [] })).toMatchObject({ ok: false });
  });
});
