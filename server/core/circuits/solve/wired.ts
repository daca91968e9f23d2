import type { Machine } from '../../model/resolve.ts';

/**
 * What circuits are solved from: parts and links by themselves. What was solved is taken over from version to version,
 * and would keep all that was worked out of an old one in memory if it held the machine.
 */
export type Wired = Pick<Machine, 'file' | 'parts' | 'links'>;
