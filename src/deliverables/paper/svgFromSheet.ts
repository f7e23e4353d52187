import { toBase64 } from './base64.ts';
import { escapeMarkup } from './escapeMarkup.ts';
import type { Mark, PointMm, Sheet, Stroke } from './marks.ts';
import { MM_PER_PT } from './paperSize.ts';

/** The project's own face where it is installed; the papers' layout is measured in Helvetica. */
const FACE = "'Spline Sans Variable','Spline Sans',Helvetica,Arial,sans-serif";

/**
 * A sheet as an SVG 1.1 file that prints at full size: one user unit is one millimetre. No script, no style sheet, no
 * link; every text is escaped.
 */
export function svgFromSheet(sheet: Sheet): string {
  let clips = 0;
  const nextClip = (): string => `clip${++clips}`;
  const { widthMm, heightMm } = sheet;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="${mm(widthMm)}mm" height="${mm(heightMm)}mm" viewBox="0 0 ${mm(widthMm)} ${mm(heightMm)}" font-family="${FACE}" fill="none" stroke-linejoin="round" stroke-linecap="butt">`,
    `<title>${escapeMarkup(sheet.title)}</title>`,
    `<rect width="${mm(widthMm)}" height="${mm(heightMm)}" fill="#fff"/>`,
    ...sheet.marks.map((mark) => markup(mark, nextClip)),
    '</svg>',
    '',
  ].join('\n');
}

function markup(mark: Mark, nextClip: () => string): string {
  switch (mark.type) {
    case 'line':
      return `<path d="${pathData(mark.pointsMm, mark.closed)}"${fill(mark.fill)}${stroke(mark.stroke)}/>`;
    case 'circle': {
      const [x, y] = mark.centreMm;
      return `<circle cx="${mm(x)}" cy="${mm(y)}" r="${mm(mark.radiusMm)}"${fill(mark.fill)}${stroke(mark.stroke)}/>`;
    }
    case 'text': {
      const [x, y] = mark.atMm;
      const turn = mark.turnDeg ? ` transform="rotate(${mm(-mark.turnDeg)} ${mm(x)} ${mm(y)})"` : '';
      const weight = mark.weight === 'bold' ? ' font-weight="600"' : '';
      const anchor = mark.anchor && mark.anchor !== 'start' ? ` text-anchor="${mark.anchor}"` : '';
      const size = mm(mark.sizePt * MM_PER_PT);
      return `<text x="${mm(x)}" y="${mm(y)}" font-size="${size}"${weight}${anchor} fill="${shade(mark.grey ?? 0)}"${turn}>${escapeMarkup(mark.text)}</text>`;
    }
    case 'picture': {
      const [x, y] = mark.cornerMm;
      const data = `data:image/png;base64,${toBase64(mark.png)}`;
      return `<image x="${mm(x)}" y="${mm(y)}" width="${mm(mark.widthMm)}" height="${mm(mark.heightMm)}" xlink:href="${data}"><title>${escapeMarkup(mark.description)}</title></image>`;
    }
    case 'clip': {
      const [x, y] = mark.cornerMm;
      const id = nextClip();
      return [
        `<clipPath id="${id}"><rect x="${mm(x)}" y="${mm(y)}" width="${mm(mark.widthMm)}" height="${mm(mark.heightMm)}"/></clipPath>`,
        `<g clip-path="url(#${id})">`,
        ...mark.marks.map((inner) => markup(inner, nextClip)),
        '</g>',
      ].join('\n');
    }
  }
}

const pathData = (points: readonly PointMm[], closed: boolean): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${mm(x)} ${mm(y)}`).join('') + (closed ? 'Z' : '');

const fill = (grey: number | undefined): string => (grey === undefined ? '' : ` fill="${shade(grey)}"`);

const stroke = (look: Stroke | undefined): string => {
  if (!look) return '';
  const dash = look.dashMm ? ` stroke-dasharray="${look.dashMm.map(mm).join(' ')}"` : '';
  return ` stroke="${shade(look.grey ?? 0)}" stroke-width="${mm(look.widthMm)}"${dash}`;
};

const shade = (grey: number): string => {
  const level = Math.round(255 * Math.min(1, Math.max(0, grey)))
    .toString(16)
    .padStart(2, '0');
  return `#${level}${level}${level}`;
};

/** A hundredth of a hair is enough on paper. */
const mm = (value: number): string => String(Number(value.toFixed(3)) + 0);
