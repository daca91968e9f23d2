import { h, type ViewElement } from '../view.ts';
import { SIZE } from './block.ts';
import type { Joint } from './courses.ts';
import { cableName, LABEL_SIZE, labelWidth, MORE_WIDTH } from './label.ts';
import { type RoutedLink, round } from './route.ts';

/** Conductors of one cable that leave one rim of a part side by side. */
interface Bundle {
  readonly name: string;
  /** How far from the rim the rings stand: behind the widest label there, so that all of a rim are in line. */
  readonly away: number;
  readonly x: number;
  readonly out: 1 | -1;
  readonly ys: readonly number[];
}

/** Rings round the conductors of each cable where they leave a part, with the name of the cable beside. */
export function drawCables(routed: readonly RoutedLink[]): ViewElement {
  return h('g', { class: 'cables', 'aria-hidden': 'true' }, shareNames(findBundles(routed)).map(drawBundle));
}

function findBundles(routed: readonly RoutedLink[]): Bundle[] {
  const endings = routed.flatMap(({ link, start, end, points }) => [
    { link, joint: start, at: points[0] },
    { link, joint: end, at: points.at(-1) },
  ]);
  const widest = new Map<string, number>();
  for (const { link, joint } of endings)
    widest.set(rimKey(joint), Math.max(widest.get(rimKey(joint)) ?? 0, labelWidth(link)));
  const bundles = new Map<string, Bundle & { ys: number[] }>();
  for (const { link, joint, at } of endings) {
    if (link.cable === undefined || at === undefined) continue;
    const key = JSON.stringify([link.cable, rimKey(joint)]);
    const there = bundles.get(key);
    if (there) there.ys.push(at.y);
    else {
      const away = (widest.get(rimKey(joint)) ?? 0) + MORE_WIDTH + 9;
      bundles.set(key, {
        name: cableName(link),
        away,
        x: at.x,
        out: joint.rim === 'right' ? 1 : -1,
        ys: [at.y],
      });
    }
  }
  return [...bundles.values()].flatMap(splitRuns);
}

const rimKey = ({ part, rim }: Joint): string => `${part} ${rim}`;

/** A ring may not go round wires of others: conductors that stand apart get one each. */
function splitRuns(bundle: Bundle): Bundle[] {
  const runs: number[][] = [];
  for (const y of [...new Set(bundle.ys)].sort((a, b) => a - b)) {
    const run = runs.at(-1);
    if (run && y - (run.at(-1) ?? y) <= SIZE.row * 1.01) run.push(y);
    else runs.push([y]);
  }
  return runs.map((ys) => ({ ...bundle, ys }));
}

/** Where several cables come together at one terminal, one name stands for all, with the count of the others. */
function shareNames(bundles: readonly Bundle[]): Bundle[] {
  const byPlace = new Map<string, Bundle[]>();
  for (const bundle of bundles) {
    const key = `${round(bundle.x)} ${bundle.out} ${round(Math.min(...bundle.ys))}`;
    byPlace.set(key, [...(byPlace.get(key) ?? []), bundle]);
  }
  return [...byPlace.values()].flatMap((shared) =>
    shared.map((bundle, index) => ({
      ...bundle,
      name: index > 0 ? '' : shared.length > 1 ? `${bundle.name} +${shared.length - 1}` : bundle.name,
    })),
  );
}

function drawBundle({ name, away, x, out, ys }: Bundle): ViewElement {
  const at = round(x + out * away);
  const [top, bottom] = [Math.min(...ys) - 4.5, Math.max(...ys) + 4.5];
  return h(
    'g',
    {},
    h('rect', {
      class: 'cable-ring',
      x: round(at - 2.2),
      y: round(top),
      width: 4.4,
      height: round(bottom - top),
      rx: 2.2,
      fill: 'none',
      stroke: 'currentColor',
      'stroke-width': 0.9,
    }),
    name === ''
      ? undefined
      : h(
          'text',
          {
            class: 'wire-label cable-name',
            x: round(at + out * 5),
            y: round(Math.min(...ys) - 3.5),
            'font-size': LABEL_SIZE,
            'font-weight': 600,
            'text-anchor': out > 0 ? undefined : 'end',
            fill: 'currentColor',
          },
          name,
        ),
  );
}
