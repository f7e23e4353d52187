import { describe, expect, it } from 'vitest';
import { hexFromRec709 } from '../../../src/core/color/index.ts';
import { applyChanges } from '../../../src/document/changes.ts';
import { emptySetup } from '../../../src/document/defaults.ts';
import { resolveFrame } from '../../../src/document/resolveFrame.ts';
import type { Setup } from '../../../src/document/setup.ts';
import { FIXTURE_PRESETS, fixtureFromPreset, GRIP_PRESETS, gripFromPreset } from '../../../src/fixtures/catalog.ts';
import { drinkVolumeMl } from '../../../src/scene/drinkVolume.ts';
import {
  defaultBubbles,
  defaultCondensation,
  defaultDrink,
  defaultFoam,
  defaultGarnish,
  defaultGlass,
  defaultGlassCut,
  defaultIceOf,
  defaultLabel,
  defaultPiece,
  defaultRimCrust,
  defaultStopper,
  GARNISH_KINDS,
  GLASS_SHAPES,
  PIECE_KINDS,
} from '../../../src/scene/pieceDefaults.ts';
import type { Field, RecordSheet } from '../../../src/views/inspector/fields.ts';
import { linearFromHex } from '../../../src/views/inspector/hexColour.ts';
import { levaValue, patchFromLeva } from '../../../src/views/inspector/levaSchema.ts';
import { sheetOf } from '../../../src/views/inspector/sheetOf.ts';
import { CAMERA_ID } from '../../../src/views/session/index.ts';

const place = (id: string) => ({ id, name: id, positionM: [0.5, 0.6, 0], aimM: [0, 0.1, 0] }) as const;

/** A glass with everything in it and on it that there is. */
const fullGlass = () => ({
  ...defaultGlass('tumbler', 'k-all'),
  frost: 0.2,
  cut: defaultGlassCut(),
  label: defaultLabel(),
  stopper: defaultStopper(),
  rimCrust: defaultRimCrust(),
  condensation: { ...defaultCondensation(), bottomM: 0.02, topM: 0.08, wiped: FIRST_WIPE },
  garnish: GARNISH_KINDS.map((kind) => defaultGarnish(kind)),
  ice: { ...defaultIceOf('block'), meltMin: 5, cloudyCore: 0.3 },
  drink: {
    ...defaultDrink(),
    scatteringPerM: [10, 12, 14],
    anisotropy: 0.5,
    foam: defaultFoam(),
    bubbles: defaultBubbles(),
    layers: [{ name: 'Float', index: 1.34, absorptionPerM: [1, 2, 3], share: 0.2 }],
  },
});
const FIRST_WIPE = { bottomM: 0.03, topM: 0.05, azimuthDeg: 90, spanDeg: 120 };

/** Every kind of record that there is. */
function fullSetup(): Setup {
  const base = emptySetup();
  const setup = applyChanges(base, [
    ...FIXTURE_PRESETS.map((preset) => ({
      op: 'add' as const,
      collection: 'fixtures' as const,
      record: fixtureFromPreset(preset, { ...place(preset.id), positionM: [0.5, 0.6, 0], aimM: [0, 0.1, 0] }),
    })),
    ...GRIP_PRESETS.map((preset) => ({
      op: 'add' as const,
      collection: 'grip' as const,
      record: gripFromPreset(preset, { ...place(preset.id), positionM: [0.5, 0.6, 0], aimM: [0, 0.1, 0] }),
    })),
    ...PIECE_KINDS.map((kind) => ({
      op: 'add' as const,
      collection: 'pieces' as const,
      record: defaultPiece(kind, `k-${kind}`),
    })),
    ...GLASS_SHAPES.map((shape) => ({
      op: 'add' as const,
      collection: 'pieces' as const,
      record: defaultGlass(shape, `g-${shape}`),
    })),
    { op: 'add', collection: 'pieces', record: fullGlass() },
    {
      op: 'add',
      collection: 'pieces',
      record: { ...defaultPiece('plinthBox', 'k-clear'), finish: { type: 'clear', roughness: 0.1 } },
    },
  ]);
  if (!setup.ok) throw new Error(setup.error[0]?.message);
  return setup.value;
}

const sheetIn = (setup: Setup, recordId: string): RecordSheet => {
  const scene = resolveFrame(setup, 'frame:1');
  const sheet = scene.ok ? sheetOf(scene.value, recordId, setup.frames[0]) : null;
  if (!sheet) throw new Error(`no sheet for ${recordId}`);
  return sheet;
};

