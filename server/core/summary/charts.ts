import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import { sayUse } from '../model/role.ts';
import type { Sheet, Terminal } from '../model/sheet.ts';
import { terminalId } from '../model/terminal-id.ts';
import { colourOf, describeWire } from '../model/wire-text.ts';
import { type InputRow, inputTable } from '../values/input-table.ts';
import { levelCell } from './inputs.ts';
import { partId, terminalPlaceId } from './places.ts';
import type { SummaryItem } from './summary.ts';
import { wireMark } from './swatch.ts';
import { type Cell, type Column, joinWords, NOTHING, type Row, type Table } from './tables/table.ts';

const columns = (): readonly Column[] => [
  { title: say`Terminal` },
  { title: say`Goes to` },
  { title: say`Wire` },
  { title: say`Label` },
  { title: say`What it does` },
];
const levelColumns = (): readonly Column[] => [{ title: say`At rest` }, { title: say`Operated` }];

/** Part by part, terminal by terminal in printed order: where it goes, by which wire, what it is for and what it sees. */
export function chartItems(analysis: MachineAnalysis): SummaryItem[] {
  const seen = new Map(
    inputTable(analysis.machine, analysis.nets).map((row) => [terminalId(row.part, row.terminal), row]),
  );
  return [...analysis.machine.parts.values()].flatMap((part): SummaryItem[] =>
    part.sheet
      ? [
          {
            id: `chart:${part.name}`,
            section: 'charts',
            kind: 'table',
            table: chart(analysis, part, part.sheet, seen),
          },
        ]
      : [],
  );
}

function chart(
  analysis: MachineAnalysis,
  part: Part,
  sheet: Sheet,
  seen: ReadonlyMap<string, InputRow>,
): Table {
  const terminals = [...sheet.terminals.values()];
  const hasLevels = terminals.some(({ name }) => seen.has(terminalId(part.name, name)));
  const loose = terminals.filter(({ name }) => !analysis.nets.isWired(terminalId(part.name, name)));
  return {
    title: part.name,
    titleId: partId(part.name),
    about: [sheet.title, part.place].filter((word) => word !== undefined).join(', '),
    columns: hasLevels ? [...columns(), ...levelColumns()] : columns(),
    rows: terminals.map((terminal) =>
      terminalRow(analysis, part, sheet, terminal, hasLevels ? seen : undefined),
    ),
    ...(loose.length > 0 && { note: say`Not wired: ${listRuns(loose.map(({ name }) => name))}.` }),
  };
}

/** Names with the same letters and one number after the other are said as a run: `E8 to E24`. */
function listRuns(names: readonly string[]): string {
  const runs: { first: string; last: string; stem: string; number: number }[] = [];
  for (const name of names) {
    const [, stem = name, digits] = /^(.*?)(\d{1,6})?$/.exec(name) ?? [];
    const number = digits === undefined ? Number.NaN : Number(digits);
    const run = runs.at(-1);
    if (run && run.stem === stem && run.number + 1 === number) {
      run.last = name;
      run.number = number;
    } else runs.push({ first: name, last: name, stem, number });
  }
  return runs.map(({ first, last }) => (first === last ? first : say`${first} to ${last}`)).join(', ');
}

function terminalRow(
  analysis: MachineAnalysis,
  part: Part,
  sheet: Sheet,
  terminal: Terminal,
  seen: ReadonlyMap<string, InputRow> | undefined,
): Row {
  const id = terminalId(part.name, terminal.name);
  const links = analysis.nets.linksAt(id);
  const others = links.map((link) => {
    const end = link.from.id === id ? link.to : link.from;
    return end.id;
  });
  const wires = joinWords(links.map((link) => describeWire(link)));
  const [colour, ...more] = new Set(links.map(colourOf));
  const row = seen?.get(id);
  const levels: Cell[] = seen ? [levelCell(row?.rest), levelCell(row?.operated)] : [];
  return {
    id: terminalPlaceId(part.name, terminal.name),
    quiet: links.length === 0,
    cells: [
      terminal.name,
      joinWords(others),
      wires === NOTHING
        ? wires
        : { text: wires, view: wireMark(wires, more.length === 0 ? colour : undefined) },
      joinWords(links.map((link) => link.label ?? link.cable)),
      joinWords(purposes(sheet, terminal)),
      ...levels,
    ],
  };
}

/** What the circuits at a terminal are used for, or else what they are. */
function purposes(sheet: Sheet, terminal: Terminal): string[] {
  const circuits = [...sheet.circuits.values()].filter((circuit) =>
    circuit.ends.some((end) => end.text === terminal.name),
  );
  return circuits.map((circuit) => sayUse(circuit.name, circuit.figures.text('does')?.value));
}
