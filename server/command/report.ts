import { writeFile } from 'node:fs/promises';
import { CommandError, defineCommand, EXIT, onlyFile, type Streams } from './command.ts';
import { createLoader, type Loaded } from './load.ts';
import { locateFindings } from './located.ts';
import { printReportPage } from './report-page.ts';
import { printReportText } from './report-text.ts';

const FORMATS = ['html', 'json', 'text'] as const;

/** `fettle report`: what a definition means, as a page, as JSON or as text. */
export const report = defineCommand({
  name: 'report',
  operands: 'FILE',
  about: 'what a machine means: the wiring summary as a page, the numbers as JSON',
  details: `  html   one self-contained page with the wiring drawing and terminal charts
  json   {machine, values: {"axes.X.pulses-per-length": {value, unit, working}, ...}, findings}
  text   the headline numbers, for a terminal`,
  options: {
    format: { choices: FORMATS, about: 'how to write it' },
    output: { takes: 'FILE', short: 'o', about: 'write to a file in place of standard output' },
  },
  examples: ['fettle report -o router.html examples/gantry-router/gantry-router.machine.yaml'],
  run: ({ operands, options }, streams) =>
    writeReport(
      onlyFile(operands, 'report takes one machine. "fettle help report" shows an example.'),
      options.format,
      options.output,
      streams,
    ),
});

async function writeReport(
  file: string,
  wanted: (typeof FORMATS)[number],
  output: string | undefined,
  streams: Streams,
): Promise<number> {
  const loaded = await createLoader()(file);
  if (loaded.analysis.kind !== 'machine')
    throw new CommandError(`${file} is a part sheet; report takes a machine.`);
  const text =
    wanted === 'json'
      ? printJson(loaded)
      : wanted === 'html'
        ? await printReportPage(loaded)
        : printReportText(loaded);
  if (output === undefined) streams.out(text);
  else {
    await writeOutput(output, text);
    streams.err(`Wrote ${output}.\n`);
  }
  return locateFindings(loaded).some((finding) => finding.severity !== 'hint') ? EXIT.findings : EXIT.clean;
}

async function writeOutput(path: string, text: string): Promise<void> {
  try {
    await writeFile(path, text);
  } catch (failure) {
    throw new CommandError(`${path} cannot be written: ${(failure as Error).message}.`);
  }
}

function printJson(loaded: Loaded): string {
  const { analysis } = loaded;
  const values = [...analysis.values.byAddress.values()].map((value) => [
    value.address,
    {
      value: value.word ?? value.value,
      unit: value.unit,
      working: value.working,
      ...(value.limit !== undefined && { limit: value.limit }),
    },
  ]);
  const machine = analysis.kind === 'machine' ? analysis.machine.title : '';
  return `${JSON.stringify({ machine, values: Object.fromEntries(values), findings: locateFindings(loaded) }, null, 2)}\n`;
}
