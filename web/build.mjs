// Bundles the pages into web/dist: one script for the frame and Round, one
// chunk for every other page, the catalogues of words, the service worker.
// Prints what a phone has to fetch, compressed; fails over the budget.
import { createHash } from 'node:crypto';
import {
  cpSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync,
} from 'node:fs';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const FIRST_KB = 60; // script of the first screen, compressed
const ALL_KB = 250; // all scripts, compressed

process.chdir(new URL('.', import.meta.url).pathname);
const dist = 'dist';
rmSync(dist, { recursive: true, force: true });
mkdirSync(dist, { recursive: true });

const common = {
  bundle: true, format: 'esm', target: 'es2020', minify: true,
  legalComments: 'none', logLevel: 'warning',
};
const made = await build({
  ...common, entryPoints: { app: 'src/app.tsx' }, outdir: dist,
  splitting: true, chunkNames: '[name]-[hash]', metafile: true,
  jsx: 'automatic', jsxImportSource: 'preact',
});
await build({ ...common, entryPoints: { app: 'src/app.css' }, outdir: dist });
cpSync('static', dist, { recursive: true });
for (const name of readdirSync('words')) {
  const words = JSON.parse(readFileSync(join('words', name), 'utf8'));
  writeFileSync(join(dist, name), JSON.stringify(words));
}

// What the first screen imports at once, followed through the chunks.
const outputs = made.metafile.outputs;
const first = new Set();
const follow = (path) => {
  if (first.has(path)) return;
  first.add(path);
  for (const { path: next, kind } of outputs[path].imports) {
    if (kind === 'import-statement') follow(next);
  }
};
follow(`${dist}/app.js`);
// Its scripts are asked for together, not one after the other was read.
const page = readFileSync(join(dist, 'index.html'), 'utf8');
const links = [...first].filter((path) => path !== `${dist}/app.js`).sort()
  .map((path) => `<link rel="modulepreload" href="/${basename(path)}">\n`).join('');
writeFileSync(join(dist, 'index.html'), page.replace('<script type="module"', `${links}<script type="module"`));

// The service worker knows every file by name and all of them by one hash.
const files = readdirSync(dist).sort();
const hash = createHash('sha256');
for (const name of files) hash.update(name).update(readFileSync(join(dist, name)));
await build({
  ...common, entryPoints: { sw: 'src/sw.ts' }, outdir: dist, format: 'iife',
  define: {
    FILES: JSON.stringify(files.filter((name) => name !== 'index.html')),
    VERSION: JSON.stringify(hash.digest('hex').slice(0, 12)),
  },
});

const size = (path) => gzipSync(readFileSync(path), { level: 9 }).length;
let firstBytes = 0;
let allBytes = 0;
for (const name of readdirSync(dist).filter((n) => n.endsWith('.js')).sort()) {
  const bytes = size(join(dist, name));
  allBytes += bytes;
  if (first.has(`${dist}/${name}`)) firstBytes += bytes;
  const from = outputs[`${dist}/${name}`]?.entryPoint ?? '';
  console.log(`${String(bytes).padStart(8)}  ${name}  ${basename(from)}`);
}
const kb = (bytes) => (bytes / 1000).toFixed(1);
console.log(`first screen ${kb(firstBytes)} kB of ${FIRST_KB}; all scripts ` +
  `${kb(allBytes)} kB of ${ALL_KB}; css ${kb(size(join(dist, 'app.css')))} kB`);
if (firstBytes > FIRST_KB * 1000 || allBytes > ALL_KB * 1000) process.exit(1);
