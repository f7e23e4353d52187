import Color from 'colorjs.io';
import { describe, expect, it } from 'vitest';
import { checkFrame } from '../../../src/analysis/index.ts';
import { whiteBalanceMatrix } from '../../../src/core/color/adapt.ts';
import { rgbFromCct } from '../../../src/core/color/source.ts';
import { applyMatrix3 } from '../../../src/core/matrix3.ts';
import { fixture, scene } from '../../analysis/helpers/scenes.ts';

const lamp = (id: string, x: number, cctK: number) =>
  fixture({
    kind: 'bulb',
    id,
    name: id,
    positionM: [x, 0.5, 0.5],
    aimM: [0, 0, 0],
    diameterM: 0.04,
    cctK,
    output: { unit: 'lumens', value: id === 'key' ? 2000 : 1000 },
  });
const mixOf = (keyK: number, otherK: number, whiteBalanceK = 5600) => {
  const base = scene({ pieces: [], fixtures: [lamp('key', -0.5, keyK), lamp('other', 0.5, otherK)] });
  const of = { ...base, camera: { ...base.camera, whiteBalanceK }, subject: { ...base.subject, pieceId: 'gone' } };
  const { figures } = checkFrame(of, { checks: ['colourMix'], remedies: false });
  return (figures.colourMix as { places: { apartMired: number; deltaE2000: number; otherShare: number }[] }).places[0];
};

describe('two lights on one place', () => {
  it.each([
    [5600, 3200, 133.9286],
    [5500, 3200, 130.6818],
    [3200, 2700, 57.8704],
    [5600, 4300, 53.9867],
    [5600, 6500, 24.7253],
  ])('%f K and %f K are %f mired apart (1e6 / T)', (key, other, mired) => {
    expect(mixOf(key, other).apartMired).toBeCloseTo(mired, 3);
  });

  it.each([
    [5600, 3200, 5600],
    [5600, 4300, 5600],
    [4300, 6500, 5600],
    [3200, 2700, 3200],
  ])('%f K and %f K under a balance of %f K: dE2000 as colorjs.io has it, to .05', (key, other, balance) => {
    // An independent library converts the balanced colours of an 18 % card to Lab (D65) and takes the difference.
    const lab = (cctK: number) => {
      const [r, g, b] = applyMatrix3(whiteBalanceMatrix(balance), rgbFromCct(cctK));
      const y = 0.262700212 * r + 0.677998072 * g + 0.059301716 * b;
      const xyz = new Color('rec2020-linear', [(0.18 * r) / y, (0.18 * g) / y, (0.18 * b) / y]).to('xyz-d65');
      // The library takes differences in its own Lab (D50): the D65 figures are handed to it as they are.
      return new Color('lab', xyz.to('lab-d65').coords);
    };
    const expected = lab(key).deltaE(lab(other), '2000');
    expect(Math.abs(mixOf(key, other, balance).deltaE2000 - expected)).toBeLessThan(0.05);
  });

  it('has the share that its light is of all', () => {
    // Same place for the dome but for its side; 1000 lm of 3000.
    expect(mixOf(5600, 3200).otherShare).toBeCloseTo(1 / 3, 1);
  });
});
