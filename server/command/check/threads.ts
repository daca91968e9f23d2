import { availableParallelism } from 'node:os';
import { parentPort, Worker, workerData } from 'node:worker_threads';
import { chooseLanguage, chosenLanguage } from '../language.ts';
import { createLoader } from '../load.ts';
import { type Checked, checkFile } from './checked.ts';
import { createScope, type ScopeData } from './scope.ts';

/** What a thread is started with, and what passes between it and the thread that started it. */
interface Job {
  readonly work: 'check';
  readonly scope: ScopeData;
  readonly language: string | undefined;
}
interface Task {
  readonly index: number;
  readonly file: string;
}
interface Answer {
  readonly index: number;
  readonly checked: Checked;
}

/** Fewer files are done before a thread has read the program. */
const FILES_A_THREAD = 40;
const MOST_THREADS = 8;

/** How many threads are worth starting; 1 means none besides this one. */
export function threadsFor(files: number): number {
  return Math.max(1, Math.min(availableParallelism(), MOST_THREADS, Math.floor(files / FILES_A_THREAD)));
}

/** The work of a thread: checks files one after the other, in a world of its own. */
export function serveChecks(): void {
  const { scope, language } = workerData as Job;
  if (language !== undefined) chooseLanguage(language);
  const load = createLoader();
  const reported = createScope(scope);
  const serve = async ({ index, file }: Task) => {
    const answer: Answer = { index, checked: await checkFile(load, file, await reported) };
    parentPort?.postMessage(answer);
  };
  parentPort?.on('message', (task: Task) => void serve(task));
}

/** Checks files on several threads; each takes the next file as soon as it is free. Rejects when a thread breaks off. */
export function checkOnThreads(
  program: string,
  threads: number,
  files: readonly string[],
  scope: ScopeData,
  take: (index: number, checked: Checked) => void,
): Promise<void> {
  const job: Job = { work: 'check', scope, language: chosenLanguage() };
  let next = 0;
  const runOne = () =>
    new Promise<void>((done, failed) => {
      const worker = new Worker(program, { workerData: job });
      const giveNext = () => {
        const index = next++;
        const file = files[index];
        if (file === undefined) void worker.terminate().then(() => done());
        else worker.postMessage({ index, file } satisfies Task);
      };
      worker.on('message', ({ index, checked }: Answer) => {
        take(index, checked);
        giveNext();
      });
      worker.on('error', failed);
      giveNext();
    });
  return Promise.all(Array.from({ length: threads }, runOne)).then(() => undefined);
}
