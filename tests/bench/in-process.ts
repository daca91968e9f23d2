import { createFettle } from '../../server/core/fettle.ts';
import { readMachineText } from '../../server/core/model/machine.ts';
import { resolveMachine } from '../../server/core/model/resolve.ts';
import { createTrees } from '../../server/core/model/trees.ts';
import { deriveValues } from '../../server/core/values/values.ts';
import { randomFrom } from '../support/random.ts';
import { worldOf } from '../support/world.ts';
import { placesToType, readPanelSheet } from './machines.ts';
import { type Timings, time, timeParse } from './measure.ts';

const FILE = 'bench.machine.yaml';
const WARM_UP = 5;

/** Types one figure at seeded places and takes all findings, without a protocol in between. */
export function measureInProcess(text: string, rounds: number): Timings {
  const fettle = createFettle(
    worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])),
  );
  const random = randomFrom(2);
  const places = placesToType(text);
  const timings = {
    edit: [] as number[],
    parse: [] as number[],
    hover: [] as number[],
    completion: [] as number[],
  };
  const findings = fettle.findings(fettle.analyse(FILE, text)).length;
  for (let round = -WARM_UP; round < rounds; round++) {
    const place = random.oneOf(places);
    const typed = `${text.slice(0, place)}1${text.slice(place)}`;
    const edit = time(() => fettle.findings(fettle.analyse(FILE, typed)));
    const analysis = fettle.analyse(FILE, typed);
    const hover = time(() => fettle.hover(analysis, place));
    const completion = time(() => fettle.completions(analysis, place));
    fettle.findings(fettle.analyse(FILE, text));
    const parse = timeParse(text);
    if (round < 0) continue;
    timings.edit.push(edit);
    timings.hover.push(hover);
    timings.completion.push(completion);
    timings.parse.push(parse);
  }
  return { ...timings, findings };
}

/** Values after one figure of one axis changed: all of them, over what was read before, in ms. */
export function measureValues(text: string, rounds: number): readonly number[] {
  const world = worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]]));
  const trees = createTrees();
  const read = (version: string) =>
    resolveMachine(FILE, readMachineText(trees.read(FILE, version).root), world, trees);
  const places = placesToType(text).filter((place) => place > text.indexOf('\naxes:'));
  const random = randomFrom(3);
  const times: number[] = [];
  deriveValues(read(text));
  for (let round = -WARM_UP; round < rounds; round++) {
    const place = random.oneOf(places);
    const machine = read(`${text.slice(0, place)}1${text.slice(place)}`);
    const taken = time(() => deriveValues(machine));
    deriveValues(read(text));
    if (round >= 0) times.push(taken);
  }
  return times;
}

/** Types into one axis and counts, in percent, what is computed anew of the values of the others: each round one edit. */
export function measureOtherAxes(text: string, rounds: number): readonly number[] {
  const fettle = createFettle(
    worldOf(new Map([['sheets/four-axis-bench-panel.part.yaml', readPanelSheet()]])),
  );
  const [from, to] = [text.indexOf('\naxes:'), text.indexOf('\nspindle:')];
  const places = placesToType(text).filter((place) => place > from && place < to);
  const random = randomFrom(4);
  return Array.from({ length: rounds }, () => {
    const place = random.oneOf(places);
    const before = fettle.analyse(FILE, text).values.byAddress;
    const after = fettle.analyse(FILE, `${text.slice(0, place)}1${text.slice(place)}`).values.byAddress;
    const axis = text
      .slice(from, place)
      .match(/^ {2}[A-Z](?=:)/gm)
      ?.at(-1)
      ?.trim();
    // Records are compared with what is keyed in for all axes, so their values are not those of one axis alone.
    const others = [...before.values()].filter(
      ({ address }) =>
        address.startsWith('axes.') &&
        !address.startsWith(`axes.${axis}.`) &&
        !/measured|corrected|confirmed|rounding/.test(address),
    );
    if (others.length < 20) throw new Error('the bench machine has no other axes');
    const anew = others.filter((value) => after.get(value.address) !== value);
    return (100 * anew.length) / others.length;
  });
}
