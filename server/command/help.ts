/** What `fettle help` shows. */
export const HELP = `Checks and explains definitions of small CNC machines.

  fettle check [--format text|json] FILES    what is wrong in machines and part sheets
  fettle report [--format html|json|text] [-o OUT] FILE
                                             the wiring summary as a page, the numbers as JSON
  fettle explain FILE ADDRESS [--set PATH=VALUE]
                                             how a number comes about, e.g. axes.X.top-feed,
                                             and what it would be with another value
  fettle netlist [--group CIRCUIT] [--operated NAME] FILE
                                             the circuits as SPICE text, for any circuit simulator
  fettle schema machine|part                 the JSON Schema of a file
  fettle help COMMAND                        more about a command

Exit codes: 0 clean or hints only, 1 findings, 2 the command could not run.
It computes and compares; it does not certify. Local codes, the makers' manuals and licensed practice decide.
`;

const MORE: Readonly<Record<string, string>> = {
  check: `fettle check [--format text|json] FILES

Checks machines (NAME.machine.yaml) and part sheets (NAME.part.yaml). Sheets that a machine names are read from
beside it and from the library that ships.

  --format text   one finding a paragraph, with its line (the default)
  --format json   an array of {file, line, column, endLine, endColumn, severity, code, message};
                  lines and columns count from 1, columns in UTF-16 units

Example: fettle check examples/*/*.machine.yaml
`,
  report: `fettle report [--format html|json|text] [-o OUT] FILE

Writes what the definition means.

  --format html   one self-contained page with the wiring drawing and terminal charts (the default)
  --format json   {machine, values: {"axes.X.pulses-per-length": {value, unit, working}, ...}, findings}
  --format text   the headline numbers, for a terminal
  -o OUT          write to a file instead of standard output

Example: fettle report -o router.html examples/gantry-router/gantry-router.machine.yaml
`,
  explain: `fettle explain FILE ADDRESS [--set PATH=VALUE ...]

Shows the working of one number: the formula with this machine's figures, its source, and what depends on it.

  --set PATH=VALUE   try another value without changing the file: the number before and after, and what else would
                     change, findings included. May be given several times; the address may then be left out.
                     Paths: axes.X.screw.lead, parts.drive-x.microsteps (a setting), records.0.within

Example: fettle explain examples/gantry-router/gantry-router.machine.yaml axes.X.pulses-per-length
Example: fettle explain examples/gantry-router/gantry-router.machine.yaml axes.X.top-feed --set parts.drive-x.microsteps=16
`,
  netlist: `fettle netlist [--group CIRCUIT] [--operated NAME] FILE

Writes the circuits that the wiring forms as SPICE text, so that any circuit simulator can check what was solved. Each
circuit is a text of its own, which ends with .end; what its nodes are, and what they were solved to, stands in comments.

  --group CIRCUIT   only what hangs together with this circuit, e.g. panel.x-far; without it everything that looks at
                    something
  --operated NAME   while this part or output is operated, e.g. far-x or panel.x-pulse; without it everything at rest

Example: fettle netlist --group panel.x-far examples/gantry-router/gantry-router.machine.yaml
`,
  schema: `fettle schema machine|part

Prints the JSON Schema (draft 2020-12) of machine definitions or of part sheets, for editors without a language server.
`,
};

/** What \`fettle help COMMAND\` shows; the whole help for a command that does not exist. */
export function helpFor(command: string): string {
  return Object.hasOwn(MORE, command) ? (MORE[command] ?? HELP) : HELP;
}
