import type { MachineAnalysis } from '../../analysis.ts';
import { later, said, say } from '../../language/say.ts';
import type { Part } from '../../model/machine.ts';
import { partId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { joinWords, type Row } from '../tables/table.ts';

const CLASSES: Readonly<Record<string, string>> = {
  controller: later`controller`,
  drive: later`drive`,
  motor: later`motor`,
  supply: later`power supply`,
  switch: later`switch`,
  sensor: later`sensor`,
  handwheel: later`handwheel`,
  converter: later`converter`,
  spindle: later`spindle`,
  relay: later`relay`,
  fuse: later`fuse`,
  breaker: later`breaker`,
  'terminal-strip': later`terminal strip`,
  'emergency-stop': later`emergency stop`,
  probe: later`probe`,
  load: later`load`,
};

/** A class of parts as people call it; a class that there is not yet is called as the sheet has it. */
function sayClass(partClass: string): string {
  return Object.hasOwn(CLASSES, partClass) ? said(CLASSES[partClass] ?? '') : partClass;
}

/** The parts to buy or find, those of one model together, in the order in which the machine names them. */
export function partsListItems({ machine }: MachineAnalysis): SummaryItem[] {
  const models = new Map<string, Part[]>();
  for (const part of machine.parts.values()) {
    const model = part.sheet?.title ?? part.sheetName?.text ?? say`not known yet`;
    const there = models.get(model);
    if (there) there.push(part);
    else models.set(model, [part]);
  }
  const rows = [...models].map(
    ([model, parts]): Row => ({
      id: partId(parts[0]?.name ?? ''),
      cells: [
        model,
        String(parts.length),
        joinWords(parts.map(({ sheet }) => sheet && sayClass(sheet.partClass))),
        joinWords(parts.map(({ name }) => name)),
        joinWords(parts.map(({ place }) => place)),
      ],
    }),
  );
  const columns = [
    { title: say`What it is` },
    { title: say`Count`, number: true },
    { title: say`Class` },
    { title: say`Called` },
    { title: say`Where` },
  ];
  const table = { title: say`Parts`, columns, rows, empty: say`No part yet: add one under parts.` };
  return [{ id: 'parts-list', section: 'lists', kind: 'table', table }];
}
