import { CIRCUIT_KINDS } from '../../../../../schemas/index.ts';
import type { Analysis, MachineAnalysis } from '../../../analysis.ts';

import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { MAINS } from '../../../model/resolve.ts';
import type { Link } from '../../../model/wiring.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { endsOn } from '../../common/conductors.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'wire/motor-with-signals',
  severity: 'warning',
  title: later`Signals run in one cable with a motor or the mains`,
  find: findMixed,
  say: (data) =>
    say`Cable ${word(data, 'cable')} carries ${word(data, 'signal')} beside ${word(data, 'loud')}: ${data.mains === true ? 'a fault in its insulation puts mains on the signal' : 'the edges of the chopped motor current reach the signal, which counts false steps or trips'}. Give the signal a cable of its own, apart from this one.`,
};

const MOTOR: ReadonlySet<string> = new Set(['phase-out', 'winding', 'three-phase-out', 'three-phase-in']);
const SIGNAL_GROUPS: ReadonlySet<string> = new Set(['input', 'output', 'contact and sensor']);

type Kind = 'motor' | 'mains' | 'signal' | undefined;

function* findMixed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const inCables = kinds(analysis).flatMap((each) => each ?? []);
  for (const [cable, kindsIn] of groupBy(inCables, ({ link }) => link.cable)) {
    const loud = kindsIn.find(({ kind }) => kind === 'motor' || kind === 'mains');
    const signal = kindsIn.find(({ kind }) => kind === 'signal');
    if (!loud || !signal) continue;
    yield {
      at: signal.link.at,
      data: {
        cable: cable ?? '',
        signal: showEnds(signal.link),
        loud:
          loud.kind === 'mains'
            ? say`the mains of ${showEnds(loud.link)}`
            : say`the motor current of ${showEnds(loud.link)}`,
        mains: loud.kind === 'mains',
      },
      related: [{ at: loud.link.at, note: loud.kind === 'mains' ? say`mains` : say`motor current` }],
    };
  }
}

const kinds = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  (analysis: MachineAnalysis, link): { readonly link: Link; readonly kind: Kind } | undefined =>
    link.cable === undefined ? undefined : { link, kind: kindOf(analysis, link) },
);

/** What a link is, by what stands on its net; rails and earth are neither loud nor signals. */
function kindOf(analysis: MachineAnalysis, { from, to }: Link): Kind {
  if (from.part === MAINS || to.part === MAINS)
    return from.terminal === 'PE' || to.terminal === 'PE' ? undefined : 'mains';
  const ends = endsOn(analysis, analysis.nets.netOf(from.id));
  const kinds = new Set(ends.map(({ circuit }) => circuit.kind));
  if (kinds.has('mains-in')) return 'mains';
  if ([...kinds].some((kind) => MOTOR.has(kind))) return 'motor';
  // A rail is joined to inputs and outputs too, by its supply or its common.
  if (kinds.has('power-out') || kinds.has('power-in') || kinds.has('earth')) return undefined;
  return [...kinds].some(
    (kind) => SIGNAL_GROUPS.has(CIRCUIT_KINDS.get(kind)?.group ?? '') && !MOTOR.has(kind),
  )
    ? 'signal'
    : undefined;
}

function showEnds({ from, to }: Link): string {
  return say`${from.part}.${from.terminal} to ${to.part}.${to.terminal}`;
}
