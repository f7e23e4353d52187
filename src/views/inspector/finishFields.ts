import type { Finish } from '../../materials/finish.ts';
import { choice, type Field, number } from './fields.ts';
import { percent } from './percent.ts';

const FINISH_WORDS: Readonly<Record<string, Finish['type']>> = {
  'matte (paper, plaster)': 'matte',
  'gloss coat (acrylic, varnish)': 'gloss',
  metal: 'metal',
  mirror: 'mirror',
  'translucent (cloth)': 'translucent',
  black: 'black',
};

const FIRST_REFLECTANCE = [0.18, 0.18, 0.18] as const;

/** What a surface does with light, under `finish` of its record. */
export function finishFields(finish: Finish): Field[] {
  const type = choice('finishType', 'Finish', finish.type, FINISH_WORDS, (next) => ({
    finish: startFinish(finish, next),
  }));
  const patch = (part: Readonly<Record<string, unknown>>) => ({ finish: part });
  const colour: Field[] =
    'reflectanceRgb' in finish
      ? [
          {
            type: 'colour',
            key: 'reflectanceRgb',
            label: finish.type === 'gloss' ? 'Under the coat' : 'Colour',
            value: finish.reflectanceRgb,
            patch: (reflectanceRgb) => patch({ reflectanceRgb }),
          },
        ]
      : [];
  const roughness: Field[] =
    'roughness' in finish
      ? [percent('roughness', 'Roughness', finish.roughness, (value) => patch({ roughness: value }))]
      : [];
  const coat: Field[] =
    finish.type === 'gloss'
      ? [
          number('coatIndex', 'Coat index', finish.coatIndex, {
            min: 1,
            max: 2.5,
            step: 0.01,
            decimals: 3,
            patch: (coatIndex) => patch({ coatIndex }),
          }),
        ]
      : [];
  return [type, ...colour, ...roughness, ...coat];
}

/** Another finish with the colour kept where both have one; null takes away what the new one does not have. */
function startFinish(finish: Finish, type: string): Readonly<Record<string, unknown>> {
  const gone = Object.fromEntries(Object.keys(finish).map((key) => [key, null]));
  const reflectanceRgb = 'reflectanceRgb' in finish ? finish.reflectanceRgb : FIRST_REFLECTANCE;
  switch (type) {
    case 'gloss':
      return { ...gone, type, reflectanceRgb, coatIndex: 1.49, roughness: 0 };
    case 'metal':
      return { ...gone, type, reflectanceRgb, roughness: 0.1 };
    case 'translucent':
      return {
        ...gone,
        type,
        reflectanceRgb: reflectanceRgb.map((value) => Math.min(0.45, value)),
        transmittanceRgb: [0.5, 0.5, 0.5],
      };
    case 'black':
      return { ...gone, type };
    default:
      return { ...gone, type, reflectanceRgb };
  }
}
