import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** A page as the reader of pdf.js finds it: points (1/72 inch), origin at the lower left corner. */
export interface ReadPage {
  readonly widthPt: number;
  readonly heightPt: number;
  readonly texts: readonly { readonly text: string; readonly x: number; readonly y: number }[];
  /** Boxes round every path that is drawn: x0, y0, x1, y1. */
  readonly pathBoxes: readonly (readonly [number, number, number, number])[];
}

/** Reads a PDF by Mozilla's pdf.js, which shares no code with the writer. */
export async function readPdfJs(bytes: Uint8Array): Promise<ReadPage[]> {
  const task = getDocument({ data: bytes.slice(), verbosity: 0, isEvalSupported: false, useSystemFonts: true });
  const pdf = await task.promise;
  const pages: ReadPage[] = [];
  for (let n = 1; n <= pdf.numPages; n++) {
    const page = await pdf.getPage(n);
    const { width, height } = page.getViewport({ scale: 1 });
    const content = await page.getTextContent();
    const { fnArray, argsArray } = await page.getOperatorList();
    const pathBoxes = fnArray.flatMap((fn: number, i: number) => {
      if (fn !== OPS.constructPath) return [];
      // [paint operator, [path], [x0, y0, x1, y1]]
      const box: unknown = argsArray[i]?.[2];
      const values = box instanceof Float32Array || Array.isArray(box) ? Array.from(box, Number) : [];
      return values.length === 4 ? [[values[0], values[1], values[2], values[3]] as const] : [];
    });
    pages.push({
      widthPt: width,
      heightPt: height,
      texts: content.items.flatMap((item) =>
        'str' in item && item.str.trim() !== '' ? [{ text: item.str, x: item.transform[4], y: item.transform[5] }] : [],
      ),
      pathBoxes,
    });
  }
  await task.destroy();
  return pages;
}
