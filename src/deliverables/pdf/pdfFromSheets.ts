import {
  appendBezierCurve,
  beginText,
  clip,
  closePath,
  endPath,
  endText,
  fill,
  fillAndStroke,
  lineTo,
  moveTo,
  PDFDocument,
  type PDFFont,
  type PDFName,
  type PDFOperator,
  type PDFPage,
  popGraphicsState,
  pushGraphicsState,
  rectangle,
  StandardFonts,
  setDashPattern,
  setFillingGrayscaleColor,
  setFontAndSize,
  setLineJoin,
  setLineWidth,
  setStrokingGrayscaleColor,
  setTextMatrix,
  showText,
  stroke as strokePath,
} from 'pdf-lib';
import type { CircleMark, LineMark, Mark, PointMm, Sheet, TextMark } from '../paper/marks.ts';
import { MM_PER_PT } from '../paper/paperSize.ts';
import { plainLetters, textWidthMm } from '../paper/typeset.ts';

export interface PdfFacts {
  readonly title: string;
  readonly subject: string;
  /** Written into the file as the day that it was made; the same input gives the same bytes. */
  readonly madeOn: Date;
}

interface Fonts {
  readonly regular: PDFFont;
  readonly bold: PDFFont;
}

/**
 * A PDF with one page for each sheet, at full size. Text is set in Helvetica, which every PDF reader has, so it stays
 * text: it can be searched and copied. Black and greys only.
 */
export async function pdfFromSheets(sheets: readonly Sheet[], facts: PdfFacts): Promise<Uint8Array> {
  const pdf = await PDFDocument.create({ updateMetadata: false });
  pdf.setTitle(facts.title, { showInWindowTitleBar: true });
  pdf.setSubject(facts.subject);
  pdf.setProducer('Keyglass');
  pdf.setCreator('Keyglass');
  pdf.setCreationDate(facts.madeOn);
  pdf.setModificationDate(facts.madeOn);
  const fonts: Fonts = {
    regular: await pdf.embedFont(StandardFonts.Helvetica),
    bold: await pdf.embedFont(StandardFonts.HelveticaBold),
  };
  for (const sheet of sheets) {
    const page = pdf.addPage([pt(sheet.widthMm), pt(sheet.heightMm)]);
    const names = {
      regular: page.node.newFontDictionary('F1', fonts.regular.ref),
      bold: page.node.newFontDictionary('F2', fonts.bold.ref),
    };
    const heightMm = sheet.heightMm;
    page.pushOperators(setLineJoin(1));
    for (const mark of sheet.marks) await drawMark({ pdf, page, fonts, names, heightMm }, mark);
  }
  // Object streams would make the file smaller and less readable for old printers' readers.
  return pdf.save({ useObjectStreams: false });
}

interface Page {
  readonly pdf: PDFDocument;
  readonly page: PDFPage;
  readonly fonts: Fonts;
  readonly names: Readonly<Record<keyof Fonts, PDFName>>;
  readonly heightMm: number;
}

async function drawMark(target: Page, mark: Mark): Promise<void> {
  const { page, heightMm } = target;
  switch (mark.type) {
    case 'line':
      page.pushOperators(...lineOperators(mark, heightMm));
      return;
    case 'circle':
      page.pushOperators(...circleOperators(mark, heightMm));
      return;
    case 'text':
      page.pushOperators(...textOperators(mark, target));
      return;
    case 'picture': {
      const image = await target.pdf.embedPng(mark.png);
      page.drawImage(image, {
        x: pt(mark.cornerMm[0]),
        y: pt(heightMm - mark.cornerMm[1] - mark.heightMm),
        width: pt(mark.widthMm),
        height: pt(mark.heightMm),
      });
      return;
    }
    case 'clip': {
      const [x, y] = mark.cornerMm;
      page.pushOperators(
        pushGraphicsState(),
        rectangle(pt(x), pt(heightMm - y - mark.heightMm), pt(mark.widthMm), pt(mark.heightMm)),
        clip(),
        endPath(),
      );
      for (const inner of mark.marks) await drawMark(target, inner);
      page.pushOperators(popGraphicsState());
      return;
    }
  }
}

type Paint = Pick<LineMark, 'stroke' | 'fill'>;

function painted({ stroke, fill: grey }: Paint, path: readonly PDFOperator[]): PDFOperator[] {
  if (!stroke && grey === undefined) return [];
  const end = stroke && grey !== undefined ? fillAndStroke() : stroke ? strokePath() : fill();
  return [
    pushGraphicsState(),
    ...(grey === undefined ? [] : [setFillingGrayscaleColor(grey)]),
    ...(stroke
      ? [
          setStrokingGrayscaleColor(stroke.grey ?? 0),
          setLineWidth(pt(stroke.widthMm)),
          ...(stroke.dashMm ? [setDashPattern(stroke.dashMm.map(pt), 0)] : []),
        ]
      : []),
    ...path,
    end,
    popGraphicsState(),
  ];
}

function lineOperators({ pointsMm, closed, ...paint }: LineMark, heightMm: number): PDFOperator[] {
  if (pointsMm.length < 2) return [];
  const path = pointsMm.map(([x, y], i) => (i === 0 ? moveTo : lineTo)(pt(x), pt(heightMm - y)));
  return painted(paint, closed ? [...path, closePath()] : path);
}

/** Handle of a cubic that follows a quarter circle: 4/3 (sqrt 2 - 1). */
const QUARTER = (4 / 3) * (Math.SQRT2 - 1);

function circleOperators({ centreMm, radiusMm, ...paint }: CircleMark, heightMm: number): PDFOperator[] {
  const x = pt(centreMm[0]);
  const y = pt(heightMm - centreMm[1]);
  const r = pt(radiusMm);
  const k = r * QUARTER;
  return painted(paint, [
    moveTo(x + r, y),
    appendBezierCurve(x + r, y + k, x + k, y + r, x, y + r),
    appendBezierCurve(x - k, y + r, x - r, y + k, x - r, y),
    appendBezierCurve(x - r, y - k, x - k, y - r, x, y - r),
    appendBezierCurve(x + k, y - r, x + r, y - k, x + r, y),
    closePath(),
  ]);
}

function textOperators(mark: TextMark, { fonts, names, heightMm }: Page): PDFOperator[] {
  const words = plainLetters(mark.text);
  if (words === '') return [];
  const weight = mark.weight ?? 'regular';
  const rad = ((mark.turnDeg ?? 0) * Math.PI) / 180;
  const [c, s] = [Math.cos(rad), Math.sin(rad)];
  const widthMm = textWidthMm(words, mark.sizePt, weight);
  const backMm = mark.anchor === 'middle' ? widthMm / 2 : mark.anchor === 'end' ? widthMm : 0;
  const at: PointMm = [mark.atMm[0] - c * backMm, mark.atMm[1] + s * backMm];
  return [
    beginText(),
    setFillingGrayscaleColor(mark.grey ?? 0),
    setFontAndSize(names[weight], mark.sizePt),
    setTextMatrix(c, s, -s, c, pt(at[0]), pt(heightMm - at[1])),
    showText(fonts[weight].encodeText(words)),
    endText(),
  ];
}

const pt = (lengthMm: number): number => Number((lengthMm / MM_PER_PT).toFixed(3));
