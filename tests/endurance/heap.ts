import { setTimeout as rest } from 'node:timers/promises';
import { change } from '../bench/change.ts';
import { EDITS } from '../bench/edits.ts';
import { makeMachine } from '../bench/machines.ts';
import { EXAMPLE_FOLDER } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { randomFrom } from '../support/random.ts';

const MACHINE = uriOf('examples/gantry-router/endurance.machine.yaml');
/** Findings are waited for after so many edits; those between are computed or passed over, as the server has time. */
const EDITS_A_WAIT = 5;
/** Most edits are figures; one in so many is of any kind, since each leaves something else behind. */
const EDITS_A_KIND = 10;
const PATIENCE = 60_000;
/** A file that nobody opened, to ask about. */
const UNKNOWN = uriOf('examples/gantry-router/unknown.machine.yaml');
/** A server that was just answering holds what it answers from; its heap is what is left once it is at rest for so many ms. */
const REST = 200;
/** A heap is at rest that gave up less than this share of itself since the collection before. */
const SETTLED = 0.001;
const MOST_ROUNDS = 20;

/** What the heap of the built server holds once it is at rest and garbage is collected, in bytes. */
export type Heap = () => Promise<number>;

/** Starts the built server with an inspector on this machine alone, to ask for its heap. */
export async function startMeasured(): Promise<{
  readonly client: Client;
  readonly heap: Heap;
  readonly stop: () => Promise<void>;
}> {
  const env = { ...process.env, NODE_OPTIONS: '--inspect=127.0.0.1:0' };
  const client = await startClient({ folder: EXAMPLE_FOLDER, env });
  const address = /ws:\/\/127\.0\.0\.1:\S+/.exec(client.errors())?.[0];
  if (!address) throw new Error(`no inspector: ${client.errors()}`);
  const socket = new WebSocket(address);
  await new Promise((resolve, reject) => {
    socket.onopen = resolve;
    socket.onerror = reject;
  });
  let count = 0;
  const ask = (method: string): Promise<{ usedSize?: number }> =>
    new Promise((resolve) => {
      const id = ++count;
      const hear = ({ data }: MessageEvent) => {
        const said = JSON.parse(String(data)) as { id?: number; result?: { usedSize?: number } };
        if (said.id !== id) return;
        socket.removeEventListener('message', hear);
        resolve(said.result ?? {});
      };
      socket.addEventListener('message', hear);
      socket.send(JSON.stringify({ id, method }));
    });
  const collected = async (): Promise<number> => {
    await ask('HeapProfiler.collectGarbage');
    return (await ask('Runtime.getHeapUsage')).usedSize ?? Number.NaN;
  };
  const heap = async (): Promise<number> => {
    // The inspector has its own way into the server: this answer says that what was said before, such as a close, was read.
    await client.request('textDocument/hover', {
      textDocument: { uri: UNKNOWN },
      position: { line: 0, character: 0 },
    });
    let least = await collected();
    for (let round = 0; round < MOST_ROUNDS; round++) {
      await rest(REST);
      const now = await collected();
      if (now > least * (1 - SETTLED)) return Math.min(now, least);
      least = now;
    }
    return least;
  };
  const stop = async () => {
    socket.close();
    await client.stop();
  };
  return { client, heap, stop };
}

/**
 * Types into a machine of so many lines, figures for the most part, and takes each edit back.
 * @param marks after how many edits the heap is measured, ascending
 * @returns the heap at each mark, in bytes
 */
export async function measureEdits(
  lines: number,
  marks: readonly number[],
  onMark: (edits: number) => void = () => {},
): Promise<readonly number[]> {
  const { client, heap, stop } = await startMeasured();
  try {
    const text = makeMachine(lines);
    const random = randomFrom(5);
    const kinds = Object.values(EDITS);
    client.open(MACHINE, text);
    await client.waitForDiagnostics(MACHINE, PATIENCE);
    const heaps: number[] = [];
    let takeBack: (() => void) | undefined;
    for (let edit = 1; edit <= (marks.at(-1) ?? 0); edit++) {
      const isOfAnyKind = edit % EDITS_A_KIND === 1;
      if (takeBack) takeBack();
      takeBack = takeBack
        ? undefined
        : change(client, MACHINE, text, (isOfAnyKind ? random.oneOf(kinds) : EDITS.figure)(text, random));
      if (isOfAnyKind || edit % EDITS_A_WAIT === 0 || marks.includes(edit))
        await client.waitForDiagnostics(MACHINE, PATIENCE);
      if (!marks.includes(edit)) continue;
      heaps.push(await heap());
      onMark(edit);
    }
    return heaps;
  } finally {
    await stop();
  }
}

/** Opens and closes so many files, one after the other, and measures the heap after each of the marks. */
export async function measureFiles(marks: readonly number[]): Promise<readonly number[]> {
  const { client, heap, stop } = await startMeasured();
  try {
    const text = makeMachine(300);
    const heaps: number[] = [];
    for (let file = 1; file <= (marks.at(-1) ?? 0); file++) {
      const uri = uriOf(`examples/gantry-router/endurance-${file}.machine.yaml`);
      client.open(uri, text);
      await client.waitForDiagnostics(uri, PATIENCE);
      client.close(uri);
      if (marks.includes(file)) heaps.push(await heap());
    }
    return heaps;
  } finally {
    await stop();
  }
}
