/** Something doubtful or wrong about one field of one record, shown beside that field. Never a silent repair. */
export interface Diagnostic {
  readonly severity: 'error' | 'warning';
  /** Stable, kebab-case. */
  readonly code: string;
  readonly recordId?: string;
  /** Path of the field, for example `camera.apertureFNumber`. */
  readonly field?: string;
  readonly value?: unknown;
  /** One sentence that names the field and the mend. */
  readonly message: string;
}
