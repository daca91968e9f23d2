import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { partsWithSheets } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import type { Node, Span } from '../../syntax/node.ts';
import { disputedLead } from '../motion/disputed-lead.ts';
import { motorMisfits } from '../wiring/motor-misfits.ts';
import { problemsIn } from './problems-in.ts';

/**
 * True for a value as delivered of a part in whose `set:` something stands that the part does not have, or stands twice:
 * it was probably meant for one of the settings that seem to be left alone.
 */
export function isDefaultInDoubt(analysis: Analysis, at: Span): boolean {
  return defaultsInDoubt(analysis).has(at);
}

/** The values as delivered that are in doubt. */
export function defaultsInDoubt(analysis: Analysis): ReadonlySet<Span> {
  if (analysis.kind !== 'machine') return NONE;
  return defaultsOf(analysis);
}

const defaultsOf = fact('analysis', findDefaults);

const NONE: ReadonlySet<Span> = new Set();

function findDefaults({ machine, problems }: MachineAnalysis): Set<Span> {
  const doubtful = new Set<Span>();
  const repeated = problems.filter(({ code }) => code === 'yaml/duplicate-key');
  for (const { part, sheet } of partsWithSheets(machine)) {
    if (setsOnlyWhatIsThere(part) && !repeated.some(({ at }) => isWithin(at, part.node))) continue;
    for (const { initial } of sheet.settings.values()) if (initial) doubtful.add(initial);
  }
  return doubtful;
}

const setsOnlyWhatIsThere = keptBy(({ assigned, sheet }: Part): boolean =>
  [...assigned.keys()].every((name) => sheet?.settings.has(name)),
);

/** Problems after which a value is there and only doubtful. */
const READ: ReadonlySet<string> = new Set(['unit/implausible', 'shape/empty-section']);

const NO_AXES: ReadonlySet<string> = new Set();

/**
 * The axes of which something could not be read: what is missing is taken as not there, such as a gearing; and those that
 * name a motor which their drive does not turn, or a screw that has two leads.
 */
export function axesInDoubt(analysis: Analysis): ReadonlySet<string> {
  return analysis.kind === 'machine' ? axesOf(analysis) : NO_AXES;
}

const axesOf = fact('analysis', findAxes);

function findAxes({ machine, problems }: MachineAnalysis): ReadonlySet<string> {
  const axes = [...machine.axes.values()];
  const misfits = motorMisfits(machine).map(({ axis }) => axis);
  const inDispute = axes.filter((axis) => disputedLead(axis));
  if (problems.length + misfits.length + inDispute.length === 0) return NO_AXES;
  const unread = problems.filter(({ code }) => !READ.has(code));
  const halfRead = axes.filter(({ fields }) => unread.some(({ at }) => isWithin(at, fields.node)));
  return new Set([...halfRead, ...misfits, ...inDispute].map(({ name }) => name));
}

/** True where something could not be read within a node. */
export function hasFaultWithin(analysis: Analysis, node: Node | undefined): boolean {
  if (!node) return false;
  return problemsIn(analysis, node.block).some(({ code, at }) => !READ.has(code) && isWithin(at, node));
}

function isWithin(at: Span, node: Node | undefined): boolean {
  return node !== undefined && node.block === at.block && node.from <= at.from && at.to <= node.to;
}
