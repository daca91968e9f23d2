import type { Course, Rim } from './courses.ts';
import type { JoinedLink } from './ends.ts';
import { cableWidth, earthLength, labelWidth, MORE_WIDTH } from './label.ts';

/** How far wires leave a block straight at each of its rims, so that their labels stand clear of everything else. */
export interface Room {
  readonly left: number;
  readonly right: number;
}

const LEAST = 14;
const CLEAR = 12;
/** Rooms go by steps, so that a letter more or less moves nothing. */
const STEP = 8;

/**
 * The room beside each part: as wide as the widest label in its column, behind which stand the rings of all cables in
 * line. A room is laid out with its part, so labels can meet neither bends nor other parts.
 * @param columns of each part
 * @param earths the rims at which ends of earth links stick out
 */
export function measureRooms(
  columns: readonly number[],
  courses: readonly Course[],
  earths: readonly { readonly joined: JoinedLink; readonly part: number; readonly rim: Rim }[],
): readonly Room[] {
  const labels = new Map<string, number>();
  const rings = new Map<string, number>();
  const keyOf = (part: number, rim: Rim) => `${columns[part]} ${rim}`;
  const widen = (widths: Map<string, number>, key: string, width: number): void => {
    widths.set(key, Math.max(widths.get(key) ?? 0, width));
  };
  for (const { joined, start, end } of courses) {
    for (const { part, rim } of [start, end]) {
      widen(labels, keyOf(part, rim), Math.max(LEAST, labelWidth(joined.link) + MORE_WIDTH));
      widen(rings, keyOf(part, rim), cableWidth(joined.link));
    }
  }
  for (const { joined, part, rim } of earths) widen(labels, keyOf(part, rim), earthLength(joined.link));
  const roomAt = (key: string) => addUp(labels.get(key) ?? 0, rings.get(key) ?? 0);
  return columns.map((_, part) => ({
    left: roomAt(keyOf(part, 'left')),
    right: roomAt(keyOf(part, 'right')),
  }));
}

function addUp(label: number, ring: number): number {
  return label === 0 ? 0 : Math.ceil((label + ring + CLEAR) / STEP) * STEP;
}
