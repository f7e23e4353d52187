const MINUS = '\u2212';

/** Stops with a sign and one decimal: '+1.3', '−0.3', '0.0'. */
export function formatStops(stops: number): string {
  const rounded = Math.round(stops * 10) / 10;
  if (rounded === 0) return '0.0';
  return `${rounded > 0 ? '+' : MINUS}${Math.abs(rounded).toFixed(1)}`;
}

/** Three significant figures, thousands apart with a thin space: '0.42', '48.1', '1 240'. */
export function formatFigure(value: number): string {
  if (!Number.isFinite(value)) return 'no figure';
  const size = Math.abs(value);
  const sign = value < 0 ? MINUS : '';
  if (size === 0) return '0';
  if (size < 0.001) return `${sign}<0.001`;
  const digits = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : 3;
  const rounded = size >= 1000 ? Math.round(size / 10) * 10 : size;
  return sign + rounded.toFixed(digits).replace(/\B(?=(\d{3})+(?!\d))/g, '\u2009');
}

export const formatPercent = (share: number): string => {
  const percent = share * 100;
  return percent >= 10 || percent === 0 ? percent.toFixed(0) : percent >= 1 ? percent.toFixed(1) : percent.toFixed(2);
};

/**
 * A figure and its unit as they are printed. Units of findings begin with what is counted and go on in words
 * ('stops over surroundings', 'share of the frame'); `long` keeps the words, for where there is room.
 */
export function formatQuantity(
  value: number,
  unit: string,
): { readonly figure: string; readonly unit: string; readonly long: string } {
  const [counted, ...words] = unit.split(' ');
  const rest = words.length > 0 ? ` ${words.join(' ')}` : '';
  switch (counted) {
    case 'stops':
      return { figure: formatStops(value), unit: 'stops', long: `stops${rest}` };
    case 'share':
      return { figure: formatPercent(value), unit: '%', long: `%${rest}` };
    case 'cd/m2':
      return { figure: formatFigure(value), unit: 'cd/m\u00b2', long: `cd/m\u00b2${rest}` };
    case 'lux':
      return { figure: formatFigure(value), unit: 'lx', long: `lx${rest}` };
    default:
      return { figure: formatFigure(value), unit: counted, long: unit };
  }
}
