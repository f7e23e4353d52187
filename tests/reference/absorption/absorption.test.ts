import { describe, expect, it } from 'vitest';
import {
  absorptionPerMFromAbsorbance,
  absorptionPerMFromTransmittance,
  absorptionPerMFromTransmittanceRgb,
  diffusionFigures,
  henyeyGreenstein,
  reducedScatteringPerM,
  transmittance,
  transmittanceRgb,
} from '../../../src/materials/absorption.ts';
import { cloudiness, DRINKS, findDrink } from '../../../src/materials/drinks.ts';
import { findGlassTint, GLASS_TINTS } from '../../../src/materials/glassTints.ts';

const drink = (id: string) => {
  const found = findDrink(id);
  if (found === undefined) throw new Error(`no drink ${id}`);
  return found;
};

// Beer-Lambert law, closed forms.
describe('absorption', () => {
  it('absorbance 1.5 over 10 mm is 345.3878 per metre and leaves 0.0316228', () => {
    const perM = absorptionPerMFromAbsorbance(1.5, 0.01);
    expect(perM).toBeCloseTo(345.3878, 4);
    expect(transmittance(perM, 0.01)).toBeCloseTo(0.0316228, 7);
  });
  it('0.7 over 10 mm is 35.66749 per metre and leaves 0.343 over 30 mm', () => {
    const perM = absorptionPerMFromTransmittance(0.7, 0.01);
    expect(perM).toBeCloseTo(35.66749, 5);
    expect(transmittance(perM, 0.03)).toBeCloseTo(0.343, 12);
  });
  it('twice the path squares what is left', () => {
    const perM = absorptionPerMFromTransmittanceRgb([0.9, 0.5, 0.1], 0.02);
    transmittanceRgb(perM, 0.04).forEach((t, i) => {
      expect(t).toBeCloseTo(([0.9, 0.5, 0.1][i] ?? 0) ** 2, 12);
    });
  });
});

// Henyey & Greenstein, Astrophysical Journal 93, 70 (1941) (from memory).
describe('Henyey-Greenstein phase function', () => {
  it.each([
    [0, 0.0795775, 0.0795775, 0.0795775],
    [0.5, 0.4774648, 0.0427058, 0.0176839],
    [0.9, 15.11972, 0.00620906, 0.00220436],
    [-0.3, 0.0329611, 0.0636344, 0.2111239],
  ])('g %f: forward %f, sideways %f, back %f', (g, forward, sideways, back) => {
    expect(henyeyGreenstein(1, g) / forward).toBeCloseTo(1, 5);
    expect(henyeyGreenstein(0, g) / sideways).toBeCloseTo(1, 5);
    expect(henyeyGreenstein(-1, g) / back).toBeCloseTo(1, 5);
  });
  it.each([-0.3, 0, 0.5, 0.9])('g %f: integrates to 1 over the sphere with mean cosine g', (g) => {
    const steps = 200000;
    let total = 0;
    let mean = 0;
    for (let i = 0; i < steps; i++) {
      const cos = -1 + (2 * (i + 0.5)) / steps;
      const weight = (henyeyGreenstein(cos, g) * 4 * Math.PI) / steps;
      total += weight;
      mean += weight * cos;
    }
    expect(total).toBeCloseTo(1, 6);
    expect(mean).toBeCloseTo(g, 6);
  });
});

