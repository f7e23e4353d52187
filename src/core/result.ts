/** Expected failures (files, forms, imports) come back as values; see {@link invariant} for programmer mistakes. */
export type Result<T, E> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly error: E };

export const ok = <T>(value: T): Result<T, never> => ({ ok: true, value });
export const fail = <E>(error: E): Result<never, E> => ({ ok: false, error });

/** Throws when a condition that the code itself must guarantee does not hold. */
export function invariant(condition: unknown, message: () => string): asserts condition {
  if (!condition) throw new Error(`Invariant broken: ${message()}`);
}

/** For exhaustive switches. */
export function assertNever(value: never): never {
  throw new Error(`Unhandled case: ${JSON.stringify(value)}`);
}
