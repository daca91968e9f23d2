import { listSettings } from '../core/summary/settings/rows.ts';
import { CommandError, defineCommand, EXIT, onlyFile, type Streams } from './command.ts';
import { createLoader, type Loaded } from './load.ts';
import { locateFindings } from './located.ts';
import { OUTPUT_OPTIONS, writeResult } from './output.ts';
import { printReportPage } from './report-page.ts';
import { printReportText } from './report-text.ts';
import { settingsData } from './settings/print.ts';

const FORMATS = ['html', 'json', 'text'] as const;

/** `fettle report`: what a definition means, as a page, as JSON or as text. */
export const report = defineCommand({
  name: 'report',
  operands: 'FILE',
  about: 'what a machine means: the wiring summary as a page, the numbers as JSON',
  details: `  html   one self-contained page with the wiring drawing and terminal charts
  json   {machine, values: {"axes.X.pulses-per-length": {value, unit, working}, ...}, settings, findings, silenced}
  text   the headline numbers and the settings to key in, for a terminal`,
  options: {
    format: { choices: FORMATS, about: 'how to write it' },
    ...OUTPUT_OPTIONS,
  },
  examples: ['fettle report -o router.html examples/gantry-router/gantry-router.machine.yaml'],
  run: ({ operands, options }, streams) =>
    writeReport(
      onlyFile(operands, 'report takes one machine. "fettle help report" shows an example.'),
      options,
      streams,
    ),
});

async function writeReport(
  file: string,
  options: { format: (typeof FORMATS)[number]; output: string | undefined; overwrite: boolean },
  streams: Streams,
): Promise<number> {
  const loaded = await createLoader()(file);
  if (loaded.analysis.kind !== 'machine')
    throw new CommandError(`${file} is a part sheet; report takes a machine.`);
  const text =
    options.format === 'json'
      ? printJson(loaded)
      : options.format === 'html'
        ? await printReportPage(loaded)
        : printReportText(loaded);
  await writeResult(text, options, streams);
  return locateFindings(loaded).some((finding) => finding.severity !== 'hint') ? EXIT.findings : EXIT.clean;
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
  const settings = analysis.kind === 'machine' ? settingsData(listSettings(analysis)) : [];
  const silenced = loaded.fettle
    .silenced(analysis)
    .map(({ finding: { code, severity, message }, by, reason }) => ({ code, severity, message, by, reason }));
  const findings = locateFindings(loaded);
  return `${JSON.stringify({ machine, values: Object.fromEntries(values), settings, findings, silenced }, null, 2)}\n`;
}
