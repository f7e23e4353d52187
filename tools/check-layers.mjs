/**
 * Holds the direction of dependencies: a folder of src imports only folders above it, types included. Also: pure
 * folders stay pure, a file inside a folder imports files and never the folder's own barrel, nothing imports in a
 * circle, and no file grows past 800 lines. ARCHITECTURE.md draws the same rules.
 */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { basename, dirname, join, posix, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseSync, Visitor } from 'vite';

/** Top first; a folder imports only those before it. */
const FOLDERS = [
  'core',
  'materials',
  'fixtures',
  'camera',
  'scene',
  'transport',
  'analysis',
  'document',
  'deliverables',
  'views',
  'app',
];
/** Neighbours that know nothing of each other; scene joins them. */
const SIBLINGS = [['fixtures', 'camera']];
/** Inside transport; cpu and gpu stand side by side. contracts.ts is above all of them, other root files below. */
const TRANSPORT_RANK = { layout: 1, kernels: 2, compile: 3, cpu: 4, gpu: 4, workers: 5 };
const PURE =
  /^src\/(core|materials|fixtures|camera|scene|analysis|document|transport\/(layout|kernels|compile|cpu)|transport\/contracts\.ts$)/;
const PURE_PACKAGES = new Set(['zod', 'fflate', 'zustand/vanilla']);
/** Packages that need a page, and the folders that have one. */
const PAGE_PACKAGE =
  /^(react|react-dom|leva|zustand|idb-keyval|@(use-gesture|base-ui-components|fontsource-variable)\/.*)(\/|$)/;
const STAGE_PACKAGE = /^(@react-three\/.*|three)(\/|$)/;
const IMPURE_CALL = new Set([
  'Math.random',
  'Date.now',
  'performance.now',
  'crypto.getRandomValues',
  'crypto.randomUUID',
]);
const MAX_LINES = 800;
const SOURCE_FILE = /\.(ts|tsx|mjs|css|wgsl)$/;

/**
 * @param {string} root repository to check
 * @returns {string[]} one line per violation, `file: what is wrong and what to do`
 */
export function findLayerViolations(root) {
  const files = ['src', 'tests', 'tools', 'bench'].flatMap((folder) => sourceFilesUnder(root, folder));
  const violations = files.flatMap((file) => lengthViolation(root, file));
  /** @type {Map<string, string[]>} */
  const graph = new Map();
  for (const file of files.filter((name) => /^src\/.*\.tsx?$/.test(name))) {
    const { imports, impureCalls } = readModule(join(root, file));
    const targets = imports.map((specifier) => resolveSpecifier(root, file, specifier));
    for (const target of targets) {
      const reason = target.path ? pathViolation(file, target.path) : packageViolation(file, target.specifier);
      if (reason) violations.push(`${file}: imports ${target.specifier}: ${reason}`);
    }
    if (PURE.test(file)) {
      for (const call of impureCalls)
        violations.push(`${file}: uses ${call}: pure folders take time and chance as arguments`);
    }
    graph.set(
      file,
      targets.flatMap(({ path }) => (path ? [path] : [])),
    );
  }
  return [...violations, ...findCycles(graph).map((cycle) => `${cycle[0]}: imports in a circle: ${cycle.join(' > ')}`)];
}

/**
 * @param {string} root
 * @param {string} folder
 * @returns {string[]} paths from the root with forward slashes
 */