// Narasimhan et al., SIGGRAPH 2006; Jensen et al., SIGGRAPH 2001; transmittance by Beer-Lambert of the published figures.
describe('drinks', () => {
  it.each([
    ['red-wine', 0, 0.31248, 0.00953],
    ['red-wine', 1, 0.08053, 4e-5],
    ['apple-juice', 0, 0.87847, 0.59554],
    ['apple-juice', 1, 0.78867, 0.38688],
    ['apple-juice', 2, 0.59343, 0.12401],
    ['lager', 0, 0.89144, 0.63149],
    ['lager', 1, 0.77949, 0.36919],
    ['lager', 2, 0.5611, 0.09912],
    ['cola', 0, 0.36736, 0.01821],
    ['white-wine', 0, 0.89779, 0.64968],
    ['white-wine', 2, 0.78665, 0.38294],
  ])('%s, channel %i, leaves %f over 10 mm and %f over 40 mm', (id, channel, at10, at40) => {
    expect(transmittanceRgb(drink(id).absorptionPerM, 0.01)[channel]).toBeCloseTo(at10, 5);
    expect(transmittanceRgb(drink(id).absorptionPerM, 0.04)[channel]).toBeCloseTo(at40, 5);
  });
  it('cola leaves 0.19199 of green over 10 mm', () => {
    expect(transmittanceRgb(drink('cola').absorptionPerM, 0.01)[1]).toBeCloseTo(0.19199, 5);
  });

  it('lager is its diluted measurement scaled by 23 L over 2.9 L added: 11.4921 and 0.0243562 per metre', () => {
    // sigma_t .001486 /mm, sigma_s .000037 /mm, g .917, diluted (as an open renderer lists it).
    const scale = (23 / 2.9) * 1000;
    expect((0.001486 - 0.000037) * scale).toBeCloseTo(11.4921, 4);
    expect(Math.abs(drink('lager').absorptionPerM[0] - (0.001486 - 0.000037) * scale)).toBeLessThan(1e-3);
    expect(
      Math.abs(drink('lager').reducedScatteringPerM[0] - reducedScatteringPerM(0.000037, 0.917) * scale),
    ).toBeLessThan(5e-4);
  });

  // Diffusion approximation, closed forms.
  it('whole milk, red: attenuation 91.7531 per metre, depth 10.8988 mm, transport path 0.391988 mm, albedo 0.999569', () => {
    const milk = drink('whole-milk');
    const d = diffusionFigures(milk.absorptionPerM[0], milk.reducedScatteringPerM[0]);
    expect(d.effectiveAttenuationPerM).toBeCloseTo(91.7531, 3);
    expect(d.penetrationDepthM * 1000).toBeCloseTo(10.8988, 4);
    expect(d.transportMeanFreePathM * 1000).toBeCloseTo(0.391988, 6);
    expect(d.reducedAlbedo).toBeCloseTo(0.999569, 6);
  });
  it('white grapefruit juice, red: transport path 4.13121 mm, depth 9.98937 mm, albedo 0.942989', () => {
    const juice = drink('white-grapefruit-juice');
    const d = diffusionFigures(juice.absorptionPerM[0], juice.reducedScatteringPerM[0]);
    expect(d.transportMeanFreePathM * 1000).toBeCloseTo(4.13121, 5);
    expect(d.penetrationDepthM * 1000).toBeCloseTo(9.98937, 4);
    expect(d.reducedAlbedo).toBeCloseTo(0.942989, 6);
  });

  it('has 26 drinks with distinct ids, sane indices, and says of each whether it was measured', () => {
    expect(new Set(DRINKS.map((d) => d.id)).size).toBe(DRINKS.length);
    expect(DRINKS.length).toBe(26);
    for (const d of DRINKS) {
      expect(d.index).toBeGreaterThan(1.33);
      expect(d.index).toBeLessThan(1.38);
      expect(Math.min(...d.absorptionPerM, ...d.reducedScatteringPerM)).toBeGreaterThanOrEqual(0);
      expect(d.source.length).toBeGreaterThan(5);
    }
    expect(DRINKS.filter((d) => d.origin === 'invented').map((d) => d.id)).toEqual([
      'cloudy-lemonade',
      'orange-juice',
      'milk-punch',
      'tonic',
      'iced-tea',
      'hibiscus',
      'herb-cordial',
      'clear-spirit',
    ]);
  });
  it('calls milk cloudy and lager clear over 60 mm', () => {
    expect(cloudiness(drink('whole-milk'), 0.06)).toBeGreaterThan(0.99);
    expect(cloudiness(drink('lager'), 0.06)).toBeLessThan(0.01);
  });
});

describe('glass tints', () => {
  it('bottle green passes 0.6 of green and 0.14 of blue through 3 mm, as its maker here chose', () => {
    const [r, g, b] = transmittanceRgb(findGlassTint('bottle-green')?.absorptionPerM ?? [0, 0, 0], 0.003);
    expect(r).toBeCloseTo(0.22, 12);
    expect(g).toBeCloseTo(0.6, 12);
    expect(b).toBeCloseTo(0.14, 12);
  });
  it('keeps lead crystal between 1.52 and 1.58 and every id distinct', () => {
    // Council Directive 69/493/EEC, Annex I: crystal n_D >= 1.520; typical lead crystal 1.545 to 1.56 (from memory).
    expect(findGlassTint('lead-crystal')?.index).toBeGreaterThanOrEqual(1.52);
    expect(findGlassTint('lead-crystal')?.index).toBeLessThanOrEqual(1.58);
    expect(new Set(GLASS_TINTS.map((t) => t.id)).size).toBe(GLASS_TINTS.length);
    expect(findGlassTint('unknown')).toBeUndefined();
  });
});
