import type { MachineAnalysis } from '../../analysis.ts';
import { isOutput } from '../../circuits/signals.ts';
import type { Actor } from '../../circuits/solve/actors.ts';
import type { Branch } from '../../circuits/solve/branch.ts';
import type { SolvedInput } from '../../circuits/solve/inputs.ts';
import type { Hold } from '../../circuits/solve/rails.ts';
import { inputsOf } from '../../circuits/solve/solved.ts';
import { fact } from '../../reuse/fact.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { isWired } from '../../values/circuits.ts';
import { isToldOpen } from '../wiring/open-ends.ts';
import { outputFights } from '../wiring/output-fights.ts';
import { hangsOnHalfPair, isReversedLamp, sensorSide, sensorsOf } from './acting.ts';
import { canBeJudged } from './judgeable.ts';
import { readsOf, sightsOf, signalEnd } from './sights.ts';

/** What is the matter with an input, by what it was solved to see. */
export interface Diagnosis {
  readonly input: SolvedInput;
  readonly kind:
    | 'over-rating'
    | 'opto-reversed'
    | 'pair-crossed'
    | 'sensor-unfed'
    | 'sensor-kind'
    | 'too-little'
    | 'never-on'
    | 'always-on'
    | 'uncertain'
    | 'inverted'
    | 'noise-margin';
  /** What acts on the input, where something does. */
  readonly actor: Actor | undefined;
}

/** Below this share of the swing between the two levels a margin is small (common practice, no source). */
export const LEAST_MARGIN = 0.2;

/**
 * What is the matter with each input and coil. The gravest and most telling diagnosis of an input is its only one, so
 * that one mistake gives one finding.
 */
export const diagnose = fact('analysis', (analysis: MachineAnalysis): readonly Diagnosis[] => {
  return canBeJudged(analysis) ? judged(analysis).flatMap((diagnosis) => diagnosis ?? []) : [];
});

const judged = factOver('analysis', ({ machine }: MachineAnalysis) => inputsOf(machine), judge);

/** The diagnoses of one kind. */
export function diagnosed(analysis: MachineAnalysis, kind: Diagnosis['kind']): readonly Diagnosis[] {
  return diagnose(analysis).filter((diagnosis) => diagnosis.kind === kind);
}

function judge(analysis: MachineAnalysis, input: SolvedInput): Diagnosis | undefined {
  if (!input.sense.inUse || !isWired(analysis.nets, input) || !canBeJudged(analysis, input)) return undefined;
  if (isToldOpen(analysis, input) || outputFights(analysis).some(({ group }) => group === input.group))
    return undefined;
  const sights = sightsOf(input);
  const actor = input.operations[0]?.actor ?? (input.idle.length === 1 ? input.idle[0] : undefined);
  const found = (kind: Diagnosis['kind'] | undefined) => kind && { input, kind, actor };
  if (sights.some(({ trouble }) => trouble !== undefined)) return undefined;
  if (sights.some(({ isTooMuch }) => isTooMuch))
    return found(isAnalogPair(input) ? undefined : 'over-rating');
  const levels = new Set(sights.map(({ level }) => level));
  if (levels.has('unknown')) return undefined;
  if (levels.size === 1 && levels.has('off')) return found(whyNeverOn(input));
  if (levels.size === 1 && levels.has('on')) return found(whyAlwaysOn(input));
  if (input.at.circuit.kind === 'coil') return found(levels.has('on') ? undefined : 'too-little');
  if (levels.has('uncertain')) return found('uncertain');
  return found(whyWrong(input));
}

/** The spans of an analog output and its input are compared by themselves. */
function isAnalogPair({ at, operations }: SolvedInput): boolean {
  return at.circuit.kind === 'analog-in' && operations[0]?.actor.mover === 'output';
}

function whyNeverOn(input: SolvedInput): Diagnosis['kind'] | undefined {
  if (isReversedLamp(input) && !hangsOnHalfPair(input)) return 'opto-reversed';
  const sensors = sensorsOf(input);
  if (sensors.some(({ isDead }) => isDead)) return 'sensor-unfed';
  const side = sideOf(input);
  if (sensors.some((sensor) => side !== undefined && sensorSide(sensor) !== side)) return 'sensor-kind';
  if (input.operations.length > 0) return 'too-little';
  return isStuck(input) ? 'never-on' : undefined;
}