function sourceFilesUnder(root, folder) {
  const absolute = join(root, folder);
  if (!existsSync(absolute)) return [];
  return readdirSync(absolute, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.split(sep).join('/')}`)
    .filter((name) => SOURCE_FILE.test(name) && statSync(join(root, name)).isFile())
    .sort();
}

/**
 * @param {string} root
 * @param {string} file
 */
function lengthViolation(root, file) {
  if (/\.gen\./.test(file)) return [];
  const lines = readFileSync(join(root, file), 'utf8').split('\n').length - 1;
  return lines > MAX_LINES ? [`${file}: ${lines} lines: split it by job, ${MAX_LINES} is the most`] : [];
}

/**
 * @param {string} path
 * @returns {{ imports: string[], impureCalls: string[] }}
 */
function readModule(path) {
  const { program, errors } = parseSync(path, readFileSync(path, 'utf8'));
  const failure = errors[0];
  if (failure) throw new Error(`${path} does not parse: ${failure.message}`);
  /** @type {Set<string>} */
  const imports = new Set();
  /** @type {Set<string>} */
  const impureCalls = new Set();
  /** @param {{ type: string, value?: unknown } | null | undefined} source */
  const note = (source) => {
    if (source && typeof source.value === 'string') imports.add(source.value);
  };
  new Visitor({
    ImportDeclaration: (node) => note(node.source),
    ExportNamedDeclaration: (node) => note(node.source),
    ExportAllDeclaration: (node) => note(node.source),
    ImportExpression: (node) => note(node.source),
    TSImportType: (node) => note(node.source),
    MemberExpression: (node) => {
      if (node.object.type !== 'Identifier' || node.property.type !== 'Identifier') return;
      const call = `${node.object.name}.${node.property.name}`;
      if (IMPURE_CALL.has(call)) impureCalls.add(call);
    },
    NewExpression: (node) => {
      const [first] = node.arguments;
      if (node.callee.type !== 'Identifier') return;
      if (node.callee.name === 'Date' && !first) impureCalls.add('new Date()');
      // A worker's entry point counts as an import of the file it names.
      if (node.callee.name === 'URL' && first?.type === 'Literal' && /\.tsx?$/.test(String(first.value))) note(first);
    },
  }).visit(program);
  return { imports: [...imports], impureCalls: [...impureCalls] };
}

/**
 * @param {string} root
 * @param {string} file
 * @param {string} specifier
 * @returns {{ specifier: string, path: string | null }} path from the root, or null for a package
 */
function resolveSpecifier(root, file, specifier) {
  if (!specifier.startsWith('.')) return { specifier, path: null };
  const path = posix.join(posix.dirname(file), specifier.replace(/\?.*$/, ''));
  return { specifier, path: existsSync(join(root, path)) ? path : `${path} (missing)` };
}

/**
 * @param {string} from
 * @param {string} to
 * @returns {string | null}
 */
function pathViolation(from, to) {
  if (to.endsWith('(missing)')) return 'there is no such file; write the extension';
  if (basename(to) === 'index.ts' && from.startsWith(`${posix.dirname(to)}/`)) {
    return 'import the file itself, not the barrel of the folder it is in';
  }
  if (!to.startsWith('src/')) return to.startsWith('assets/') ? null : 'src imports only src and assets';
  const [fromFolder, toFolder] = [folderOf(from), folderOf(to)];
  if (fromFolder === toFolder) return fromFolder === 'transport' ? transportViolation(from, to) : null;
  if (FOLDERS.indexOf(toFolder) > FOLDERS.indexOf(fromFolder)) return `${fromFolder} stands above ${toFolder}`;
  if (SIBLINGS.some((pair) => pair.includes(fromFolder) && pair.includes(toFolder))) {
    return `${fromFolder} and ${toFolder} know nothing of each other; scene joins them`;
  }
  if (PURE.test(from) && !PURE.test(to)) return `${to} is not pure`;
  return null;
}

/**
 * @param {string} from
 * @param {string} to
 */
function transportViolation(from, to) {
  const [fromPart, toPart] = [from, to].map((path) => path.split('/')[2] ?? '');
  if (fromPart === toPart) return null;
  if (transportRank(toPart) > transportRank(fromPart)) return `transport/${fromPart} stands above transport/${toPart}`;
  if ([fromPart, toPart].sort().join() === 'cpu,gpu') return 'transport/cpu and transport/gpu never import each other';
  return null;
}

/** @param {string} part */
const transportRank = (part) =>
  part === 'contracts.ts' ? 0 : (TRANSPORT_RANK[/** @type {keyof typeof TRANSPORT_RANK} */ (part)] ?? 9);

/**
 * @param {string} from
 * @param {string} specifier
 * @returns {string | null}
 */
function packageViolation(from, specifier) {
  const folder = folderOf(from);
  if (specifier.startsWith('node:') || builtinModules.includes(specifier)) {
    return folder === 'transport' && !PURE.test(from) ? null : 'only transport/workers may name a module of Node';
  }
  if (PURE.test(from)) return PURE_PACKAGES.has(specifier) ? null : 'pure folders take no such package';
  if (STAGE_PACKAGE.test(specifier) && folder !== 'views') return 'three belongs to views';
  if (PAGE_PACKAGE.test(specifier) && folder !== 'views' && folder !== 'app') return 'only views and app have a page';
  return null;
}

/** @param {string} path */
const folderOf = (path) => path.split('/')[1] ?? '';

/**
 * Strongly connected parts of the import graph (Tarjan, "Depth-first search and linear graph algorithms", 1972).
 * @param {Map<string, string[]>} graph
 * @returns {string[][]}
 */
function findCycles(graph) {
  /** @type {Map<string, { index: number, low: number, open: boolean }>} */
  const state = new Map();
  /** @type {string[]} */
  const stack = [];
  /** @type {string[][]} */
  const cycles = [];
  /** @param {string} node */
  const visit = (node) => {
    const own = { index: state.size, low: state.size, open: true };
    state.set(node, own);
    stack.push(node);
    for (const next of graph.get(node) ?? []) {
      if (!graph.has(next)) continue;
      const seen = state.get(next);
      if (!seen) own.low = Math.min(own.low, visit(next).low);
      else if (seen.open) own.low = Math.min(own.low, seen.index);
    }
    if (own.low === own.index) {
      const members = stack.splice(stack.indexOf(node));
      for (const member of members) /** @type {{ open: boolean }} */ (state.get(member)).open = false;
      if (members.length > 1 || (graph.get(node) ?? []).includes(node)) cycles.push(members);
    }
    return own;
  };
  for (const node of graph.keys()) if (!state.has(node)) visit(node);
  return cycles;
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const root = resolve(dirname(fileURLToPath(import.meta.url)), '..');
  const violations = findLayerViolations(root);
  for (const line of violations) console.error(line);
  console.log(
    violations.length === 0 ? 'Layers hold.' : `${violations.length} violations in ${relative('.', root) || '.'}`,
  );
  process.exitCode = violations.length === 0 ? 0 : 1;
}
