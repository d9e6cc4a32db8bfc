// The tests of the pages: node run.mjs LEAT [word in a case's name]
//
// Each case is an exported async function of a file in cases/; its name, with
// spaces for underscores, is the sentence that it shows. SHOTS=FOLDER keeps
// screenshots. Writes "passed failed skipped" to the file COUNT names.
import { readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { closeAll, makePlanned, openBrowser, useLeat } from './lib.mjs';

const [leat, only] = process.argv.slice(2);
if (leat === undefined) {
  console.error('usage: node run.mjs LEAT [word]');
  process.exit(2);
}
useLeat(leat);
const folder = join(dirname(fileURLToPath(import.meta.url)), 'cases');
let passed = 0;
let failed = 0;
const start = Date.now();
async function runFile(file) {
  const cases = await import(pathToFileURL(join(folder, file)).href);
  // In the order written: later cases may build on a farm of earlier ones.
  for (const [name, act] of Object.entries(cases.default)) {
    const title = name.replace(/_/g, ' ');
    if (only !== undefined && !file.includes(only) && !title.includes(only)) continue;
    const from = Date.now();
    try {
      await act();
      passed++;
      console.log(`ok    ${((Date.now() - from) / 1000).toFixed(1).padStart(5)} s  ${title}`);
    } catch (error) {
      failed++;
      console.log(`FAIL  ${((Date.now() - from) / 1000).toFixed(1).padStart(5)} s  ${title}\n${error.stack}`);
    }
  }
}

const AT_ONCE = 3; // files; each has farms and servers of its own
try {
  await openBrowser();
  makePlanned();
  // What is timed (z_) runs alone; of the rest the longest begin.
  const files = readdirSync(folder).filter((name) => name.endsWith('.mjs')).sort().reverse();
  await runFile(files.shift());
  await Promise.all(Array.from({ length: AT_ONCE }, async () => {
    for (let file = files.shift(); file !== undefined; file = files.shift()) await runFile(file);
  }));
} finally {
  await closeAll();
}
console.log(`${passed} passed, ${failed} failed in ${((Date.now() - start) / 1000).toFixed(0)} s`);
if (process.env.COUNT !== undefined) writeFileSync(process.env.COUNT, `${passed} ${failed} 0\n`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
