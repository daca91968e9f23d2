import { writeFile } from 'node:fs/promises';
import { type Arguments, CommandError, chooseFormat, EXIT, type Streams } from './command.ts';
import { createLoader, type Loaded } from './load.ts';
import { locateFindings } from './located.ts';
import { printReportPage } from './report-page.ts';
import { printReportText } from './report-text.ts';

/** `fettle report`: what a definition means, as a page, as JSON or as text. */
export async function report({ files, format, output }: Arguments, streams: Streams): Promise<number> {
  const wanted = chooseFormat(format, ['html', 'json', 'text']);
  const [file, ...others] = files;
  if (file === undefined || others.length > 0)
    throw new CommandError('report takes one machine. "fettle help report" shows an example.');
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
