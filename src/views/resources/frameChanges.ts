import type { RecordChange } from '../../analysis/contracts.ts';
import type { DocumentChange } from '../../document/changes.ts';
import type { Setup } from '../../document/setup.ts';

/**
 * Turns updates that were made in one frame into changes of the document. Fields that the frame overrides are changed
 * in the override, so that what a hand moves is what it sees move; all other fields are changed in the record itself.
 */
export function changesInFrame(setup: Setup, frameId: string, changes: readonly RecordChange[]): DocumentChange[] {
  const frame = setup.frames.find(({ id }) => id === frameId);
  return changes.flatMap((change): DocumentChange[] => {
    const { collection } = change;
    if (change.op !== 'update' || collection === 'camera') return [change];
    const override = frame?.overrides.find((o) => o.collection === collection && o.id === change.id);
    if (!override) return [change];
    const fields = Object.entries(change.patch);
    const own = fields.filter(([key]) => key in override.patch);
    const shared = fields.filter(([key]) => !(key in override.patch));
    const result: DocumentChange[] = [];
    if (shared.length > 0) result.push({ ...change, patch: Object.fromEntries(shared) });
    if (own.length > 0) {
      result.push({ op: 'override', frameId, collection, id: change.id, patch: Object.fromEntries(own) });
    }
    return result;
  });
}
