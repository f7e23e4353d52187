import type { Vec3 } from '../../core/vec3.ts';
import { type Field, number, type Patch } from './fields.ts';
import { percent } from './percent.ts';

const CHANNELS = ['Red', 'Green', 'Blue'] as const;
const withChannel = (triple: Vec3, channel: number, next: number): number[] =>
  triple.map((value, i) => (i === channel ? Number(next.toFixed(4)) : value));

/** How deep a clear thing is coloured: light lost per centimetre in each third of the spectrum, percent (Beer-Lambert). */
export const absorptionFields = (id: string, absorptionPerM: Vec3, put: (next: unknown) => Patch): Field[] =>
  CHANNELS.map((word, channel) =>
    percent(`${id}${channel}`, `${word} lost per cm`, 1 - Math.exp(-absorptionPerM[channel] / 100), (share) =>
      put(withChannel(absorptionPerM, channel, -100 * Math.log(1 - Math.min(0.9999, share)))),
    ),
  );

/** How cloudy it is: how often light is turned aside per centimetre. */
export const scatteringFields = (id: string, scatteringPerM: Vec3, put: (next: unknown) => Patch): Field[] =>
  CHANNELS.map((word, channel) =>
    number(`${id}${channel}`, `${word} cloud`, scatteringPerM[channel] / 100, {
      unit: 'per cm',
      min: 0,
      max: 1000,
      step: 0.1,
      decimals: 2,
      patch: (perCm) => put(withChannel(scatteringPerM, channel, perCm * 100)),
    }),
  );
