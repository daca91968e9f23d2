/** Compound units in everyday use, for suggestions; any other combination is understood all the same. */
export const COMPOUNDS: readonly string[] = [
  'mm/min mm/s m/s m/min in/min in/s ft/min mm/s2 m/s2 in/s2',
  'rad/s deg/s rev/s rad/s2 deg/s2 rev/s2 /mm /in /deg /rev mm2 m2 in2',
  'N.m N.cm mN.m ozf.in lbf.in lbf.ft kgf.cm kgf.m',
  'kg.m2 kg.cm2 kg.mm2 g.cm2 lb.in2 oz.in2',
].flatMap((row) => row.split(' '));

/** Everyday words and abbreviations that are no unit symbols, lower case, and what they stand for. */
const PAIRS = [
  'sec=s secs=s msec=ms usec=us nsec=ns hr=h hrs=h mins=min',
  'vdc=V vac=V v.dc=V v.ac=V amp=A amps=A adc=A r=ohm k=kohm meg=Mohm',
  `"=in \u2033=in thou=mil inches=in '=ft feet=ft mtr=m sqmm=mm2 lbs=lb kgs=kg`,
  'nm=N.m ncm=N.cm mnm=mN.m kgcm=kgf.cm ozin=ozf.in lbin=lbf.in ft.lb=lbf.ft in.lb=lbf.in',
  'turn=rev turns=rev rps=rev/s r/min=rpm u/min=rpm /min=rpm 1/min=rpm min.1=rpm ipm=in/min',
  'c=degC f=degF celsius=degC percent=% pct=%',
];

export const EVERYDAY: ReadonlyMap<string, string> = new Map(
  PAIRS.flatMap((row) => row.split(' ')).map((pair) => {
    const [word = '', symbol = ''] = pair.split('=');
    return [word, symbol] as const;
  }),
);

/** What a mass was written for where a force is meant. */
export const FORCE_OF_MASS: ReadonlyMap<string, string> = new Map([
  ['kg', 'kgf'],
  ['g', 'gf'],
  ['lb', 'lbf'],
  ['oz', 'ozf'],
]);
