// Another solver on a model of ours: node solve_mps.mjs FILE SECONDS
//
// Prints its status, its best plan and its bound, signs turned back so that
// more is better. Exit 77 where it is not installed.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(new URL("../tests/proof/", import.meta.url));
const [file, seconds] = process.argv.slice(2);
let load;
try {
  load = require("highs");
} catch {
  console.log("skipped: highs is not installed (npm ci --prefix tests/proof)");
  process.exit(77);
}
const highs = await load();
const data = new Uint8Array(readFileSync(file));
const model = highs.createModel({ format: "mps", data });
model.options.set({ output_flag: false, time_limit: Number(seconds) });
model.run();
const info = (name) => {
  try {
    return -model.info.get(name);
  } catch {
    return NaN;
  }
};
const status = model.getModelStatus();
const words = { 7: "optimal", 8: "infeasible", 13: "time is over" };
// Without a plan the solver tells an infinite value.
const value = model.info.get("primal_solution_status") === 2
  ? info("objective_function_value").toFixed(2) : "none";
console.log(`${words[status] ?? `status ${status}`}, plan ${value}, ` +
            `bound ${info("mip_dual_bound").toFixed(2)}`);
model.dispose();
