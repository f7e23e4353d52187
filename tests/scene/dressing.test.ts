import { describe, expect, it } from 'vitest';
import { applyToPoint, fromHeading, IDENTITY } from '../../src/core/rigid.ts';
import { createRandom } from '../../src/core/rng.ts';
import type { Vec3 } from '../../src/core/vec3.ts';
import type { OpticalSurface } from '../../src/materials/surface.ts';
import { boundsOfShape, uniteBounds } from '../../src/scene/bounds.ts';
import type { Built } from '../../src/scene/built.ts';
import { BOARD_LIFT_M, PAPER_LIFT_M } from '../../src/scene/clearances.ts';
import { DRESSING_WORDS, defaultDressing } from '../../src/scene/dressingDefaults.ts';
import {
  DRESSING_KINDS,
  type DressingKind,
  type DressingOf,
  type DressingPiece,
  dressingSchema,
} from '../../src/scene/dressingRecords.ts';
import { buildDressing } from '../../src/scene/pieces/dressing/buildDressing.ts';
import { rampReflectance } from '../../src/scene/pieces/dressing/cards.ts';
import { crossingsAlong, enclosedVolumeM3, openEdgeCount, randomChord, trianglesOf } from './meshTools.ts';

/** Steps that meet the 64 chords of a round head, and one another where a cylinder runs into a torus. */
const STEPS = { turnStepRad: Math.PI / 64, arcStepRad: Math.PI / 64 };
const COARSE = { turnStepRad: Math.PI / 16, arcStepRad: Math.PI / 16 };

function pieceOf<K extends DressingKind>(kind: K, more: object = {}): DressingOf<K> {
  return dressingSchema.parse({ ...defaultDressing(kind, 'a'), positionM: [0, 0, 0], ...more }) as DressingOf<K>;
}
const built = (piece: DressingPiece): Built => buildDressing(piece, IDENTITY);
const surfacesOf = (piece: DressingPiece): readonly OpticalSurface[] => {
  const result = built(piece);
  expect(result.diagnostics).toEqual([]);
  return result.surfaces;
};
const boundsOf = (surfaces: readonly OpticalSurface[]) => surfaces.map(boundsOfShape).reduce(uniteBounds);
const sizeOf = (surfaces: readonly OpticalSurface[]): Vec3 => {
  const { minM, maxM } = boundsOf(surfaces);
  return [maxM[0] - minM[0], maxM[1] - minM[1], maxM[2] - minM[2]];
};
const codes = (piece: DressingPiece) => {
  const result = built(piece);
  expect(result.surfaces).toHaveLength(0);
  return result.diagnostics.map(({ code, field, severity }) => [severity, code, field]);
};

/** Every chord goes in through a front and out through a back, in turn. */
function expectOutward(surfaces: readonly OpticalSurface[], options = COARSE): void {
  const triangles = trianglesOf(surfaces, options);
  const { minM, maxM } = boundsOf(surfaces);
  const middle: Vec3 = [(minM[0] + maxM[0]) / 2, (minM[1] + maxM[1]) / 2, (minM[2] + maxM[2]) / 2];
  const radiusM = Math.hypot(maxM[0] - minM[0], maxM[1] - minM[1], maxM[2] - minM[2]);
  const random = createRandom(5);
  let met = 0;
  for (let i = 0; i < 40; i++) {
    const { origin, direction } = randomChord(random, middle, radiusM);
    const crossings = crossingsAlong(triangles, origin, direction);
    met += crossings.length;
    crossings.forEach((c, k) => {
      expect(c.front).toBe(k % 2 === 0);
    });
  }
  expect(met).toBeGreaterThan(0);
}

