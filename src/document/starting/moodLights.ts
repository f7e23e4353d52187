import type { z } from 'zod';
import type { fixtureSchema, gripSchema } from '../../fixtures/records.ts';
import type { Finish } from '../../materials/finish.ts';
import type { frameSchema } from '../setup.ts';
import type { Mood } from './choices.ts';

type FixtureInput = z.input<typeof fixtureSchema>;
type GripInput = z.input<typeof gripSchema>;

/** The light of a mood, for a hero that stands at the origin. */
export interface MoodLight {
  readonly fixtures: readonly FixtureInput[];
  readonly grip: readonly GripInput[];
  /** Of the wall behind, where the surface does not run up behind the glass itself. */
  readonly wall: { readonly name: string; readonly finish: Finish; readonly behindM: number };
  readonly exposure: { readonly apertureFNumber: number; readonly shutterS: number; readonly iso: number };
  readonly whiteBalanceK: number;
  readonly limits: z.input<typeof frameSchema>['limits'];
}

const paint = (r: number, g: number, b: number): Finish => ({ type: 'matte', reflectanceRgb: [r, g, b] });
const card = (
  id: string,
  name: string,
  at: [number, number, number],
  aimM: [number, number, number],
  size: [number, number],
): GripInput => ({
  kind: 'bounceCard',
  id,
  name,
  positionM: at,
  aimM,
  widthM: size[0],
  heightM: size[1],
  reflectanceRgb: [0.85, 0.85, 0.85],
});

/**
 * Lights, cards and the wall of each mood, to the height of the glass. Places and outputs were found by tracing and by the
 * checks; they are starting points, common practice, no source.
 *
 * @param heightM of the hero
 */
