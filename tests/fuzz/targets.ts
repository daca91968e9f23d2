import { bytesTarget } from './bytes.ts';
import { machinesTarget } from './machines.ts';
import { protocolTarget } from './protocol.ts';
import { structureTarget } from './structure.ts';
import type { Target } from './target.ts';

export const TARGETS: readonly Target[] = [bytesTarget, structureTarget, machinesTarget, protocolTarget].map(
  (target) => target as unknown as Target,
);
