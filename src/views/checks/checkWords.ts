import type { CheckName } from '../../analysis/contracts.ts';

/** How each check is named and what its figure means, for people on set. */
export const CHECK_WORDS: Readonly<Record<CheckName, { readonly title: string; readonly meaning: string }>> = {
  reflections: {
    title: 'Reflections',
    meaning:
      'Rays from the lens, followed through every mirror-like bounce and refraction to the light itself. The figure is how far the reflection stands over what surrounds it.',
  },
  flare: {
    title: 'Flare',
    meaning:
      'The part of the front element that the light reaches from outside the picture, past flags and matte box. What it costs in contrast depends on the lens and is an estimate.',
  },
  exposure: {
    title: 'Exposure',
    meaning:
      'Incident light at the meter point against the stop, shutter and sensitivity that are set, close-up loss included.',
  },
};
