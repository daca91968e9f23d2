import type { Joint } from './courses.ts';
import type { JoinedLink } from './ends.ts';
import { HOP, type Hops } from './hops.ts';
import type { LaidOutEdge, Point } from './layout.ts';

/** A link with the way that the layout found for it, from start to end. */
export interface RoutedLink extends JoinedLink {
  readonly start: Joint;
  readonly end: Joint;
  readonly points: readonly Point[];
  readonly junctions: readonly Point[];
  readonly hops: Hops;
}

const RADIUS = 5;

/** The points of a routed edge, from end to end; none when the layout could not route it. */
export function pointsOf({ sections }: LaidOutEdge): readonly Point[] {
  return (sections ?? []).flatMap(({ startPoint, bendPoints, endPoint }) => [
    startPoint,
    ...(bendPoints ?? []),
    endPoint,
  ]);
}

/** The same line without the points at which it goes straight on. */
export function straighten(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const [before, last] = kept.slice(-2);
    if (before && last && isBetween(before, last, point)) kept.pop();
    const end = kept.at(-1);
    if (end?.x !== point.x || end.y !== point.y) kept.push(point);
  }
  return kept;
}

function isBetween(a: Point, middle: Point, b: Point): boolean {
  return (a.x === middle.x && middle.x === b.x) || (a.y === middle.y && middle.y === b.y);
}

const NO_HOPS: Hops = new Map();

/** The path data of a line through these points, with its corners rounded where there is room, hopping over others. */
export function drawPath(points: readonly Point[], hops: Hops = NO_HOPS): string {
  const [first, ...rest] = points;
  if (first === undefined) return '';
  const parts = [`M${at(first)}`];
  rest.forEach((point, index) => {
    const before = points[index];
    const after = rest[index + 1];
    for (const x of hops.get(index) ?? []) {
      const step = (before?.x ?? x) < point.x ? HOP : -HOP;
      parts.push(
        `L${at({ x: x - step, y: point.y })}A${HOP} ${HOP} 0 0 ${step > 0 ? 1 : 0} ${at({ x: x + step, y: point.y })}`,
      );
    }
    if (before === undefined || after === undefined) {
      parts.push(`L${at(point)}`);
      return;
    }
    const radius = Math.min(RADIUS, distance(before, point) / 2, distance(point, after) / 2);
    parts.push(`L${at(towards(point, before, radius))}Q${at(point)} ${at(towards(point, after, radius))}`);
  });
  return parts.join('');
}

/** Coordinates are written to a tenth of a unit, which is finer than any screen and keeps the text short. */
export function round(value: number): number {
  return Math.round(value * 10) / 10;
}

function at({ x, y }: Point): string {
  return `${round(x)} ${round(y)}`;
}

function distance(a: Point, b: Point): number {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

/** The point that lies `length` away from `from` on the way to `to`. */
function towards(from: Point, to: Point, length: number): Point {
  const whole = distance(from, to);
  if (whole === 0) return from;
  const part = length / whole;
  return { x: from.x + (to.x - from.x) * part, y: from.y + (to.y - from.y) * part };
}
