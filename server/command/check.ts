import { CommandError, defineCommand, EXIT, type Streams } from './command.ts';
import { createLoader } from './load.ts';
import { type LocatedFinding, locateFindings } from './located.ts';

const FORMATS = ['text', 'json'] as const;

/** `fettle check`: the findings of files. */
export const check = defineCommand({
  name: 'check',
  operands: 'FILES',
  about: 'what is wrong in machines and part sheets',
  details: `Checks machines (NAME.machine.yaml) and part sheets (NAME.part.yaml). Sheets that a machine names are read from beside it
and from the library that ships.

  text   one finding a paragraph, with its line
  json   an array of {file, line, column, endLine, endColumn, severity, code, message};
         lines and columns count from 1, columns in UTF-16 units`,
  options: { format: { choices: FORMATS, about: 'how to write it' } },
  examples: ['fettle check examples/*/*.machine.yaml'],
  run: ({ operands, options }, streams) => checkFiles(operands, options.format, streams),
});

/** A file that cannot be read does not keep the others from being checked. */
async function checkFiles(
  files: readonly string[],
  wanted: (typeof FORMATS)[number],
  streams: Streams,
): Promise<number> {
  if (files.length === 0)
    throw new CommandError('check needs at least one file. "fettle help check" shows an example.');
  const load = createLoader();
  const findings: LocatedFinding[] = [];
  let unread = 0;
  for (const file of files) {
    try {
      findings.push(...locateFindings(await load(file)));
    } catch (failure) {
      if (!(failure instanceof CommandError)) throw failure;
      unread += 1;
      streams.err(`fettle: ${failure.message}\n`);
    }
  }
  streams.out(
    wanted === 'json' ? `${JSON.stringify(findings, null, 2)}\n` : findings.map(printFinding).join(''),
  );
  streams.err(`${summarise(findings, files.length - unread)}\n`);
  if (unread > 0) return EXIT.cannot;
  return findings.some((finding) => finding.severity !== 'hint') ? EXIT.findings : EXIT.clean;
}

function printFinding({ file, line, column, severity, code, message }: LocatedFinding): string {
  return `${file}:${line}:${column}: ${severity}: ${message} [${code}]\n`;
}

function summarise(findings: readonly LocatedFinding[], files: number): string {
  const count = (severity: LocatedFinding['severity']) =>
    findings.filter((finding) => finding.severity === severity).length;
  const say = (number: number, word: string) => `${number} ${word}${number === 1 ? '' : 's'}`;
  return `${say(files, 'file')} checked: ${say(count('error'), 'error')}, ${say(count('warning'), 'warning')}, ${say(count('hint'), 'hint')}.`;
}
