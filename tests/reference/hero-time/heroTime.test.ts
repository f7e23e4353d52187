import { describe, expect, it } from 'vitest';
import {
  chillHeatJ,
  cubeMeltTimesS,
  irradianceWPerM2,
  meltedKg,
  meltHeatJ,
  meltTimeS,
  settledC,
} from '../../../src/analysis/heat/iceHeat.ts';
import { checkFrame } from '../../../src/analysis/index.ts';
import { blackBodyEfficacyLmPerW } from '../../../src/core/color/source.ts';
import { glossSheet, panel, scene, tonic } from '../../analysis/helpers/scenes.ts';

/*
 * Latent heat 333.55 kJ/kg, density of ice 916.7 kg/m3, specific heat of water 4.186 kJ/kgK (CRC Handbook and IAPWS, from
 * memory); the figures are computed from these. Lumped melting after Incropera and DeWitt, from memory.
 */
describe('heat and ice', () => {
  it('25 g of ice take 8338.75 J, 2.31632 Wh, to melt', () => {
    expect(meltHeatJ(0.025)).toBeCloseTo(8338.75, 6);
    expect(meltHeatJ(0.025) / 3600).toBeCloseTo(2.31632, 5);
  });

  it('chilling 200 g from 25 C to 0 C takes 20 930 J and melts 62.749 g', () => {
    expect(chillHeatJ(0.2, 25)).toBeCloseTo(20930, 6);
    expect(meltedKg(chillHeatJ(0.2, 25)) * 1000).toBeCloseTo(62.749, 3);
  });

  it('50 g of ice in 200 g at 25 C end at 4.0635 C, all melted; 100 g leave it at 0', () => {
    expect(settledC(0.2, 25, 0.05)).toBeCloseTo(4.0635, 4);
    expect(settledC(0.2, 25, 0.1)).toBe(0);
  });

  it('a 30 mm cube, 24.7509 g, melts in 6115.31 s with faces held and 18 345.9 s with receding ones at 10 W/m2K and 25 K', () => {
    const { fixedAreaS, recedingFacesS } = cubeMeltTimesS(0.03, 10, 25);
    expect(fixedAreaS).toBeCloseTo(6115.31, 1);
    expect(recedingFacesS).toBeCloseTo(18345.9, 0);
    expect(recedingFacesS / fixedAreaS).toBeCloseTo(3, 12);
    // The same by heat flow: .0054 m2 x 10 x 25 = 1.35 W.
    expect(meltTimeS(0.03 ** 3 * 916.7, 0.0054 * 250)).toBeCloseTo(6115.31, 1);
    expect(cubeMeltTimesS(0.03, 1000, 5).fixedAreaS).toBeCloseTo(305.765, 2);
  });

  it('10 000 lx carry 369.18 W/m2 from a black body of 3200 K, 33.33 from 300 lm/W, 105.26 from 95 lm/W', () => {
    expect(irradianceWPerM2(10000, blackBodyEfficacyLmPerW(3200))).toBeCloseTo(369.18, 0);
    expect(irradianceWPerM2(10000, 300)).toBeCloseTo(33.33, 2);
    expect(irradianceWPerM2(10000, 95)).toBeCloseTo(105.26, 2);
    // 9 cm2 at absorptance .5.
    expect(irradianceWPerM2(10000, blackBodyEfficacyLmPerW(3200)) * 9e-4 * 0.5).toBeCloseTo(0.1661, 3);
  });
});

describe('the check of hero time', () => {
  it('adds up: likely minutes x heat = latent heat of a third of the ice less what the first chill took', () => {
    const { figures } = checkFrame(
      scene({
        pieces: [glossSheet(), tonic()],
        fixtures: [panel()],
        subject: { pieceId: 'tonic', meterPointM: [0, 0.08, 0] },
      }),
      { checks: ['heroTime'] },
    );
    const time = figures.heroTime as Record<string, number>;
    // Three rounded cubes of 28 mm: a little less than 3 x 2.8^3 cm3 x .9167.
    expect(time.iceG).toBeGreaterThan(3 * 2.8 ** 3 * 0.9167 * 0.96);
    expect(time.iceG).toBeLessThan(3 * 2.8 ** 3 * 0.9167);
    const spentG = time.iceG / 3 - 0.25 * time.firstChillMeltsG;
    const expected = Math.max(0, spentG * 333.55) / (time.heatOfRoomW + time.heatOfLightsW) / 60;
    expect(time.likelyMin).toBeCloseTo(expected, 6);
    // Room: h A dT with the outside of a 66 x 150 mm glass, 10 W/m2K, 20 K.
    const area = Math.PI * 0.066 * 0.15 + Math.PI * 0.033 ** 2;
    expect(time.heatOfRoomW / (10 * area * 20)).toBeCloseTo(1, 1);
  });
});
