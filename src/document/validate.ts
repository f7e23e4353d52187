import { fail, type Result } from '../core/result.ts';
import { findIntegrityIssues } from './integrity.ts';
import type { SetupIssue } from './issues.ts';
import { MAX_ISSUES, parseData } from './parseData.ts';
import { type Setup, setupSchema } from './setup.ts';

/**
 * Checks unchecked data as a whole setup: the schema, fields that no record has, and references between records.
 * Gives the setup with defaults filled in, frozen, or all that is wrong with it.
 */
export function validateSetup(raw: unknown): Result<Setup, readonly SetupIssue[]> {
  const parsed = parseData(setupSchema, raw, []);
  if (!parsed.ok) return parsed;
  const issues = findIntegrityIssues(parsed.value);
  return issues.length === 0 ? parsed : fail(issues.slice(0, MAX_ISSUES));
}