const fieldOf = (sheet: RecordSheet, key: string): Field => {
  const field = sheet.groups.flatMap((group) => group.fields).find((entry) => entry.key === key);
  if (!field) throw new Error(`no field ${key}`);
  return field;
};

const enter = (setup: Setup, recordId: string, key: string, value: unknown): Setup => {
  const sheet = sheetIn(setup, recordId);
  const patch = patchFromLeva(fieldOf(sheet, key), value);
  if (patch === null) throw new Error(`${key} does not take ${String(value)}`);
  const changed = applyChanges(setup, [sheet.change(patch)]);
  if (!changed.ok) throw new Error(changed.error[0]?.message);
  return changed.value;
};

const recordIn = (setup: Setup, id: string): object => {
  const lists: readonly (readonly { readonly id: string }[])[] = [setup.pieces, setup.fixtures, setup.grip];
  const record = lists.flat().find((entry) => entry.id === id);
  if (!record) throw new Error(`no record ${id}`);
  return record;
};

/** 'drink.index' for every plain value of a record or patch. */
const pathsOf = (part: unknown, before = ''): string[] =>
  typeof part === 'object' && part !== null
    ? Object.entries(part).flatMap(([key, value]) => pathsOf(value, before === '' ? key : `${before}.${key}`))
    : [before];
const valueAtPath = (part: unknown, path: string): unknown =>
  path.split('.').reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], part);
/** A point or a colour is one field. */
const withoutPlace = (path: string): string => path.replace(/(Rgb|positionM|aimM)\.\d$/, '$1');

/** The patch for another value than the one that a field shows. */
function otherThan(field: Field): object {
  switch (field.type) {
    case 'number': {
      const low = field.min ?? field.value - 1;
      const other = field.value > low ? (field.value + low) / 2 : ((field.max ?? low + 1) + low) / 2;
      return field.patch(other);
    }
    case 'toggle':
      return field.patch(!field.value);
    case 'colour':
    case 'point':
      return field.patch([0.1, 0.2, 0.3]);
    case 'text':
      return field.patch('Another');
    default:
      return {};
  }
}

