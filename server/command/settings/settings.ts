import type { MachineAnalysis } from '../../core/analysis.ts';
import { later, say } from '../../core/language/say.ts';
import { nearestName } from '../../core/nearest.ts';
import { listSettings, type PartSettings } from '../../core/summary/settings/rows.ts';
import { CommandError, defineCommand, EXIT, onlyFile, type Streams } from '../command.ts';
import { createLoader, type Loaded } from '../load.ts';
import { OUTPUT_OPTIONS, writeResult } from '../output.ts';
import { printReportPage } from '../report-page.ts';
import { compareWith } from './compare.ts';
import { printSettingsCsv, printSettingsJson, printSettingsText } from './print.ts';

const FORMATS = ['text', 'csv', 'json', 'html'] as const;

/** `fettle settings FILE`: what to key into every part, and with `--compare` how what was keyed in differs. */
export const settings = defineCommand({
  name: 'settings',
  operands: 'FILE',
  about: later`what to key into each part, why, and how what was keyed in differs`,
  details: later`  text   a list a part, in the part's own order: setting, value to key in, what it is now where it differs, why
  csv    part, setting, meaning, now, key in, state, why, rounding, source (RFC 4180)
  json   an array of parts with their rows
  html   one self-contained page that can be printed and ticked off

With --compare a table of two columns is read, setting and value, as it was written down or saved at the part. A setting
is named as on the part (P21), or with its part (panel.P21) where several parts have one of that name. A value without a
unit is in the unit of the part. What differs from the definition is reported; with --format csv as the list of what to
key in again, in the same two columns. With --adopt the values of the table are written into the definition instead.`,
  options: {
    format: { choices: FORMATS, about: later`how to write it` },
    part: { takes: 'PART', about: later`only the settings of this part` },
    compare: { takes: 'CSV', about: later`compare with what was keyed in` },
    adopt: { about: later`with --compare: write what was keyed in into the definition` },
    ...OUTPUT_OPTIONS,
  },
  examples: [
    'fettle settings examples/gantry-router/gantry-router.machine.yaml --part panel',
    'fettle settings router.machine.yaml --part panel --compare keyed-in.csv',
  ],
  run: ({ operands, options }, streams) =>
    runSettings(
      onlyFile(operands, say`settings takes one machine. "fettle help settings" shows an example.`),
      options,
      streams,
    ),
});

interface Asked {
  readonly format: (typeof FORMATS)[number];
  readonly part: string | undefined;
  readonly compare: string | undefined;
  readonly adopt: boolean;
  readonly output: string | undefined;
  readonly overwrite: boolean;
}

async function runSettings(file: string, asked: Asked, streams: Streams): Promise<number> {
  const loaded = await createLoader()(file);
  const { analysis } = loaded;
  if (analysis.kind !== 'machine')
    throw new CommandError(say`${file} is a part sheet; settings takes a machine.`);
  const parts = choosePart(analysis, asked.part);
  if (asked.compare !== undefined)
    return compareWith({ ...asked, loaded, parts, csv: asked.compare }, streams);
  if (asked.adopt) throw new CommandError(say`--adopt needs --compare with the table of what was keyed in.`);
  await writeResult(await print(loaded, parts, asked), asked, streams);
  const isOpen = parts.some(({ rows }) =>
    rows.some(({ state }) => state === 'differs' || state === 'not-set'),
  );
  return isOpen ? EXIT.findings : EXIT.clean;
}

/** @throws CommandError for a part that is not there or has nothing to set */
function choosePart(analysis: MachineAnalysis, wanted: string | undefined): readonly PartSettings[] {
  const all = listSettings(analysis);
  if (wanted === undefined) return all;
  const chosen = all.filter(({ part }) => part === wanted);
  if (chosen.length > 0) return chosen;
  if (analysis.machine.parts.has(wanted)) throw new CommandError(say`${wanted} has nothing to set.`);
  const names = all.map(({ part }) => part);
  const near = nearestName(wanted, names);
  throw new CommandError(
    say`there is no part ${wanted}; ${near ? say`did you mean ${near}?` : say`parts with settings: ${names.join(', ')}.`}`,
  );
}

async function print(
  loaded: Loaded,
  parts: readonly PartSettings[],
  { format, part }: Asked,
): Promise<string> {
  switch (format) {
    case 'text':
      return printSettingsText(parts);
    case 'csv':
      return printSettingsCsv(parts);
    case 'json':
      return printSettingsJson(parts);
    case 'html':
      return printReportPage(loaded, {
        sections: ['settings', 'cautions'],
        leaveOut: (id) => part !== undefined && id.startsWith('settings') && id !== `settings:${part}`,
      });
  }
}
