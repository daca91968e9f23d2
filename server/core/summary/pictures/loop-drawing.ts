import { said, say } from '../../language/say.ts';
import { formatNumber } from '../../units/index.ts';
import { estimateWidth, fitText } from '../drawing/text-width.ts';
import { h, type ViewElement } from '../view.ts';
import { area, canvas, INKS, line, note, TEXT, tenth, write } from './ink.ts';
import type { Loop, LoopState, LoopStop } from './loop.ts';

// Narrow enough that two stand side by side on paper, with letters that are read there.
const WIDTH = 448;
const TRACK = 18;
const NAMES = TRACK + 16;
const COLUMNS = [186, 269, 352] as const;
const NAME_WIDTH = COLUMNS[0] - NAMES - 8;
/** With less room than this nothing is left of a name. */
const LEAST_NAME = 16;
const BAR = 60;
const [STOP, PASSAGE, HEAD] = [17, 19, 42];
/** All letters but the titles of the states. */
const LETTERS = 11;

/**
 * Draws a loop from top to bottom, as the current flows: terminals as points on a track, between them the wires and
 * contacts, their names beside it, and for each terminal its voltage in every state, as a number with a bar.
 */
export function drawLoop({ stops, states }: Loop, says: string): ViewElement {
  const most = Math.max(1, ...states.flatMap(({ volts }) => volts.map((value) => Math.abs(value ?? 0))));
  const places = stops.map((_, index) => HEAD + index * (STOP + PASSAGE));
  const height = (places.at(-1) ?? HEAD) + STOP + 8;
  return canvas(
    'loop',
    WIDTH,
    height,
    says,
    states.map((state, column) => drawHead(state, COLUMNS[column] ?? WIDTH)),
    states.map((state) =>
      h(
        'g',
        { class: `state state-${state.id}`, opacity: state.id === 'rest' ? 1 : 0 },
        stops.map((stop, index) =>
          index === 0 ? undefined : drawPassage(stop, state, index, (places[index] ?? 0) - PASSAGE),
        ),
      ),
    ),
    stops.map((stop, index) =>
      h(
        'g',
        {},
        index === 0
          ? undefined
          : write(fitName(stop.name), NAMES, (places[index] ?? 0) - PASSAGE / 2 + 3.5, {
              'font-size': LETTERS,
              'fill-opacity': 0.75,
            }),
        write(fitText(stop.terminal, LETTERS, NAME_WIDTH), NAMES, (places[index] ?? 0) + STOP / 2 + 4, {
          'font-size': LETTERS,
          'font-weight': stop.isOwn ? 700 : 500,
        }),
        h('circle', { cx: TRACK, cy: (places[index] ?? 0) + STOP / 2, r: 3.4, fill: 'currentColor' }),
      ),
    ),
    states.map((state, column) => drawColumn(state, COLUMNS[column] ?? WIDTH, places, most)),
  );
}

/** Cuts the name of a circuit and not the figures behind it, since `330…` could be any resistance. */
function fitName(name: string): string {
  const at = name.indexOf(', ');
  const figures = at < 0 ? '' : name.slice(at);
  const left = NAME_WIDTH - estimateWidth(figures, LETTERS);
  return figures === '' || left < LEAST_NAME
    ? fitText(name, LETTERS, NAME_WIDTH)
    : fitText(name.slice(0, at), LETTERS, left) + figures;
}

function drawHead({ id, title, who }: LoopState, x: number): ViewElement {
  return h(
    'g',
    { class: `column column-${id}` },
    write(title, x, 13, { 'font-size': TEXT, 'font-weight': 650 }),
    write(fitText(who, LETTERS, 76), x, 26, { 'font-size': LETTERS, 'fill-opacity': 0.85 }),
    line('rule', x, 32, x + 76, 32),
  );
}

