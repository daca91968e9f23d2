import { describe, expect, it } from 'vitest';
import type { SummaryItem } from '../../../server/core/summary/summary.ts';
import type { View, ViewElement } from '../../../server/core/summary/view.ts';
import { readExample } from '../../support/example.ts';
import { analyseExample, fettle } from '../features/example.ts';

const items = fettle.summary(analyseExample()).items;
const picture = (id: string) => {
  const item = items.find((each) => each.id === id);
  if (item?.kind !== 'picture') throw new Error(`no picture ${id}`);
  return item.picture;
};

function find(view: View, wanted: (element: ViewElement) => boolean): ViewElement[] {
  if (typeof view === 'string') return [];
  return [...(wanted(view) ? [view] : []), ...view.children.flatMap((child) => find(child, wanted))];
}
/** What a text element says. */
const wordsIn = (children: readonly View[]): string =>
  children.filter((child) => typeof child === 'string').join('');
const number = ({ attributes }: ViewElement, name: string) => Number(attributes[name]);
const isA = (tag: string, name: string) => (element: ViewElement) =>
  element.tag === tag && (element.attributes.class ?? '').split(' ').includes(name);

describe('every picture', () => {
  const pictures = items.filter(
    (item): item is Extract<SummaryItem, { kind: 'picture' }> => item.kind === 'picture',
  );

  it('exists for what the example has', () => {
    const ids = pictures.map(({ id }) => id);
    expect(ids).toEqual(
      expect.arrayContaining([
        'supply-load',
        'timing:X',
        'motion:X',
        'motion:A',
        'screw:X',
        'screw:Z',
        'spindle',
        'loop:panel.I1',
      ]),
    );
  });

  it.each(pictures.map(({ id }) => id))(
    '%s says in words what it shows, and holds no figure that is none',
    (id) => {
      const { svg, says } = picture(id);
      expect(says.length).toBeGreaterThan(0);
      expect(svg.attributes['aria-label']).toContain(says[0]);
      expect(JSON.stringify(svg)).not.toMatch(/NaN|Infinity|undefined|null/);
    },
  );
});

describe('pulse timing', () => {
  const { svg, says } = picture('timing:X');

  it('is to scale: what is asked for and what is spare are as long as their times', () => {
    // The example asks for 5 us ahead, 2.5 us on and 2.5 us off, and gets 8, 4 and 4 us.
    const asked = find(svg, isA('rect', 'fill-asked')).map((bar) => number(bar, 'width'));
    expect(asked).toHaveLength(3);
    expect((asked[0] ?? 0) / (asked[1] ?? 1)).toBeCloseTo(2, 1);
    expect(asked[1]).toBeCloseTo(asked[2] ?? 0, 1);
    const ends = find(
      svg,
      (element) => element.tag === 'line' && element.attributes['stroke-width'] === '2',
    ).map((line) => number(line, 'x1'));
    const [start = 0] = find(svg, isA('rect', 'fill-asked')).map((bar) => number(bar, 'x'));
    expect(((ends[0] ?? 0) - start) / (asked[0] ?? 1)).toBeCloseTo(8 / 5, 1);
  });

  it('says the margins', () => {
    expect(says[0]).toBe(
      'Direction stands ahead of the pulse for 8 us; the drive asks for 5 us: 3 us to spare, 60 %.',
    );
  });
});

describe('torque against feed', () => {
  const { svg, says } = picture('motion:Z');

  it('is flat up to the corner and falls as its inverse beyond', () => {
    const [curve] = find(svg, isA('polyline', 'ink-given'));
    const points = (curve?.attributes.points ?? '').split(' ').map((pair) => pair.split(',').map(Number));
    const [zero = [0, 0], corner = [0, 0]] = points;
    const last = points.at(-1) ?? [0, 0];
    expect(zero[1]).toBe(corner[1]);
    // torque × feed is constant beyond the corner; the origin of the picture is at 56, 262
    const power = ([x = 0, y = 0]: readonly number[]) => (x - 56) * (262 - y);
    expect(power(last) / power(corner)).toBeCloseTo(1, 2);
  });

  it('names what is needed once, above both lines, where they are too close for a text between them', () => {
    const little = readExample().replaceAll(/force: +\d+ N/g, 'force: 0 N');
    const { items: easy } = fettle.summary(fettle.analyse('gantry-router.machine.yaml', little));
    const motions = easy.flatMap((item) =>
      item.kind === 'picture' && item.id.startsWith('motion:') ? [item] : [],
    );
    const texts = motions.map(({ picture: { svg: drawn } }) =>
      find(drawn, (element) => element.tag === 'text').map(({ children }) => wordsIn(children)),
    );
    expect(texts.flat()).toContainEqual(
      expect.stringMatching(/^needed \S+ N\.m, and twice that: the usual reserve$/),
    );
    for (const words of texts)
      expect(words.filter((text) => /^needed|^twice/.test(text)).length).toBeLessThanOrEqual(2);
  });

  it('marks every limit and names the one that binds', () => {
    expect(says.at(-1)).toMatch(
      /^Top feed 5528 mm\/min, by motor speed; then pulse rate 6000 mm\/min, critical speed/,
    );
    expect(find(svg, (element) => element.tag === 'text').map(({ children }) => wordsIn(children))).toEqual(
      expect.arrayContaining(['motor speed 5528 mm/min = top feed', 'pulse rate 6000 mm/min']),
    );
  });
});

