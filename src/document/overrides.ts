import type { z } from 'zod';
import { fail, ok, type Result } from '../core/result.ts';
import { type Fixture, fixtureSchema, type GripItem, gripSchema } from '../fixtures/records.ts';
import { type Piece, pieceSchema } from '../scene/records.ts';
import { type FieldPath, makeIssue, type RecordLabel, type SetupIssue } from './issues.ts';
import { applyMergePatch } from './mergePatch.ts';
import { findUnknownFields, parseData, UNKNOWN_FIELD } from './parseData.ts';
import type { RecordBase } from './records.ts';
import type { Frame, Setup } from './setup.ts';

export type Patch = Readonly<Record<string, unknown>>;

interface PatchPlace {
  /** Where the patch stands in the setup. */
  readonly path: FieldPath;
  readonly label?: RecordLabel;
}

/**
 * One record with a patch laid over it, checked by the record's schema.
 * A patch may leave over fields that the patched record no longer has (the distance of an output now given in lumens):
 * they go. A field of the patch itself that the record does not know is a fault.
 */
export function patchRecord<R extends RecordBase>(
  schema: z.ZodType<R>,
  base: R,
  patch: Patch,
  place: PatchPlace,
): Result<R, readonly SetupIssue[]> {
  const label = place.label ?? base;
  if ('id' in patch && patch.id !== base.id) {
    return fail([makeIssue([...place.path, 'id'], 'must stay as it is; add a new record instead', label)]);
  }
  const parsed = parseData(schema, applyMergePatch(base, patch), place.path, {
    previous: base,
    allowUnknown: true,
    label,
  });
  if (!parsed.ok) return parsed;
  const unknown = findUnknownFields(dropNulls(patch), parsed.value);
  if (unknown.length === 0) return parsed;
  return fail(unknown.map((path) => makeIssue([...place.path, ...path], UNKNOWN_FIELD, label)));
}

/** Nulls of a patch take fields away, so they need not be there afterwards. */
const dropNulls = (patch: Patch): unknown => applyMergePatch({}, patch);

/**
 * Makes a function that lays a frame's patch over a record. What it gives is remembered by the identity of both, so a
 * record that did not change resolves to the very same object each time.
 */
function createResolver<R extends RecordBase>(schema: z.ZodType<R>) {
  const memory = new WeakMap<R, WeakMap<Patch, R>>();
  return (base: R, patch: Patch, place: PatchPlace): Result<R, readonly SetupIssue[]> => {
    const byPatch = memory.get(base) ?? new WeakMap<Patch, R>();
    const known = byPatch.get(patch);
    if (known !== undefined) return ok(known);
    if ('kind' in patch) {
      return fail([
        makeIssue([...place.path, 'kind'], 'must not differ from frame to frame; leave it out', place.label),
      ]);
    }
    const resolved = patchRecord(schema, base, patch, place);
    // Only frozen data may be remembered by identity.
    if (resolved.ok && Object.isFrozen(base) && Object.isFrozen(patch)) {
      memory.set(base, byPatch.set(patch, resolved.value));
    }
    return resolved;
  };
}

export const resolvePiece = createResolver<Piece>(pieceSchema);
export const resolveFixture = createResolver<Fixture>(fixtureSchema);
export const resolveGripItem = createResolver<GripItem>(gripSchema);

/** The record that an override speaks of, with its patch laid over it; null when there is no such record. */
export function resolveOverride(
  setup: Setup,
  override: Frame['overrides'][number],
  place: PatchPlace,
): Result<Piece | Fixture | GripItem, readonly SetupIssue[]> | null {
  switch (override.collection) {
    case 'pieces': {
      const base = setup.pieces.find((record) => record.id === override.id);
      return base ? resolvePiece(base, override.patch, place) : null;
    }
    case 'fixtures': {
      const base = setup.fixtures.find((record) => record.id === override.id);
      return base ? resolveFixture(base, override.patch, place) : null;
    }
    case 'grip': {
      const base = setup.grip.find((record) => record.id === override.id);
      return base ? resolveGripItem(base, override.patch, place) : null;
    }
  }
}
