/** Remembers the last call: the same arguments (by identity) give the same object back. */
export function memoizeLast<Args extends readonly unknown[], R>(compute: (...args: Args) => R): (...args: Args) => R {
  let lastArgs: Args | null = null;
  let lastResult: R;
  return (...args) => {
    if (lastArgs === null || args.length !== lastArgs.length || args.some((arg, i) => arg !== lastArgs?.[i])) {
      lastResult = compute(...args);
      lastArgs = args;
    }
    return lastResult;
  };
}
