import { type Block, foldBlock, measureBlock, rowOf, SIZE } from './block.ts';
import type { Drawing, DrawnLink } from './drawing.ts';
import { type End, type JoinedLink, joinLinks } from './ends.ts';
import { cableWidth, earthLength, labelWidth, MORE_WIDTH } from './label.ts';
import type { LayoutEdge, LayoutGraph, LayoutNode, LayoutPort } from './layout.ts';
import { rankParts, stepOf } from './ranks.ts';
import { chooseSides, type Side } from './sides.ts';

/** A drawing with everything decided that does not need the layout. */
export interface Plan {
  readonly drawing: Drawing;
  readonly links: readonly JoinedLink[];
  readonly ranks: readonly number[];
  readonly blocks: readonly Block[];
}

/**
 * Decides ranks, sides and the size of every block. The same drawing always gives the same plan.
 * @param folded the ids of the parts that are shown without their terminals
 */
export function planDrawing(drawing: Drawing, folded: ReadonlySet<string> = new Set()): Plan {
  const links = joinLinks(drawing);
  const ranks = rankParts(drawing, links);
  const sides = chooseSides(drawing, links, ranks);
  const blocks = drawing.parts.map((part, number) =>
    folded.has(part.id) ? foldBlock(part) : measureBlock(part, sides[number] ?? []),
  );
  return { drawing, links, ranks, blocks };
}

/**
 * The graph to be laid out: parts as nodes, terminals as ports at fixed places, links as edges from left to
 * right. Everything is in the order of the text and the seed is fixed, so that a small edit moves little.
 */
export function toLayoutGraph(plan: Plan): LayoutGraph {
  const earths = listEarths(plan);
  return {
    id: 'wiring',
    layoutOptions: { ...LAYOUT, ...spaceForLabels(plan) },
    children: plan.blocks.map((block, part) => toNode(block, part, earths)),
    // Earth goes everywhere: its ends are drawn as symbols, and no line between them.
    edges: plan.links.filter(isRouted).map((joined) => toEdge(joined, plan)),
  };
}

/** The names of nodes, ports and edges in the graph. */
export const nodeId = (part: number): string => `n${part}`;
export const portId = ({ part, terminal }: End, side: Side): string => `n${part}t${terminal}${side}`;
/** Where all wires of a folded part join. */
const FOLD = -1;
export const edgeId = (link: number): string => `e${link}`;

// Options of ELK's layered algorithm, by their documented names (https://eclipse.dev/elk/reference/algorithms/org-eclipse-elk-layered.html).
const LAYOUT: Readonly<Record<string, string>> = {
  'elk.algorithm': 'layered',
  'elk.direction': 'RIGHT',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.randomSeed': '1',
  'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.nodePlacement.favorStraightEdges': 'true',
  'elk.layered.thoroughness': '10',
  'elk.spacing.nodeNode': '22',
  'elk.spacing.edgeNode': '14',
  'elk.spacing.edgeEdge': '9',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '9',
  'elk.spacing.componentComponent': '40',
};

const LEAST_STUB = 16;
const MOST_STUB = 128;
const STUB_STEP = 16;

/** True for a link that is drawn as a line from end to end. */
export const isRouted = ({ link }: JoinedLink): boolean => link.kind !== 'earth';

/**
 * How far a wire leaves its terminal straight: at least as long as its label, so that labels never meet a bend. It goes
 * by steps, so that a letter more or less moves nothing.
 */
export function stubLength({ links }: Plan): number {
  // All rings stand behind the longest label, so that those of one rim are in line.
  const most = (width: (link: DrawnLink) => number) => Math.max(0, ...links.map(({ link }) => width(link)));
  const widest = most(labelWidth) + most(cableWidth) + MORE_WIDTH;
  const wanted = Math.min(MOST_STUB, Math.max(LEAST_STUB, widest + 12));
  return Math.ceil(wanted / STUB_STEP) * STUB_STEP;
}

function spaceForLabels(plan: Plan): Readonly<Record<string, string>> {
  const stub = stubLength(plan);
  const side = stub + 24;
  return {
    'elk.layered.spacing.edgeNodeBetweenLayers': String(stub),
    'elk.spacing.nodeSelfLoop': String(stub),
    'elk.layered.spacing.nodeNodeBetweenLayers': String(2 * stub + 8),
    'elk.padding': `[top=24,left=${side},bottom=24,right=${side}]`,
  };
}

/** The room that each end of an earth link takes outside its block, by its port. */
function listEarths(plan: Plan): ReadonlyMap<string, number> {
  const room = new Map<string, number>();
  for (const joined of plan.links.filter((each) => !isRouted(each))) {
    for (const end of [joined.from, joined.to]) {
      const port = portAt(end, 'right', plan.blocks);
      room.set(port, Math.max(room.get(port) ?? 0, earthLength(joined.link)));
    }
  }
  return room;
}

function toNode(block: Block, part: number, earths: ReadonlyMap<string, number>): LayoutNode {
  return {
    id: nodeId(part),
    width: block.width,
    height: block.height,
    layoutOptions: { 'elk.portConstraints': 'FIXED_POS', 'elk.portLabels.placement': 'OUTSIDE' },
    ports: block.isFolded
      ? rimsOf('both').map((rim) =>
          toPort(portId({ part, terminal: FOLD }, rim), rim, block.width, SIZE.head / 2, earths),
        )
      : block.rows.flatMap(({ terminal, side, y }) =>
          rimsOf(side).map((rim) => toPort(portId({ part, terminal }, rim), rim, block.width, y, earths)),
        ),
  };
}

function rimsOf(side: Side): readonly ('left' | 'right')[] {
  return side === 'both' ? ['left', 'right'] : [side];
}

function toPort(
  id: string,
  rim: 'left' | 'right',
  width: number,
  y: number,
  earths: ReadonlyMap<string, number>,
): LayoutPort {
  const room = earths.get(id);
  return {
    id,
    x: rim === 'left' ? 0 : width,
    y,
    width: 0,
    height: 0,
    ...(room !== undefined && { labels: [{ id: `${id}e`, text: 'earth', width: room, height: SIZE.row }] }),
    layoutOptions: { 'elk.port.side': rim === 'left' ? 'WEST' : 'EAST' },
  };
}

/** An edge always runs to the higher rank, whichever way the link was written: the layout sets its end to the right. */
function toEdge(link: JoinedLink, { ranks, blocks }: Plan): LayoutEdge {
  const { from, to, number } = link;
  const [start, end] = stepOf(link, ranks) < 0 ? [to, from] : [from, to];
  return {
    id: edgeId(number),
    sources: [portAt(start, 'right', blocks)],
    targets: [portAt(end, 'left', blocks)],
  };
}

function portAt(end: End, preferred: 'left' | 'right', blocks: readonly Block[]): string {
  const block = blocks[end.part];
  return block?.isFolded
    ? portId({ part: end.part, terminal: FOLD }, preferred)
    : portId(end, rimAt(end, preferred, blocks));
}

/** The rim at which a terminal's wires join; on a bar both do, and the preferred one is taken. */
export function rimAt(end: End, preferred: 'left' | 'right', blocks: readonly Block[]): 'left' | 'right' {
  const block = blocks[end.part];
  const side = (block && rowOf(block, end.terminal)?.side) ?? preferred;
  return side === 'both' ? preferred : side;
}
