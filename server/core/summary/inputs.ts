import type { MachineAnalysis } from '../analysis.ts';
import type { Fault } from '../circuits/solve/faults.ts';
import type { Verdict } from '../circuits/solve/verdict.ts';
import { later, said, say } from '../language/say.ts';
import { sayUse } from '../model/role.ts';
import { faultTable } from '../values/fault-table.ts';
import { type InputRow, inputTable, type TableCell } from '../values/input-table.ts';
import { terminalPlaceId } from './places.ts';
import type { SummaryItem } from './summary.ts';
import { type Cell, NOTHING, type Row, type Table } from './tables/table.ts';
import { h } from './view.ts';

/** How soon a broken wire is noticed, in words. */
export const SEEN: Readonly<Record<Verdict, string>> = {
  'at-once': later`seen at once`,
  'next-use': later`seen at next use`,
  'not-seen': later`not seen`,
  harmless: later`harmless`,
  unknown: later`not known`,
};

/** What every input sees: at rest, operated, and with its wire broken, as the circuits were solved. */
export function inputItems(analysis: MachineAnalysis): SummaryItem[] {
  const rows = inputTable(analysis.machine, analysis.nets).map(inputRow);
  const table = {
    title: say`What every input sees`,
    columns: [
      { title: say`Input` },
      { title: say`For` },
      { title: say`Operated by` },
      { title: say`At rest` },
      { title: say`Operated` },
      { title: say`Wire broken` },
      { title: say`The break is` },
    ],
    rows,
    note: say`Solved from the wiring and the datasheet figures. “acts” means that the function takes place then, as the inputs are set.`,
    empty: say`No input is wired yet.`,
  };
  return [
    { id: 'inputs', section: 'inputs', kind: 'table', table },
    { id: 'faults', section: 'inputs', kind: 'table', table: faultsTable(analysis) },
  ];
}

/** What fails, in words before the names. */
const FAILING: Readonly<Record<Fault['kind'], string>> = {
  broken: later`broken:`,
  shorted: later`touching:`,
  welded: later`welded:`,
  'supply-lost': later`no supply from`,
};

/** How faults are noticed, the gravest first: the columns of the table. */
const NOTICED = [
  ['not-seen', later`Not seen`],
  ['next-use', later`Seen at next use`],
  ['at-once', later`Seen at once`],
  ['unknown', later`Not known`],
] as const;

/** What the machine would believe after each single fault: by input, which are noticed when. */
function faultsTable(analysis: MachineAnalysis): Table {
  const found = faultTable(analysis.machine, analysis.nets);
  const columns = NOTICED.filter(([seen]) => found.some(({ faults }) => faults.has(seen)));
  const rows = found.map(
    ({ part, terminal, does, circuit, faults }): Row => ({
      id: terminalPlaceId(part, terminal),
      cells: [
        `${part}.${terminal}`,
        sayUse(circuit, does),
        ...columns.map(([seen]): Cell => {
          const kinds = [...(faults.get(seen) ?? [])];
          return (
            kinds.map(([kind, names]) => `${said(FAILING[kind])} ${names.join(', ')}`).join('; ') || NOTHING
          );
        }),
      ],
    }),
  );
  return {
    title: say`What single faults would do`,
    columns: [say`Input`, say`For`, ...columns.map(([, title]) => said(title))].map((title) => ({ title })),
    rows,
    note: say`Each fault alone: a wire broken, the signal touching a rail that comes to the same part or runs in the same cable, a contact welded, a supply gone. Faults inside of electronics, and two at a time, are not looked at; this is no safety assessment.`,
    empty: say`Nothing that can fail is wired yet.`,
  };
}

function inputRow({ part, terminal, does, circuit, inUse, actor, rest, operated, broken }: InputRow): Row {
  const seen = broken ? said(SEEN[broken.seen]) : NOTHING;
  return {
    id: terminalPlaceId(part, terminal),
    quiet: !inUse,
    cells: [
      `${part}.${terminal}`,
      sayUse(circuit, does),
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
  const level = given.level === 'unknown' ? '' : said(given.level);
  const acts = given.acts === true ? say`acts` : '';
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
