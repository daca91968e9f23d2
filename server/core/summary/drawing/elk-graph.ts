import { rowOf, SIZE } from './block.ts';
import type { Course, Joint, Rim } from './courses.ts';
import type { LayoutEdge, LayoutGraph, LayoutNode, LayoutPort } from './layout.ts';
import type { Plan } from './plan.ts';

/**
 * The graph to be laid out: parts with the rooms beside them as nodes, terminals as ports at fixed places, links as
 * edges from left to right. Everything is in the order of the text and the seed is fixed.
 * @param margin round all of it
 */
export function toLayoutGraph(plan: Plan, margin: number = SPACING.margin): LayoutGraph {
  const joints = new Map<number, Joint[]>();
  for (const { start, end } of plan.courses)
    for (const joint of [start, end]) joints.set(joint.part, [...(joints.get(joint.part) ?? []), joint]);
  return {
    id: 'wiring',
    layoutOptions: {
      ...LAYOUT,
      'elk.padding': `[top=${margin},left=${margin},bottom=${margin},right=${margin}]`,
    },
    children: [
      ...plan.blocks.map((_, part) => toNode(plan, part, joints.get(part) ?? [])),
      ...plan.courses.flatMap((course) => toTurnNode(course, plan)),
    ],
    edges: plan.courses.flatMap(toEdges),
  };
}

/** The names of nodes, ports and edges in the graph. */
export const nodeId = (part: number): string => `n${part}`;
/** The point beside a column at which a link within it turns. */
export const turnId = (link: number): string => `u${link}`;
export const edgeId = (link: number): string => `e${link}`;
/** The second half of a link that turns. */
export const backId = (link: number): string => `b${link}`;
const portId = ({ part, terminal, rim }: Joint): string => `n${part}t${terminal}${rim}`;

/** What lies between parts of a column, between columns, and round the whole drawing at least. */
export const SPACING = { parts: 22, columns: 28, margin: 24 } as const;

// Options of ELK's layered algorithm, by their documented names (https://eclipse.dev/elk/reference/algorithms/org-eclipse-elk-layered.html).
const LAYOUT: Readonly<Record<string, string>> = {
  'elk.algorithm': 'layered',
  'elk.direction': 'RIGHT',
  'elk.edgeRouting': 'ORTHOGONAL',
  'elk.randomSeed': '1',
  'elk.separateConnectedComponents': 'false',
  'elk.layered.considerModelOrder.strategy': 'NODES_AND_EDGES',
  // Columns are ours: a part's layer is told by its x, which the layout then replaces.
  'elk.layered.cycleBreaking.strategy': 'INTERACTIVE',
  'elk.layered.layering.strategy': 'INTERACTIVE',
  'elk.layered.nodePlacement.strategy': 'NETWORK_SIMPLEX',
  'elk.layered.nodePlacement.favorStraightEdges': 'true',
  'elk.layered.thoroughness': '10',
  'elk.spacing.nodeNode': String(SPACING.parts),
  'elk.spacing.edgeNode': '14',
  'elk.spacing.edgeEdge': '9',
  'elk.spacing.nodeSelfLoop': '12',
  'elk.layered.spacing.edgeEdgeBetweenLayers': '8',
  'elk.layered.spacing.edgeNodeBetweenLayers': '10',
  'elk.layered.spacing.nodeNodeBetweenLayers': String(SPACING.columns),
};

/** More than any part is wide: what is farther apart stands in different layers. */
export const LAYER = 10_000;

/** A part with the rooms beside it: wires join at the outer rims of these, so that labels inside are never met. */
function toNode({ blocks, rooms, columns }: Plan, part: number, joints: readonly Joint[]): LayoutNode {
  const block = blocks[part] ?? { width: 0, height: 0, rows: [], captions: [], isFolded: true };
  const { left, right } = rooms[part] ?? { left: 0, right: 0 };
  const width = left + block.width + right;
  const ports = new Map<string, LayoutPort>();
  for (const joint of joints) {
    const y = rowOf(block, joint.terminal)?.y ?? SIZE.head / 2;
    ports.set(portId(joint), toPort(portId(joint), joint.rim, width, y));
  }
  return {
    id: nodeId(part),
    x: (columns[part] ?? 0) * LAYER,
    y: 0,
    width,
    height: block.height,
    layoutOptions: { 'elk.portConstraints': 'FIXED_POS', 'elk.alignment': 'LEFT' },
    ports: [...ports.values()],
  };
}

function toPort(id: string, rim: Rim, width: number, y: number): LayoutPort {
  return {
    id,
    x: rim === 'left' ? 0 : width,
    y,
    width: 0,
    height: 0,
    layoutOptions: { 'elk.port.side': rim === 'left' ? 'WEST' : 'EAST' },
  };
}

/** The point at which a link within one column turns: beside the column, in a layer of its own. */
function toTurnNode({ joined, start, turn }: Course, { columns }: Plan): LayoutNode[] {
  if (turn === undefined) return [];
  const layer = (columns[start.part] ?? 0) + (turn === 'right' ? 0.2 : -0.2);
  return [
    { id: turnId(joined.number), x: layer * LAYER, y: 0, width: 0, height: 0, layoutOptions: {}, ports: [] },
  ];
}

/**
 * An edge always runs to the later column, whichever way the link was written: the layout sets its end to the right. A
 * link that turns is two edges that meet beside the column.
 */
function toEdges({ joined: { number }, start, end, turn }: Course): LayoutEdge[] {
  const [there, back] = [portId(start), portId(end)];
  if (turn === undefined) return [{ id: edgeId(number), sources: [there], targets: [back] }];
  const at = turnId(number);
  const half = (id: string, port: string): LayoutEdge =>
    turn === 'right' ? { id, sources: [port], targets: [at] } : { id, sources: [at], targets: [port] };
  return [half(edgeId(number), there), half(backId(number), back)];
}
