import { type Block, measureBlock } from './block.ts';
import type { Drawing } from './drawing.ts';
import { type End, type JoinedLink, joinLinks } from './ends.ts';
import { LABEL_SIZE, labelOf } from './label.ts';
import type { LayoutEdge, LayoutGraph, LayoutNode, LayoutPort } from './layout.ts';
import { rankParts, stepOf } from './ranks.ts';
import { chooseSides, type Side } from './sides.ts';
import { estimateWidth } from './text-width.ts';

/** A drawing with everything decided that does not need the layout. */
export interface Plan {
  readonly drawing: Drawing;
  readonly links: readonly JoinedLink[];
  readonly ranks: readonly number[];
  readonly blocks: readonly Block[];
}

/** Decides ranks, sides and the size of every block. The same drawing always gives the same plan. */
export function planDrawing(drawing: Drawing): Plan {
  const links = joinLinks(drawing);
  const ranks = rankParts(drawing, links);
  const sides = chooseSides(drawing, links, ranks);
  const blocks = drawing.parts.map((part, number) => measureBlock(part, sides[number] ?? []));
  return { drawing, links, ranks, blocks };
}

/**
 * The graph to be laid out: parts as nodes, terminals as ports at fixed places, links as edges from left to
 * right. Everything is in the order of the text and the seed is fixed, so that a small edit moves little.
 */
export function toLayoutGraph(plan: Plan): LayoutGraph {
  return {
    id: 'wiring',
    layoutOptions: { ...LAYOUT, 'elk.layered.spacing.edgeNodeBetweenLayers': String(stubLength(plan)) },
    children: plan.blocks.map((block, part) => toNode(block, part)),
    edges: plan.links.map((joined) => toEdge(joined, plan)),
  };
}

/** The names of nodes, ports and edges in the graph. */
export const nodeId = (part: number): string => `n${part}`;
export const portId = ({ part, terminal }: End, side: Side): string => `n${part}t${terminal}${side}`;
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
  'elk.layered.spacing.nodeNodeBetweenLayers': '40',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '9',
  'elk.spacing.componentComponent': '40',
  'elk.padding': '[top=24,left=24,bottom=24,right=24]',
};

const LEAST_STUB = 16;
const MOST_STUB = 64;

/** Every wire leaves its terminal straight for at least as long as its label, so that labels never meet a bend. */
function stubLength({ links }: Plan): number {
  const widest = Math.max(0, ...links.map(({ link }) => estimateWidth(labelOf(link), LABEL_SIZE)));
  return Math.ceil(Math.min(MOST_STUB, Math.max(LEAST_STUB, widest + 10)));
}

function toNode(block: Block, part: number): LayoutNode {
  return {
    id: nodeId(part),
    width: block.width,
    height: block.height,
    layoutOptions: { 'elk.portConstraints': 'FIXED_POS' },
    ports: block.rows.flatMap(({ terminal, side, y }) =>
      rimsOf(side).map((rim) => toPort(portId({ part, terminal }, rim), rim, block.width, y)),
    ),
  };
}

function rimsOf(side: Side): readonly ('left' | 'right')[] {
  return side === 'both' ? ['left', 'right'] : [side];
}

function toPort(id: string, rim: 'left' | 'right', width: number, y: number): LayoutPort {
  return {
    id,
    x: rim === 'left' ? 0 : width,
    y,
    width: 0,
    height: 0,
    layoutOptions: { 'elk.port.side': rim === 'left' ? 'WEST' : 'EAST' },
  };
}

/** An edge always runs to the higher rank, whichever way the link was written: the layout sets its end to the right. */
function toEdge(link: JoinedLink, { ranks, blocks }: Plan): LayoutEdge {
  const { from, to, number } = link;
  const [start, end] = stepOf(link, ranks) < 0 ? [to, from] : [from, to];
  return {
    id: edgeId(number),
    sources: [portId(start, rimAt(start, 'right', blocks))],
    targets: [portId(end, rimAt(end, 'left', blocks))],
  };
}

function rimAt({ part, terminal }: End, preferred: 'left' | 'right', blocks: readonly Block[]): Side {
  const side = blocks[part]?.rows[terminal]?.side ?? preferred;
  return side === 'both' ? preferred : side;
}