function drawColumn(
  { id, volts, does }: LoopState,
  x: number,
  places: readonly number[],
  most: number,
): ViewElement {
  return h(
    'g',
    { class: `column column-${id}` },
    volts.map((value, index) => {
      const y = (places[index] ?? 0) + STOP / 2;
      const doing = does[index] ?? '';
      return h(
        'g',
        {},
        doing === ''
          ? undefined
          : note(
              doing === 'broken' || doing === 'open' || doing === 'off' ? 'asked' : 'given',
              said(doing),
              x,
              y - STOP / 2 - PASSAGE / 2 + 3.5,
              { 'font-size': LETTERS, 'font-weight': 600 },
            ),
        value === undefined
          ? note('asked', say`loose`, x, y + 4, { 'font-size': LETTERS })
          : [
              write(sayVolts(value), x, y + 1, { 'font-size': LETTERS }),
              line('rule', x, y + 6.5, x + BAR, y + 6.5, { 'stroke-opacity': 0.5 }),
              area('given', x, y + 5, (Math.abs(value) / most) * BAR, 3),
            ],
      );
    }),
  );
}

function sayVolts(value: number): string {
  const rounded = Math.abs(value) < 0.05 ? 0 : Number(value.toFixed(value < 10 ? 2 : 1));
  return `${formatNumber(rounded)} V`;
}

/** What lies between two terminals: a wire in its own colours, a contact that is open or closed, a resistance. */
function drawPassage(stop: LoopStop, state: LoopState, index: number, top: number): ViewElement {
  const bottom = top + PASSAGE;
  const [from, to] = [top - STOP / 2, bottom + STOP / 2];
  const middle = (from + to) / 2;
  if (stop.by === 'wire') {
    const isBroken = state.passes[index] === false;
    const piece = (a: number, b: number) => [
      line('text', TRACK, a, TRACK, b, { 'stroke-width': 4.4, class: 'ink-text casing' }),
      stop.shades.map((shade, layer) =>
        line('text', TRACK, a, TRACK, b, {
          class: 'wire',
          stroke: shade,
          'stroke-width': 3,
          ...(layer > 0 && { 'stroke-dasharray': '5 5' }),
        }),
      ),
    ];
    if (!isBroken) return h('g', {}, ...piece(from, to));
    return h('g', {}, ...piece(from, middle - 6), ...piece(middle + 6, to), cross(TRACK, middle));
  }
  if (stop.isContact)
    return drawContact(from, to, /^(open|off|without supply)$/.test(state.does[index] ?? ''));
  if (stop.by === 'inside')
    return line('text', TRACK, from, TRACK, to, { 'stroke-width': 1.4, 'stroke-dasharray': '2 3' });
  return h(
    'g',
    {},
    line('text', TRACK, from, TRACK, to, { 'stroke-width': 1.4 }),
    h('rect', {
      class: stop.isInput ? 'block ink-given' : 'block',
      x: TRACK - 6,
      y: tenth(middle - 12),
      width: 12,
      height: 24,
      fill: '#fff',
      stroke: stop.isInput ? INKS.given : 'currentColor',
      'stroke-width': stop.isInput ? 2.4 : 1.4,
    }),
  );
}

/** A make or break contact, as IEC 60617 draws them in general terms: a lever that meets the line or stands off it. */
function drawContact(from: number, to: number, isOpen: boolean): ViewElement {
  const [upper, lower] = [(from + to) / 2 - 9, (from + to) / 2 + 9];
  return h(
    'g',
    {},
    line('text', TRACK, from, TRACK, upper, { 'stroke-width': 1.6 }),
    line('text', TRACK, lower, TRACK, to, { 'stroke-width': 1.6 }),
    line(isOpen ? 'asked' : 'given', isOpen ? TRACK - 11 : TRACK, upper, TRACK, lower, {
      'stroke-width': 2.4,
      'stroke-linecap': 'round',
    }),
  );
}

function cross(x: number, y: number): ViewElement {
  return h('path', {
    class: 'ink-asked',
    d: `M${x - 5} ${tenth(y - 5)}l10 10m0 -10l-10 10`,
    stroke: INKS.asked,
    'stroke-width': 2.4,
    fill: 'none',
  });
}
