import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/rng.ts';
import { CLEAR_TINTS } from '../../src/materials/clearTints.ts';
import { buildSet } from '../../src/scene/buildSet.ts';
import { defaultGarnish, defaultPiece, GARNISH_KINDS, PIECE_KINDS } from '../../src/scene/pieceDefaults.ts';
import { type Piece, type PieceKind, pieceSchema } from '../../src/scene/records.ts';
import type { SetModel } from '../../src/scene/setModel.ts';
import { compileWorld, createRayQuery } from '../../src/transport/index.ts';
import { randomChord } from './meshTools.ts';
import { createProbe } from './probe.ts';
import { sceneOf } from './sceneTools.ts';

/*
 * 500 of the 1000 seeded sets of sizes; anyGlass.test.ts has the other 500. Glasses aside, every kind of piece with every
 * size stretched or shrunk by up to 30 %, turned and moved.
 */
const SEEDS = 500;
const KINDS = PIECE_KINDS.filter((kind) => kind !== 'glass');

/** Made of sheets without thickness, as docs/pieces.md says, or with such sheets among their bodies. */
const SHEETS: ReadonlySet<PieceKind> = new Set(['sweep', 'windowCutter', 'dappleCutter', 'napkin', 'lightTable']);
/** Leaves, flesh and the like of growing things: sheets on or among closed bodies. */
const GROWN: ReadonlySet<PieceKind> = new Set(['branch', 'plant', 'garnish']);
const SHEET_ROLES = /leaf|leaves|flesh|skin|pith|peel|cut|crown/;
/** Opaque bodies that may lie in one another: stems, cords round reeds, slats of a blind that is shut. */
const MAY_OVERLAP: ReadonlySet<PieceKind> = new Set(['branch', 'plant', 'garnish', 'reedScreen', 'slatScreen']);
/** Fixed by what they mean, not sizes. */
const KEPT = /^(clearIndex|headingDeg|seed|coatIndex|.*Reflectance|lightest.*|missingShare|brokenShare)$/;

function anyPiece(seed: number): Piece {
  const random = createRandom(seed);
  const kind = KINDS[seed % KINDS.length];
  const base: Record<string, unknown> = { ...defaultPiece(kind, 'piece') };
  const stretched = Object.fromEntries(
    Object.entries(base).map(([key, value]) => {
      if (typeof value !== 'number' || KEPT.test(key)) return [key, value];
      const next = value * (1 + 0.3 * (2 * random() - 1));
      return [key, Number.isInteger(value) && value >= 1 && !key.endsWith('M') ? Math.max(1, Math.round(next)) : next];
    }),
  );
  const tint = CLEAR_TINTS[Math.floor(random() * CLEAR_TINTS.length)];
  const clear = 'clearIndex' in base && random() < 0.6;
  return pieceSchema.parse({
    ...stretched,
    positionM: [random() - 0.5, 0.2 * random(), random() - 0.5],
    headingDeg: 360 * random() - 180,
    ...('seed' in base ? { seed } : {}),
    ...(clear
      ? { finish: { type: 'clear', roughness: 0 }, clearIndex: tint.index, clearAbsorptionPerM: tint.absorptionPerM }
      : {}),
    ...(kind === 'garnish' ? { item: { ...defaultGarnish(GARNISH_KINDS[seed % GARNISH_KINDS.length]) } } : {}),
  });
}

/** Fronts and backs in turn: how deep in closed bodies a ray is never falls under 0 and ends at 0. Gives the deepest. */
function deepest(kind: PieceKind, set: SetModel, rays: number, random: () => number): number {
  const bodies = set.surfaces.filter(({ role }) => !GROWN.has(kind) || !SHEET_ROLES.test(role));
  const query = createRayQuery(compileWorld({ ...set, surfaces: bodies }));
  const bounds = set.boundsByRecord.get('piece');
  if (!bounds) throw new Error('no bounds');
  const middle = [0, 1, 2].map((k) => (bounds.minM[k] + bounds.maxM[k]) / 2) as [number, number, number];
  const size = Math.hypot(...[0, 1, 2].map((k) => bounds.maxM[k] - bounds.minM[k]));
  let most = 0;
  for (let i = 0; i < rays; i++) {
    const { origin, direction } = randomChord(random, middle, size);
    let depth = 0;
    for (const { front, surfaceIndex } of query.hitsAlong(origin, direction, undefined, 4000)) {
      depth += front ? 1 : -1;
      if (depth < 0) throw new Error(`left a body at '${bodies[surfaceIndex].role}' without being in one`);
      most = Math.max(most, depth);
    }
    if (depth !== 0) throw new Error(`still ${depth} deep at the end`);
  }
  return most;
}

describe('500 seeded pieces of every other kind', () => {
  it.each(KINDS)('%s is closed and faces outward, or says which field to mend', (kind) => {
    let made = 0;
    for (let seed = KINDS.indexOf(kind); seed < SEEDS; seed += KINDS.length) {
      const piece = anyPiece(seed);
      const set = buildSet(sceneOf([piece]));
      if (set.surfaces.length === 0) {
        expect(set.diagnostics.some((d) => d.severity === 'error' && d.field !== '')).toBe(true);
        continue;
      }
      made++;
      if (SHEETS.has(kind)) continue;
      const random = createRandom(seed + 5);
      try {
        const most = deepest(kind, set, 12, random);
        if (!MAY_OVERLAP.has(kind)) expect(most).toBeLessThanOrEqual(1);
        if (set.volumes.length > 0) {
          const probe = createProbe(set);
          for (let i = 0; i < 6; i++) {
            const { origin, direction } = randomChord(random, piece.positionM, 4);
            probe(origin, direction);
          }
          const [{ medium }] = set.volumes;
          expect(medium.absorptionPerM).toEqual(
            'clearAbsorptionPerM' in piece ? piece.clearAbsorptionPerM : medium.absorptionPerM,
          );
        }
      } catch (error) {
        throw new Error(`seed ${seed}: ${error instanceof Error ? error.message : error}`);
      }
    }
    expect(made).toBeGreaterThan(SEEDS / KINDS.length / 3);
  });
});
