import type { Diagnostic } from '../core/diagnostic.ts';
import type { OpticalSurface, Volume } from '../materials/surface.ts';

/** What one record turns into. */
export interface Built {
  readonly surfaces: readonly OpticalSurface[];
  readonly volumes: readonly Volume[];
  readonly diagnostics: readonly Diagnostic[];
}

export const builtOf = (surfaces: readonly OpticalSurface[], volumes: readonly Volume[] = []): Built => ({
  surfaces,
  volumes,
  diagnostics: [],
});

/** The record is left out; its diagnostics say why. */
export const leftOut = (diagnostics: readonly Diagnostic[]): Built => ({ surfaces: [], volumes: [], diagnostics });
