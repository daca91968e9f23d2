import type { MachineAnalysis } from '../../analysis.ts';
import { soundValue } from '../../findings/common/held-back.ts';
import { say } from '../../language/say.ts';
import { numberOf } from '../../model/link-number.ts';
import { type Derived, showBriefly } from '../../values/derived.ts';
import { nameWires } from '../../values/named-ways.ts';
import { linkId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { type Cell, NOTHING, type Row } from '../tables/table.ts';

/** In A: what carries less can neither warm a wire nor blow a fuse. */
const LEAST = 0.1;

/** What each wire carries, of what it may carry, and what it loses; the wires that are used most come first. */
export function wireLoadItems(analysis: MachineAnalysis): SummaryItem[] {
  const rows = [...nameWires(analysis.machine.links)].flatMap(([link, name]) => {
    const value = (what: string) => soundValue(analysis, `wires.${name}.${what}`);
    const [current, capacity] = [value('current'), value('capacity')];
    if (!current) return [];
    const row: Row = {
      id: linkId(numberOf(analysis.machine, link)),
      quiet: current.si < LEAST,
      cells: [
        link.label ?? link.cable ?? say`link ${numberOf(analysis.machine, link)}`,
        link.from.id,
        link.to.id,
        cellOf(current),
        cellOf(capacity),
        cellOf(value('drop')),
      ],
    };
    return [{ row, current: current.si, share: capacity ? current.si / capacity.si : 0 }];
  });
  if (rows.length === 0) return [];
  rows.sort((a, b) => b.share - a.share || b.current - a.current);
  const table = {
    title: say`What the wires carry`,
    columns: [
      { title: say`Label` },
      { title: say`From` },
      { title: say`To` },
      { title: say`Current`, number: true },
      { title: say`May carry`, number: true },
      { title: say`Loses`, number: true },
    ],
    rows: rows.map(({ row }) => row),
    note: say`Each conductor alone, at the full draw of all that it feeds. Wires whose current is not known are left out; so are, on paper, those with less than 0.1 A.`,
  };
  return [{ id: 'wire-loads', section: 'lists', kind: 'table', table }];
}

function cellOf(derived: Derived | undefined): Cell {
  return derived ? { text: showBriefly(derived), working: derived.working } : NOTHING;
}
