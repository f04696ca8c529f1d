/** The demo coils, bundled: there without a server too. */
export interface Example {
  readonly name: string;
  readonly text: string;
}

const files = import.meta.glob<string>("../../../examples/**/*.yaml", {
  query: "?raw",
  import: "default",
  eager: true,
});

/** All of them by name of file. Only coil files count: those that say `coilwright:`. */
export const readExamples = (): Example[] =>
  Object.entries(files)
    .filter(([, text]) => /^coilwright:/m.test(text))
    .map(([path, text]) => ({ name: path.split("/").at(-1) ?? path, text }))
    .sort((a, b) => a.name.localeCompare(b.name));
