/** Helpers for plain JSON-like data: the only kind of data that a setup holds. */
export type PlainObject = Readonly<Record<string, unknown>>;

export const isPlainObject = (value: unknown): value is PlainObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Equal as data: same keys, same order of arrays, numbers by Object.is except that 0 and -0 are one. */
export function isEqualData(a: unknown, b: unknown): boolean {
  if (a === b || Object.is(a, b)) return true;
  if (Array.isArray(a)) {
    return Array.isArray(b) && a.length === b.length && a.every((value, i) => isEqualData(value, b[i]));
  }
  if (!isPlainObject(a) || !isPlainObject(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && isEqualData(a[key], b[key]))
  );
}

/**
 * A copy fit for the document: fields that are `undefined` are left out and -0 becomes 0, because a file can hold
 * neither (so that saving and opening gives back exactly the same data).
 */
export function cleanData(value: unknown): unknown {
  if (value === 0) return 0;
  if (Array.isArray(value)) return value.map(cleanData);
  if (!isPlainObject(value)) return value;
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, field]) => field !== undefined)
      .map(([key, field]) => [key, cleanData(field)]),
  );
}

/** Freezes a value and all in it; stops at what is frozen already, so shared records cost nothing. */
export function freezeDeep<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    for (const field of Object.values(value)) freezeDeep(field);
    Object.freeze(value);
  }
  return value;
}

/**
 * `next`, with every part that equals the same part of `previous` replaced by that very object. A view that compares
 * by identity then redraws only what differs; an edit that changes nothing gives back `previous` itself.
 */
export function shareStructure<T>(previous: unknown, next: T): T {
  return shareValue(previous, next) as T;
}

function shareValue(previous: unknown, next: unknown): unknown {
  if (previous === next) return previous;
  if (isEqualData(previous, next)) return previous;
  if (Array.isArray(next)) {
    return Array.isArray(previous) ? next.map((value, i) => shareValue(previous[i], value)) : next;
  }
  if (isPlainObject(next) && isPlainObject(previous)) {
    return Object.fromEntries(Object.entries(next).map(([key, value]) => [key, shareValue(previous[key], value)]));
  }
  return next;
}
