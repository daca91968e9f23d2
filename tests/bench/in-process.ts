import fs from 'node:fs';
import path from 'node:path';
import { createFettle } from '../../server/core/fettle.ts';
import type { World } from '../../server/core/world.ts';
import { ROOT } from '../support/lsp-client.ts';
import { randomFrom } from '../support/random.ts';
import { placesToType, readPanelSheet } from './machines.ts';
import { type Timings, time, timeParse } from './measure.ts';

const FILE = 'bench.machine.yaml';
const WARM_UP = 5;

/** Types one figure at seeded places and takes all findings, without a protocol in between. */
export function measureInProcess(text: string, rounds: number): Timings {
  const fettle = createFettle(worldOfSheets());
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

/** A world of the sheets that ship and the example's own. */
function worldOfSheets(): World {
  const folder = path.join(ROOT, 'server/parts');
  const names = fs.readdirSync(folder).filter((name) => name.endsWith('.part.yaml'));
  const texts = new Map(
    names.map((name) => [
      `generic/${name.replace('.part.yaml', '')}`,
      fs.readFileSync(path.join(folder, name), 'utf8'),
    ]),
  );
  const library = [...texts.keys()];
  texts.set('sheets/four-axis-bench-panel.part.yaml', readPanelSheet());
  return {
    resolve: (_, name) => name,
    file: (id) => {
      const text = texts.get(id);
      return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
    },
    library,
    sheetsNear: () => ['sheets/four-axis-bench-panel.part.yaml'],
    nameOf: (id) => id,
  };
}
