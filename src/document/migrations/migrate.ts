import { fail, invariant, ok, type Result } from '../../core/result.ts';
import { isPlainObject, type PlainObject } from '../plainData.ts';

/**
 * Brings a document from one format version to the next. One file a step, named `NNN-to-NNN.ts`; the document it gets
 * is unchecked data of version `from`, so it must take nothing for granted. `formatVersion` is set by the runner.
 */
export interface MigrationStep {
  readonly from: number;
  /** What changes, in one line, for the docs. */
  readonly summary: string;
  migrate(document: PlainObject): PlainObject;
}

/**
 * Runs the steps that lead from one version to another. A step that throws on odd data fails the whole run with one
 * sentence: the document is either migrated whole or not at all.
 */
export function migrateSetup(
  document: PlainObject,
  fromVersion: number,
  toVersion: number,
  steps: readonly MigrationStep[],
): Result<PlainObject, string> {
  let current = document;
  for (let version = fromVersion; version < toVersion; version++) {
    const step = steps.find((candidate) => candidate.from === version);
    invariant(step !== undefined, () => `no migration leads from format version ${version} to ${version + 1}`);
    try {
      const next = step.migrate(structuredCloneData(current));
      current = { ...next, formatVersion: version + 1 };
    } catch {
      return fail(
        `The file is of format version ${fromVersion} and could not be brought from version ${version} to ${version + 1}: it does not hold what that version should.`,
      );
    }
  }
  return ok(current);
}

/** A step may edit what it gets; the caller's data stays as it was. */
function structuredCloneData(value: PlainObject): PlainObject {
  const copy: unknown = JSON.parse(JSON.stringify(value));
  invariant(isPlainObject(copy), () => 'the copy of an object is an object');
  return copy;
}
