import { fail, invariant, ok, type Result } from '../../core/result.ts';
import { parseSetup, type SetupError, serializeSetup } from '../../document/codec.ts';
import { hashText } from '../../document/hash.ts';
import type { Setup } from '../../document/setup.ts';
import type { StorageFault } from './keyValue.ts';
import type { OpenedStorage } from './openStorage.ts';

const KEY_PREFIX = 'keyglass:setup:';
/** Two generations written in turn, so that one whole copy is there whatever happens to the other. */
type Slot = 'a' | 'b';
const PARTING_KEY = `${KEY_PREFIX}parting`;
const PREVIOUS_KEY = `${KEY_PREFIX}previous`;
/** Where a copy that this version can't read is laid before its slot is used again. */
const ASIDE_PREFIX = `${KEY_PREFIX}set-aside:`;

export interface KeptSetup {
  readonly setup: Setup;
  readonly savedAtMs: number;
}

export interface Restored {
  /** Newest readable copy; null when there is none. */
  readonly kept: KeptSetup | null;
  /** Why a copy that is newer than `kept` could not be read, if so; it is set aside, not lost. */
  readonly unreadable?: SetupError | { readonly kind: 'damaged'; readonly message: string };
}

interface Copy extends KeptSetup {
  readonly sequence: number;
}

type SlotContent =
  | { readonly state: 'empty' }
  | { readonly state: 'readable'; readonly copy: Copy }
  | { readonly state: 'unreadable'; readonly text: string; readonly error: NonNullable<Restored['unreadable']> };

/** Reads and writes the generations of one browser. Call `restore` before the first `save`. */
export interface Generations {
  restore(): Promise<Result<Restored, StorageFault>>;
  /** Writes over the older generation, or the unreadable one once it is set aside; never over the only good copy. */
  save(setup: Setup, nowMs: number): Promise<Result<void, StorageFault>>;
  /** At once, for a page that is about to go; the next restore takes it if it is the newest. */
  saveParting(setup: Setup, nowMs: number): Result<void, StorageFault>;
  /** Keeps a setup aside that another one is about to take the place of. */
  keepPrevious(setup: Setup, nowMs: number): Promise<Result<void, StorageFault>>;
  readPrevious(): Promise<Result<KeptSetup | null, StorageFault>>;
}

export function createGenerations({ main, parting }: OpenedStorage): Generations {
  let restored = false;
  let sequence = 0;
  let partingSequence = 0;
  let nextSlot: Slot = 'a';
  /** Unreadable texts that must be set aside before their slot is written over. */
  const unreadableTexts = new Map<Slot, string>();

  const readSlot = async (key: string): Promise<Result<SlotContent, StorageFault>> => {
    const text = await main.read(key);
    return text.ok ? ok(readCopy(text.value)) : text;
  };

  return {
    async restore() {
      const a = await readSlot(`${KEY_PREFIX}a`);
      if (!a.ok) return a;
      const b = await readSlot(`${KEY_PREFIX}b`);
      if (!b.ok) return b;
      const partingText = parting.readNow(PARTING_KEY);
      const last: SlotContent = partingText.ok ? readCopy(partingText.value) : { state: 'empty' };

      sequence = Math.max(0, ...[a.value, b.value, last].map(sequenceOf));
      // The slot with the newest readable copy is spared; an empty one is taken before an unreadable one.
      nextSlot = sequenceOf(a.value) > sequenceOf(b.value) ? 'b' : 'a';
      if (a.value.state === 'unreadable') unreadableTexts.set('a', a.value.text);
      if (b.value.state === 'unreadable') unreadableTexts.set('b', b.value.text);
      restored = true;

      const readable = [a.value, b.value, last].filter((content) => content.state === 'readable');
      const newest = readable.map((content) => content.copy).sort((x, y) => y.sequence - x.sequence)[0];
      const unreadable = [a.value, b.value].find((content) => content.state === 'unreadable');
      return ok({
        kept: newest ? { setup: newest.setup, savedAtMs: newest.savedAtMs } : null,
        ...(unreadable ? { unreadable: unreadable.error } : {}),
      });
    },

    async save(setup, nowMs) {
      invariant(restored, () => 'restore() comes before save(), or a newer copy could be taken for an older one');
      const slot = nextSlot;
      const unreadable = unreadableTexts.get(slot);
      if (unreadable !== undefined) {
        const aside = await main.write(`${ASIDE_PREFIX}${slot}`, unreadable);
        if (!aside.ok) return aside;
        unreadableTexts.delete(slot);
      }
      sequence += 1;
      const ownSequence = sequence;
      const copy = writeCopy({ setup, savedAtMs: nowMs, sequence: ownSequence });
      const written = await main.write(`${KEY_PREFIX}${slot}`, copy);
      if (!written.ok) return written;
      nextSlot = slot === 'a' ? 'b' : 'a';
      if (partingSequence < ownSequence) parting.removeNow(PARTING_KEY);
      return written;
    },

    saveParting(setup, nowMs) {
      invariant(restored, () => 'restore() comes before saveParting()');
      sequence += 1;
      partingSequence = sequence;
      return parting.writeNow(PARTING_KEY, writeCopy({ setup, savedAtMs: nowMs, sequence }));
    },

    keepPrevious: (setup, nowMs) => main.write(PREVIOUS_KEY, writeCopy({ setup, savedAtMs: nowMs, sequence: 0 })),

    async readPrevious() {
      const content = await readSlot(PREVIOUS_KEY);
      if (!content.ok) return content;
      return ok(content.value.state === 'readable' ? content.value.copy : null);
    },
  };
}

/** Empty slots sort before unreadable ones, and both before readable ones. */
const sequenceOf = (content: SlotContent): number => {
  if (content.state === 'readable') return content.copy.sequence;
  return content.state === 'empty' ? -2 : -1;
};

/** First line: sequence, time, check digits of the rest; then the text of a setup file. */
const writeCopy = ({ setup, savedAtMs, sequence }: Copy): string => {
  const text = serializeSetup(setup);
  return `${sequence} ${savedAtMs} ${hashText(text)}\n${text}`;
};

function readCopy(stored: string | null): SlotContent {
  if (stored === null) return { state: 'empty' };
  const [, sequence, savedAtMs, check, text] = /^(\d{1,15}) (\d{1,15}) ([0-9a-f]{16})\n([\s\S]*)$/.exec(stored) ?? [];
  if (text === undefined || hashText(text) !== check) {
    const message = 'The last autosaved copy is damaged, perhaps cut short when the browser stopped.';
    return { state: 'unreadable', text: stored, error: { kind: 'damaged', message } };
  }
  const parsed = parseSetup(text);
  if (!parsed.ok) return { state: 'unreadable', text: stored, error: parsed.error };
  return {
    state: 'readable',
    copy: { setup: parsed.value.setup, savedAtMs: Number(savedAtMs), sequence: Number(sequence) },
  };
}

/** For a browser that keeps nothing: every save says so. */
export function createNoGenerations(): Generations {
  const fault: StorageFault = {
    kind: 'blocked',
    message: 'This browser keeps no data, so there is no autosave: save the setup to a file.',
  };
  return {
    restore: async () => ok({ kept: null }),
    save: async () => fail(fault),
    saveParting: () => fail(fault),
    keepPrevious: async () => fail(fault),
    readPrevious: async () => ok(null),
  };
}
