/**
 * Writes assets/setup.schema.json and the field tables of docs/setup-format.md from the schema that reads setups.
 * With --check it writes nothing and exits 1 when one of them is not up to date.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { stringifyReadable } from '../src/document/stringify.ts';
import { writeFieldTables } from './schema/fieldTables.ts';
import { buildSetupJsonSchema } from './schema/setupJsonSchema.ts';

const SCHEMA_URL = new URL('../assets/setup.schema.json', import.meta.url);
const DOCS_URL = new URL('../docs/setup-format.md', import.meta.url);
const BEGIN = '<!-- Fields: written by tools/gen-schema.ts; edit the schema, not this part. -->';
const END = '<!-- End of the fields. -->';

interface Generated {
  readonly url: URL;
  readonly name: string;
  readonly text: string;
}

/** What the two files should hold now. */
export function generateSchemaFiles(): Generated[] {
  const schema = buildSetupJsonSchema();
  const docs = readFileSync(DOCS_URL, 'utf8');
  const begin = docs.indexOf(BEGIN);
  const end = docs.indexOf(END);
  if (begin < 0 || end < begin) throw new Error(`docs/setup-format.md must hold the lines "${BEGIN}" and "${END}".`);
  const tables = `${BEGIN}\n\n${writeFieldTables(schema)}\n`;
  return [
    { url: SCHEMA_URL, name: 'assets/setup.schema.json', text: `${stringifyReadable(schema)}\n` },
    { url: DOCS_URL, name: 'docs/setup-format.md', text: docs.slice(0, begin) + tables + docs.slice(end) },
  ];
}

/** Names of the files that differ from what they should hold. */
export function findStaleFiles(files: readonly Generated[] = generateSchemaFiles()): string[] {
  return files.filter(({ url, text }) => readOrEmpty(url) !== text).map(({ name }) => name);
}

function readOrEmpty(url: URL): string {
  try {
    return readFileSync(url, 'utf8');
  } catch {
    return '';
  }
}

function main(): void {
  const files = generateSchemaFiles();
  const stale = findStaleFiles(files);
  if (process.argv.includes('--check')) {
    if (stale.length === 0) return;
    console.error(`Not up to date: ${stale.join(', ')}. Run: npx tsx tools/gen-schema.ts`);
    process.exitCode = 1;
    return;
  }
  for (const { url, name, text } of files) {
    if (!stale.includes(name)) continue;
    writeFileSync(url, text);
    console.log(`wrote ${name}`);
  }
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) main();