describe('sheets of the inspector', () => {
  const setup = fullSetup();
  const ids = [
    CAMERA_ID,
    ...[setup.fixtures, setup.grip, setup.pieces].flatMap((list: readonly { id: string }[]) =>
      list.map(({ id }) => id),
    ),
  ];

  it('has a sheet for every kind of record, with keys that differ from one another', () => {
    for (const id of ids) {
      const keys = sheetIn(setup, id).groups.flatMap((group) => group.fields.map((field) => field.key));
      expect(new Set(keys).size).toBe(keys.length);
      expect(keys.length).toBeGreaterThan(2);
      // A fitting that is off has its switch, and no second one.
      expect(keys.filter((key) => key.startsWith('grid')).length).toBeLessThan(2);
    }
  });

  it('changes nothing when any field is given back the value that it shows, colours aside', () => {
    for (const id of ids) {
      for (const { fields } of sheetIn(setup, id).groups) {
        for (const field of fields) {
          // 8-bit colours cannot hold a linear value exactly; a choice sets out its own defaults.
          if (field.type === 'colour' || field.type === 'choice') continue;
          expect(enter(setup, id, field.key, levaValue(field)), `${id} ${field.key}`).toEqual(setup);
        }
      }
    }
  });

  it('takes every option of every choice, and shows it afterwards', () => {
    const tried = new Set<string>();
    for (const id of ids) {
      for (const { fields } of sheetIn(setup, id).groups) {
        for (const field of fields) {
          if (field.type !== 'choice') continue;
          // A whole library is gone through once, not on every piece.
          const isLong = Object.keys(field.options).length > 10;
          if (isLong && tried.has(field.key)) continue;
          tried.add(field.key);
          for (const option of Object.values(field.options)) {
            // A line of a list that is emptied gives its place to the next one.
            if (option === 'none' && field.key.startsWith('garnish')) continue;
            const chosen = enter(setup, id, field.key, option);
            expect(fieldOf(sheetIn(chosen, id), field.key).value, `${id} ${field.key} ${option}`).toBe(option);
          }
        }
      }
    }
  });

  it('takes 90 cm as 0.9 m, 62 mm as 0.062 m and a point in centimetres', () => {
    const widened = enter(setup, 'panel-60x30', 'widthM', 90);
    expect(widened.fixtures.find(({ id }) => id === 'panel-60x30')).toMatchObject({ widthM: 0.9 });
    const glass = enter(setup, 'g-highball', 'profile-rimDiameterM', 62);
    expect(glass.pieces.find(({ id }) => id === 'g-highball')).toMatchObject({ profile: { rimDiameterM: 0.062 } });
    const moved = enter(setup, 'panel-60x30', 'positionM', { x: -12.5, y: 80, z: 33 });
    expect(moved.fixtures.find(({ id }) => id === 'panel-60x30')?.positionM).toEqual([-0.125, 0.8, 0.33]);
  });

  it('shows every figure, choice and switch of every record, drawn profiles, measured tables and triangles aside', () => {
    for (const id of ids) {
      const sheet = sheetIn(setup, id);
      const record = id === CAMERA_ID ? setup.frames[0].camera : recordIn(setup, id);
      const touched = new Set(
        sheet.groups
          .flatMap(({ fields }) => fields)
          .flatMap((field) => pathsOf(field.type === 'choice' ? {} : otherThan(field)))
          .map(withoutPlace),
      );
      const missing = pathsOf(record)
        .map(withoutPlace)
        .filter((path) => !/^(id|name|kind|libraryId|apertureFNumber|shutterS|iso|whiteBalanceK|sensor)/.test(path))
        .filter((path) => !/(libraryId|points|distribution|mesh)/.test(path))
        // Shown as soon as the finish is clear.
        .filter((path) => path !== 'clearIndex' || valueAtPath(record, 'finish.type') === 'clear')
        .filter((path) => !touched.has(path));
      // Words are chosen from lists: there is a list for each that holds it.
      const chosen = sheet.groups.flatMap(({ fields }) => fields).map((field) => field.value);
      const left = missing.filter((path) => !chosen.includes(valueAtPath(record, path) as never));
      expect(left, `${id}`).toEqual([]);
    }
  });

  it('holds four forms of gel and two nets, and takes each away', () => {
    const names = ['half CTO', 'ND 0.6', 'own colour, by x and y', 'own colour, by eye'];
    const gelled = names.reduce((now, name, i) => enter(now, 'panel-60x30', `gel${i}`, name), setup);
    const netted = enter(enter(gelled, 'panel-60x30', 'net0', 1), 'panel-60x30', 'net1', 0.5);
    const light = netted.fixtures.find(({ id }) => id === 'panel-60x30');
    expect(light?.gels?.map(({ kind }) => kind)).toEqual(['cto', 'nd', 'custom', 'custom']);
    expect(light?.nets).toEqual([1, 0.5]);
    const tinted = enter(netted, 'panel-60x30', 'gel2-transmission-x', 0.45);
    expect(tinted.fixtures.find(({ id }) => id === 'panel-60x30')?.gels?.[2]).toMatchObject({
      transmission: { x: 0.45 },
    });
    const bare = [3, 2, 1, 0].reduce((now, i) => enter(now, 'panel-60x30', `gel${i}`, 'none'), netted);
    expect(enter(enter(bare, 'panel-60x30', 'net1', 0), 'panel-60x30', 'net0', 0)).toEqual(setup);
  });

  it('takes the figures of a drink from the shelf, and says so until one of them is changed', () => {
    const filled = enter(setup, 'k-all', 'drink-shelf', 'espresso');
    const field = fieldOf(sheetIn(filled, 'k-all'), 'drink-shelf');
    expect(field.value).toBe('espresso');
    const thinned = enter(filled, 'k-all', 'drink-index', 1.36);
    expect(fieldOf(sheetIn(thinned, 'k-all'), 'drink-shelf').value).toBe('its own');
  });

  it('pours as many millilitres as stood in the glass when the way of saying it changes', () => {
    const poured = enter(setup, 'k-all', 'drink-fillBy', 'ml');
    const before = setup.pieces.find(({ id }) => id === 'k-all');
    const glass = poured.pieces.find(({ id }) => id === 'k-all');
    const ml = before ? drinkVolumeMl(before) : 0;
    expect(glass?.kind === 'glass' && glass.drink?.fillMl).toBe(Math.round(ml));
    expect(glass?.kind === 'glass' && glass.drink?.fillFraction).toBeUndefined();
  });

  it('turns any glass into any other shape without a measure left over', () => {
    for (const shape of GLASS_SHAPES) {
      const turned = enter(setup, 'g-bottle', 'shape', shape);
      expect(turned.pieces.find(({ id }) => id === 'g-bottle')).toMatchObject({ profile: { shape } });
    }
  });

  it('turns any finish into any other', () => {
    const finishes = ['matte', 'gloss', 'metal', 'mirror', 'translucent', 'clear', 'black'];
    for (const from of finishes) {
      const first = enter(setup, 'k-sheet', 'finish-type', from);
      for (const to of finishes) {
        const second = enter(first, 'k-sheet', 'finish-type', to);
        expect(second.pieces.find(({ id }) => id === 'k-sheet')).toMatchObject({ finish: { type: to } });
      }
    }
  });

  it('fits and takes off barn doors, a grid, a matte box, and all that goes with a glass', () => {
    const toggles = [
      ['panel-60x30', 'doorsFitted'],
      ['panel-60x30', 'gridFitted'],
      ['g-highball', 'drink-has'],
      ...['ice', 'cut', 'label', 'stopper', 'rimCrust', 'condensation'].map(
        (key) => ['g-highball', `${key}-has`] as const,
      ),
      ['k-all', 'drink-foam-has'],
      ['k-all', 'drink-bubbles-has'],
      ['k-all', 'condensation-wiped-has'],
      [CAMERA_ID, 'boxFitted'],
    ] as const;
    for (const [id, key] of toggles) {
      const off = enter(setup, id, key, false);
      const on = enter(off, id, key, true);
      expect(fieldOf(sheetIn(off, id), key).value).toBe(false);
      expect(fieldOf(sheetIn(on, id), key).value).toBe(true);
      expect(enter(on, id, key, false)).toEqual(off);
    }
  });

  it('clamps what is out of range and refuses what is no number', () => {
    const sheet = sheetIn(setup, 'panel-60x30');
    expect(patchFromLeva(fieldOf(sheet, 'dimStops'), -20)).toEqual({ dimStops: -12 });
    expect(patchFromLeva(fieldOf(sheet, 'dimStops'), Number.NaN)).toBeNull();
    expect(patchFromLeva(fieldOf(sheet, 'positionM'), { x: 1, y: 'high', z: 0 })).toBeNull();
  });
});

