import { distance, type Vec3 } from '../../core/vec3.ts';
import { meetsBoxes, type SetChange } from './setChange.ts';

/** Light on one side of a place as far as it was asked for; NaN where it was not, or no longer holds. */
export interface KeptSide {
  /** By emitter, at full output: lx, or whatever the user of the place weighs it by. */
  readonly lux: Float64Array;
  /** By patch: how much of it the place sees. */
  readonly reach: Float64Array;
}

/** What a rough surface shows of one sheet: working RGB, cd/m2 under the gains, and the point of it that gives most. */
export interface SheetSheen {
  readonly surfaceIndex: number;
  readonly pointM: Vec3;
  readonly rgb: Float64Array;
  /** Part of it that comes with no glass in the way. */
  readonly unbent: number;
}

/** Words of a sheen: working RGB, cd/m2, and the part of it that comes with no glass in the way, 0..1. */
export const SHEEN_WORDS = 4;

/** A place whose light is kept from one run to the next. World, metres. */
export interface KeptPlace {
  readonly pointM: Vec3;
  readonly axis: Vec3;
  readonly toViewer: Vec3;
  readonly front: KeptSide;
  /** Made when first asked for. */
  back: KeptSide | null;
  /** Sheen toward the viewer under the gains, emitters x `SHEEN_WORDS`; NaN as above. */
  sheen: Float64Array | null;
  /** Sheen of bounce cards, cloths and shades in this run, for its user to fill; good once `isLit`. */
  sheetSheens: readonly SheetSheen[];
  /** Sum of all under the gains of this run, for its user to fill; good once `isLit`. */
  readonly light: Float64Array;
  isLit: boolean;
  /** Number of the run that used it last. */
  run: number;
}

/** What a place can see of a patch: it is kept while the patch stays the same. */
export interface PatchPlace {
  readonly surfaceIndex: number;
  readonly pointM: Vec3;
  readonly normal: Vec3;
  readonly areaM2: number;
  readonly cornersM: readonly Vec3[];
}

/** Places of one kind of use, by a number that its user chooses. */
export interface PlaceStore {
  /** Must be called in each run before `at`. */
  setPatches(patches: readonly PatchPlace[]): void;
  /**
   * The place under a key. In one run the first asker decides where it is; a place kept from an earlier run is used again
   * only where it stands just there. Under a key less than 0 nothing is kept.
   */
  at(key: number, pointM: Vec3, axis: Vec3, toViewer?: Vec3): KeptPlace;
  isOfThisRun(place: KeptPlace): boolean;
  backOf(place: KeptPlace): KeptSide;
  sheenOf(place: KeptPlace): Float64Array;
}

/** A store with the call that begins a run: forgets what a change touches, or all of it. */
export interface RunningPlaceStore extends PlaceStore {
  begin(run: number, emitterCount: number, change: SetChange | null): void;
}

/** Places that so many runs have not asked for are dropped. */
const IDLE_RUNS = 4;
/** Colour channels of the three sums: this side, the other, sheen. */
const LIGHT_WORDS = 9;
const NOWHERE: Vec3 = [0, 0, 0];

export function createPlaceStore(): RunningPlaceStore {
  const places = new Map<number, KeptPlace>();
  let runNow = 0;
  let emitterCount = 0;
  let patches: readonly PatchPlace[] = [];
  let patchRadiiM: readonly number[] = [];

  const unknown = (length: number): Float64Array => new Float64Array(length).fill(Number.NaN);
  const sideOf = (): KeptSide => ({ lux: unknown(emitterCount), reach: unknown(patches.length) });

  const forget = (place: KeptPlace, { emitters, gains, boxes, balls }: SetChange): void => {
    const { pointM, front, back, sheen } = place;
    for (let i = 0; i < emitterCount; i++) {
      const isKnown =
        isNumber(front.lux[i]) || (back && isNumber(back.lux[i])) || (sheen && isNumber(sheen[i * SHEEN_WORDS]));
      if (!isKnown) continue;
      const isGone = emitters[i] || meetsBoxes(boxes, pointM, balls[i].centreM, balls[i].radiusM);
      if (isGone) {
        front.lux[i] = Number.NaN;
        if (back) back.lux[i] = Number.NaN;
      }
      if (sheen && (isGone || gains[i])) sheen[i * SHEEN_WORDS] = Number.NaN;
    }
    for (let i = 0; i < patches.length; i++) {
      if (!isNumber(front.reach[i]) && !(back && isNumber(back.reach[i]))) continue;
      if (!meetsBoxes(boxes, pointM, patches[i].pointM, patchRadiiM[i])) continue;
      front.reach[i] = Number.NaN;
      if (back) back.reach[i] = Number.NaN;
    }
  };

  return {
    begin(run, count, change) {
      runNow = run;
      if (!change || count !== emitterCount) places.clear();
      emitterCount = count;
      if (!change) return;
      const changesLight = change.boxes.length > 0 || change.emitters.includes(1) || change.gains.includes(1);
      for (const [key, place] of places) {
        if (run - place.run > IDLE_RUNS) places.delete(key);
        else if (changesLight) forget(place, change);
      }
    },
    setPatches(given) {
      if (given === patches) return;
      if (given.length !== patches.length) places.clear();
      else {
        const changed = given.flatMap((patch, i) => (isSamePatch(patch, patches[i]) ? [] : [i]));
        if (changed.length > 0)
          for (const { front, back } of places.values()) {
            for (const i of changed) {
              front.reach[i] = Number.NaN;
              if (back) back.reach[i] = Number.NaN;
            }
          }
      }
      patches = given;
      patchRadiiM = given.map(({ pointM, cornersM }) =>
        cornersM.reduce((most, corner) => Math.max(most, distance(corner, pointM)), 0),
      );
    },
    at(key, pointM, axis, toViewer = NOWHERE) {
      const known = key >= 0 ? places.get(key) : undefined;
      if (known?.run === runNow) return known;
      if (known && isAt(known.pointM, pointM) && isAt(known.axis, axis) && isAt(known.toViewer, toViewer)) {
        known.run = runNow;
        known.isLit = false;
        return known;
      }
      const place: KeptPlace = {
        pointM,
        axis,
        toViewer,
        front: sideOf(),
        back: null,
        sheen: null,
        sheetSheens: [],
        light: new Float64Array(LIGHT_WORDS),
        isLit: false,
        run: runNow,
      };
      if (key >= 0) places.set(key, place);
      return place;
    },
    isOfThisRun: (place) => place.run === runNow,
    backOf(place) {
      place.back ??= sideOf();
      return place.back;
    },
    sheenOf(place) {
      place.sheen ??= unknown(emitterCount * SHEEN_WORDS);
      return place.sheen;
    },
  };
}

/** False for NaN, which says that a value is not known. */
const isNumber = (value: number): boolean => !Number.isNaN(value);

const isAt = (a: Vec3, b: Vec3): boolean => a[0] === b[0] && a[1] === b[1] && a[2] === b[2];

const isSamePatch = (a: PatchPlace, b: PatchPlace): boolean =>
  a.surfaceIndex === b.surfaceIndex &&
  a.areaM2 === b.areaM2 &&
  isAt(a.pointM, b.pointM) &&
  isAt(a.normal, b.normal) &&
  a.cornersM.length === b.cornersM.length &&
  a.cornersM.every((corner, i) => isAt(corner, b.cornersM[i]));
