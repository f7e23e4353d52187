/** A length that a drawing states, so that paper and setup can be compared. */
export interface StatedLength {
  readonly recordId: string;
  readonly measures: 'level distance' | 'right' | 'front' | 'height';
  readonly lengthM: number;
  /** As it stands on the sheet, mm. */
  readonly words: string;
}