describe('records of dressing', () => {
  it.each(DRESSING_KINDS)('%s has a valid, complete default that builds without a word', (kind) => {
    const piece = defaultDressing(kind, 'a');
    expect(dressingSchema.parse(piece)).toEqual(piece);
    expect(piece.name).toBe(DRESSING_WORDS[kind]);
    const surfaces = surfacesOf(piece);
    expect(surfaces.length).toBeGreaterThan(0);
    for (const surface of surfaces) expect(surface.recordId).toBe('a');
  });

  it.each(DRESSING_KINDS)('%s moves and turns as a whole with its placement', (kind) => {
    const piece = pieceOf(kind);
    const placement = fromHeading([0.3, 0.1, -0.2], 0.7);
    const here = trianglesOf(built(piece).surfaces, COARSE);
    const there = trianglesOf(buildDressing(piece, placement).surfaces, COARSE);
    expect(there).toHaveLength(here.length);
    for (const k of [0, Math.floor(here.length / 2), here.length - 1]) {
      const moved = applyToPoint(placement, here[k].a);
      for (const axis of [0, 1, 2]) expect(there[k].a[axis]).toBeCloseTo(moved[axis], 9);
    }
  });

  it.each(DRESSING_KINDS)('%s lies on what it stands on, not in it', (kind) => {
    const piece = pieceOf(kind, 'standM' in defaultDressing(kind, 'a') ? { standM: 0 } : {});
    const { minM } = boundsOf(surfacesOf(piece));
    // A branch hangs in the air; everything else keeps a hair gap, cloth and paper the smaller one.
    if (kind === 'branch') return;
    expect(minM[1]).toBeGreaterThan(PAPER_LIFT_M - 1e-9);
    expect(minM[1]).toBeLessThan(0.002);
  });
});

describe('closed pieces', () => {
  const solids: readonly DressingPiece[] = [
    pieceOf('step', { steps: 4 }),
    pieceOf('arch'),
    pieceOf('arch', { head: 'flat' }),
    pieceOf('sphere'),
    pieceOf('slattedWall', { pitchM: 0.3 }),
    pieceOf('slattedWall', { pitchM: 0.3, edgeRadiusM: 0 }),
    pieceOf('slattedWall', { pitchM: 0.3, direction: 'level' }),
    pieceOf('slattedWall', { pitchM: 0.3, direction: 'level', edgeRadiusM: 0 }),
    pieceOf('mouldedWall'),
    pieceOf('mouldedWall', { skirtingM: 0, columns: 2, rows: 2 }),
    pieceOf('reedScreen', { pitchM: 0.06, cords: 2 }),
    pieceOf('slatScreen', { pitchM: 0.1, tiltDeg: 30, unevenness: 0.5 }),
    pieceOf('slatScreen', { pitchM: 0.1, direction: 'upright', unevenness: 0.5 }),
    pieceOf('coaster'),
    pieceOf('coaster', { shape: 'square' }),
    pieceOf('coaster', { shape: 'square', edgeRadiusM: 0 }),
    pieceOf('tray'),
    pieceOf('tray', { shape: 'round', widthM: 0.3 }),
    pieceOf('tray', { widthM: 0.2, depthM: 0.4, cornerRadiusM: 0.1 }),
    pieceOf('spoon'),
    pieceOf('book'),
    pieceOf('greyCard'),
    pieceOf('greyRamp'),
  ];

  it.each(solids.map((piece, i) => [piece.kind, i, piece] as const))(
    '%s (case %i): no open edge, normals outward',
    (_kind, _case, piece) => {
      const surfaces = surfacesOf(piece);
      const triangles = trianglesOf(surfaces, STEPS);
      expect(openEdgeCount(triangles)).toBe(0);
      expect(enclosedVolumeM3(triangles)).toBeGreaterThan(0);
      expectOutward(surfaces);
    },
  );

  it('the pot of a plant and every stem are closed', () => {
    const surfaces = surfacesOf(pieceOf('plant', { stems: 3 })).filter(({ role }) => role !== 'leaves');
    expect(openEdgeCount(trianglesOf(surfaces, STEPS))).toBe(0);
    expect(enclosedVolumeM3(trianglesOf(surfaces, STEPS))).toBeGreaterThan(0);
  });
});

