import { isEqualData, isPlainObject, type PlainObject } from './plainData.ts';

/**
 * JSON Merge Patch, RFC 7396: fields of the patch replace fields of the target, objects merge, lists are replaced
 * whole, and null takes a field away. `undefined` counts as null, for patches made in code.
 */
export function applyMergePatch(target: unknown, patch: unknown): unknown {
  if (!isPlainObject(patch)) return patch;
  const result = new Map(isPlainObject(target) ? Object.entries(target) : []);
  for (const [key, value] of Object.entries(patch)) {
    if (value === null || value === undefined) result.delete(key);
    else result.set(key, applyMergePatch(result.get(key), value));
  }
  return Object.fromEntries(result);
}

/**
 * The smallest merge patch that turns `from` into `to`. Exact where `to` holds no null, which no record of a setup
 * does: applyMergePatch(from, createMergePatch(from, to)) equals `to`.
 */
export function createMergePatch(from: object, to: object): PlainObject {
  const before = new Map<string, unknown>(Object.entries(from));
  const patch = new Map<string, unknown>();
  for (const key of before.keys()) if (!Object.hasOwn(to, key)) patch.set(key, null);
  for (const [key, value] of Object.entries(to)) {
    const old = before.get(key);
    if (isEqualData(old, value)) continue;
    patch.set(key, isPlainObject(old) && isPlainObject(value) ? createMergePatch(old, value) : value);
  }
  return Object.fromEntries(patch);
}
