import type { MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { MAINS, mainsTerminals, partsOf } from '../../model/resolve.ts';
import type { Circuit } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { type CircuitEnd, endsOn, reachFrom } from '../common/conductors.ts';
import { fitsLoad } from '../common/voltage.ts';

/** A circuit that needs terminals which nothing reaches. */
export interface Unconnected {
  readonly part: Part;
  readonly circuit: Circuit;
  /** The indexes of the ends that are missing. */
  readonly missing: readonly number[];
  readonly why: 'supply' | 'return' | 'mains' | 'pole' | 'half' | 'signal' | 'sensor' | 'motor';
}

/** The circuits of wired parts that cannot work because a terminal of theirs goes nowhere. */
export const findUnconnected = fact('analysis', (analysis: MachineAnalysis): readonly Unconnected[] =>
  unconnectedIn(analysis).flat(),
);

const unconnectedIn = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => partsOf(machine),
  (analysis: MachineAnalysis, part: Part): readonly Unconnected[] => {
    const { name, sheet } = part;
    if (!sheet) return [];
    const isWired = [...sheet.terminals.keys()].some((terminal) =>
      analysis.nets.isWired(terminalId(name, terminal)),
    );
    return isWired
      ? [...sheet.circuits.values()].flatMap((circuit) => judge(analysis, part, circuit) ?? [])
      : [];
  },
);

function judge(analysis: MachineAnalysis, part: Part, circuit: Circuit): Unconnected | undefined {
  const missing = circuit.ends.flatMap((end, index) =>
    reachesOthers(analysis, part, end.text) ? [] : [index],
  );
  const why = missing.length > 0 ? whyNeeded(analysis, part, circuit, missing) : undefined;
  if (why) return { part, circuit, missing, why };
  if (missing.length === 0 && circuit.kind === 'mains-in') {
    const pole = findSamePole(analysis, part, circuit);
    return pole === undefined ? undefined : { part, circuit, missing: [pole], why: 'pole' };
  }
  if (missing.length > 0 || circuit.kind !== 'power-in') return undefined;
  const open = findOpenEnd(analysis, part, circuit);
  return open === undefined ? undefined : { part, circuit, missing: [open], why: 'return' };
}

/** The end of a load on the mains that comes to the same pole as the other end, by way of fuses and contacts. */
function findSamePole(analysis: MachineAnalysis, part: Part, circuit: Circuit): number | undefined {
  const [live, neutral] = circuit.ends.map((end) => {
    const nets = reachFrom(analysis, terminalId(part.name, end.text));
    return mainsTerminals(analysis.machine).filter((pole) =>
      nets.has(analysis.nets.netOf(terminalId(MAINS, pole))),
    );
  });
  const [pole, ...others] = live ?? [];
  if (pole === undefined || others.length > 0 || neutral?.length !== 1 || neutral[0] !== pole)
    return undefined;
  return pole === 'N' ? 0 : 1;
}

/** The drives of the axes. */
const drivesOfAxes = fact(
  'analysis',
  ({ machine }: MachineAnalysis): ReadonlySet<string> =>
    new Set([...machine.axes.values()].flatMap(({ drives }) => drives.map((drive) => drive.text))),
);

/** The ends, by kind of circuit, through which a load's current may flow where no supply stands behind them directly. */
const SWITCHING: Readonly<Record<string, readonly number[]>> = {
  'sink-out': [0],
  'source-out': [0],
  'push-pull-out': [0],
  sensor: [2],
  'two-wire-sensor': [0, 1],
  resistor: [0, 1],
  coil: [0, 1],
};

/**
 * The end of a load that goes somewhere, but not to the supply that stands behind its other end. Undefined where the
 * load is fed, or where something lies between that may carry its current.
 */
function findOpenEnd(analysis: MachineAnalysis, part: Part, circuit: Circuit): number | undefined {
  if (analysis.feeds.some(({ load }) => load.part === part && load.circuit === circuit)) return undefined;
  const sides = circuit.ends.map((end) => {
    const nets = [...reachFrom(analysis, terminalId(part.name, end.text))];
    return nets.flatMap((net) => endsOn(analysis, net)).filter((other) => other.part !== part);
  });
  const load = { part, circuit };
  const supplied = sides.map((side, index) =>
    side.some(
      (other) =>
        other.circuit.kind === 'power-out' && other.index === index && fitsLoad(analysis, other, load),
    ),
  );
  const open = supplied[0] ? 1 : supplied[1] ? 0 : undefined;
  const carries = ({ circuit: { kind }, index }: CircuitEnd) => SWITCHING[kind]?.includes(index) ?? false;
  if (open === undefined) return undefined;
  // Where both sides come to the same side of a supply, nothing flows whatever else is there.
  const isSameSide = (a: CircuitEnd) =>
    a.circuit.kind === 'power-out' &&
    sides[1 - open]?.some((b) => b.part === a.part && b.circuit === a.circuit && b.index === a.index);
  if (!sides[open]?.some(isSameSide) && sides[open]?.some(carries)) return undefined;
  // A part whose sheet is not known may be anything, and a misspelt terminal the one that is missing.
  const known = analysis.machine.links.every((link) =>
    [link.from, link.to].every(
      (end) => end.part === MAINS || analysis.machine.parts.get(end.part)?.sheet?.terminals.has(end.terminal),
    ),
  );
  return known ? open : undefined;
}

/** True when the net of a terminal goes to another part. */
export function reachesOthers({ nets }: MachineAnalysis, part: Part, terminal: string): boolean {
  const own = `${part.name}.`;
  return nets
    .terminalsOn(nets.netOf(terminalId(part.name, terminal)))
    .some((other) => !other.startsWith(own));
}

function whyNeeded(
  analysis: MachineAnalysis,
  part: Part,
  circuit: Circuit,
  missing: readonly number[],
): Unconnected['why'] | undefined {
  switch (circuit.kind) {
    case 'power-in':
      return 'supply';
    case 'mains-in':
      return 'mains';
    case 'opto-in':
    case 'line-in': {
      const word = circuit.does?.word;
      if ((word === 'pulse' || word === 'direction') && drivesOfAxes(analysis).has(part.name))
        return 'signal';
      if (missing.length !== 1) return undefined;
      // An input that nobody uses still has its common joined, where the part has one common for several inputs.
      const connected = circuit.ends[missing[0] === 0 ? 1 : 0]?.text ?? '';
      return isShared(part, circuit, connected) ? undefined : 'half';
    }
    case 'winding':
    case 'three-phase-in':
      return missing.length < circuit.ends.length ? 'motor' : undefined;
    case 'sensor':
      return missing.includes(2) || missing.length === 0 ? undefined : 'sensor';
    default:
      return undefined;
  }
}

/** True when other circuits of the part stand on this terminal as well. */
function isShared(part: Part, own: Circuit, terminal: string): boolean {
  return [...(part.sheet?.circuits.values() ?? [])].some(
    (circuit) => circuit !== own && circuit.ends.some((end) => end.text === terminal),
  );
}
