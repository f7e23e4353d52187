import { createMergePatch } from '../../document/mergePatch.ts';
import { defaultDrink, defaultGlassProfile, defaultIce, GLASS_SHAPES } from '../../scene/pieceDefaults.ts';
import type { Drink, GlassProfile, Ice, Piece } from '../../scene/records.ts';
import { updateRecord } from '../session/index.ts';
import { choice, degrees, type Field, type FieldGroup, number, point, type RecordSheet, toggle } from './fields.ts';
import { finishFields } from './finishFields.ts';
import { labelOfKey, measureFields } from './measureFields.ts';
import { percent } from './percent.ts';
import { kindWords, shapeWords } from './pieceWords.ts';

/** A thing on the set as it is edited. */
export function pieceSheet(piece: Piece): RecordSheet {
  return {
    recordId: piece.id,
    collection: 'pieces',
    title: piece.name,
    kindWords: kindWords(piece.kind),
    change: (patch) => updateRecord('pieces', piece.id, patch),
    rename: (name) => updateRecord('pieces', piece.id, { name }),
    groups: [
      ...shapeGroups(piece),
      {
        title: 'Place',
        fields: [
          point('positionM', 'Stands at', piece.positionM, (positionM) => ({ positionM })),
          degrees('headingDeg', 'Turned by', piece.headingDeg, -180, 180),
        ],
      },
      ...('finish' in piece ? [{ title: 'Surface', fields: finishFields(piece.finish) }] : []),
    ],
  };
}

/** Fields that have their own place in the sheet or are not measures of size. */
const NOT_SIZE = ['headingDeg', 'glassIndex', 'clearIndex', 'frost'];

function shapeGroups(piece: Piece): FieldGroup[] {
  if (piece.kind === 'glass') {
    return [
      { title: 'Glass', fields: [...glassFields(piece.profile), indexField('glassIndex', piece.glassIndex)] },
      { title: 'Drink', fields: drinkFields(piece.drink) },
      { title: 'Ice', fields: iceFields(piece.ice) },
      ...partGroups(piece),
    ];
  }
  const size = measureFields(piece, { length: 'cm', patch: (part) => part, skip: NOT_SIZE });
  return [...(size.length > 0 ? [{ title: 'Size', fields: size }] : []), ...partGroups(piece)];
}

const OWN_GROUPS = ['profile', 'drink', 'ice', 'finish'];

/** Parts of a piece that are objects of their own (a cut, a label, dew, a garnish): each is a group of its measures. */
function partGroups(piece: Piece): FieldGroup[] {
  return Object.entries(piece).flatMap(([key, part]): FieldGroup[] => {
    if (typeof part !== 'object' || part === null || Array.isArray(part) || OWN_GROUPS.includes(key)) return [];
    const fields = measureFields(part, { length: 'mm', prefix: `${key}-`, patch: (changed) => ({ [key]: changed }) });
    return fields.length > 0 ? [{ title: labelOfKey(key), fields }] : [];
  });
}

const indexField = (key: string, index: number): Field =>
  number(key, 'Index', index, { min: 1, max: 2, step: 0.001, decimals: 3 });

function glassFields(profile: GlassProfile): Field[] {
  const shape = choice(
    'shape',
    'Shape',
    profile.shape,
    Object.fromEntries(GLASS_SHAPES.map((value) => [shapeWords(value), value])),
    (value) => {
      const next = GLASS_SHAPES.find((known) => known === value) ?? profile.shape;
      if (next === profile.shape) return {};
      return { profile: createMergePatch(profile, { ...defaultGlassProfile(next) }) };
    },
  );
  return [shape, ...measureFields(profile, { length: 'mm', patch: (part) => ({ profile: part }) })];
}

function drinkFields(drink: Drink | undefined): Field[] {
  const filled = toggle('hasDrink', 'Filled', drink !== undefined, (on) => ({ drink: on ? defaultDrink() : null }));
  if (!drink) return [filled];
  return [
    filled,
    {
      type: 'text',
      key: 'drinkName',
      label: 'Called',
      value: drink.name,
      patch: (value) => ({ drink: { name: value.trim().slice(0, 120) || drink.name } }),
      actsOnFilm: true,
    },
    ...measureFields(drink, { length: 'mm', patch: (part) => ({ drink: part }), skip: ['index'] }),
    number('drinkIndex', 'Index', drink.index, {
      min: 1,
      max: 2,
      step: 0.001,
      decimals: 3,
      patch: (index) => ({ drink: { index } }),
    }),
    ...absorptionFields(drink.absorptionPerM),
  ];
}

/** How deep the drink is coloured: light lost per centimetre in each third of the spectrum, percent. */
function absorptionFields(absorptionPerM: Drink['absorptionPerM']): Field[] {
  const labels = ['Red lost per cm', 'Green lost per cm', 'Blue lost per cm'];
  return labels.map((label, channel) =>
    percent(`absorption${channel}`, label, 1 - Math.exp(-absorptionPerM[channel] / 100), (share) => ({
      drink: {
        absorptionPerM: absorptionPerM.map((value, i) =>
          i === channel ? Number((-100 * Math.log(1 - Math.min(0.9999, share))).toFixed(4)) : value,
        ),
      },
    })),
  );
}

function iceFields(ice: Ice | undefined): Field[] {
  const present = toggle('hasIce', 'In the glass', ice !== undefined, (on) => ({ ice: on ? defaultIce() : null }));
  if (!ice) return [present];
  return [present, ...measureFields(ice, { length: 'mm', prefix: 'ice-', patch: (part) => ({ ice: part }) })];
}
