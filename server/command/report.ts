import { later, say } from '../core/language/say.ts';
import { nearestName } from '../core/nearest.ts';
import { printMarkdown } from '../core/summary/export/print-markdown.ts';
import { listSettings } from '../core/summary/settings/rows.ts';
import { SECTIONS, type Section } from '../core/summary/summary.ts';
import { CommandError, defineCommand, EXIT, onlyFile } from './command.ts';
import { createLoader, type Loaded } from './load.ts';
import { locateFindings } from './located.ts';
import { OUTPUT_OPTIONS, writeResult } from './output.ts';
import { printReportPage } from './report-page.ts';
import { printPicture, printTable } from './report-pieces.ts';
import { printReportText } from './report-text.ts';
import { settingsData } from './settings/print.ts';

const FORMATS = ['html', 'markdown', 'svg', 'csv', 'json', 'text'] as const;

/** `fettle report`: what a definition means, as a page, as text, as a picture or as data. */
export const report = defineCommand({
  name: 'report',
  operands: 'FILE',
  about: later`what a machine means: the wiring summary as a page, its tables and pictures, the numbers as JSON`,
  details: later`  html      one self-contained page with the wiring drawing, all tables and all pictures
  markdown  the same in words and tables
  svg       one picture: the wiring drawing, or the one that --item names
  csv       one table, which --item names (RFC 4180)
  json      {machine, values: {"axes.X.pulses-per-length": {value, unit, working}, ...}, settings, findings, silenced}
  text      the headline numbers and the settings to key in, for a terminal

Exit codes: 0 clean or hints only, 1 the machine has findings (the report is written all the same), 2 the command could
not run.`,
  options: {
    format: { choices: FORMATS, about: later`how to write it` },
    item: { takes: 'NAME', about: later`which table or picture; a wrong name lists those that there are` },
    date: {
      takes: 'DATE',
      about: later`the date in the head of the page, as it is to be read; none unless given`,
    },
    section: {
      takes: 'NAME',
      many: true,
      about: () => say`of a page, only this section, again for each: ${SECTIONS.join(', ')}`,
    },
    ...OUTPUT_OPTIONS,
  },
  examples: [
    'fettle report -o router.html examples/gantry-router/gantry-router.machine.yaml',
    'fettle report --section drawing --section charts -o cabinet.html examples/gantry-router/gantry-router.machine.yaml',
    'fettle report --format svg -o wiring.svg examples/gantry-router/gantry-router.machine.yaml',
    'fettle report --format csv --item parts-list examples/gantry-router/gantry-router.machine.yaml',
  ],
  run: async ({ operands, options }, streams) => {
    const file = onlyFile(operands, say`report takes one machine. "fettle help report" shows an example.`);
    const loaded = await createLoader()(file);
    if (loaded.analysis.kind !== 'machine')
      throw new CommandError(say`${file} is a part sheet; report takes a machine.`);
    await writeResult(await print(loaded, options), options, streams);
    const hasFindings = locateFindings(loaded).some(({ severity }) => severity !== 'hint');
    return hasFindings ? EXIT.findings : EXIT.clean;
  },
});

interface Wanted {
  readonly format: (typeof FORMATS)[number];
  readonly item: string | undefined;
  readonly date: string | undefined;
  readonly section: readonly string[];
}

/** @throws CommandError for a table or picture that is not there */
function print(loaded: Loaded, { format, item, date, section }: Wanted): string | Promise<string> {
  if (item !== undefined && format !== 'svg' && format !== 'csv')
    throw new CommandError(say`--item goes with --format svg or csv.`);
  if (section.length > 0 && format !== 'html')
    throw new CommandError(say`--section goes with --format html.`);
  switch (format) {
    case 'html':
      return printReportPage(loaded, {
        ...(date !== undefined && { date }),
        ...(section.length > 0 && { sections: readSections(section) }),
      });
    case 'markdown':
      return printMarkdown(loaded.fettle.summary(loaded.analysis), date);
    case 'svg':
      return printPicture(loaded.fettle.summary(loaded.analysis), item);
    case 'csv':
      return printTable(loaded.fettle.summary(loaded.analysis), item);
    case 'json':
      return printJson(loaded);
    case 'text':
      return printReportText(loaded);
  }
}

/** The sections of these names, in the order of the page. @throws CommandError for a name that there is not */
function readSections(names: readonly string[]): readonly Section[] {
  const sections: ReadonlySet<string> = new Set(SECTIONS);
  for (const name of names) {
    if (sections.has(name)) continue;
    const near = nearestName(name, SECTIONS);
    throw new CommandError(
      say`there is no section ${name}; ${near ? say`did you mean ${near}?` : say`take ${SECTIONS.join(', ')}.`}`,
    );
  }
  return SECTIONS.filter((section) => names.includes(section));
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