function whyAlwaysOn(input: SolvedInput): Diagnosis['kind'] | undefined {
  // A relay that holds itself in is on until something lets it go; that nothing does is said of the emergency stop.
  if (holdsItself(input)) return undefined;
  if (input.operations.length > 0) return 'always-on';
  return isStuck(input) ? 'always-on' : undefined;
}

function holdsItself({ at, group, solution }: SolvedInput): boolean {
  const { elements } = solution.circuit.board;
  return (
    at.circuit.kind === 'coil' &&
    group.elements.some((element) => {
      const other = elements[element];
      return other?.mover === 'relay' && other.at.part.name === at.part.name;
    })
  );
}

/**
 * Whether an input on which nothing has an effect is a mistake. Several contacts that do nothing one by one may do
 * something together; an enable that is joined to a supply for good is meant.
 */
function isStuck(input: SolvedInput): boolean {
  if (input.idle.length > 0) return input.idle.length === 1 || missesItsOutput(input) || isOnOneRail(input);
  return TOLD.has(input.at.circuit.does?.word ?? '') && !drivesAnything(input);
}

/** Whether all that a circuit hangs on is at one voltage, so that no contacts can send a current through it. */
function isOnOneRail({ solution: { circuit } }: SolvedInput): boolean {
  const { numberOf, view, parts } = circuit;
  let first: Hold | undefined;
  for (const node of numberOf.keys()) {
    const hold = view.holds.get(node);
    if (first && hold && (hold.volts !== first.volts || hold.island !== first.island)) return false;
    first ??= hold;
  }
  const drives = ({ kind }: Branch) => kind === 'source';
  return (
    first !== undefined && !parts.some(({ rest, operated }) => rest.some(drives) || operated.some(drives))
  );
}

/** Whether the output that is there for a drive's input is in its circuit, and has no effect on it. */
function missesItsOutput({ at, idle, solution }: SolvedInput): boolean {
  const word = at.circuit.does?.word;
  if (word !== 'pulse' && word !== 'direction' && word !== 'enable') return false;
  const { elements } = solution.circuit.board;
  return idle.some(({ elements: places }) =>
    places.some((place) => elements[place]?.at.circuit.does?.word === word),
  );
}

/** Inputs that are there to be told something by a person or by the machine. */
const TOLD: ReadonlySet<string> = new Set(['limit', 'home', 'probe', 'emergency-stop', 'start', 'pause']);

function drivesAnything({ group, solution }: SolvedInput): boolean {
  const { elements } = solution.circuit.board;
  return group.elements.some((element) => {
    const at = elements[element]?.at;
    return at !== undefined && isOutput(at.circuit);
  });
}

/** Whether the signal of an input must go up or down to turn it on. */
export function sideOf(input: SolvedInput): 'up' | 'down' | undefined {
  switch (input.at.circuit.kind) {
    case 'pulled-down-in':
      return 'up';
    case 'pulled-up-in':
      return 'down';
    case 'opto-in':
      return readsOf(input)?.eitherWay ? undefined : signalEnd(input) === 0 ? 'up' : 'down';
    default:
      return undefined;
  }
}

/** For an input that can be told on from off: whether it means the wrong thing, or only just the right one. */
function whyWrong({ at, rest, operations, acts }: SolvedInput): Diagnosis['kind'] | undefined {
  const [operation] = operations;
  if (!operation) return undefined;
  if (at.circuit.kind === 'line-in' && rest.level === 'on' && operation.sight.level === 'off')
    return operation.actor.mover === 'output' ? 'pair-crossed' : undefined;
  const isByHand = operation.actor.mover === 'contact' || operation.actor.mover === 'sensor';
  // Among outputs a drive's alarm alone is meant to be quiet as long as all is well.
  const isAlarm = operation.actor.mover === 'output' && at.circuit.does?.word === 'alarm';
  if ((isByHand || isAlarm) && acts === true && operation.acts === false) return 'inverted';
  const margin = Math.min(rest.margin ?? Number.NaN, operation.sight.margin ?? Number.NaN);
  const swing = Math.abs((operation.sight.value ?? Number.NaN) - (rest.value ?? Number.NaN));
  return margin < LEAST_MARGIN * swing ? 'noise-margin' : undefined;
}
