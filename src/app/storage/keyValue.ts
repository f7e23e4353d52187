import type { Result } from '../../core/result.ts';

/** Why this browser did not keep something; `message` is one sentence with the mend. */
export interface StorageFault {
  readonly kind: 'full' | 'blocked' | 'failed';
  readonly message: string;
}

/** Texts under keys that outlive the page. A write happens whole or not at all as far as the browser keeps its word. */
export interface KeyValueStorage {
  /** Null when nothing is there. */
  read(key: string): Promise<Result<string | null, StorageFault>>;
  write(key: string, text: string): Promise<Result<void, StorageFault>>;
  remove(key: string): Promise<Result<void, StorageFault>>;
}

/** The same without waiting, for the last moment of a page. Room is small. */
export interface InstantStorage {
  readNow(key: string): Result<string | null, StorageFault>;
  writeNow(key: string, text: string): Result<void, StorageFault>;
  removeNow(key: string): void;
}

/** Puts what a browser threw into words. */
export function storageFaultFrom(error: unknown): StorageFault {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  if (name === 'QuotaExceededError') {
    return { kind: 'full', message: 'This browser has no room left for autosave: save the setup to a file.' };
  }
  if (name === 'SecurityError' || name === 'InvalidStateError') {
    return { kind: 'blocked', message: 'This browser lets no site keep data now: save the setup to a file.' };
  }
  return { kind: 'failed', message: 'Autosave did not work just now: save the setup to a file to be safe.' };
}
