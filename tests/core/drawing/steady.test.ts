import { afterAll, describe, expect, it } from 'vitest';
import type { DrawnLink } from '../../../server/core/summary/drawing/drawing.ts';
import { placeParts } from '../../../server/core/summary/drawing/lines.ts';
import type { Standing } from '../../../server/core/summary/drawing/standing.ts';
import { randomFrom } from '../../support/random.ts';
import { arrange, exampleDrawings } from './arranged.ts';
import { editedOnce, withoutLink, withoutPart } from './edits.ts';

const drawings = exampleDrawings();
const EACH = 6;

/**
 * How far each part has moved, in units of the drawing (a terminal's row is 18), beside the way that most of them went,
 * since the page's view goes along with that. What was not wired to anything before has no place to keep.
 */
function movesBetween(before: Standing, after: Standing): number[] {
  const was = placeParts(before.plan, before.laidOut);
  const wired = new Set(before.plan.links.flatMap(({ from, to }) => [from.part, to.part]));
  const known = new Set(before.plan.drawing.parts.filter((_, part) => wired.has(part)).map(({ id }) => id));
  const moves = [...placeParts(after.plan, after.laidOut)].flatMap(([id, { x, y }]) => {
    const old = known.has(id) ? was.get(id) : undefined;
    return old ? [{ x: x - old.x, y: y - old.y }] : [];
  });
  const [x, y] = [
    quantile(
      moves.map((move) => move.x),
      0.5,
    ),
    quantile(
      moves.map((move) => move.y),
      0.5,
    ),
  ];
  return moves.map((move) => Math.hypot(move.x - x, move.y - y));
}

function quantile(numbers: readonly number[], share: number): number {
  return (
    numbers.toSorted((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(numbers.length * share))] ?? 0
  );
}

const moved = { steady: [] as number[], worst: [] as number[], anew: [] as number[] };
afterAll(() => {
  const say = (name: keyof typeof moved) =>
    `${name}: half within ${Math.round(quantile(moved[name], 0.5))}, nine of ten within ${Math.round(quantile(moved[name], 0.9))}, all within ${Math.round(quantile(moved[name], 1))}`;
  process.stdout.write(
    `moves of parts by single edits, in units\n  ${say('steady')}\n  ${say('worst')}\n  ${say('anew')}\n`,
  );
});

describe.each(drawings)('while %s is edited', (_, drawing) => {
  it('nothing moves when nothing is added or taken away', async () => {
    const before = await arrange(drawing);
    const again = movesBetween(before, await arrange(structuredClone(drawing), before));
    expect(quantile(again, 0.5)).toBe(0);
    expect(Math.max(...again)).toBeLessThanOrEqual(24); // a column may need its slack
    const relabel = (link: DrawnLink): DrawnLink => ({
      ...link,
      label: `${link.label ?? ''}7`,
      colour: 'RD',
    });
    const relabelled = await arrange(
      { ...drawing, links: drawing.links.map((link, n) => (n === 7 ? relabel(link) : link)) },
      before,
    );
    expect(quantile(movesBetween(before, relabelled), 0.9)).toBeLessThanOrEqual(24);
  });

  it('the others stay where they are when a part or a link goes, and when it comes', async () => {
    const whole = await arrange(drawing);
    const all: number[] = [];
    const links: number[] = [];
    const anew: number[] = [];
    for (let turn = 0; turn < EACH; turn++) {
      const random = randomFrom(turn + 1);
      const less =
        turn % 2 === 0
          ? withoutLink(drawing, random.below(drawing.links.length))
          : withoutPart(drawing, random.below(drawing.parts.length));
      const gone = movesBetween(whole, await arrange(less, whole));
      const fresh = await arrange(less);
      const come = movesBetween(fresh, await arrange(drawing, fresh));
      all.push(...gone, ...come);
      if (turn % 2 === 0) links.push(...gone, ...come);
      anew.push(...movesBetween(whole, fresh));
      moved.worst.push(Math.max(...gone), Math.max(...come));
    }
    moved.steady.push(...all);
    moved.anew.push(...anew);
    expect(quantile(links, 0.5)).toBe(0);
    expect(quantile(all, 0.5)).toBeLessThanOrEqual(18); // a row of terminals
    // It is what stands that keeps them: laid out anew, most of them would go.
    expect(quantile(all, 0.9)).toBeLessThan(quantile(anew, 0.9) / 4);
  });

  it('a dozen edits one after the other keep it in one piece', async () => {
    const random = randomFrom(drawing.links.length);
    let standing = await arrange(drawing);
    let now = drawing;
    const moves: number[] = [];
    for (let edit = 0; edit < 12; edit++) {
      now = editedOnce(now, random);
      const next = await arrange(now, standing);
      moves.push(...movesBetween(standing, next));
      expect(next.plan.drawing.parts).toHaveLength(now.parts.length);
      standing = next;
    }
    expect(quantile(moves, 0.5)).toBeLessThanOrEqual(18);
    const [width, height] = [standing.laidOut.width ?? 0, standing.laidOut.height ?? 0];
    const fresh = await arrange(now);
    expect(width * height).toBeLessThan(2 * (fresh.laidOut.width ?? 0) * (fresh.laidOut.height ?? 0));
  });
});
