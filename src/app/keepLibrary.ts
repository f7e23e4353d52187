import { isEqualData } from '../document/plainData.ts';
import type { Setup } from '../document/setup.ts';
import { traceStore } from '../views/frame/index.ts';
import { documentStore, type KeptSetup, sessionStore } from '../views/session/index.ts';
import { pictureOfFrame } from './storage/pictureOfFrame.ts';
import type { SetupLibrary } from './storage/setupLibrary.ts';

const OPEN_ID_KEY = 'keyglass:open-setup';
const AFTER_CHANGE_MS = 1500;
/** From this many samples the small picture of a setup is worth taking. */
const PICTURE_SAMPLES = 16;
const PICTURE_AFTER_MS = 1200;
/** Setups that have made way and whose id is remembered. */
const MOST_LEFT = 8;

/** The setups of this browser as the page deals with them: which is open, and how they are kept as they change. */
export interface LibraryKeeper {
  list(): Promise<readonly KeptSetup[]>;
  openId(): string;
  read(id: string): ReturnType<SetupLibrary['read']>;
  /** Says under which id the setup that is about to be loaded is kept; a new one when left out. */
  nextIs(id?: string): void;
  copy(id: string): Promise<void>;
  rename(id: string, title: string): Promise<void>;
  /** @returns puts it back. */
  remove(id: string): Promise<() => Promise<void>>;
  /** Keeps the open setup now, also when nothing of it has been changed. */
  keepNow(): Promise<void>;
}

const freshId = (): string => crypto.randomUUID();

/**
 * Keeps what is worked on among the setups of this browser. A demo is kept from the first change on; what was made here is
 * kept at once.
 *
 * @param isRestored the setup that is open came from what this browser kept
 */
export function keepLibrary(library: SetupLibrary, isRestored: boolean): LibraryKeeper {
  // What was restored is the setup that was open last; anything else must not be kept in its place.
  let openId = (isRestored ? readOpenId() : null) ?? freshId();
  const left: { readonly setup: Setup; readonly id: string }[] = [];
  let nextId: string | null = null;
  let keptSetup: Setup | null = null;
  let unspoilt: Setup | null = documentStore.getState().setup;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let pictureTimer: ReturnType<typeof setTimeout> | undefined;
  writeOpenId(openId);

  const put = async () => {
    clearTimeout(timer);
    timer = undefined;
    const { setup, readOnlyReason } = documentStore.getState();
    if (readOnlyReason !== undefined || setup === keptSetup) return;
    keptSetup = setup;
    await library.put(openId, setup, Date.now());
  };
  const later = () => {
    timer ??= setTimeout(() => void put(), AFTER_CHANGE_MS);
  };

  documentStore.subscribe((state, before) => {
    if (state.loadCount !== before.loadCount) {
      // What made way was changed a moment ago: it is kept as it was left.
      if (timer !== undefined) {
        clearTimeout(timer);
        timer = undefined;
        void library.put(openId, before.setup, Date.now());
      }
      left.push({ setup: before.setup, id: openId });
      if (left.length > MOST_LEFT) left.shift();
      // The way back to what has made way leads to the same kept setup.
      openId = nextId ?? left.findLast((entry) => isEqualData(entry.setup, state.setup))?.id ?? freshId();
      nextId = null;
      writeOpenId(openId);
      keptSetup = null;
      unspoilt = state.setup;
      clearTimeout(pictureTimer);
      return;
    }
    if (state.setup !== before.setup && state.setup !== unspoilt) later();
  });

  traceStore.subscribe((state, before) => {
    if (state.samples < PICTURE_SAMPLES || (before.samples >= PICTURE_SAMPLES && state.phase === before.phase)) return;
    clearTimeout(pictureTimer);
    pictureTimer = setTimeout(() => {
      const { setup } = documentStore.getState();
      const isFirst = sessionStore.getState().frameId === setup.frames[0].id;
      const picture = isFirst && keptSetup !== null ? pictureOfFrame() : null;
      if (picture) void library.putPicture(openId, picture);
    }, PICTURE_AFTER_MS);
  });

  return {
    async list() {
      await put0();
      const entries = await library.list();
      return Promise.all(
        entries.map(async (entry) => ({
          ...entry,
          picture: await library.readPicture(entry.id),
          open: entry.id === openId,
        })),
      );
    },
    openId: () => openId,
    read: (id) => library.read(id),
    nextIs(id) {
      nextId = id ?? freshId();
    },
    async copy(id) {
      const setup = await library.read(id);
      if (!setup.ok) return;
      const copyId = freshId();
      const title = `${setup.value.title}, copy`.slice(0, 120);
      await library.put(copyId, { ...setup.value, title }, Date.now());
      const picture = await library.readPicture(id);
      if (picture) await library.putPicture(copyId, picture);
    },
    async rename(id, title) {
      if (id === openId) {
        documentStore.apply('Title', [{ op: 'setTitle', title }]);
        await put();
        return;
      }
      const setup = await library.read(id);
      if (setup.ok) await library.put(id, { ...setup.value, title }, Date.now());
    },
    async remove(id) {
      const [setup, picture] = [await library.read(id), await library.readPicture(id)];
      await library.remove(id);
      return async () => {
        if (!setup.ok) return;
        await library.put(id, setup.value, Date.now());
        if (picture) await library.putPicture(id, picture);
      };
    },
    keepNow: put,
  };

  /** Before the list is shown, a change that still waits is kept. */
  async function put0(): Promise<void> {
    if (timer !== undefined) await put();
  }
}

function readOpenId(): string | null {
  try {
    return localStorage.getItem(OPEN_ID_KEY);
  } catch {
    return null;
  }
}

function writeOpenId(id: string): void {
  try {
    localStorage.setItem(OPEN_ID_KEY, id);
  } catch {
    // Without it a reload keeps the open setup under another id: one copy more, nothing lost.
  }
}
