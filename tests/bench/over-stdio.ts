import { EXAMPLE_FOLDER } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { randomFrom } from '../support/random.ts';
import { placesToType } from './machines.ts';
import { type Timings, timeParse } from './measure.ts';

const MACHINE = uriOf('examples/gantry-router/bench.machine.yaml');
const WARM_UP = 5;

/** Types one figure at seeded places through the built server, and takes it out again, waiting for the findings each time. */
export async function measureServer(text: string, rounds: number): Promise<Timings> {
  const client = await startClient({ folder: EXAMPLE_FOLDER });
  client.open(MACHINE, text);
  const findings = (await client.waitForDiagnostics(MACHINE)).length;
  const random = randomFrom(2);
  const places = placesToType(text);
  const timings = {
    edit: [] as number[],
    parse: [] as number[],
    hover: [] as number[],
    completion: [] as number[],
  };
  for (let round = -WARM_UP; round < rounds; round++) {
    const position = positionOf(text, random.oneOf(places));
    const edit = await timeUntil(client, () =>
      client.replace(MACHINE, { start: position, end: position }, '1'),
    );
    const hover = await timeAnswer(client.hover(MACHINE, position));
    const completion = await timeAnswer(client.complete(MACHINE, position));
    const after = { line: position.line, character: position.character + 1 };
    await timeUntil(client, () => client.replace(MACHINE, { start: position, end: after }, ''));
    const parse = timeParse(text);
    if (round < 0) continue;
    timings.edit.push(edit);
    timings.hover.push(hover);
    timings.completion.push(completion);
    timings.parse.push(parse);
  }
  await client.stop();
  return { ...timings, findings };
}

async function timeUntil(client: Client, change: () => void): Promise<number> {
  const from = performance.now();
  change();
  await client.waitForDiagnostics(MACHINE);
  return performance.now() - from;
}

async function timeAnswer(answer: Promise<unknown>): Promise<number> {
  const from = performance.now();
  await answer;
  return performance.now() - from;
}

function positionOf(text: string, offset: number): { line: number; character: number } {
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}
