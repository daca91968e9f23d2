import type { MachineAnalysis } from './analysis.ts';
import type { Nets } from './circuits/nets.ts';
import type { Feed } from './circuits/supply.ts';
import type { Machine } from './model/resolve.ts';
import type { Problem } from './problem.ts';
import type { Project } from './project/project.ts';
import { noteFleeting, noteRead, unrecorded } from './reuse/recording.ts';
import { TrackedMap } from './reuse/tracked-map.ts';
import { type Source, type Version, WHOLE } from './reuse/version.ts';
import { isSameList } from './same-list.ts';
import type { Tree } from './syntax/tree.ts';
import type { Derived, Missing, Values } from './values/derived.ts';
import { MISSING, VALUES } from './values/piece.ts';
import type { FileId, World } from './world.ts';

const TREE: Source = { name: 'tree' };
const PROBLEMS: Source = { name: 'problems' };

type Content = Omit<MachineAnalysis, 'version' | 'kind' | 'feeds' | 'nets' | 'values'> & {
  readonly nets: Nets;
  readonly feedsOf: (machine: Machine) => readonly Feed[];
  readonly valuesOf: (machine: Machine) => Values;
};

/**
 * The analysis of a machine that notes what is read of it; machine, nets and feeds note that themselves. The values are
 * worked out when they are first asked for, since a completion, an outline or a colour waits for none.
 */
class TrackedAnalysis implements MachineAnalysis {
  readonly kind = 'machine';
  readonly version: Version;
  readonly file: FileId;
  readonly machine: Machine;
  readonly nets: Nets;
  readonly wants: readonly FileId[];
  private readonly content: Content;
  private readonly heldProblems: readonly Problem[];
  private heldValues: Values | undefined;

  constructor(content: Content) {
    const { machine } = content;
    const { version } = machine;
    this.version = version;
    this.file = content.file;
    this.machine = machine;
    this.nets = content.nets;
    this.wants = content.wants;
    this.content = content;
    this.heldProblems = version.put(PROBLEMS, content.problems, isSameList);
    version.put(TREE, content.tree, Object.is);
    version.promise([VALUES, MISSING], () => this.values);
  }

  get values(): Values {
    const { machine, valuesOf } = this.content;
    this.heldValues ??= trackValues(
      this.version,
      unrecorded(() => valuesOf(machine)),
    );
    return this.heldValues;
  }

  get tree(): Tree {
    noteRead(this.version, TREE, WHOLE, this.content.tree);
    return this.content.tree;
  }

  get problems(): readonly Problem[] {
    noteRead(this.version, PROBLEMS, WHOLE, this.heldProblems);
    return this.heldProblems;
  }

  get feeds(): readonly Feed[] {
    return this.content.feedsOf(this.machine);
  }

  get project(): Project {
    return this.machine.project;
  }

  /** What is known of other files changes without a new version. */
  get world(): World {
    noteFleeting();
    return this.content.world;
  }
}

function trackValues(version: Version, { byAddress, missing }: Values): Values {
  return {
    byAddress: new TrackedMap<Derived>(version, VALUES, byAddress),
    missing: new TrackedMap<Missing>(version, MISSING, missing),
  };
}

/** Puts the analysis of a machine under the version of its file. */
export function trackAnalysis(content: Content): MachineAnalysis {
  const analysis = new TrackedAnalysis(content);
  analysis.version.hosts.set('analysis', analysis);
  return analysis;
}
