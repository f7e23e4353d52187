/** A start tag as a browser would read it. */
export interface ReadTag {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
}

export interface ReadMarkup {
  readonly tags: readonly ReadTag[];
  /** Text between tags, with its entities resolved. */
  readonly text: string;
}

const VOID = new Set(['meta', 'img', 'br', 'link', 'input', 'hr']);

/**
 * Reads well-formed markup (XML, or HTML written as strictly) by itself, so that it can check a writer. Throws on anything
 * that does not nest, on an attribute without quotes, on a stray '<', and on a comment or section, of which we write none.
 */
export function readMarkup(source: string): ReadMarkup {
  const tags: ReadTag[] = [];
  const open: string[] = [];
  let text = '';
  let at = 0;
  while (at < source.length) {
    const start = source.indexOf('<', at);
    text += resolve(source.slice(at, start < 0 ? source.length : start), open);
    if (start < 0) break;
    const rest = source.slice(start);
    const prologue = /^<(?:\?xml [^?]*\?|!doctype html)>/i.exec(rest);
    if (prologue) {
      at = start + prologue[0].length;
      continue;
    }
    const end = /^<\/([a-z][a-z0-9-]*)>/i.exec(rest);
    if (end) {
      const last = open.pop();
      if (last !== end[1]) throw new Error(`</${end[1]}> closes <${last}>`);
      at = start + end[0].length;
      continue;
    }
    const tag = /^<([a-z][a-z0-9:-]*)((?:\s+[a-z][a-z0-9:-]*="[^"<]*")*)\s*(\/?)>/i.exec(rest);
    if (!tag) throw new Error(`not a tag: ${rest.slice(0, 60)}`);
    const attributes = new Map(
      [...tag[2].matchAll(/([a-z][a-z0-9:-]*)="([^"]*)"/gi)].map(
        ([, name, value]) => [name, resolve(value, [])] as const,
      ),
    );
    tags.push({ name: tag[1], attributes });
    if (tag[3] === '' && !VOID.has(tag[1])) open.push(tag[1]);
    at = start + tag[0].length;
  }
  if (open.length > 0) throw new Error(`<${open.join('>, <')}> stays open`);
  return { tags, text };
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'", '#96': '`' };

function resolve(raw: string, open: readonly string[]): string {
  if (open.at(-1) === 'style') return '';
  return raw.replace(/&([^;]*;?)/g, (_, name: string) => {
    const sign = name.endsWith(';') ? ENTITIES[name.slice(0, -1)] : undefined;
    if (sign === undefined) throw new Error(`not an entity: &${name}`);
    return sign;
  });
}
