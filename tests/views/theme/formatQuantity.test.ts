import { describe, expect, it } from 'vitest';
import { formatFigure, formatPercent, formatQuantity, formatStops } from '../../../src/views/theme/formatQuantity.ts';

describe('figures as they are printed', () => {
  it('prints stops with a sign and one decimal, and no sign on zero', () => {
    expect([1.26, -0.34, 0.04, -0.04].map(formatStops)).toEqual(['+1.3', '\u22120.3', '0.0', '0.0']);
  });

  it('prints three figures that count, with a thin space before thousands', () => {
    expect([0.4218, 4.218, 42.18, 421.8, 4218, 42180].map(formatFigure)).toEqual([
      '0.422',
      '4.22',
      '42.2',
      '422',
      '4\u2009220',
      '42\u2009180',
    ]);
  });

  it('says so when there is no figure', () => {
    expect(formatFigure(Number.NaN)).toBe('no figure');
    expect(formatFigure(Number.POSITIVE_INFINITY)).toBe('no figure');
  });

  it('prints small shares with more decimals than large ones', () => {
    expect([1, 0.22, 0.053, 0.0004].map(formatPercent)).toEqual(['100', '22', '5.3', '0.04']);
  });

  it('shortens the unit of a finding to what is counted and keeps its words for the long form', () => {
    expect(formatQuantity(4.2, 'stops over surroundings')).toEqual({
      figure: '+4.2',
      unit: 'stops',
      long: 'stops over surroundings',
    });
    expect(formatQuantity(0.22, 'share of the front element')).toEqual({
      figure: '22',
      unit: '%',
      long: '% of the front element',
    });
  });
});
