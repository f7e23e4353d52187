import type { MigrationStep } from './migrate.ts';

/**
 * One step for every older version that a file can have, oldest first. Version 1 is the first, so there is none yet.
 * Adding version n + 1: write the step, add it here, freeze an example of version n in tests/document/migrations/frozen.
 */
export const MIGRATION_STEPS: readonly MigrationStep[] = [];