describe('volumes in closed form', () => {
  const volumeOf = (piece: DressingPiece, turnStepRad = Math.PI / 128) =>
    enclosedVolumeM3(trianglesOf(surfacesOf(piece), { turnStepRad, arcStepRad: Math.PI / 128 }));

  it('steps of 300 x 100 x 50 mm, three of them, hold six such bricks', () => {
    const volume = volumeOf(pieceOf('step', { widthM: 0.3, treadM: 0.1, riserM: 0.05, steps: 3 }));
    expect(volume).toBeCloseTo(6 * 0.3 * 0.1 * 0.05 - 0.3 * 0.3 * BOARD_LIFT_M, 8);
  });

  it('a ball of 80 mm holds 4/3 pi r^3', () => {
    expect(volumeOf(pieceOf('sphere')) / ((4 / 3) * Math.PI * 0.04 ** 3)).toBeCloseTo(1, 2);
  });

  it('an arch is its block less a doorway and half a cylinder', () => {
    const piece = pieceOf('arch');
    const { widthM: w, heightM: h, depthM: d, openingWidthM: o, openingHeightM: oh } = piece;
    const r = o / 2;
    const block = w * (h - BOARD_LIFT_M) * d;
    // A half circle cut into 64 triangles.
    const half = 32 * r * r * Math.sin(Math.PI / 64);
    const opening = (o * (oh - r - BOARD_LIFT_M) + half) * d;
    expect(volumeOf(piece, Math.PI / 64) / (block - opening)).toBeCloseTo(1, 6);
  });

  it('a square coaster with rounded corners and edges: Steiner’s formula for the rounded part', () => {
    const { widthM, thicknessM } = pieceOf('coaster');
    const corner = 0.008;
    const volume = volumeOf(pieceOf('coaster', { shape: 'square', edgeRadiusM: 0, cornerRadiusM: corner }));
    const area = widthM ** 2 - (4 - Math.PI) * corner ** 2;
    expect(volume / (area * (thicknessM - BOARD_LIFT_M))).toBeCloseTo(1, 4);
  });

  it('a tray of 400 x 280 mm is its floor and its wall', () => {
    const piece = pieceOf('tray');
    const c = piece.cornerRadiusM;
    const areaAt = (inset: number) =>
      (piece.widthM - 2 * inset) * (piece.depthM - 2 * inset) - (4 - Math.PI) * (c - inset) ** 2;
    const height = piece.heightM - BOARD_LIFT_M;
    const wallArea = areaAt(0) - areaAt(piece.wallM);
    const square = areaAt(0) * piece.floorM + wallArea * (height - piece.floorM);
    // Rounded rim, foot and fillet: less than 2 % in all.
    expect(Math.abs(volumeOf(piece) / square - 1)).toBeLessThan(0.02);
  });
});

