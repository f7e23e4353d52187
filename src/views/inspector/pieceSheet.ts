import type { z } from 'zod';
import { type Piece, pieceSchema } from '../../scene/records.ts';
import { updateRecord } from '../session/index.ts';
import { clearBodyGroup } from './clearBodyFields.ts';
import { degrees, type FieldGroup, point, type RecordSheet } from './fields.ts';
import { garnishGroups, garnishItemGroups } from './garnishFields.ts';
import { glassGroups } from './glassFields.ts';
import { kindWords } from './pieceWords.ts';
import { objectSchemaOf } from './schemaFields.ts';
import { schemaGroups } from './schemaGroups.ts';

/** A thing on the set as it is edited. */
export function pieceSheet(piece: Piece): RecordSheet {
  return {
    recordId: piece.id,
    collection: 'pieces',
    title: piece.name,
    kindWords: kindWords(piece.kind),
    change: (patch) => updateRecord('pieces', piece.id, patch),
    rename: (name) => updateRecord('pieces', piece.id, { name }),
    groups: pieceGroups(piece),
  };
}

/** Fields that have their own place in the sheet. */
const COMMON = ['kind', 'name', 'positionM', 'headingDeg', 'mesh'];

function pieceGroups(piece: Piece): FieldGroup[] {
  const schema = objectSchemaOf(pieceSchema, piece);
  const place: FieldGroup = {
    title: 'Place',
    fields: [
      point('positionM', 'Stands at', piece.positionM, (positionM) => ({ positionM })),
      degrees('headingDeg', 'Turned by', piece.headingDeg, -180, 180),
    ],
  };
  if (!schema) return [place];
  if (piece.kind === 'glass') return [...glassGroups(piece, schema, COMMON), ...garnishGroups(piece), place];
  if (piece.kind === 'garnish') return [...garnishItemGroups(piece.item), place];
  const own = shapeGroups(piece, schema);
  // What it measures and where it stands come first, what it is made of after.
  return [...own.slice(0, 1), place, ...own.slice(1)];
}

const CLEAR_BODY = ['clearIndex', 'clearAbsorptionPerM'];

function shapeGroups(piece: Exclude<Piece, { kind: 'glass' | 'garnish' }>, schema: z.ZodObject): FieldGroup[] {
  const groups = schemaGroups(schema, piece, {
    title: 'Shape',
    length: 'cm',
    patch: (part) => part,
    skip: [...COMMON, ...CLEAR_BODY],
    clearAllowed: 'clearIndex' in piece,
  });
  const clear = 'clearIndex' in piece && piece.finish.type === 'clear';
  return clear ? [...groups, clearBodyGroup(piece)] : groups;
}
