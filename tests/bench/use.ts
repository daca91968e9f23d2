import fs from 'node:fs';

/** What a process has used so far. */
export interface Use {
  /** Time of the processors, all threads together, in s. */
  readonly processor: number;
  /** The largest resident set, in MB. */
  readonly peak: number;
}

/** What a process has used so far, as Linux tells it (in ticks of 10 ms); undefined once it has ended, or on another system. */
export function readUse(pid: number | undefined): Use | undefined {
  try {
    const kilobytes = /VmHWM:\s*(\d+) kB/.exec(fs.readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
    const fields = fs
      .readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\) /, '')
      .split(' ');
    const ticks = Number(fields[11]) + Number(fields[12]);
    return kilobytes === undefined ? undefined : { processor: ticks / 100, peak: Number(kilobytes) / 1000 };
  } catch {
    return undefined;
  }
}