describe('sizes', () => {
  it.each([
    ['step', { widthM: 0.3, treadM: 0.1, riserM: 0.05, steps: 2 }, [0.3, 0.1, 0.2]],
    ['arch', {}, [0.26, 0.3, 0.06]],
    ['slattedWall', { widthM: 1.6, heightM: 1.2 }, [1.6, 1.2, 0.02 + BOARD_LIFT_M + 0.018]],
    ['mouldedWall', {}, [1.8, 1.3, 0.02 + BOARD_LIFT_M + 0.014]],
    ['lightTable', {}, [0.6, 0.12, 0.4]],
    ['coaster', { shape: 'square' }, [0.095, 0.004, 0.095]],
    ['tray', {}, [0.4, 0.025, 0.28]],
    ['book', {}, [0.14, 0.028, 0.21]],
  ] as const)('a %s is as large as its record says', (kind, more, [x, y, z]) => {
    const size = sizeOf(surfacesOf(pieceOf(kind, more)));
    expect(size[0]).toBeCloseTo(x, 6);
    expect(Math.abs(size[1] - y)).toBeLessThan(BOARD_LIFT_M + 1e-9);
    expect(size[2]).toBeCloseTo(z, 6);
  });

  it('a spoon of 135 mm is 135 mm long, its bowl 29 mm wide', () => {
    const [x, , z] = sizeOf(surfacesOf(pieceOf('spoon')));
    expect(x).toBeCloseTo(0.135, 5);
    expect(z).toBeCloseTo(0.029, 4);
  });

  it('a plant of 380 mm keeps near its height and spread over 6 seeds', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const piece = pieceOf('plant', { seed });
      const [x, y, z] = sizeOf(surfacesOf(piece));
      expect(y).toBeGreaterThan(0.7 * piece.heightM);
      expect(y).toBeLessThan(1.25 * piece.heightM);
      expect(Math.max(x, z)).toBeLessThan(1.4 * piece.spreadM);
    }
  });

  it('a card leaned 30 degrees is cos 30 of its height, its foot on the table', () => {
    const { minM, maxM } = boundsOf(surfacesOf(pieceOf('greyCard', { leanDeg: 30, heightM: 0.1 })));
    expect(minM[1]).toBeCloseTo(BOARD_LIFT_M, 9);
    // Plus sin 30 of the 2 mm board.
    expect(maxM[1] - minM[1]).toBeCloseTo(0.1 * Math.cos(Math.PI / 6) + 0.001, 6);
  });
});

describe('thin sheets', () => {
  it('a window cutter lets a ray through each pane and stops it at bars, card and sill', () => {
    const piece = pieceOf('windowCutter', { standM: 0, head: 'flat' });
    const triangles = trianglesOf(surfacesOf(piece), COARSE);
    const stops = (x: number, y: number) => crossingsAlong(triangles, [x, y, 1], [0, 0, -1]).length;
    // Opening 0.5 x 0.6 in 0.9 x 0.9: x within 0.25, y from 0.15 to 0.75; panes 0.25 x 0.2.
    for (const x of [-0.125, 0.125]) for (const y of [0.25, 0.45, 0.65]) expect(stops(x, y)).toBe(0);
    expect(stops(0, 0.25)).toBe(1);
    expect(stops(0.125, 0.35)).toBe(1);
    expect(stops(0.3, 0.45)).toBe(1);
    expect(stops(0.1, 0.1)).toBe(1);
    expect(stops(0.1, 0.8)).toBe(1);
  });

  it('a doorway is open down to the lower edge, and round at the head', () => {
    const more = {
      standM: 0,
      shape: 'doorway',
      head: 'round',
      openingWidthM: 0.4,
      openingHeightM: 0.7,
      columns: 1,
      rows: 1,
    };
    const triangles = trianglesOf(surfacesOf(pieceOf('windowCutter', more)), COARSE);
    const stops = (x: number, y: number) => crossingsAlong(triangles, [x, y, 1], [0, 0, -1]).length;
    expect(stops(0.19, 0.001)).toBe(0);
    // On the head's circle of 0.2 about (0, 0.5): 45 degrees up at 0.1414.
    expect(stops(0.139, 0.639)).toBe(0);
    expect(stops(0.144, 0.644)).toBe(1);
  });

  it.each([0.2, 0.5, 0.8])('a dapple cutter of leaves covers about %d of its area', (cover) => {
    const piece = pieceOf('dappleCutter', { cover, standM: 0, sizeM: 0.12 });
    const triangles = trianglesOf(surfacesOf(piece), COARSE);
    const random = createRandom(3);
    let stopped = 0;
    const n = 700;
    for (let i = 0; i < n; i++) {
      const x = (random() - 0.5) * (piece.widthM - 0.3);
      const y = 0.15 + random() * (piece.heightM - 0.3);
      if (crossingsAlong(triangles, [x, y, 1], [0, 0, -1]).length > 0) stopped++;
    }
    // Twigs add a little, folds take a little.
    expect(Math.abs(stopped / n - cover)).toBeLessThan(0.08);
  });

  it.each([0.6, 0.8, 0.95])('a card of holes covers %d of its area', (cover) => {
    const piece = pieceOf('dappleCutter', { cut: 'holes', cover, standM: 0, sizeM: 0.05 });
    const triangles = trianglesOf(
      surfacesOf(piece).filter(({ role }) => role === 'card'),
      COARSE,
    );
    const area = triangles.reduce((sum, { a, b, c }) => {
      const [u, v] = [b.map((p, k) => p - a[k]), c.map((p, k) => p - a[k])];
      return sum + (u[0] * v[1] - u[1] * v[0]) / 2;
    }, 0);
    expect(Math.abs(area / (piece.widthM * piece.heightM) - cover)).toBeLessThan(0.08);
  });

  it('a light table has one translucent sheet, found on purpose by the tracer, and nothing under it', () => {
    const surfaces = surfacesOf(pieceOf('lightTable'));
    const sheet = surfaces.filter(({ finish }) => finish.type === 'translucent');
    expect(sheet).toHaveLength(1);
    expect(sheet[0].secondarySource).toBe(true);
    const below = crossingsAlong(trianglesOf(surfaces, COARSE), [0.05, 0.01, 0.05], [0, -1, 0]);
    expect(below).toHaveLength(0);
  });

  it('a napkin of 4 layers is met 4 times from above, the layers in order', () => {
    for (const seed of [1, 2, 3]) {
      const triangles = trianglesOf(surfacesOf(pieceOf('napkin', { seed, layers: 4, softness: 1 })), COARSE);
      const random = createRandom(seed);
      for (let i = 0; i < 40; i++) {
        const x = (random() - 0.5) * 0.18;
        const z = (random() - 0.5) * 0.08;
        const hits = crossingsAlong(triangles, [x, 1, z], [0, -1, 0]);
        expect(hits).toHaveLength(4);
        // To and fro: the upper side of the cloth looks up, down, up, down.
        hits.forEach((hit, k) => {
          if (k > 0) expect(hit.front).not.toBe(hits[k - 1].front);
        });
      }
    }
  });
});

