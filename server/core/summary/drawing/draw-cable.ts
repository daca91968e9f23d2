import { h, type ViewElement } from '../view.ts';
import { SIZE } from './block.ts';
import { cableName, LABEL_SIZE, labelWidth, MORE_WIDTH } from './label.ts';
import type { Point } from './layout.ts';
import { type RoutedLink, round } from './route.ts';

/** Conductors of one cable that leave one rim of a part side by side. */
interface Bundle {
  readonly name: string;
  readonly x: number;
  readonly out: 1 | -1;
  readonly ys: readonly number[];
}

/** Rings round the conductors of each cable where they leave a part, with the name of the cable beside. */
export function drawCables(routed: readonly RoutedLink[]): ViewElement {
  const widest = Math.max(0, ...routed.map(({ link }) => labelWidth(link))) + MORE_WIDTH;
  return h(
    'g',
    { class: 'cables', 'aria-hidden': 'true' },
    shareNames(findBundles(routed)).map((bundle) => drawBundle(bundle, widest)),
  );
}

function findBundles(routed: readonly RoutedLink[]): Bundle[] {
  const rims = new Map<string, Bundle & { ys: number[] }>();
  const add = (link: RoutedLink['link'], end: Point | undefined, next: Point | undefined): void => {
    if (link.cable === undefined || !end || !next) return;
    const out = next.x >= end.x ? 1 : -1;
    const key = JSON.stringify([link.cable, round(end.x), out]);
    const there = rims.get(key);
    if (there) there.ys.push(end.y);
    else rims.set(key, { name: cableName(link), x: end.x, out, ys: [end.y] });
  };
  for (const { link, points } of routed) {
    add(link, points[0], points[1]);
    add(link, points.at(-1), points.at(-2));
  }
  return [...rims.values()].flatMap(splitRuns);
}

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

function drawBundle({ name, x, out, ys }: Bundle, widest: number): ViewElement {
  const at = round(x + out * (widest + 9));
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
