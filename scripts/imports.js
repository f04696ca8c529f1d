/** Checks the direction of imports in `src/`, and that the check saw the files it is there for. */
import { readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { cruise } from "dependency-cruiser";

const root = fileURLToPath(new URL("..", import.meta.url));

/**
 * @param {string} folder the folder that holds `src/`
 * @returns {Promise<{ modules: number, violations: string[] }>}
 */
export async function checkImports(folder) {
  const { forbidden, options } = createRequire(import.meta.url)("../.dependency-cruiser.cjs");
  const { output } = await cruise(["src"], { ...options, baseDir: folder, ruleSet: { forbidden }, validate: true });
  if (typeof output === "string") throw new Error(`the import check gave a text instead of a result: ${output}`);
  const violations = output.summary.violations.map(
    ({ rule, from, to }) =>
      `${from} → ${to}\n    ${rule.name}: ${forbidden.find((/** @type {{ name: string }} */ one) => one.name === rule.name)?.comment}`,
  );
  return { modules: output.modules.filter(({ source }) => /^src\/.*\.tsx?$/.test(source)).length, violations };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { modules, violations } = await checkImports(root);
  const files = readdirSync(new URL("../src", import.meta.url), { recursive: true, encoding: "utf8" });
  const expected = files.filter((name) => /\.tsx?$/.test(name)).length;
  for (const violation of violations) console.error(`  ${violation}`);
  console.log(`imports: ${modules} of ${expected} modules read, ${violations.length} wrong`);
  // A check that read nothing finds nothing.
  if (modules === 0 || modules < expected) console.error("  the import check did not see every file of src/");
  process.exitCode = violations.length > 0 || modules === 0 || modules < expected ? 1 : 0;
}