export function moodLight(mood: Mood, heightM: number): MoodLight {
  const middle: [number, number, number] = [0, Number((heightM * 0.5).toFixed(4)), 0];
  switch (mood) {
    case 'dark':
      return {
        fixtures: [
          {
            kind: 'panel',
            id: 'fixture:1',
            name: 'Panel, above and behind',
            positionM: [0, 0.76, -0.36],
            aimM: [0, 0, -0.14],
            output: { unit: 'lumens', value: 24000 },
            powerW: 240,
            widthM: 0.6,
            heightM: 0.3,
            depthM: 0.06,
          },
        ],
        grip: [
          card('grip:1', 'White card, left', [-0.34, 0.185, 0.08], [0, 0.3, -0.06], [0.18, 0.34]),
          card('grip:2', 'White card, right', [0.34, 0.185, 0.08], [0, 0.3, -0.06], [0.18, 0.34]),
          {
            kind: 'flag',
            id: 'grip:3',
            name: 'Lens flag',
            positionM: [0, 0.53, 0.35],
            aimM: [0, 0.53, 1.3],
            widthM: 0.5,
            heightM: 0.36,
          },
        ],
        wall: { name: 'Slate blue backdrop', finish: paint(0.095, 0.112, 0.15), behindM: 1.7 },
        exposure: { apertureFNumber: 8, shutterS: 0.02, iso: 400 },
        whiteBalanceK: 5600,
        limits: {},
      };
    case 'airy':
      return {
        fixtures: [
          softbox('fixture:1', 'Softbox, left', [-0.95, 0.69, 0.35], middle, [0.6, 0.9], 20000, 0),
          softbox('fixture:2', 'Paper light, left', [-0.85, 1.1, -0.4], [0.1, 0.3, -0.95], [0.9, 0.6], 26000, -2),
          softbox('fixture:3', 'Paper light, right', [0.85, 1.1, -0.4], [-0.1, 0.3, -0.95], [0.9, 0.6], 26000, -1.6),
        ],
        grip: [card('grip:1', 'White card, right', [0.58, 0.2, 0.15], middle, [0.3, 0.4])],
        wall: { name: 'Pale wall', finish: paint(0.72, 0.7, 0.66), behindM: 1.1 },
        exposure: { apertureFNumber: 11, shutterS: 1 / 60, iso: 400 },
        whiteBalanceK: 5600,
        limits: { backgroundWanted: 'even', backgroundCareStops: 0.8 },
      };
    case 'window':
      return {
        fixtures: [softbox('fixture:1', 'Softbox, the window', [-0.9, 0.62, -0.18], middle, [0.7, 1], 22000, 0)],
        grip: [card('grip:1', 'White card, right', [0.42, 0.2, 0.1], middle, [0.3, 0.4])],
        wall: { name: 'Limewashed wall', finish: paint(0.42, 0.38, 0.33), behindM: 1.1 },
        exposure: { apertureFNumber: 5.6, shutterS: 1 / 50, iso: 200 },
        whiteBalanceK: 5600,
        limits: {},
      };
    case 'noon':
      return {
        fixtures: [
          {
            kind: 'spot',
            id: 'fixture:1',
            name: 'Spot, the sun',
            positionM: [1.35, 0.95, 0.2],
            aimM: [0.05, 0.08, -0.1],
            output: { unit: 'lumens', value: 8500 },
            powerW: 150,
            lensDiameterM: 0.08,
            beamAngleDeg: 40,
            housingLengthM: 0.2,
            barnDoors: { lengthM: 0.12, topDeg: 110, bottomDeg: 110, leftDeg: 110, rightDeg: 110 },
          },
        ],
        grip: [card('grip:1', 'White card, left', [-0.75, 0.2, 0.35], middle, [0.3, 0.4])],
        wall: { name: 'Terracotta wall', finish: paint(0.62, 0.36, 0.25), behindM: 0.6 },
        exposure: { apertureFNumber: 8, shutterS: 1 / 100, iso: 400 },
        whiteBalanceK: 5600,
        limits: { shadowCount: 1 },
      };
    case 'evening':
      return {
        fixtures: [
          {
            kind: 'lantern',
            id: 'fixture:1',
            name: 'Paper lantern',
            positionM: [-0.21, 0.0715, -0.12],
            aimM: [-0.21, 0.07, 1],
            output: { unit: 'lumens', value: 250 },
            dimStops: -3.4,
            cctK: 2500,
            powerW: 3,
            bulbDiameterM: 0.04,
            shape: 'cylinder',
            diameterM: 0.085,
            heightM: 0.14,
            top: 'closed',
            bottom: 'closed',
            transmittance: 0.4,
            reflectance: 0.45,
            tintRgb: [1, 0.78, 0.52],
          },
          softbox('fixture:2', 'Softbox, the sky', [-0.75, 0.75, 0.1], [0, 0.08, -0.1], [0.9, 0.6], 6000, -2.2, 8000),
          softbox('fixture:3', 'Strip behind, warm', [0.55, 0.42, -0.36], middle, [0.2, 0.6], 2400, -2.4, 2800),
        ],
        grip: [],
        wall: { name: 'Slate wall', finish: paint(0.2, 0.205, 0.215), behindM: 0.6 },
        exposure: { apertureFNumber: 5.6, shutterS: 0.04, iso: 400 },
        whiteBalanceK: 4200,
        limits: { exposureCareStops: 2, mixNoteMired: 400, mixCareMired: 400 },
      };
  }
}

function softbox(
  id: string,
  name: string,
  positionM: [number, number, number],
  aimM: [number, number, number],
  [widthM, heightM]: readonly [number, number],
  outputLm: number,
  dimStops: number,
  cctK = 5600,
): FixtureInput {
  return {
    kind: 'softbox',
    id,
    name,
    positionM,
    aimM,
    widthM,
    heightM,
    depthM: 0.4,
    edgeFalloff: 0.3,
    output: { unit: 'lumens', value: outputLm },
    dimStops,
    cctK,
    powerW: Math.round(outputLm / 60),
  };
}
