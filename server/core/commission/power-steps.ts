import type { MachineAnalysis } from '../analysis.ts';
import type { CircuitAt } from '../circuits/signals.ts';
import { circuitsOfKind } from '../circuits/supply.ts';
import { say } from '../language/say.ts';
import { MAINS, mainsTerminals } from '../model/resolve.ts';
import { settingsMeaning } from '../model/settings.ts';
import { terminalId } from '../model/terminal-id.ts';
import { partId } from '../summary/place-ids.ts';
import { supplyVoltage } from '../values/supply.ts';
import { idsOf, makeStep } from './make-step.ts';
import type { Step } from './step.ts';

const ISOLATE = 'isolate';

/** With the power off: nothing live, nothing loose, no supply shorted, everything that must be earthed is. */
export function isolatedSteps(analysis: MachineAnalysis): Step[] {
  const mains = mainsTerminals(analysis.machine).map((name) => terminalId(MAINS, name));
  const live = mains.filter((terminal) => !terminal.endsWith('.PE') && analysis.nets.isWired(terminal));
  const isolate = makeStep({
    id: ISOLATE,
    stage: 'isolated',
    title: say`Everything is dead`,
    act: say`Isolate the machine, wait five minutes, and measure between each pair of these terminals and from each to earth.`,
    terminals: live,
    expected: live.length > 0 ? [{ when: '', shown: '0 V' }] : [],
    remedy: say`Find what still feeds it before anything else is done.`,
    place: '',
  });
  const pull = makeStep({
    id: 'wires',
    stage: 'isolated',
    title: say`Every wire is where it is written and holds`,
    act: say`Go through the terminal charts part by part: right terminal, right colour, and no wire comes out at a light pull.`,
    remedy: say`Correct the wire or the definition, whichever is wrong.`,
    place: '',
    after: [ISOLATE],
  });
  return [isolate, pull, ...suppliesOf(analysis).map((supply) => shortStep(supply))];
}

function shortStep({ part, circuit }: CircuitAt): Step {
  return makeStep({
    id: `short:${part.name}`,
    stage: 'isolated',
    title: say`${part.name}: plus and minus are not joined`,
    act: say`Measure the resistance between the outputs, with everything wired. Capacitors charge through the meter: wait until it stands still.`,
    terminals: endsOf({ part, circuit }),
    expected: [
      {
        when: '',
        shown: say`more than 100 ohm`,
        tolerance: say`common practice, no source; a short reads below 1 ohm`,
      },
    ],
    remedy: say`Take the loads off one by one until it rises; the last one is the short.`,
    place: partId(part.name),
    after: [ISOLATE],
  });
}

/** Continuity from each earth terminal that is wired to the protective earth of the mains. */
export function earthSteps(analysis: MachineAnalysis): Step[] {
  const earth = terminalId(MAINS, 'PE');
  return circuitsOfKind(analysis.machine, 'earth').flatMap(({ part, circuit }) => {
    const terminal = terminalId(part.name, circuit.ends[0]?.text ?? '');
    if (!analysis.nets.isWired(terminal)) return [];
    return makeStep({
      id: `earth:${terminal}`,
      stage: 'earth',
      title: say`${part.name} is earthed`,
      act: say`Measure the resistance to the earth pin, and subtract what the probes read when they touch.`,
      terminals: [earth, terminal],
      expected: [
        {
          when: '',
          shown: say`less than 0.5 ohm`,
          tolerance: say`common practice with a hand meter, no source`,
        },
      ],
      remedy: say`Tighten the screws and take paint off where the lug sits; every earth wire goes to the bar by itself.`,
      cautions: [say`A hand meter is no proof: the test with a high current is for a licensed person.`],
      place: partId(part.name),
      after: [ISOLATE],
    });
  });
}

/** Each supply by itself, and then what reaches each load. */
export function supplySteps(analysis: MachineAnalysis, before: readonly Step[]): Step[] {
  const first = idsOf(before, 'isolated', 'earth');
  const unloaded = suppliesOf(analysis).map((supply) => unloadedStep(analysis, supply, first));
  const seen = new Set<string>();
  // What a supply feeds comes before what is fed by one of its loads, such as a handwheel by its controller.
  const feeds = analysis.feeds.toSorted((a, b) => Number(!isSupply(a.supply)) - Number(!isSupply(b.supply)));
  const loads = feeds.flatMap(({ supply, load }) => {
    if (seen.has(load.part.name)) return [];
    seen.add(load.part.name);
    return loadStep(analysis, supply, load);
  });
  return [...unloaded, ...loads];
}

function unloadedStep(analysis: MachineAnalysis, supply: CircuitAt, after: readonly string[]): Step {
  const { part, circuit } = supply;
  const trim = settingsMeaning(part, 'output-voltage').map(({ name }) => `${part.name}.${name}`);
  const volts = supplyVoltage(analysis.machine, { supply });
  return makeStep({
    id: `supply:${part.name}`,
    stage: 'supplies',
    title: say`${part.name} by itself`,
    act: say`Take its loads off (fuses out or plus wires off), switch it on and measure. The sign counts.`,
    terminals: endsOf({ part, circuit }),
    expected: [
      {
        when: '',
        shown: volts?.shown ?? say`its rated voltage`,
        tolerance: say`within 5 %: common practice, no source`,
      },
    ],
    remedy:
      trim.length > 0
        ? say`Turn its trimmer until it fits, then switch off and wait.`
        : say`Switch off: the supply is not the one of the sheet, or it is at fault.`,
    settings: trim,
    place: partId(part.name),
    after,
  });
}

function loadStep(analysis: MachineAnalysis, supply: CircuitAt, load: CircuitAt): Step {
  const reached = analysis.values.byAddress.get(`parts.${load.part.name}.supply-voltage`);
  const span = load.circuit.figures.text('voltage')?.value;
  return makeStep({
    id: `load:${load.part.name}`,
    stage: 'supplies',
    title: say`${load.part.name} gets its supply`,
    act: say`Switch off, put the fuse or wire of ${load.part.name} back, switch on and measure at its terminals. The sign counts.`,
    terminals: endsOf(load),
    expected: [
      {
        when: '',
        shown:
          reached?.shown ?? supplyVoltage(analysis.machine, { supply })?.shown ?? say`the supply’s voltage`,
        ...(span !== undefined && { tolerance: say`within ${span}, by its sheet` }),
      },
    ],
    remedy: say`Switch off at once. A minus sign: plus and minus are exchanged. Nothing: a fuse, a contact or a wire on the way.`,
    place: partId(load.part.name),
    after: [isSupply(supply) ? `supply:${supply.part.name}` : `load:${supply.part.name}`],
  });
}

/** Supplies proper: controllers give voltages too, but nobody brings those up. */
function suppliesOf({ machine }: MachineAnalysis): CircuitAt[] {
  return circuitsOfKind(machine, 'power-out').filter(isSupply);
}

function isSupply({ part }: CircuitAt): boolean {
  return part.sheet?.partClass === 'supply';
}

function endsOf({ part, circuit }: CircuitAt): string[] {
  return circuit.ends.map((end) => terminalId(part.name, end.text));
}
