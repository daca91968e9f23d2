import type { MachineAnalysis } from '../analysis.ts';
import { type InputRow, inputTable, type TableCell } from '../values/input-table.ts';
import { table } from './headline.ts';
import { terminalPlaceId } from './places.ts';
import type { SummaryItem } from './summary.ts';
import { h, type ViewElement } from './view.ts';

/** How soon a broken wire is noticed, in words. */
const SEEN: Readonly<Record<string, string>> = {
  'at-once': 'seen at once',
  'next-use': 'seen at next use',
  'not-seen': 'not seen',
  harmless: 'harmless',
  unknown: 'not known',
};

/** What every input sees: at rest, operated, and with its wire broken, as the circuits were solved. */
export function inputItems(analysis: MachineAnalysis): SummaryItem[] {
  const rows = inputTable(analysis.machine, analysis.nets);
  const body =
    rows.length > 0
      ? table(
          ['Input', 'For', 'Operated by', 'At rest', 'Operated', 'Wire broken', 'Break is'],
          rows.map(inputRow),
        )
      : h('p', { class: 'muted' }, 'No input is wired yet.');
  const note = h(
    'p',
    { class: 'muted' },
    'Solved from the wiring and the datasheet figures. “acts” means that the function takes place then, as the inputs are set.',
  );
  return [{ id: 'inputs', section: 'inputs', kind: 'view', view: h('div', { class: 'inputs' }, body, note) }];
}

function inputRow(row: InputRow): ViewElement {
  const { broken } = row;
  return h(
    'tr',
    {
      'data-id': terminalPlaceId(row.part, row.terminal),
      tabindex: 0,
      class: row.inUse ? undefined : 'muted',
    },
    h('th', { scope: 'row' }, `${row.part}.${row.terminal}`),
    h('td', {}, row.does === '' ? row.circuit.replaceAll('-', ' ') : row.does),
    h('td', {}, row.actor ?? '–'),
    cell(row.rest),
    cell(row.operated),
    cell(broken),
    h('td', {}, broken ? (SEEN[broken.seen] ?? broken.seen) : '–'),
  );
}

function cell(given: TableCell | undefined): ViewElement {
  if (!given) return h('td', {}, '–');
  const acts = given.acts === true ? ', acts' : '';
  // An analog input has no thresholds, so only what it sees can be said.
  const level = given.level === 'unknown' ? '' : given.level;
  return h('td', { class: 'number' }, `${given.shown} ${level}${acts}`.trim());
}
