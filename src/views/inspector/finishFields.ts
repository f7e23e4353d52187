import { createMergePatch } from '../../document/mergePatch.ts';
import { isEqualData } from '../../document/plainData.ts';
import type { Finish } from '../../materials/finish.ts';
import { FINISH_LIBRARY } from '../../materials/library/index.ts';
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
const OWN = 'its own';

/** What a surface does with light, under `finish` of its record: from the shelf, or figure by figure. */
export function finishFields(finish: Finish): Field[] {
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
  return [shelfField(finish), typeField(finish), ...colour, ...roughness, ...coatFields(finish)];
}

function shelfField(finish: Finish): Field {
  const entry = FINISH_LIBRARY.find((candidate) => isEqualData(candidate.finish, finish));
  const names = [...(entry ? [] : [OWN]), ...FINISH_LIBRARY.map(({ name }) => name)];
  return choice('material', 'Material', entry?.name ?? OWN, Object.fromEntries(names.map((n) => [n, n])), (name) => {
    const chosen = FINISH_LIBRARY.find((candidate) => candidate.name === name);
    return chosen ? { finish: createMergePatch(finish, { ...chosen.finish }) } : {};
  });
}

const typeField = (finish: Finish): Field =>
  choice('finishType', 'Finish', finish.type, FINISH_WORDS, (next) => ({
    finish: createMergePatch(finish, startFinish(finish, next)),
  }));

function coatFields(finish: Finish): Field[] {
  if (finish.type !== 'gloss') return [];
  const share = (key: 'dust' | 'scratches', label: string) =>
    percent(key, label, finish[key] ?? 0, (value) => ({ finish: { [key]: value > 0 ? value : null } }));
  return [
    number('coatIndex', 'Coat index', finish.coatIndex, {
      min: 1,
      max: 2.5,
      step: 0.01,
      decimals: 3,
      patch: (coatIndex) => ({ finish: { coatIndex } }),
    }),
    share('dust', 'Dust'),
    share('scratches', 'Scratches'),
  ];
}

/** Another finish, with the colour kept where both have one. */
function startFinish(finish: Finish, type: string): Readonly<Record<string, unknown>> {
  if (type === finish.type) return finish;
  const reflectanceRgb = 'reflectanceRgb' in finish ? finish.reflectanceRgb : FIRST_REFLECTANCE;
  switch (type) {
    case 'gloss':
      return { type, reflectanceRgb, coatIndex: 1.49, roughness: 0 };
    case 'metal':
      return { type, reflectanceRgb, roughness: 0.1 };
    case 'translucent':
      return {
        type,
        reflectanceRgb: reflectanceRgb.map((value) => Math.min(0.45, value)),
        transmittanceRgb: [0.5, 0.5, 0.5],
      };
    case 'black':
      return { type };
    default:
      return { type, reflectanceRgb };
  }
}
