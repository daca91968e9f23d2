import type { MachineAnalysis } from '../../analysis.ts';
import { groupBy } from '../../group.ts';
import type { Part } from '../../model/machine.ts';
import { MAINS, mainsTerminals, partsOf } from '../../model/resolve.ts';
import { type TerminalId, terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { isAnyBlockBroken, isPartInDoubt } from '../common/held-back.ts';

/** A part with a metal chassis whose earth terminal does not lead to protective earth. */
export interface Unearthed {
  readonly part: Part;
  readonly terminal: string;
  /** Whether the terminal is wired at all. */
  readonly goes: boolean;
}

export const EARTH = terminalId(MAINS, 'PE');

/** The unearthed parts; those that are earthed through one another lack the same wire and stand together. */
export const findUnearthed = fact(
  'analysis',
  (analysis: MachineAnalysis): readonly (readonly [Unearthed, ...Unearthed[]])[] => {
    if (isAnyBlockBroken(analysis)) return [];
    const unearthed = unearthedAt(analysis).flatMap((each) => each ?? []);
    return [...groupBy(unearthed, (each) => netOrSelf(analysis, each)).values()].flatMap(
      ([first, ...others]) => (first ? [[first, ...others] as const] : []),
    );
  },
);

function netOrSelf({ nets }: MachineAnalysis, { terminal, goes }: Unearthed): number | string {
  return goes ? nets.netOf(terminal) : terminal;
}

const unearthedAt = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  (analysis, part): Unearthed | undefined => {
    const { nets } = analysis;
    const terminal = earthOf(part);
    if (terminal === undefined || isPartInDoubt(analysis, part.name) || !isUsed(analysis, part))
      return undefined;
    const goes = nets.isWired(terminal);
    const isEarthed = isMainsWired(analysis) ? goes && nets.netOf(terminal) === nets.netOf(EARTH) : goes;
    // While a wire of a bar on the way is misspelt, it may be the one that comes from the mains.
    return isEarthed || (goes && leadsIntoDoubt(analysis, terminal)) ? undefined : { part, terminal, goes };
  },
);

/** While no wire of the mains is there yet, an earth that goes somewhere may still get there. */
const isMainsWired = fact('analysis', ({ machine, nets }: MachineAnalysis): boolean =>
  mainsTerminals(machine).some((terminal) => nets.isWired(terminalId(MAINS, terminal))),
);

function leadsIntoDoubt(analysis: MachineAnalysis, terminal: TerminalId): boolean {
  const { nets } = analysis;
  return nets
    .terminalsOn(nets.netOf(terminal))
    .some((other) => isPartInDoubt(analysis, other.slice(0, other.indexOf('.'))));
}

/** The earth terminal of a part with a metal chassis. */
function earthOf({ name, sheet }: Part): string | undefined {
  if (sheet?.facts.text('chassis')?.value !== 'metal') return undefined;
  const earth = [...sheet.circuits.values()].find(({ kind }) => kind === 'earth');
  return earth?.ends[0] && terminalId(name, earth.ends[0].text);
}

/** Whether a part is in the machine for more than its name: something is wired to it, or there is nothing but earth. */
function isUsed({ nets }: MachineAnalysis, { name, sheet }: Part): boolean {
  const terminals = [...(sheet?.terminals.keys() ?? [])];
  return terminals.length === 1 || terminals.some((terminal) => nets.isWired(terminalId(name, terminal)));
}
