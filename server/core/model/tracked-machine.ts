import type { Project } from '../project/project.ts';
import { changedKeys } from '../reuse/changed-keys.ts';
import { noteRead } from '../reuse/recording.ts';
import { isSameMap } from '../reuse/same.ts';
import { TrackedMap } from '../reuse/tracked-map.ts';
import { type Source, type Version, WHOLE } from '../reuse/version.ts';
import { isSameList } from '../same-list.ts';
import type { Fields } from '../shape/fields.ts';
import type { Node } from '../syntax/node.ts';
import type { FileId } from '../world.ts';
import type { Part } from './machine.ts';
import type { Machine } from './resolve.ts';

const PARTS: Source = { name: 'parts' };
const AXES: Source = { name: 'axes' };
const LINKS: Source = { name: 'links' };
const CABLES: Source = { name: 'cables' };
const SECTIONS: Source = { name: 'sections' };
/** All sections with their keys. */
const ROOT: Source = { name: 'root' };
const PROJECT: Source = { name: 'project' };
const WANTS: Source = { name: 'wants' };

const isIdentical = Object.is;

/** A machine that notes what is read of it, so that results hold on for as long as that stays the same. */
class TrackedMachine implements Machine {
  readonly version: Version;
  readonly file: FileId;
  readonly fields: Fields;
  readonly parts: ReadonlyMap<string, Part>;
  readonly axes: Machine['axes'];
  readonly problems: Machine['problems'];
  private readonly held: Pick<Machine, 'links' | 'cables' | 'project' | 'wants'>;

  constructor(version: Version, machine: Omit<Machine, 'version'>) {
    const { file, fields, parts, axes, problems } = machine;
    this.version = version;
    this.file = file;
    this.problems = problems;
    this.fields = trackFields(version, fields);
    this.parts = new TrackedMap(version, PARTS, version.put(PARTS, parts, isSameMap, changedKeys));
    this.axes = new TrackedMap(version, AXES, version.put(AXES, axes, isSameMap, changedKeys));
    this.held = {
      links: version.put(LINKS, machine.links, isSameList),
      cables: version.put(CABLES, machine.cables, isSameList),
      project: version.put(PROJECT, machine.project, isIdentical),
      wants: version.put(WANTS, machine.wants, isSameList),
    };
  }

  get title(): string {
    return this.fields.text('machine')?.value ?? '';
  }

  get links(): Machine['links'] {
    return this.note(LINKS, this.held.links);
  }

  get cables(): Machine['cables'] {
    return this.note(CABLES, this.held.cables);
  }

  get project(): Project {
    return this.note(PROJECT, this.held.project);
  }

  get wants(): readonly FileId[] {
    return this.note(WANTS, this.held.wants);
  }

  private note<T>(source: Source, value: T): T {
    noteRead(this.version, source, WHOLE, value);
    return value;
  }
}

/** Puts a machine under a version of its file. */
export function trackMachine(version: Version, machine: Omit<Machine, 'version'>): Machine {
  const tracked = new TrackedMachine(version, machine);
  version.hosts.set('machine', tracked);
  return tracked;
}

/** The sections of a machine, noted one by one. */
function trackFields(version: Version, fields: Fields): Fields {
  const pairs = fields.node?.pairs ?? [];
  const sections = version.put(
    SECTIONS,
    new Map<string, Node | undefined>(pairs.map(({ key, value }) => [key.text, value])),
    isSameMap,
    changedKeys,
  );
  const ends = version.put(
    ROOT,
    pairs.flatMap(({ key, value }) => [key, value]),
    isSameList,
  );
  const noting =
    <T>(read: (key: string) => T) =>
    (key: string): T => {
      noteRead(version, SECTIONS, key, sections.get(key));
      return read(key);
    };
  const noteAll = () => noteRead(version, ROOT, WHOLE, ends);
  return {
    get node() {
      noteAll();
      return fields.node;
    },
    quantity: noting(fields.quantity),
    span: noting(fields.span),
    ratio: noting(fields.ratio),
    wire: noting(fields.wire),
    mains: noting(fields.mains),
    count: noting(fields.count),
    number: noting(fields.number),
    flag: noting(fields.flag),
    text: noting(fields.text),
    child: noting(fields.child),
    items: noting(fields.items),
    entries: () => {
      noteAll();
      return fields.entries();
    },
  };
}
