import type { InstantStorage, KeyValueStorage, StorageFault } from '../../../src/app/storage/keyValue.ts';
import { fail, ok, type Result } from '../../../src/core/result.ts';

/** A browser's storage in memory. What is in `texts` outlives whatever used it, as on a disk. */
export class FakeStorage implements KeyValueStorage, InstantStorage {
  readonly texts = new Map<string, string>();
  readonly written: { readonly key: string; readonly atMs: number }[] = [];
  fault: StorageFault | null = null;
  /** The next write stores this share of its text, and the page stops there: the write never comes back. */
  crashAtShare: number | null = null;
  writeDelayMs = 0;
  writing = 0;
  mostWritingAtOnce = 0;

  readNow(key: string): Result<string | null, StorageFault> {
    return this.fault ? fail(this.fault) : ok(this.texts.get(key) ?? null);
  }

  writeNow(key: string, text: string): Result<void, StorageFault> {
    if (this.fault) return fail(this.fault);
    this.written.push({ key, atMs: Date.now() });
    this.texts.set(key, text);
    return ok(undefined);
  }

  removeNow(key: string): void {
    this.texts.delete(key);
  }

  async remove(key: string): Promise<Result<void, StorageFault>> {
    if (this.fault) return fail(this.fault);
    this.texts.delete(key);
    return ok(undefined);
  }

  read = async (key: string): Promise<Result<string | null, StorageFault>> => this.readNow(key);

  async write(key: string, text: string): Promise<Result<void, StorageFault>> {
    this.writing += 1;
    this.mostWritingAtOnce = Math.max(this.mostWritingAtOnce, this.writing);
    if (this.writeDelayMs > 0) await new Promise((resolve) => setTimeout(resolve, this.writeDelayMs));
    if (this.crashAtShare !== null) {
      this.texts.set(key, text.slice(0, Math.floor(text.length * this.crashAtShare)));
      return new Promise(() => undefined);
    }
    this.writing -= 1;
    return this.writeNow(key, text);
  }
}

export const FULL: StorageFault = { kind: 'full', message: 'No room.' };
