import type { MachineAnalysis } from '../analysis.ts';
import type { Fault } from '../circuits/solve/faults.ts';
import { faultTable } from '../values/fault-table.ts';
import { type InputRow, inputTable, type TableCell } from '../values/input-table.ts';
import { terminalPlaceId } from './places.ts';
import type { SummaryItem } from './summary.ts';
import { type Cell, NOTHING, type Row, type Table } from './tables/table.ts';
import { h } from './view.ts';

/** How soon a broken wire is noticed, in words. */
export const SEEN: Readonly<Record<string, string>> = {
  'at-once': 'seen at once',
  'next-use': 'seen at next use',
  'not-seen': 'not seen',
  harmless: 'harmless',
  unknown: 'not known',
};

/** What every input sees: at rest, operated, and with its wire broken, as the circuits were solved. */
export function inputItems(analysis: MachineAnalysis): SummaryItem[] {
  const rows = inputTable(analysis.machine, analysis.nets).map(inputRow);
  const table = {
    title: 'What every input sees',
    columns: ['Input', 'For', 'Operated by', 'At rest', 'Operated', 'Wire broken', 'The break is'].map(
      (title) => ({ title }),
    ),
    rows,
    note: 'Solved from the wiring and the datasheet figures. “acts” means that the function takes place then, as the inputs are set.',
    empty: 'No input is wired yet.',
  };
  return [
    { id: 'inputs', section: 'inputs', kind: 'table', table },
    { id: 'faults', section: 'inputs', kind: 'table', table: faultsTable(analysis) },
  ];
}

/** What fails, in words before the names. */
const FAILING: Readonly<Record<Fault['kind'], string>> = {
  broken: 'broken:',
  shorted: 'touching:',
  welded: 'welded:',
  'supply-lost': 'no supply from',
};

/** How faults are noticed, the gravest first: the columns of the table. */
const NOTICED = ['not-seen', 'next-use', 'at-once', 'unknown'] as const;

/** What the machine would believe after each single fault: by input, which are noticed when. */
function faultsTable(analysis: MachineAnalysis): Table {
  const found = faultTable(analysis.machine, analysis.nets);
  const columns = NOTICED.filter((seen) => found.some(({ faults }) => faults.has(seen)));
  const rows = found.map(
    ({ part, terminal, does, circuit, faults }): Row => ({
      id: terminalPlaceId(part, terminal),
      cells: [
        `${part}.${terminal}`,
        does === '' ? circuit.replaceAll('-', ' ') : does,
        ...columns.map((seen): Cell => {
          const kinds = [...(faults.get(seen) ?? [])];
          return kinds.map(([kind, names]) => `${FAILING[kind]} ${names.join(', ')}`).join('; ') || NOTHING;
        }),
      ],
    }),
  );
  return {
    title: 'What single faults would do',
    columns: ['Input', 'For', ...columns.map((seen) => SEEN[seen] ?? seen)].map((title) => ({ title })),
    rows,
    note: 'Each fault alone: a wire broken, the signal touching a rail that comes to the same part or runs in the same cable, a contact welded, a supply gone. Faults inside of electronics, and two at a time, are not looked at; this is no safety assessment.',
    empty: 'Nothing that can fail is wired yet.',
  };
}

function inputRow({ part, terminal, does, circuit, inUse, actor, rest, operated, broken }: InputRow): Row {
  const seen = broken ? (SEEN[broken.seen] ?? broken.seen) : NOTHING;
  return {
    id: terminalPlaceId(part, terminal),
    quiet: !inUse,
    cells: [
      `${part}.${terminal}`,
      does === '' ? circuit.replaceAll('-', ' ') : does,
      actor ?? NOTHING,
      levelCell(rest),
      levelCell(operated),
      levelCell(broken),
      broken ? { text: seen, view: h('span', { class: `seen ${broken.seen}` }, seen) } : seen,
    ],
  };
}

/** What an input sees in one state: its figure, whether that is on or off, and whether the function acts then. */
export function levelCell(given: TableCell | undefined): Cell {
  if (!given) return NOTHING;
  // An analog input has no thresholds, so only what it sees can be said.
  const level = given.level === 'unknown' ? '' : given.level;
  const acts = given.acts === true ? 'acts' : '';
  return {
    text: `${given.shown} ${[level, acts].filter((word) => word !== '').join(', ')}`.trim(),
    view: h(
      'span',
      { class: `level ${given.level}` },
      h('span', { class: 'figure' }, given.shown),
      level === '' ? undefined : ` ${level}`,
      acts === '' ? undefined : h('strong', {}, `, ${acts}`),
    ),
  };
}
