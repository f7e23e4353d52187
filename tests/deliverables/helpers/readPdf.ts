import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Whether the independent PDF reader poppler is on this machine. */
export const hasPoppler = spawnSync('pdftotext', ['-v']).status === 0 && spawnSync('pdfinfo', ['-v']).status === 0;

/** Text of each page as poppler reads it, laid out as on the page. */
export function pdfPages(bytes: Uint8Array): string[] {
  return withFile(bytes, (path) => run('pdftotext', ['-layout', '-enc', 'UTF-8', path, '-']).split('\f').slice(0, -1));
}

/** What pdfinfo says, by field. */
export function pdfInfo(bytes: Uint8Array): ReadonlyMap<string, string> {
  return withFile(bytes, (path) => {
    const lines = run('pdfinfo', ['-f', '1', '-l', '999', path]).split('\n');
    return new Map(
      lines.filter((l) => l.includes(':')).map((l) => [l.slice(0, l.indexOf(':')), l.slice(l.indexOf(':') + 1).trim()]),
    );
  });
}

function withFile<T>(bytes: Uint8Array, use: (path: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'keyglass-pdf-'));
  try {
    const path = join(folder, 'a.pdf');
    writeFileSync(path, bytes);
    return use(path);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function run(command: string, args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(command, args, { encoding: 'utf8', maxBuffer: 1 << 26 });
  if (status !== 0) throw new Error(`${command}: ${stderr}`);
  if (stderr.trim() !== '') throw new Error(`${command} complains: ${stderr}`);
  return stdout;
}
