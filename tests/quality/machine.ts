import os from 'node:os';

/**
 * The kind of machine, and how many processes wanted to run in the last minute, where the system tells that. It says
 * nothing that would tell one machine from another of its kind.
 */
export function describeMachine(): string {
  const load = os.loadavg()[0] ?? 0;
  const busy = load > 0 ? `, ${load.toFixed(1)} processes running when it began` : '';
  const node = process.versions.node.split('.')[0];
  return `${os.availableParallelism()} cores, Node ${node}, ${os.type()} ${os.arch()}${busy}`;
}

/** The day, as in 2026-11-29. */
export const today = (): string => new Date().toISOString().slice(0, 10);
