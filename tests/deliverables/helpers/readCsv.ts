/**
 * Reads CSV text by the grammar of RFC 4180, one character at a time and by itself, so that it can check a writer.
 * Throws where the text breaks the grammar.
 */
export function readCsv(text: string): string[][] {
  const records: string[][] = [];
  let record: string[] = [];
  let at = 0;
  const next = (): string => text.charAt(at);
  while (at < text.length) {
    let field = '';
    if (next() === '"') {
      at++;
      for (;;) {
        if (at >= text.length) throw new Error('a quoted field has no end');
        if (next() !== '"') field += next();
        else if (text.charAt(at + 1) === '"') {
          field += '"';
          at++;
        } else break;
        at++;
      }
      at++;
    } else {
      while (at < text.length && !',\r\n'.includes(next())) {
        if (next() === '"') throw new Error(`a quote inside the bare field ${field}`);
        field += next();
        at++;
      }
    }
    record.push(field);
    if (next() === ',') {
      at++;
      if (at === text.length) throw new Error('the text ends after a comma');
    } else if (text.startsWith('\r\n', at)) {
      at += 2;
      records.push(record);
      record = [];
    } else throw new Error(`record ${records.length + 1} does not end in CR LF`);
  }
  if (record.length > 0) throw new Error('the last record does not end in CR LF');
  return records;
}
