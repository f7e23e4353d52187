import { newId } from '../../document/defaults.ts';
import { type Finish, finishSchema } from '../../materials/finish.ts';
import { findLibraryFinish } from '../../materials/library/index.ts';
import { dressingSchema } from '../../scene/dressingRecords.ts';
import { storeMesh } from '../../scene/ownShape/storedMesh.ts';
import { documentStore, selectRecord } from '../session/index.ts';
import { freeName } from '../shelf/freeName.ts';
import { BODY_UNITS, type BodyUnit } from './bodyUnits.ts';
import type { WaitingBody } from './bringInStore.ts';

export type BodyStuff = 'matte' | 'gloss' | 'metal' | 'clear';
const START_M: [number, number, number] = [0.2, 0, 0];

const MATTE: Finish = { type: 'matte', reflectanceRgb: [0.5, 0.49, 0.47] };

const finishOf = (stuff: BodyStuff): Finish => {
  if (stuff === 'clear') return finishSchema.parse({ type: 'clear' });
  const shelved = { matte: undefined, gloss: 'acrylic-white', metal: 'steel-polished' }[stuff];
  return (shelved === undefined ? undefined : findLibraryFinish(shelved)?.finish) ?? MATTE;
};

/** Puts a body from a file on the set, to the right of the hero, as one step that can be undone. */
export function addBody({ name, body }: WaitingBody, unit: BodyUnit, stuff: BodyStuff): void {
  const { setup } = documentStore.getState();
  const metres = BODY_UNITS[unit];
  const record = dressingSchema.parse({
    kind: 'ownShape',
    id: newId(setup, 'piece'),
    name: freeName(setup, name),
    positionM: START_M,
    mesh: storeMesh({ ...body.mesh, cornersM: body.mesh.cornersM.map((value) => value * metres) }),
    finish: finishOf(stuff),
    ...(stuff === 'clear' ? { clearIndex: 1.52 } : {}),
  });
  const added = documentStore.apply(`Bring in ${record.name}`, [{ op: 'add', collection: 'pieces', record }]);
  if (added.ok) selectRecord(record.id);
}
