// The exported models, solved again by another solver.
//
// usage: node prove.mjs PROGRAM
//
// PROGRAM is write_proof, or any program of the same build: write_proof is then
// looked for beside it. Every model must be read with our own numbers of rows
// and columns (a reader that takes it for an empty model would call anything
// optimal), end with the status wanted, and where that is Optimal be worth what
// we say within 0.1 %. A plan that breaks a limit on purpose must be infeasible.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";

const TOLERANCE = 1e-3;
const STATUS_WORDS = new Map([
  [7, "Optimal"],
  [8, "Infeasible"],
  // Presolve may end before it knows which of the two.
  [9, "Infeasible"],
]);

function findWriter(program) {
  const build = join(dirname(program), "..", "..");
  const places = [join(build, "tests", "plan", "write_proof")];
  return basename(program) === "write_proof" ? program
                                             : places.find(existsSync);
}

function check(highs, folder, line) {
  const [name, wanted, value, rows, columns] = line.split(",");
  const data = new Uint8Array(readFileSync(join(folder, `${name}.mps`)));
  const model = highs.createModel({ format: "mps", data });
  try {
    model.options.set({ output_flag: false, mip_rel_gap: 1e-6 });
    const faults = [];
    const read = model.getLp();
    if (read.numRows !== Number(rows) || read.numCols !== Number(columns)) {
      faults.push(`read as ${read.numRows} rows and ${read.numCols} columns, ` +
                  `not ${rows} and ${columns}`);
    }
    model.run();
    const status = STATUS_WORDS.get(model.getModelStatus()) ??
                   String(model.getModelStatus());
    if (status !== wanted) {
      faults.push(`status ${status}, not ${wanted}`);
    } else if (wanted === "Optimal") {
      const got = model.getObjectiveValue();
      const want = Number(value);
      if (!(Math.abs(got - want) <= TOLERANCE * Math.max(1, Math.abs(want)))) {
        faults.push(`worth ${-got}, not ${-want}`);
      }
    }
    return faults.map((fault) => `${name}: ${fault}`);
  } finally {
    model.dispose();
  }
}

async function main() {
  const writer = process.argv[2] && findWriter(process.argv[2]);
  if (!writer) {
    console.error("usage: node prove.mjs PROGRAM (write_proof not found)");
    return 2;
  }
  let load;
  try {
    load = (await import("highs")).default;
  } catch {
    console.error("skipped: highs is not installed " +
                  "(npm ci --prefix tests/proof)");
    return 77;
  }
  const highs = await load();
  const folder = mkdtempSync(join(tmpdir(), "leat-proof-"));
  try {
    execFileSync(writer, [folder]);
    const lines = readFileSync(join(folder, "cases.csv"), "utf8").trim()
      .split("\n");
    const faults = lines.flatMap((line) => check(highs, folder, line));
    faults.forEach((fault) => console.error(fault));
    console.log(`${lines.length} models, ${faults.length} faults`);
    return faults.length > 0 || lines.length === 0 ? 1 : 0;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

try {
  process.exitCode = await main();
} catch (error) {
  console.error(String(error.message));
  process.exitCode = 1;
}