describe('grey patches', () => {
  it('of a ramp fall by half a stop each: the third is half the first', () => {
    const piece = pieceOf('greyRamp', { lightestReflectance: 0.8, stepStops: 0.5 });
    expect(rampReflectance(piece, 2)).toBeCloseTo(0.4, 12);
    const fronts = surfacesOf(piece).filter(({ role }) => role.startsWith('patch'));
    expect(fronts).toHaveLength(piece.steps);
    fronts.forEach(({ finish }, i) => {
      expect(finish.type === 'matte' && finish.reflectanceRgb[1]).toBeCloseTo(0.8 * 2 ** (-i / 2), 12);
    });
  });

  it('of a grey card are 18 %, white and black, and face the camera', () => {
    const surfaces = surfacesOf(pieceOf('greyCard', { leanDeg: 0 }));
    const at = (x: number, y: number) => {
      const [hit] = crossingsAlong(trianglesOf(surfaces, COARSE), [x, y, 1], [0, 0, -1]);
      return surfaces[hit.surface].role;
    };
    expect(at(-0.03, 0.02)).toBe('grey patch');
    expect(at(0.04, 0.07)).toBe('white patch');
    expect(at(0.04, 0.02)).toBe('black patch');
  });
});

describe('seeds', () => {
  const seeded = ['reedScreen', 'slatScreen', 'dappleCutter', 'napkin', 'branch', 'plant'] as const;
  it.each(seeded)('of a %s give the same piece again, and another piece for another seed', (kind) => {
    const first = JSON.stringify(
      surfacesOf(pieceOf(kind, { seed: 7 })).map(({ shape }) => Object.values(shape).map(String)),
    );
    const again = JSON.stringify(
      surfacesOf(pieceOf(kind, { seed: 7 })).map(({ shape }) => Object.values(shape).map(String)),
    );
    const other = JSON.stringify(
      surfacesOf(pieceOf(kind, { seed: 8 })).map(({ shape, worldFromLocal }) => [
        Object.values(shape).map(String),
        worldFromLocal,
      ]),
    );
    expect(again).toBe(first);
    expect(other).not.toBe(first);
  });

  it('a reed screen of 75 reeds has about the asked share broken over 12 seeds', () => {
    let broken = 0;
    let all = 0;
    for (let seed = 0; seed < 12; seed++) {
      const roles = surfacesOf(pieceOf('reedScreen', { seed, brokenShare: 0.2, cords: 0 })).map(({ role }) => role);
      broken += roles.filter((role) => role === 'broken reed').length / 3;
      all += roles.length / 3;
    }
    // Three standard errors of a share of 0.2.
    expect(Math.abs(broken / all - 0.2)).toBeLessThan(3 * Math.sqrt((0.2 * 0.8) / all));
  });
});

