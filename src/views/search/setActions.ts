import { pickRecord } from '../arrange/index.ts';
import {
  activateFinding,
  CAMERA_ID,
  documentStore,
  getFrameScene,
  resultsStore,
  toggleSolo,
  updateRecord,
} from '../session/index.ts';
import type { Action } from './action.ts';

/** What the checks ask for: to look at, and the remedies to apply. */
export function findingActions(): Action[] {
  const asking = resultsStore.getState().findings.filter(({ grade }) => grade === 'stop' || grade === 'care');
  return asking.flatMap(({ id, summary, remedies }): Action[] => [
    { id: `finding-${id}`, name: summary, part: 'Checks', run: () => activateFinding(id) },
    ...remedies.map(
      ({ label, changes }, i): Action => ({
        id: `remedy-${id}-${i}`,
        name: label,
        part: 'Remedy',
        run: () => void documentStore.apply(label, changes),
      }),
    ),
  ]);
}

export function lightActions(): Action[] {
  return getFrameScene().fixtures.flatMap(({ id, name, on }): Action[] => [
    {
      id: `switch-${id}`,
      name: `${name}: ${on ? 'off' : 'on'}`,
      part: 'Lights',
      keys: 'M',
      run: () => void documentStore.apply(`${name} ${on ? 'off' : 'on'}`, [updateRecord('fixtures', id, { on: !on })]),
    },
    { id: `solo-${id}`, name: `${name}: solo`, part: 'Lights', keys: 'S', run: () => toggleSolo(id) },
  ]);
}

export function recordActions(): Action[] {
  const { pieces, fixtures, grip } = getFrameScene();
  const records: readonly { readonly id: string; readonly name: string }[] = [
    { id: CAMERA_ID, name: 'camera' },
    ...fixtures,
    ...grip,
    ...pieces,
  ];
  return records.map(({ id, name }) => ({
    id: `select-${id}`,
    name: `Select ${name}`,
    part: 'Selection',
    run: () => pickRecord(id),
  }));
}
