import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { terminalId } from '../circuits/nets.ts';
import { MAINS, mainsTerminals } from '../model/resolve.ts';
import { colourOf } from '../model/wire-text.ts';
import type { Link } from '../model/wiring.ts';
import { cautionItems } from './cautions.ts';
import { chartItems } from './charts.ts';
import { commissioningItems } from './commissioning.ts';
import type { Drawing, DrawnLink, DrawnPart } from './drawing/drawing.ts';
import { headlineItems } from './headline.ts';
import { inputItems } from './inputs.ts';
import { cutItems } from './lists/cut-list.ts';
import { partsListItems } from './lists/parts-list.ts';
import { loopItems } from './pictures/loop.ts';
import { motionItems } from './pictures/motion.ts';
import { screwItems } from './pictures/screw.ts';
import { spindleItems } from './pictures/spindle.ts';
import { supplyItems } from './pictures/supply.ts';
import { timingItems } from './pictures/timing.ts';
import { linkId, partId, terminalPlaceId } from './places.ts';
import { settingsItems } from './settings/section.ts';
import type { Summary } from './summary.ts';

const kept = new WeakMap<Analysis, Summary>();

/** The wiring summary of one version of a machine; of a part sheet there is none. */
export function summarise(analysis: Analysis): Summary {
  let summary = kept.get(analysis);
  if (!summary) {
    summary =
      analysis.kind === 'machine' ? summariseMachine(analysis) : { title: '', items: [], broken: false };
    kept.set(analysis, summary);
  }
  return summary;
}

function summariseMachine(analysis: MachineAnalysis): Summary {
  const drawing = drawMachine(analysis);
  const revision = analysis.machine.fields.text('revision')?.value;
  return {
    title: analysis.machine.title,
    ...(revision !== undefined && { revision }),
    broken: analysis.problems.some((problem) => problem.code === 'yaml/syntax'),
    items: [
      ...headlineItems(analysis),
      ...supplyItems(analysis),
      { id: 'drawing', section: 'drawing', kind: 'drawing', drawing },
      ...inputItems(analysis),
      ...loopItems(analysis),
      ...chartItems(analysis),
      ...timingItems(analysis),
      ...motionItems(analysis),
      ...screwItems(analysis),
      ...spindleItems(analysis),
      ...cutItems(analysis),
      ...partsListItems(analysis),
      ...settingsItems(analysis),
      ...commissioningItems(analysis),
      ...cautionItems(analysis),
    ],
  };
}

/** The wiring as blocks and lines, before it is laid out. */
export function drawMachine(analysis: MachineAnalysis): Drawing {
  const { machine, nets } = analysis;
  const parts: DrawnPart[] = [];
  for (const part of machine.parts.values()) {
    if (!part.sheet) continue;
    const terminals = [...part.sheet.terminals.values()].map(({ name, group }) => ({
      id: terminalPlaceId(part.name, name),
      name,
      group,
      wired: nets.isWired(terminalId(part.name, name)),
    }));
    parts.push({
      id: partId(part.name),
      name: part.name,
      title: part.sheet.title,
      partClass: part.sheet.partClass,
      ...(part.place !== undefined && { place: part.place }),
      terminals,
    });
  }
  const usesMains = machine.links.some((link) => link.from.part === MAINS || link.to.part === MAINS);
  if (usesMains) parts.unshift(mainsBlock(analysis));
  const known = new Set(parts.flatMap((part) => part.terminals.map((terminal) => terminal.id)));
  const links = machine.links
    .map((link) => drawLink(analysis, link))
    .filter((link) => known.has(link.from) && known.has(link.to));
  return { parts, links };
}

function mainsBlock({ machine, nets }: MachineAnalysis): DrawnPart {
  const terminals = mainsTerminals(machine).map((name) => ({
    id: terminalPlaceId(MAINS, name),
    name,
    group: 'mains',
    wired: nets.isWired(terminalId(MAINS, name)),
  }));
  return {
    id: partId(MAINS),
    name: MAINS,
    title: machine.fields.text('mains')?.value ?? 'supply network',
    partClass: 'mains',
    terminals,
  };
}

function drawLink(analysis: MachineAnalysis, link: Link): DrawnLink {
  const colour = colourOf(link);
  return {
    id: linkId(link.number),
    from: terminalPlaceId(link.from.part, link.from.terminal),
    to: terminalPlaceId(link.to.part, link.to.terminal),
    kind: kindOf(analysis, link),
    ...(colour !== undefined && { colour }),
    ...(link.label !== undefined && { label: link.label }),
    ...(link.cable !== undefined && { cable: link.cable }),
  };
}

/** What a link carries, told by the circuits at its two ends. */
function kindOf({ machine }: MachineAnalysis, link: Link): DrawnLink['kind'] {
  const kinds = [link.from, link.to].flatMap(({ part, terminal }) => {
    const circuits = [...(machine.parts.get(part)?.sheet?.circuits.values() ?? [])];
    return circuits
      .filter((circuit) => circuit.ends.some((end) => end.text === terminal))
      .map((circuit) => circuit.kind);
  });
  const has = (...wanted: string[]) => kinds.some((kind) => wanted.includes(kind));
  const names = [link.from, link.to].map(({ part, terminal }) => `${part}.${terminal}`);
  if (has('earth') || names.includes(`${MAINS}.PE`)) return 'earth';
  if (has('mains-in') || names.some((name) => name.startsWith(`${MAINS}.`))) return 'mains';
  if (has('phase-out', 'winding', 'three-phase-out', 'three-phase-in')) return 'motor';
  return has('power-in', 'power-out') ? 'power' : 'signal';
}
