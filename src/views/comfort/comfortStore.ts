import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';

/** How a person likes the program: never in a setup, never undone, kept in this browser. */
export interface Comfort {
  /** 'system' follows what the machine is set to. */
  readonly room: 'dim' | 'bright' | 'system';
  /** Lengths that a tape measures; lenses, glass walls and the like stay in millimetres. */
  readonly lengths: 'metric' | 'feet';
}

const STORAGE_KEY = 'keyglass:comfort';
const ROOMS: readonly unknown[] = ['dim', 'bright', 'system'] satisfies Comfort['room'][];
const LENGTHS: readonly unknown[] = ['metric', 'feet'] satisfies Comfort['lengths'][];
const USUAL: Comfort = { room: 'dim', lengths: 'metric' };

export const comfortStore = createStore<Comfort>(() => USUAL);

export const useComfort = <T>(select: (comfort: Comfort) => T): T => useStore(comfortStore, select);

/** Takes up what was kept in this browser, paints the room, and keeps both up. Call once, before the first picture. */
export function keepComfort(): void {
  comfortStore.setState(readKept());
  const systemIsBright = window.matchMedia('(prefers-color-scheme: light)');
  const paint = (): void => {
    const { room } = comfortStore.getState();
    const isBright = room === 'bright' || (room === 'system' && systemIsBright.matches);
    document.documentElement.dataset.room = isBright ? 'bright' : 'dim';
  };
  paint();
  systemIsBright.addEventListener('change', paint);
  comfortStore.subscribe((comfort) => {
    paint();
    try {
      localStorage.setItem(STORAGE_KEY, JSON.stringify(comfort));
    } catch {
      // A full or forbidden storage costs the choice, nothing else.
    }
  });
}

function readKept(): Comfort {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(STORAGE_KEY) ?? '{}');
    if (typeof kept !== 'object' || kept === null) return USUAL;
    const { room, lengths } = kept as Record<string, unknown>;
    return {
      room: ROOMS.includes(room) ? (room as Comfort['room']) : USUAL.room,
      lengths: LENGTHS.includes(lengths) ? (lengths as Comfort['lengths']) : USUAL.lengths,
    };
  } catch {
    return USUAL;
  }
}
