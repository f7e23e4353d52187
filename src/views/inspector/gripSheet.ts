import { type GripItem, gripSchema } from '../../fixtures/records.ts';
import { updateRecord } from '../session/index.ts';
import { centimetres, degrees, type Field, point, type RecordSheet } from './fields.ts';
import { percent } from './percent.ts';
import { withTheRest } from './withTheRest.ts';

const KIND_WORDS: Readonly<Record<GripItem['kind'], string>> = {
  flag: 'Flag',
  bounceCard: 'Bounce card',
  diffusionFrame: 'Diffusion frame',
};

/** A sheet on a stand as it is edited. */
export function gripSheet(item: GripItem): RecordSheet {
  return {
    recordId: item.id,
    collection: 'grip',
    title: item.name,
    kindWords: KIND_WORDS[item.kind],
    change: (patch) => updateRecord('grip', item.id, patch),
    rename: (name) => updateRecord('grip', item.id, { name }),
    groups: withTheRest(gripSchema, item, 'More', [
      { title: 'Sheet', fields: sheetFields(item) },
      {
        title: 'Place',
        fields: [
          point('positionM', 'Stands at', item.positionM, (positionM) => ({ positionM })),
          point('aimM', 'Faces', item.aimM, (aimM) => ({ aimM })),
          degrees('rollDeg', 'Roll', item.rollDeg, -180, 180),
        ],
      },
    ]),
  };
}

function sheetFields(item: GripItem): Field[] {
  const size = [
    centimetres('widthM', 'Width', item.widthM, (widthM) => ({ widthM })),
    centimetres('heightM', 'Height', item.heightM, (heightM) => ({ heightM })),
  ];
  switch (item.kind) {
    case 'flag':
      return size;
    case 'bounceCard':
      return [
        ...size,
        {
          type: 'colour',
          key: 'reflectanceRgb',
          label: 'Colour',
          value: item.reflectanceRgb,
          patch: (reflectanceRgb) => ({ reflectanceRgb }),
        },
      ];
    case 'diffusionFrame':
      return [
        ...size,
        percent('transmittance', 'Lets through', item.transmittance),
        percent('reflectance', 'Throws back', item.reflectance),
      ];
  }
}
