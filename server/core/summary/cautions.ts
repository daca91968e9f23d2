import type { Analysis } from '../analysis.ts';
import { listNotComputed, sayNotComputed } from '../features/not-computed.ts';
import { findSilenced } from '../findings/find.ts';
import { later, said, say } from '../language/say.ts';
import { describeSilenced } from '../silence/describe.ts';
import type { SummaryItem } from './summary.ts';
import { h, type View } from './view.ts';

/** The cautions that go with every view of a machine's wiring. */
export const CAUTIONS: readonly string[] = [
  later`Mains voltage, moving machinery, stored energy and spindles can kill. Switch off, lock off, wait for capacitors to discharge and measure before you touch anything.`,
  later`An emergency stop that is only an input of a controller is not sufficient. It must take the energy away by itself, whatever the controller does.`,
  later`Local codes, the makers’ manuals and a licensed electrician have the last word on mains wiring, protective earth and guarding.`,
];

/** What the tool does not look at, so that nobody takes silence for approval. */
export const NOT_CHECKED: readonly string[] = [
  later`whether the figures in the part sheets are those of the parts in your hands`,
  later`mechanical strength, guards, enclosures and heat`,
  later`electromagnetic interference beyond what the wiring rules say`,
  later`whether what is wired is what is written here`,
];

/** The cautions, what was not checked, what was not computed for want of a figure, and what was found and silenced. */
export function cautionItems(analysis: Analysis): SummaryItem[] {
  const silenced = findSilenced(analysis);
  const lacks = listNotComputed(analysis).map(sayNotComputed);
  const view = h(
    'div',
    { class: 'cautions' },
    list(CAUTIONS.map(said)),
    h('h3', {}, say`Not checked`),
    list(NOT_CHECKED.map(said)),
    ...(lacks.length > 0 ? [h('h3', {}, say`Not computed`), list(lacks)] : []),
    ...(silenced.length > 0
      ? [h('h3', {}, say`Found and silenced`), list(silenced.map(describeSilenced), { class: 'silenced' })]
      : []),
  );
  return [{ id: 'cautions', section: 'cautions', kind: 'view', view }];
}

function list(lines: readonly string[], attributes: Readonly<Record<string, string>> = {}): View {
  return h(
    'ul',
    attributes,
    lines.map((line) => h('li', {}, line)),
  );
}
