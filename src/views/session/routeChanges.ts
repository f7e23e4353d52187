import type { DocumentChange } from '../../document/changes.ts';
import type { Frame } from '../../document/setup.ts';

/**
 * Sends each edit to where the frame on screen reads it from: a field that this frame overrides is edited in the
 * override, all else in the record that every frame shares. Without this an edit of an overridden field would change
 * the other frames and not the one that is looked at.
 */
export function routeChanges(frame: Frame | undefined, changes: readonly DocumentChange[]): readonly DocumentChange[] {
  if (!frame || frame.overrides.length === 0) return changes;
  return changes.flatMap((change): DocumentChange[] => {
    if (change.op !== 'update' || change.collection === 'camera') return [change];
    const { collection, id } = change;
    const override = frame.overrides.find((entry) => entry.collection === collection && entry.id === id);
    if (!override) return [change];
    const entries = Object.entries(change.patch);
    const ofFrame = entries.filter(([key]) => Object.hasOwn(override.patch, key));
    const shared = entries.filter(([key]) => !Object.hasOwn(override.patch, key));
    return [
      ...(shared.length > 0 ? [{ ...change, patch: Object.fromEntries(shared) }] : []),
      ...(ofFrame.length > 0
        ? [{ op: 'override' as const, frameId: frame.id, collection, id, patch: Object.fromEntries(ofFrame) }]
        : []),
    ];
  });
}
