import type { MachineAnalysis } from '../analysis.ts';
import { terminalId } from '../circuits/nets.ts';
import type { Part } from '../model/machine.ts';
import type { Sheet, Terminal } from '../model/sheet.ts';
import { describeWire } from '../model/wire-text.ts';
import { table } from './headline.ts';
import { terminalPlaceId } from './places.ts';
import type { SummaryItem } from './summary.ts';
import { h, type ViewElement } from './view.ts';

/** Part by part, terminal by terminal in printed order: where it goes, by which wire, and what it is for. */
export function chartItems(analysis: MachineAnalysis): SummaryItem[] {
  return [...analysis.machine.parts.values()].flatMap((part) =>
    part.sheet
      ? [
          {
            id: `chart:${part.name}`,
            section: 'charts' as const,
            kind: 'view' as const,
            view: chart(analysis, part, part.sheet),
          },
        ]
      : [],
  );
}

function chart(analysis: MachineAnalysis, part: Part, sheet: Sheet): ViewElement {
  const rows = [...sheet.terminals.values()].map((terminal) => terminalRow(analysis, part, sheet, terminal));
  const place = part.place === undefined ? '' : `, at ${part.place}`;
  return h(
    'article',
    { class: 'chart' },
    h('h3', { 'data-id': `part:${part.name}`, tabindex: 0 }, part.name),
    h('p', { class: 'muted' }, `${sheet.title}${place}`),
    table(['Terminal', 'Goes to', 'Wire', 'Label', 'What it does'], rows),
  );
}

function terminalRow(analysis: MachineAnalysis, part: Part, sheet: Sheet, terminal: Terminal): ViewElement {
  const id = terminalId(part.name, terminal.name);
  const links = analysis.nets.linksAt(id);
  const others = links.map((link) => {
    const end = terminalId(link.from.part, link.from.terminal) === id ? link.to : link.from;
    return terminalId(end.part, end.terminal);
  });
  const joined = (words: readonly (string | undefined)[]) => words.filter((word) => word).join(', ');
  return h(
    'tr',
    {
      'data-id': terminalPlaceId(part.name, terminal.name),
      tabindex: 0,
      class: links.length > 0 ? undefined : 'unwired',
    },
    h('th', { scope: 'row' }, terminal.name),
    h('td', {}, joined(others) || '–'),
    h('td', {}, joined(links.map((link) => describeWire(link))) || '–'),
    h('td', {}, joined(links.map((link) => link.label ?? link.cable)) || '–'),
    h('td', {}, joined(purposes(sheet, terminal)) || '–'),
  );
}

/** What the circuits at a terminal are used for, or else what they are. */
function purposes(sheet: Sheet, terminal: Terminal): string[] {
  const circuits = [...sheet.circuits.values()].filter((circuit) =>
    circuit.ends.some((end) => end.text === terminal.name),
  );
  const words = circuits.map(
    (circuit) => circuit.figures.text('does')?.value ?? circuit.name.replaceAll('-', ' '),
  );
  return [...new Set(words)];
}