describe('a field that merely loses the focus', () => {
  it('keeps 1.3372 as it is although 1.337 is shown, and takes 1.338', () => {
    const setup = fullSetup();
    const filled = enter(enter(setup, 'g-highball', 'drink-has', true), 'g-highball', 'drink-index', 1.3372);
    const field = fieldOf(sheetIn(filled, 'g-highball'), 'drink-index');
    expect(patchFromLeva(field, 1.337)).toEqual({});
    expect(patchFromLeva(field, 1.338)).toEqual({ drink: { index: 1.338 } });
  });

  it('keeps the untouched components of a point to the hundredth of a centimetre', () => {
    const moved = enter(fullSetup(), 'panel-60x30', 'positionM', { x: 12.34, y: 80.06, z: 33 });
    const field = fieldOf(sheetIn(moved, 'panel-60x30'), 'positionM');
    // Shown as 12.3, 80.1, 33.0; only z is typed anew.
    expect(patchFromLeva(field, { x: 12.3, y: 80.1, z: 40 })).toEqual({ positionM: [0.1234, 0.8006, 0.4] });
  });
});

describe('absorption of a drink', () => {
  it('takes 10 % lost per centimetre as 10.54 per metre', () => {
    // Beer-Lambert: 1 - exp(-a * 0.01) = 0.1 gives a = -100 ln 0.9 = 10.536.
    const filled = enter(fullSetup(), 'g-highball', 'drink-has', true);
    const red = enter(filled, 'g-highball', 'drink-absorptionPerM0', 10);
    const glass = red.pieces.find(({ id }) => id === 'g-highball');
    expect(glass?.kind === 'glass' && glass.drink?.absorptionPerM[0]).toBeCloseTo(10.5361, 3);
  });
});

describe('colours in the inspector', () => {
  it('shows 18 % grey as #767676 and comes back to within half a code', () => {
    // IEC 61966-2-1: 1.055 * 0.18^(1/2.4) - 0.055 = 0.4614, times 255 = 117.6, code 118 = 0x76.
    expect(hexFromRec709([0.18, 0.18, 0.18])).toBe('#767676');
    expect(linearFromHex('#767676')[0]).toBeCloseTo(0.1812, 3);
    expect(hexFromRec709(linearFromHex('#2b80f0'))).toBe('#2b80f0');
  });
});
