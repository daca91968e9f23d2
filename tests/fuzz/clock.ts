/** No answer to one question may take longer of a processor, whatever the text; waiting for a busy machine is not counted. */
export const MOST_CPU = 1_000_000; // us

/** What was asked, and the processor time of this thread until it was answered. */
export interface Answer {
  readonly question: string;
  readonly taken: number; // us
}

/** Times every answer of what it is put over. */
export class Clock {
  slowest: Answer = { question: 'nothing', taken: 0 };

  /** The same object, whose functions are timed. */
  over<T extends object>(asked: T): T {
    return new Proxy(asked, {
      get: (target, key) => {
        const value: unknown = Reflect.get(target, key);
        return typeof value === 'function' ? this.timed(String(key), value) : value;
      },
    });
  }

  private timed(question: string, answer: CallableFunction): CallableFunction {
    return (...args: unknown[]): unknown => {
      const started = process.threadCpuUsage();
      try {
        return answer(...args);
      } finally {
        const { user, system } = process.threadCpuUsage(started);
        if (user + system > this.slowest.taken) this.slowest = { question, taken: user + system };
      }
    };
  }
}
