import type { Nets } from '../circuits/nets.ts';
import { circuitsDoing } from '../circuits/signals.ts';
import { say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import type { Setting } from '../model/sheet.ts';
import { terminalId } from '../model/terminal-id.ts';
import type { Input } from './derived.ts';
import { wheelSignal } from './handwheel-input.ts';
import { outputSpan, readSpindle, readVolts } from './spindle-parts.ts';
import type { WantedWord } from './wanted.ts';

/** What the definition wants of a setting that takes words; undefined where nothing follows from it. */
export function wordWanted(
  machine: Machine,
  nets: Nets,
  part: Part,
  setting: Setting,
): WantedWord | undefined {
  switch (setting.is) {
    case 'speed-reference':
      return referenceWanted(machine, part, setting);
    case 'run-source':
      return sourceWanted(machine, nets, part, 'spindle run');
    case 'speed-source':
      return sourceWanted(machine, nets, part, 'spindle speed');
    case 'spindle-use':
      return useWanted(machine, nets, part);
    case 'handwheel-kind':
      return wheelWanted(machine, nets, part, setting);
    default:
      return undefined;
  }
}

/** The choice that ends where the controller's output ends; failing that the next wider one, which can only run slower. */
function referenceWanted(machine: Machine, part: Part, setting: Setting): WantedWord | undefined {
  const spindle = readSpindle(machine);
  const span = spindle?.converter === part ? outputSpan(spindle) : undefined;
  if (!span) return undefined;
  const tops = setting.choices.map((word) => ({ word, top: readVolts(word)?.most.value ?? Number.NaN }));
  const [best] = tops.filter(({ top }) => top >= span.top.value * (1 - 1e-9)).sort((a, b) => a.top - b.top);
  return (
    best && { word: best.word, inputs: [span.top], source: say`the span of the controller’s speed output` }
  );
}

/** A converter that is wired for a command must listen to its terminals. */
function sourceWanted(machine: Machine, nets: Nets, part: Part, word: string): WantedWord | undefined {
  if (readSpindle(machine)?.converter !== part) return undefined;
  const live = circuitsDoing(part, word)[0]?.ends[0];
  const wire = live && wireOn(machine, nets, part, live.text);
  return wire && { word: 'terminals', inputs: [wire], source: say`the command comes over a wire` };
}

/** A controller whose spindle outputs are wired must use them. */
function useWanted(machine: Machine, nets: Nets, part: Part): WantedWord | undefined {
  if (readSpindle(machine)?.controller !== part) return undefined;
  for (const word of ['spindle run', 'spindle speed']) {
    const live = circuitsDoing(part, word)[0]?.ends[0];
    const wire = live && wireOn(machine, nets, part, live.text);
    if (wire) return { word: 'on', inputs: [wire], source: say`the command goes out over a wire` };
  }
  return undefined;
}

/** A wire as the input of what follows from it; undefined where there is none. */
function wireOn(machine: Machine, nets: Nets, part: Part, terminal: string): Input | undefined {
  const link = nets.linksAt(terminalId(part.name, terminal))[0];
  return (
    link && { name: say`wire on ${terminal}`, value: 1, shown: 'wired', file: machine.file, at: link.at }
  );
}

/** The choice of the part that names the signal of the wheel that is wired to it: a pair, or single-ended. */
function wheelWanted(machine: Machine, _nets: Nets, part: Part, setting: Setting): WantedWord | undefined {
  const met = wheelSignal(machine);
  if (met?.part !== part) return undefined;
  const { wheel, signal } = met;
  const isPair = signal.kind === 'line-out';
  const word = setting.choices.find((choice) => (isPair ? /pair|line/i : /single/i).test(choice));
  const input: Input = {
    name: say`signal of ${wheel.name}`,
    value: isPair ? 1 : 0,
    shown: isPair ? 'a pair' : 'single-ended',
    ...(wheel.sheet && { file: wheel.sheet.file }),
    at: signal.key,
  };
  return word === undefined ? undefined : { word, inputs: [input], source: say`datasheet of the handwheel` };
}