describe('supply load', () => {
  it('has a bar for each load, in proportion to its share', () => {
    const { svg, says } = picture('supply-load');
    const widths = find(svg, isA('rect', 'fill-given')).map((bar) => number(bar, 'width'));
    expect(widths).toHaveLength(7);
    // The panel and what hangs on its supply beside it, then five drives on theirs.
    const [panel = 0, signals = 0, ...drives] = widths;
    expect(drives.reduce((sum, width) => sum + width, 0) / panel).toBeCloseTo(64.8889 / 32, 1);
    expect(signals / panel).toBeCloseTo(0.452 / 0.8, 1);
    expect(says[1]).toContain('64.9 %');
  });
});

describe('the way of a signal', () => {
  const { svg, says, states } = picture('loop:panel.I1');

  it('has three states with what the input sees in each', () => {
    expect(states?.map(({ id }) => id)).toEqual(['rest', 'operated', 'broken']);
    expect(says).toEqual([
      'At rest: on.',
      'Operated (near-x): off, the function acts.',
      'Wire broken (W30): off; the break is seen at once.',
    ]);
  });

  it('goes terminal by terminal from rail to rail', () => {
    const texts = find(svg, (element) => element.tag === 'text').map(({ children }) => wordsIn(children));
    const stops = [
      'panel.S24',
      'sense-bar.T1',
      'sense-bar.T2',
      'near-x.C1',
      'near-x.C2',
      'panel.I1',
      'panel.S0',
    ];
    expect(texts.filter((text) => stops.includes(text))).toEqual(stops);
  });

  it('writes the solved voltage of every terminal in every state', () => {
    const volts = (state: string) =>
      find(svg, isA('g', `column-${state}`))
        .flatMap((column) =>
          find(column, (element) => element.tag === 'text').map(({ children }) => wordsIn(children)),
        )
        .filter((text) => / V$|^loose$/.test(text));
    expect(volts('rest')).toEqual(['24 V', '24 V', '24 V', '24 V', '24 V', '24 V', '0 V']);
    expect(volts('operated')).toEqual(['24 V', '24 V', '24 V', '24 V', '0 V', '0 V', '0 V']);
    expect(volts('broken')).toHaveLength(7);
    expect(volts('broken').slice(5)).toEqual(['0 V', '0 V']);
  });
});

it('an input that measures is told by its voltage, not by a level that it has not', () => {
  expect(picture('loop:converter.AI').says).toEqual([
    'At rest: 0 V.',
    expect.stringMatching(/^Operated \(panel\.\S+\): \d[\d.]* V\.$/),
  ]);
});

describe('the way of a signal that its input drives by itself', () => {
  const { svg, says } = picture('loop:panel.B1');
  const texts = (within: ViewElement) => find(within, (element) => element.tag === 'text');

  it('begins and ends at the return of the input', () => {
    const stops = ['panel.GB', 'panel.B1', 'start-button.C1', 'start-button.C2'];
    const written = texts(svg).map(({ children }) => wordsIn(children));
    expect(written.filter((text) => stops.includes(text))).toEqual([...stops, 'panel.GB']);
    expect(says[1]).toBe('Operated (start-button): on, the function acts.');
  });

  it('has the terminal that the input is called by in the boldest letters', () => {
    const bold = texts(svg).filter(({ attributes }) => attributes['font-weight'] === '700');
    expect(bold.map(({ children }) => wordsIn(children))).toEqual(['panel.B1']);
  });

  it('writes 5 V up to the button while it is open, and none of them once it is held', () => {
    const columns = (state: string) =>
      find(svg, isA('g', `column-${state}`))
        .flatMap((column) => texts(column).map(({ children }) => wordsIn(children)))
        .filter((text) => / V$/.test(text));
    expect(columns('rest')).toEqual(['0 V', '5 V', '5 V', '0 V', '0 V']);
    expect(columns('operated')).toEqual(['0 V', '0 V', '0 V', '0 V', '0 V']);
  });
});
