import { readFile } from 'node:fs/promises';
import { readCsv, writeCsv } from '../../core/csv.ts';
import { say } from '../../core/language/say.ts';
import {
  type Compared,
  type Comparison,
  compareKeyedIn,
  type KeyedIn,
} from '../../core/summary/settings/compare.ts';
import type { PartSettings } from '../../core/summary/settings/rows.ts';
import { valueToKeyIn } from '../../core/summary/settings/section.ts';
import { describeFailure } from '../../files/disk.ts';
import { CommandError, EXIT, type Streams } from '../command.ts';
import type { Loaded } from '../load.ts';
import { writeResult } from '../output.ts';
import { adopt } from './adopt.ts';

interface Asked {
  readonly loaded: Loaded;
  readonly parts: readonly PartSettings[];
  readonly csv: string;
  readonly adopt: boolean;
  readonly format: 'text' | 'csv' | 'json' | 'html';
  readonly output: string | undefined;
  readonly overwrite: boolean;
}

/** Reports how a list of what was keyed in differs from the definition. @throws CommandError for a bad list */
export async function compareWith(asked: Asked, streams: Streams): Promise<number> {
  const { loaded, parts, csv, format } = asked;
  const { analysis } = loaded;
  if (analysis.kind !== 'machine') return EXIT.cannot;
  if (format === 'html') throw new CommandError(say`a comparison is written as text, csv or json.`);
  const comparison = compareKeyedIn(analysis, parts, await readList(csv));
  if (asked.adopt) return adopt(loaded, comparison, streams);
  await writeResult(printers[format](comparison), asked, streams);
  streams.err(`${summarise(comparison)}\n`);
  return comparison.compared.every(({ kind }) => kind === 'agrees') ? EXIT.clean : EXIT.findings;
}

const MOST_BYTES = 1_000_000;

async function readList(path: string): Promise<KeyedIn[]> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (failure) {
    const state = describeFailure(failure);
    throw new CommandError(
      state.kind === 'missing' ? say`${path} does not exist.` : say`${path} cannot be read: ${state.why}.`,
    );
  }
  if (text.length > MOST_BYTES)
    throw new CommandError(
      say`${path} is too long for a list of settings; at most ${MOST_BYTES} characters are read.`,
    );
  const read = readCsv(text);
  if (read.kind === 'unclosed')
    throw new CommandError(say`${path}: the quote that opens on line ${read.line} is never closed.`);
  return read.rows.flatMap(({ line, fields: [setting = '', value] }, index): KeyedIn[] => {
    if (value === undefined)
      throw new CommandError(
        say`${path}, line ${line}: two columns are needed, setting and value, as in P21,320.`,
      );
    // A first line that names its columns is no setting.
    if (index === 0 && value.trim().toLowerCase() === 'value') return [];
    return [{ line, setting: setting.trim(), value: value.trim() }];
  });
}

const printers: Readonly<Record<'text' | 'csv' | 'json', (comparison: Comparison) => string>> = {
  text: ({ compared, left }) =>
    [...compared.filter(({ kind }) => kind !== 'agrees').map(printCompared), ...left.map(printLeft)].join(''),
  // What to key in again, in the two columns of the list.
  csv: ({ compared }) =>
    writeCsv([
      ['setting', 'value'],
      ...compared.flatMap((each) =>
        'row' in each && each.kind !== 'agrees' ? [[each.setting, valueToKeyIn(each.row)]] : [],
      ),
    ]),
  json: ({ compared, left }) =>
    `${JSON.stringify(
      {
        compared: compared.map((each) => ({
          line: each.line,
          setting: each.setting,
          keyedIn: each.value,
          result: each.kind,
          ...('row' in each && { part: each.row.part, keyIn: valueToKeyIn(each.row) }),
          ...('why' in each && { why: each.why }),
        })),
        notListed: left.map(({ part, setting }) => `${part}.${setting}`),
      },
      null,
      2,
    )}\n`,
};

function printCompared(each: Compared): string {
  const start = say`line ${each.line}: ${each.setting} is keyed in as ${each.value}`;
  if (each.kind === 'agrees') return '';
  if ('why' in each) return `${start}: ${each.why}\n`;
  const { row, wanted } = each;
  const asks = row.wanted !== undefined && row.state !== 'agrees';
  const says = say`the definition ${asks ? 'asks for' : 'says'} ${wanted || 'nothing'}`;
  return `${start}; ${says}${row.wanted === undefined || row.why === '' ? '' : ` (${row.why})`}\n`;
}

function printLeft(row: PartSettings['rows'][number]): string {
  return `${say`not in the list: ${row.part}.${row.setting}, to be ${valueToKeyIn(row) || 'chosen'}`}\n`;
}

function summarise({ compared, left }: Comparison): string {
  const count = (...kinds: readonly Compared['kind'][]) =>
    compared.filter(({ kind }) => kinds.includes(kind)).length;
  const bad = count('unknown', 'unreadable');
  return `${say`${count('agrees')} agree, ${count('differs')} differ`}${bad > 0 ? say`, ${bad} cannot be compared` : ''}${left.length > 0 ? say`, ${left.length} not in the list` : ''}.`;
}
