import { describe, expect, it } from 'vitest';
import { nudgeFromKey } from '../../../src/views/shell/useKeys.ts';

describe('arrow keys on the selected thing', () => {
  it('moves 1 cm right, and 1 cm away from the camera side on up', () => {
    expect(nudgeFromKey('ArrowRight', false, false)).toEqual([0.01, 0, 0]);
    expect(nudgeFromKey('ArrowUp', false, false)).toEqual([0, 0, -0.01]);
  });

  it('moves 10 cm with Shift, and up and down with Alt', () => {
    expect(nudgeFromKey('ArrowLeft', false, true)).toEqual([-0.1, 0, 0]);
    expect(nudgeFromKey('ArrowUp', true, false)).toEqual([0, 0.01, 0]);
    expect(nudgeFromKey('ArrowDown', true, true)).toEqual([0, -0.1, 0]);
  });

  it('leaves other keys alone', () => {
    expect(nudgeFromKey('a', false, false)).toBeNull();
  });
});
