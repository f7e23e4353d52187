import { describe, expect, it } from 'vitest';
import { cctAndDuvFromXy, xyFromCct } from '../../src/core/color/source.ts';
import { luminanceFromRec2020 } from '../../src/core/color/spaces.ts';
import { blendLooks, lookOf, standsAt, statesOfLook } from '../../src/document/looks.ts';
import { layerGain } from '../../src/fixtures/gain.ts';
import { type Fixture, fixtureSchema } from '../../src/fixtures/records.ts';

const light = (patch: Partial<Fixture> = {}): Fixture =>
  fixtureSchema.parse({
    kind: 'bulb',
    id: 'fixture:key',
    name: 'Key',
    positionM: [0, 1, 0],
    aimM: [0, 0, 0],
    output: { unit: 'lumens', value: 1000 },
    ...patch,
  });
const blendOne = (a: Partial<Fixture>, b: Partial<Fixture>, share: number) => {
  const [state] = blendLooks(lookOf('A', [light(a)]), lookOf('B', [light(b)]), share, [light()]);
  return state;
};

describe('cctAndDuvFromXy', () => {
  it('gives back what xyFromCct made, to 0.1 % and 2e-5', () => {
    for (const [cctK, duv] of [
      [2000, 0],
      [3200, 0.006],
      [5600, -0.004],
      [12000, 0.01],
    ]) {
      const found = cctAndDuvFromXy(xyFromCct(cctK, duv));
      expect(Math.abs(found.cctK / cctK - 1)).toBeLessThan(0.001);
      expect(Math.abs(found.duv - duv)).toBeLessThan(2e-5);
    }
  });

  // CIE 15:2004, table T.1 (chromaticity of A and D65), and the usual figures 2856 K, and 6504 K with duv +0.0032 (from memory).
  it('finds 2856 K for illuminant A, and 6504 K at duv 0.0032 for D65', () => {
    const a = cctAndDuvFromXy([0.44758, 0.40745]);
    expect(a.cctK).toBeCloseTo(2856, -1);
    expect(a.duv).toBeCloseTo(0, 3);
    const d65 = cctAndDuvFromXy([0.31272, 0.32903]);
    expect(Math.abs(d65.cctK - 6504)).toBeLessThan(4);
    expect(d65.duv).toBeCloseTo(0.0032, 4);
  });
});

describe('two looks', () => {
  // Half of full and half of nothing is half the light: log2(0.5) = -1 stop.
  it('mix in light: midway between full and off stands at -1 stop, a quarter of the way at log2(0.75)', () => {
    expect(blendOne({}, { on: false }, 0.5)).toMatchObject({ on: true, dimStops: -1 });
    expect(blendOne({}, { on: false }, 0.25).dimStops).toBeCloseTo(Math.log2(0.75), 3);
    expect(blendOne({ dimStops: -1 }, { dimStops: -3 }, 0.5).dimStops).toBeCloseTo(
      Math.log2(0.5 * 0.5 + 0.5 * 0.125),
      3,
    );
  });

  it('mix to the very gains of both lit at once, each behind its own dimmer, within 0.3 % a channel', () => {
    const a = { dimStops: -0.7, cctK: 3200 };
    const b = { dimStops: -2.1, cctK: 6500, duv: 0.004 };
    for (const share of [0.2, 0.5, 0.8]) {
      const { on, dimStops, cctK, duv } = blendOne(a, b, share);
      const blended = layerGain(light({ on, dimStops, cctK, duv }));
      const [ofA, ofB] = [layerGain(light(a)), layerGain(light(b))];
      for (let k = 0; k < 3; k++) {
        const wanted = (1 - share) * ofA[k] + share * ofB[k];
        expect(Math.abs(blended[k] / wanted - 1)).toBeLessThan(0.003);
      }
      expect(luminanceFromRec2020(blended)).toBeCloseTo(
        (1 - share) * luminanceFromRec2020(ofA) + share * luminanceFromRec2020(ofB),
        4,
      );
    }
  });

  it('are exactly themselves at the ends, and a light off in both stays off', () => {
    const a = lookOf('A', [light({ dimStops: -0.123456 })]);
    const b = lookOf('B', [light({ on: false, dimStops: -4 })]);
    expect(blendLooks(a, b, 0, [light()])).toEqual(a.states);
    expect(blendLooks(a, b, 1, [light()])).toEqual(b.states);
    expect(blendOne({ on: false }, { on: false }, 0.5).on).toBe(false);
  });

  it('pass over lights that are gone, and leave lights they do not know as they are', () => {
    const look = lookOf('A', [light(), light({ id: 'fixture:gone' })]);
    expect(statesOfLook(look, [light(), light({ id: 'fixture:new' })]).map(({ fixtureId }) => fixtureId)).toEqual([
      'fixture:key',
    ]);
    expect(blendLooks(look, look, 0.5, [light({ id: 'fixture:new' })])).toEqual([]);
  });

  it('know whether the lights stand so: a tenth of a stop off is not', () => {
    const look = lookOf('A', [light({ dimStops: -1 })]);
    expect(standsAt(look.states, [light({ dimStops: -1.001 })])).toBe(true);
    expect(standsAt(look.states, [light({ dimStops: -1.1 })])).toBe(false);
    expect(standsAt(look.states, [light({ dimStops: -1, on: false })])).toBe(false);
    expect(standsAt(look.states, [])).toBe(false);
  });
});
