import type { MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { partId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { joinWords, type Row } from '../tables/table.ts';

/** The parts to buy or find, those of one model together, in the order in which the machine names them. */
export function partsListItems({ machine }: MachineAnalysis): SummaryItem[] {
  const models = new Map<string, Part[]>();
  for (const part of machine.parts.values()) {
    const model = part.sheet?.title ?? part.sheetName?.text ?? 'not known yet';
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
        joinWords(parts.map(({ sheet }) => sheet?.partClass.replaceAll('-', ' '))),
        joinWords(parts.map(({ name }) => name)),
        joinWords(parts.map(({ place }) => place)),
      ],
    }),
  );
  const columns = [
    { title: 'What it is' },
    { title: 'Count', number: true },
    { title: 'Class' },
    { title: 'Called' },
    { title: 'Where' },
  ];
  const table = { title: 'Parts', columns, rows, empty: 'No part yet: add one under parts.' };
  return [{ id: 'parts-list', section: 'lists', kind: 'table', table }];
}