describe('sizes that cannot be made', () => {
  it.each([
    [pieceOf('arch', { openingWidthM: 0.3 }), 'opening-too-wide', 'openingWidthM'],
    [pieceOf('arch', { openingHeightM: 0.4 }), 'opening-too-high', 'openingHeightM'],
    [pieceOf('arch', { openingHeightM: 0.06 }), 'opening-too-low', 'openingHeightM'],
    [pieceOf('slattedWall', { slatWidthM: 0.05 }), 'slat-wider-than-pitch', 'slatWidthM'],
    [pieceOf('slattedWall', { edgeRadiusM: 0.02 }), 'edge-rounding-too-large', 'edgeRadiusM'],
    [pieceOf('slattedWall', { widthM: 40, pitchM: 0.03 }), 'too-many-slats', 'pitchM'],
    [pieceOf('mouldedWall', { columns: 12, marginM: 0.5 }), 'panels-too-small', 'marginM'],
    [pieceOf('reedScreen', { reedM: 0.02 }), 'reeds-too-thick', 'reedM'],
    [pieceOf('reedScreen', { widthM: 20 }), 'too-many-reeds', 'pitchM'],
    [pieceOf('slatScreen', { frameM: 0.2, widthM: 0.3 }), 'posts-too-wide', 'frameM'],
    [pieceOf('slatScreen', { heightM: 30 }), 'too-many-slats', 'pitchM'],
    [pieceOf('windowCutter', { openingWidthM: 1 }), 'opening-too-large', 'openingWidthM'],
    [pieceOf('windowCutter', { barM: 0.2 }), 'bars-too-wide', 'barM'],
    [pieceOf('dappleCutter', { sizeM: 0.005, widthM: 3 }), 'too-many-leaves', 'sizeM'],
    [pieceOf('lightTable', { rimM: 0.2 }), 'rim-too-wide', 'rimM'],
    [pieceOf('coaster', { edgeRadiusM: 0.003 }), 'edge-rounding-too-large', 'edgeRadiusM'],
    [pieceOf('coaster', { shape: 'square', cornerRadiusM: 0.1 }), 'corner-too-round', 'cornerRadiusM'],
    [pieceOf('tray', { heightM: 0.008 }), 'tray-too-low', 'heightM'],
    [pieceOf('spoon', { bowlWidthM: 0.1 }), 'bowl-too-wide', 'bowlWidthM'],
    [pieceOf('book', { coverM: 0.015 }), 'cover-too-thick', 'coverM'],
    [pieceOf('plant', { heightM: 0.1 }), 'pot-too-high', 'potHeightM'],
  ] as const)('name the field: %#', (piece, code, field) => {
    expect(codes(piece)).toEqual([['error', code, field]]);
  });
});
