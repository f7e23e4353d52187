import { fail, ok, type Result } from '../core/result.ts';
import { type SetupIssue, showValue } from './issues.ts';
import { scanJson } from './jsonScan.ts';
import { migrateSetup } from './migrations/migrate.ts';
import { MIGRATION_STEPS } from './migrations/steps.ts';
import { isPlainObject, type PlainObject } from './plainData.ts';
import { SETUP_FORMAT, SETUP_FORMAT_VERSION, type Setup, setupSchema } from './setup.ts';
import { sortFields, stringifyReadable } from './stringify.ts';
import { validateSetup } from './validate.ts';

/** Why a text is not a setup that can be opened. `message` is one sentence for people in every case. */
export type SetupError =
  | { readonly kind: 'notJson'; readonly line: number; readonly column: number; readonly message: string }
  /** Larger or deeper than any setup, or with fields that only an attack has. */
  | { readonly kind: 'refused'; readonly message: string }
  | { readonly kind: 'notASetup'; readonly message: string }
  /** `readable` is there when what this version knows of the file makes a whole setup: to look at, never to save. */
  | {
      readonly kind: 'tooNew';
      readonly fileVersion: number;
      readonly knownVersion: number;
      readonly readable?: Setup;
      readonly message: string;
    }
  | { readonly kind: 'invalid'; readonly issues: readonly SetupIssue[]; readonly message: string };

export interface ParsedSetup {
  readonly setup: Setup;
  readonly fromVersion: number;
}

/** Longest text that is looked at, in UTF-16 units. A full setup of 200 pieces and 40 frames is under a tenth. */
export const MAX_SETUP_CHARS = 8_000_000;
const BOUNDS = { maxDepth: 24, maxValues: 500_000, maxEntries: 2000 };

/** Reads a setup from the text of a file. All or nothing; never throws on what a file may hold. */
export function parseSetup(text: string): Result<ParsedSetup, SetupError> {
  if (text.length > MAX_SETUP_CHARS) {
    const message = `The file is too large: a setup has at most ${MAX_SETUP_CHARS / 1e6} million characters.`;
    return fail({ kind: 'refused', message });
  }
  const json = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const scanned = scanJson(json, BOUNDS);
  if (!scanned.ok) {
    const fault = scanned.error;
    if (fault.kind === 'tooMuch') return fail({ kind: 'refused', message: `The file is refused: ${fault.what}.` });
    const { line, column, what } = fault;
    return fail({
      kind: 'notJson',
      line,
      column,
      message: `The file is not well-formed JSON: line ${line}, column ${column}: ${what}.`,
    });
  }
  const raw: unknown = JSON.parse(json);
  if (!isPlainObject(raw) || raw.format !== SETUP_FORMAT) {
    const message = `The file is JSON but not a Keyglass setup: its field "format" must be "${SETUP_FORMAT}".`;
    return fail({ kind: 'notASetup', message });
  }
  return readVersion(raw);
}

function readVersion(raw: PlainObject): Result<ParsedSetup, SetupError> {
  const version = raw.formatVersion;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    const message = `The field "formatVersion" must be a whole number from 1 to ${SETUP_FORMAT_VERSION}; it is ${showValue(version)}.`;
    return fail({ kind: 'notASetup', message });
  }
  if (version > SETUP_FORMAT_VERSION) return fail(describeTooNew(raw, version));
  const migrated = migrateSetup(raw, version, SETUP_FORMAT_VERSION, MIGRATION_STEPS);
  if (!migrated.ok) return fail({ kind: 'notASetup', message: migrated.error });
  // Editors use "$schema" to check a file while it is typed; it is no part of the setup.
  const { $schema: _, ...document } = migrated.value;
  const valid = validateSetup(document);
  if (valid.ok) return ok({ setup: valid.value, fromVersion: version });
  const [first, ...others] = valid.error;
  const more = others.length === 0 ? '' : ` (and ${others.length} more)`;
  return fail({
    kind: 'invalid',
    issues: valid.error,
    message: `${first?.message ?? 'The setup is not valid.'}${more}`,
  });
}

function describeTooNew(raw: PlainObject, fileVersion: number): SetupError {
  const stripped = setupSchema.safeParse({ ...raw, formatVersion: SETUP_FORMAT_VERSION });
  const readable = stripped.success ? validateSetup(stripped.data) : null;
  return {
    kind: 'tooNew',
    fileVersion,
    knownVersion: SETUP_FORMAT_VERSION,
    ...(readable?.ok ? { readable: readable.value } : {}),
    message: `The file has format version ${fileVersion} and this Keyglass reads up to version ${SETUP_FORMAT_VERSION}: use a newer Keyglass to edit it.`,
  };
}

/**
 * The text of a setup file: fields in the order of the schema, the same text for the same setup. Reading it back gives
 * exactly the same data.
 */
export function serializeSetup(setup: Setup): string {
  return `${stringifyReadable(inSchemaOrder(setup))}\n`;
}

/** The schema lays out fields in its own order; patches, which it does not know, go by the alphabet. */
export function inSchemaOrder(setup: Setup): Setup {
  const ordered = setupSchema.parse(setup);
  const frames = ordered.frames.map((frame) => ({
    ...frame,
    overrides: frame.overrides.map((override) => ({ ...override, patch: sortPatch(override.patch) })),
  }));
  return { ...ordered, frames };
}

const sortPatch = (patch: PlainObject): Record<string, unknown> => {
  const sorted = sortFields(patch);
  return isPlainObject(sorted) ? sorted : {};
};
