import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseSetup } from '../../src/document/codec.ts';
import { resolveFrame } from '../../src/document/resolveFrame.ts';
import type { Setup } from '../../src/document/setup.ts';
import { MOODS, type Mood, setupFromBrief } from '../../src/document/starting/index.ts';
import { ROOT } from '../setup.mjs';
import type { PictureScene } from './pictureScene.ts';

const DEMOS = [
  'tonic-on-gloss-black',
  'iced-tea-on-paper-sweep',
  'hard-noon-slatted-wall',
  'blue-hour-lantern',
  'reed-screen-and-bounce',
];
const MOOD_DRINKS: Readonly<Record<Mood, string>> = {
  dark: 'drink-tonic',
  airy: 'drink-iced-tea',
  window: 'drink-lager',
  noon: 'drink-hibiscus',
  evening: 'drink-red-wine',
};

/** The first frame of each demo, and one picture of each mood that a brief may ask for. */
export function startScenes(): PictureScene[] {
  const moods = MOODS.map(({ mood, surfaceId }) => {
    const brief = { drinkId: MOOD_DRINKS[mood], glass: null, surfaceId, mood, format: '16:9' } as const;
    return firstFrame(`mood-${mood}`, setupFromBrief(brief));
  });
  const demos = DEMOS.map((name) => {
    const parsed = parseSetup(readFileSync(join(ROOT, 'assets', 'setups', `${name}.json`), 'utf8'));
    if (!parsed.ok) throw new Error(`${name} is no valid setup`);
    return firstFrame(`demo-${name}`, parsed.value.setup);
  });
  return [...moods, ...demos];
}

function firstFrame(key: string, setup: Setup): PictureScene {
  const scene = resolveFrame(setup, setup.frames[0].id);
  if (!scene.ok) throw new Error(`${key} does not resolve`);
  return { key, scene: scene.value };
}
