import type { CheckName } from '../../analysis/contracts.ts';

interface CheckWords {
  readonly title: string;
  /** What is asked on set. */
  readonly question: string;
  readonly meaning: string;
}

/** How each check is named, what it answers and what its figure means, for people on set. */
export const CHECK_WORDS: Readonly<Record<CheckName, CheckWords>> = {
  reflections: {
    title: 'Reflections',
    question: 'Will I see the light in the gloss or the glass?',
    meaning:
      'Rays from the lens, followed through every mirror-like bounce and refraction to the light itself. The figure is how far the reflection stands over what surrounds it.',
  },
  flare: {
    title: 'Flare',
    question: 'Will it flare?',
    meaning:
      'The part of the front element that the light reaches from outside the picture, past flags and matte box. What it costs in contrast depends on the lens and is an estimate.',
  },
  exposure: {
    title: 'Exposure',
    question: 'What stop am I at, what clips?',
    meaning:
      'Incident light at the meter point against the stop, shutter and sensitivity that are set, close-up loss included.',
  },
  familyOfAngles: {
    title: 'Family of angles',
    question: 'Where may the light stand so that I don’t?',
    meaning:
      'Everything that a mirror-like surface mirrors into the frame stands in one region of space. The figure is how far the light stands outside it; under zero it stands inside.',
  },
  thingsInFrame: {
    title: 'In the picture',
    question: 'Does a card or a stand show?',
    meaning: 'Cards, frames and housings that the lens sees straight on, as a part of the picture.',
  },
  ratios: {
    title: 'Ratios',
    question: 'How strong is the key over the fill?',
    meaning: 'Key with fill over fill, and subject over background, by incident light at each.',
  },
  background: {
    title: 'Background',
    question: 'Is it even, or graded where I want it?',
    meaning: 'Light over the visible background, brightest against darkest part, bounce among the set included.',
  },
  spillAndShadows: {
    title: 'Shadows',
    question: 'One shadow or three? How long, how crisp?',
    meaning:
      'Which lights reach the table at the subject, and the shadow that each throws of it: direction, length, depth and edge.',
  },
  shadowMakers: {
    title: 'Edges and cuts',
    question: 'Do cutters and slats throw the edge I want?',
    meaning:
      'The soft edge that a flag, cutter or gobo throws: source size times the distance to the receiver, over the distance to the source.',
  },
  lightDirection: {
    title: 'Direction of light',
    question: 'Does it look like one sun?',
    meaning:
      'Where the strongest light comes from at the subject, on the table and on the background. One sun or one window comes from one side on all of them.',
  },
  depthOfField: {
    title: 'Depth of field',
    question: 'Is it all sharp?',
    meaning:
      'Blur of the nearest and farthest part of the subject on the sensor, against the circle that still passes as sharp.',
  },
  practical: {
    title: 'Practicals',
    question: 'Does the lamp burn out?',
    meaning: 'The brightest part of a lamp in the picture against the subject and against clipping.',
  },
  glow: {
    title: 'Glow and edges',
    question: 'Does the drink glow, do the edges read?',
    meaning:
      'Luminance through the drink against what is round it, and of the outline of the glass against what is behind it.',
  },
  colourMix: {
    title: 'Mixed light',
    question: 'Do lights of different colour meet?',
    meaning: 'How far two lights on one place differ in colour.',
  },
  turntable: {
    title: 'Turntable',
    question: 'Does the turn wobble, blur or flicker?',
    meaning: 'Wobble, motion blur and flicker of a turn, and how far the highlights travel in it.',
  },
  heroTime: {
    title: 'Hero time',
    question: 'How long do I have?',
    meaning: 'How long the iced drink looks its best: heat of the room and of the lights against the ice. An estimate.',
  },
  powerAndRigging: {
    title: 'Power and rigging',
    question: 'What must I plug in, what weigh down?',
    meaning: 'Load on the circuits and moment of booms, as cautions. Local rules and licensed people decide.',
  },
};
