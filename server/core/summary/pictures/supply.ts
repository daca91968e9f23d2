import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { soundValue } from '../../findings/common/held-back.ts';
import { say } from '../../language/say.ts';
import { formatNumber } from '../../units/index.ts';
import { showBriefly } from '../../values/derived.ts';
import { supplyShares } from '../../values/supply-load.ts';
import { partId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { h, type ViewElement } from '../view.ts';
import { area, canvas, hatch, INKS, line, note, SMALL, tenth, widthOf, write } from './ink.ts';

/** What is usually left unused of a supply (common practice, no source). */
const USUAL_SHARE = 0.8;

const WIDTH = 720;
const LEFT = 112;
const ROW = 54;
/** The size of the figures behind the bars. */
const SHOWN = SMALL + 0.5;
/** Bold letters are about so much wider than the estimate, in wide faces. */
const BOLD = 1.4;
const LEAST_ROOM = 154;

interface Bar {
  readonly name: string;
  readonly rated: number;
  readonly voltage: string;
  readonly share: number;
  readonly shown: string;
  readonly draws: readonly { readonly part: string; readonly amps: number }[];
}

/** Supplies as bars: what each part draws, against what the supply gives. */
export function supplyItems(analysis: MachineAnalysis): SummaryItem[] {
  const bars = circuitsOfKind(analysis.machine, 'power-out')
    .filter(({ part }) => part.sheet?.partClass === 'supply')
    .flatMap((supply) => readBar(analysis, supply) ?? []);
  if (bars.length === 0) return [];
  const says = bars.map(sayBar);
  const picture = { title: say`Supply load`, svg: drawBars(bars, says.join(' ')), says };
  return [{ id: 'supply-load', section: 'headline', kind: 'picture', picture }];
}

function readBar(analysis: MachineAnalysis, { part, circuit }: CircuitAt): Bar | undefined {
  const load = soundValue(analysis, `parts.${part.name}.load`);
  const share = soundValue(analysis, `parts.${part.name}.load-share`);
  const rated = circuit.figures.quantity('current');
  if (!load || !share || !rated) return undefined;
  const fed = analysis.feeds.filter(({ supply }) => supply.part === part);
  const voltage = soundValue(analysis, `parts.${fed[0]?.load.part.name}.supply-voltage`)?.shown ?? '';
  const shown = say`${showBriefly(load)} of ${rated.text}, ${formatNumber(share.value, 3)} %`;
  return {
    name: part.name,
    rated: rated.value.value,
    voltage,
    share: share.si,
    shown,
    draws: supplyShares(analysis.machine, { part, circuit }, fed),
  };
}

function sayBar({ name, voltage, shown, draws, share }: Bar): string {
  const parts = draws.map(({ part, amps }) => `${part} ${formatNumber(amps, 3)} A`).join(', ');
  const verdict =
    share > 1 ? say` More than it gives.` : share > USUAL_SHARE ? say` More than the usual 80 %.` : '';
  return say`${name}${voltage === '' ? '' : `, ${voltage},`} carries ${shown}: ${parts}.${verdict}`;
}

function drawBars(bars: readonly Bar[], says: string): ViewElement {
  const most = Math.max(1, ...bars.map(({ share }) => share));
  const right = WIDTH - Math.max(LEAST_ROOM, ...bars.map(({ shown }) => 12 + widthOf(shown, SHOWN) * BOLD));
  const x = (share: number) => LEFT + (share / most) * (right - LEFT);
  const height = bars.length * ROW + 26;
  return canvas(
    'supply',
    WIDTH,
    height,
    says,
    bars.map((bar, row) => drawBar(bar, x, right, 8 + row * ROW)),
    line('asked', x(USUAL_SHARE), 2, x(USUAL_SHARE), height - 20, {
      'stroke-dasharray': '6 3',
      'stroke-width': 1.4,
    }),
    note('asked', say`usual limit 80 %`, x(USUAL_SHARE), height - 6, { 'text-anchor': 'middle' }),
  );
}

function drawBar(
  { name, voltage, rated, share, shown, draws }: Bar,
  x: (share: number) => number,
  right: number,
  y: number,
): ViewElement {
  const height = 20;
  let at = 0;
  const pieces = draws.flatMap(({ part, amps }) => {
    const [from, to] = [x(at), x(at + amps / rated)];
    at += amps / rated;
    const label = part;
    return [
      area('given', from, y + 4, to - from, height, { 'fill-opacity': 0.82 }),
      line('rule', to, y + 4, to, y + 4 + height, { stroke: '#fff', class: 'cut', 'stroke-width': 1.5 }),
      widthOf(label) < to - from - 6
        ? write(label, (from + to) / 2, y + 38, {
            'text-anchor': 'middle',
            'font-size': SMALL,
            'fill-opacity': 0.85,
          })
        : undefined,
    ];
  });
  return h(
    'g',
    { 'data-id': partId(name) },
    write(name, LEFT - 12, y + 13, { 'text-anchor': 'end', 'font-weight': 600 }),
    write(voltage, LEFT - 12, y + 26, { 'text-anchor': 'end', 'font-size': SMALL, 'fill-opacity': 0.85 }),
    h('rect', {
      class: 'block',
      x: tenth(x(0)),
      y: y + 4,
      width: tenth(x(1) - x(0)),
      height,
      fill: 'none',
      stroke: INKS.rule,
    }),
    pieces,
    share > USUAL_SHARE
      ? hatch('asked', x(USUAL_SHARE), y + 4, x(Math.min(share, 9)) - x(USUAL_SHARE), height)
      : undefined,
    write(shown, right + 10, y + 18, { 'font-size': SHOWN, 'font-weight': 600 }),
  );
}
