import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import { numberOf } from '../model/link-number.ts';
import type { Part } from '../model/machine.ts';
import { MAINS, type Machine, mainsTerminals, partsWithSheets } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import { colourOf } from '../model/wire-text.ts';
import type { Link } from '../model/wiring.ts';
import { type Carriers, findCarriers } from './carriers.ts';
import type { Drawing, DrawnLink, DrawnPart, Group } from './drawing/drawing.ts';
import { linkId, partId, terminalPlaceId } from './places.ts';
import { signalWays } from './signal-ways.ts';

/** The wiring as blocks and lines, before it is laid out. */
export function drawMachine(analysis: MachineAnalysis): Drawing {
  const { machine, nets } = analysis;
  const carriers = findCarriers(machine, nets);
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
      ...(isRail(part) && { rail: true }),
      terminals,
    });
  }
  const usesMains = machine.links.some((link) => link.from.part === MAINS || link.to.part === MAINS);
  if (usesMains) parts.unshift(mainsBlock(analysis));
  const known = new Set(parts.flatMap((part) => part.terminals.map((terminal) => terminal.id)));
  const links = machine.links
    .map((link) => drawLink(analysis, carriers, link))
    .filter((link) => known.has(link.from) && known.has(link.to));
  return { parts, links, ways: signalWays(analysis), passes: findPasses(machine) };
}

/** A part whose terminals are all one, such as a distribution bar. */
function isRail({ sheet }: Part): boolean {
  if (!sheet || sheet.terminals.size < 2) return false;
  return [...sheet.circuits.values()].some(
    ({ kind, ends }) => kind === 'joined' && ends.length === sheet.terminals.size,
  );
}

/** Terminals of one part between which current passes on: fuses and contacts. */
function findPasses(machine: Machine): [string, string][] {
  return partsWithSheets(machine).flatMap(({ part, sheet }) =>
    [...sheet.circuits.values()].flatMap(({ kind, ends }): [string, string][] => {
      const [a, b] = ends;
      if (!a || !b || (kind !== 'fuse' && kind !== 'contact')) return [];
      return [[terminalPlaceId(part.name, a.text), terminalPlaceId(part.name, b.text)]];
    }),
  );
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
    title: machine.fields.text('mains')?.value ?? say`supply network`,
    partClass: 'mains',
    terminals,
  };
}

function drawLink(analysis: MachineAnalysis, carriers: Carriers, link: Link): DrawnLink {
  const colour = colourOf(link);
  const kind = kindOf(analysis, carriers, link);
  return {
    id: linkId(numberOf(analysis.machine, link)),
    from: terminalPlaceId(link.from.part, link.from.terminal),
    to: terminalPlaceId(link.to.part, link.to.terminal),
    kind,
    group: groupOf(analysis, carriers, link, kind),
    ...(colour !== undefined && { colour }),
    ...(link.label !== undefined && { label: link.label }),
    ...(link.cable !== undefined && { cable: link.cable }),
  };
}

/** What a link carries, told by the circuits at its two ends and by what reaches it through fuses and contacts. */
function kindOf({ machine }: MachineAnalysis, carriers: Carriers, link: Link): DrawnLink['kind'] {
  const kinds = [link.from, link.to].flatMap(({ part, terminal }) => {
    const circuits = [...(machine.parts.get(part)?.sheet?.circuits.values() ?? [])];
    return circuits
      .filter((circuit) => circuit.ends.some((end) => end.text === terminal))
      .map((circuit) => circuit.kind);
  });
  const has = (...wanted: string[]) => kinds.some((kind) => wanted.includes(kind));
  const ends = [link.from, link.to].map(({ part, terminal }) => terminalId(part, terminal));
  if (has('earth') || ends.includes(`${MAINS}.PE`)) return 'earth';
  if (has('mains-in') || ends.some((end) => carriers.mains.has(end))) return 'mains';
  if (has('phase-out', 'winding', 'three-phase-out', 'three-phase-in')) return 'motor';
  return has('power-in', 'power-out') || ends.some((end) => carriers.power.has(end)) ? 'power' : 'signal';
}

const AXIS_CLASSES: ReadonlySet<string> = new Set(['drive', 'motor']);
const SPINDLE_CLASSES: ReadonlySet<string> = new Set(['converter', 'spindle']);
const INPUT_CLASSES: ReadonlySet<string> = new Set(['switch', 'sensor', 'probe', 'handwheel']);

/** What a link is there for, told by the parts that it joins and by what reaches it. */
function groupOf(
  { machine }: MachineAnalysis,
  carriers: Carriers,
  link: Link,
  kind: DrawnLink['kind'],
): Group {
  if (kind === 'mains' || kind === 'earth') return 'power';
  const ends = [link.from, link.to];
  const isAny = (classes: ReadonlySet<string>) =>
    ends.some(({ part }) => classes.has(machine.parts.get(part)?.sheet?.partClass ?? ''));
  if (isAny(INPUT_CLASSES)) return 'inputs';
  if (isAny(SPINDLE_CLASSES)) return 'spindle';
  if (ends.some(({ part, terminal }) => carriers.power.has(terminalId(part, terminal)))) return 'power';
  return kind === 'motor' || isAny(AXIS_CLASSES) ? 'axes' : 'inputs';
}
