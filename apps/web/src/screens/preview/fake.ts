// Invented handles for looking at the screens.
import { useState } from 'react';
import type { BookHandle, CampaignsHandle, DeviceHandle } from '../../device/book.ts';

const at = (h: number, m: number) =>
  `2026-06-14T${String(h).padStart(2, '0')}:${String(m).padStart(2, '0')}:00+05:45`;
let n = 0;
const id = (p: string) => `${p}-${++n}`;
const r = (field: string, text: string, value: number | null, by = 'p-kt', when = at(11, 42)): any => ({
  field,
  text,
  value,
  entry: id('e'),
  by,
  at: when,
  struck: [],
  against: [],
});
const thing = (
  kind: string,
  name: string,
  readings: any,
  by = 'p-kt',
  when = at(11, 42),
  extra: any = {},
): any => {
  const tid = extra.id ?? id(kind);
  return {
    id: tid,
    kind,
    name,
    aliases: [],
    by,
    at: when,
    device: 'd1',
    readings,
    withdrawn: null,
    entries: [tid],
    ...extra,
  };
};
const cm = (m: number) => `${(m * 100).toFixed(1)} cm`;
const runs: any[] = [];
let depth = 25.6;
let top = 25.58;
const solved: any = {};
const solvedRuns: any = {};
for (let k = 30; k <= 35; k++) {
  const adv = 0.87 + ((k * 7) % 5) * 0.03;
  const from = depth,
    to = depth + adv;
  depth = to;
  const nothing = k === 31;
  const runId = `run-${k}`;
  const pieces: any[] = [];
  if (!nothing && k < 35) {
    const lens = k % 2 ? [0.426, adv - 0.45] : [0.312, 0.284, adv - 0.62];
    lens.forEach((l, i) => {
      const p = thing(
        'piece',
        `B-P0${k}.${i + 1}`,
        {
          number: r('number', String(i + 1), i + 1),
          topBreak: r('topBreak', i === 0 && k === 33 ? 'loss' : i === 1 ? 'unsure' : 'fits', null),
          length: r('length', cm(l), l, 'p-hn', at(12, i)),
        },
        'p-hn',
        at(12, i),
        { id: `${runId}.${i}`, run: runId, number: i + 1 },
      );
      if (k === 33 && i === 0) p.readings.loss = r('loss', '2 cm', 0.02);
      if (k === 34 && i === 1) {
        p.readings.length.struck = [
          {
            text: '55.0 cm',
            value: 0.55,
            entry: id('e'),
            by: 'p-hn',
            at: at(12, 1),
            reason: 'measured again',
          },
        ];
        p.readings.length.by = 'p-mo';
      }
      solved[p.id] = {
        top: { value: top, sd: 0.028, min: top - 0.09, max: top + 0.08 },
        bottom: { value: top + l, sd: 0.031, min: top + l - 0.1, max: top + l + 0.1 },
      };
      top += l + (i === 0 && k === 33 ? 0.03 : 0);
      pieces.push(p);
    });
  }
  top = Math.max(top, to - 0.03);
  solvedRuns[runId] = {
    holeBottom: { value: to - 0.01, sd: 0.03, min: to - 0.1, max: to + 0.1 },
    stub: { value: 0.02, sd: 0.01, min: 0, max: 0.1 },
  };
  runs.push(
    thing(
      'run',
      `B-R0${k}`,
      {
        number: r('number', String(k), k),
        from: r('from', `${from.toFixed(2)} m`, from),
        to: r('to', `${to.toFixed(2).replace('.', k === 33 ? ',' : '.')} m`, to),
        recovered: r('recovered', nothing ? 'nothing' : 'core', null),
      },
      'p-kt',
      at(8 + (k - 30), 12),
      { id: runId, number: k, nothingRecovered: nothing, pieces },
    ),
  );
}
runs[2].withdrawn = null;
const person = (i: string) => thing('person', i, {}, 'p-hn', at(7, 0), { id: `p-${i.toLowerCase()}` });
const base: any = {
  id: 'c1',
  name: 'Ceredin Saddle',
  invented: true,
  people: ['HN', 'KT', 'MO', 'SB'].map(person),
  holes: [
    {
      ...thing('hole', 'B', {}),
      letter: 'B',
      zeros: [],
      runs,
      soundings: [],
      conflicts: [],
      notUnderstood: 0,
      waiting: 0,
    },
  ],
};
const assumptions: any = {
  lengthSdIce: 0.003,
  lengthSdFirn: 0.005,
  firnTo: 60,
  runBiasSd: 0.001,
  tapeScaleSd: 0.0004,
  readingSd: 0.007,
  readingStep: 0.01,
  tripOffsetSd: 0.01,
  cableScaleSd: 0.004,
  fillMean: 0.02,
  stubMean: 0.03,
  unsureGapMean: 0.01,
  meansKnownWithinFactor: 2,
  fitGapMax: 0.002,
  lossSd: 0.002,
  lossShareSd: 0.4,
};
const findings = [
  {
    what: 'piece',
    which: 'run-34.1',
    field: 'length',
    size: 0.1,
    likely: '10 cm',
    probability: 0.93,
    detectable: 0.04,
    suggested: 0.184,
  },
];

export function useFake(query: URLSearchParams): BookHandle {
  const [campaign, setCampaign] = useState<any>(() => {
    const c = structuredClone(base);
    if (query.has('conflict')) {
      const twin = structuredClone(c.holes[0].runs[3]);
      twin.id = 'twin';
      twin.by = 'p-sb';
      twin.pieces = [];
      twin.readings.to.text = '29.20 m';
      twin.readings.to.value = 29.2;
      c.holes[0].runs.splice(4, 0, twin);
      c.holes[0].conflicts = [
        {
          key: 'k1',
          kind: 'same name',
          says: 'Two runs are called B-R033.',
          things: [c.holes[0].runs[3].id, 'twin'],
        },
      ];
    }
    if (query.has('new')) c.holes = [];
    if (query.has('empty')) c.holes[0].runs = [];
    return c;
  });
  const [me, setMe] = useState<string | null>(query.has('who') ? null : 'p-hn');
  const [fresh, setFresh] = useState<string[]>([]);
  const total = 71 + fresh.length;
  const parse = (text: string) => {
    const m = /([\d.,]+) ?(cm|m)?/.exec(text);
    return m ? Number(m[1]!.replace(',', '.')) / (m[2] === 'cm' ? 100 : 1) : null;
  };
  return {
    campaign,
    me,
    setMe,
    solving: false,
    unsolved: {},
    depths: campaign.holes[0]
      ? {
          [campaign.holes[0].id]: {
            hole: campaign.holes[0].id,
            solver: 'adjustment 1',
            assumptions,
            pieces: solved,
            runs: solvedRuns,
            findings: query.has('findings') ? findings : [],
            coreBottom: null,
            holeBottom: null,
          } as any,
        }
      : {},
    device: { id: 'd1', name: 'Drill tent tablet' },
    safety: {
      total,
      onTablet: total,
      onCamp: 71,
      onlyHere: fresh.length,
      oldestOnlyHere: fresh.length ? new Date(Date.now() - 720_000).toISOString() : null,
      campSeen: new Date(Date.now() - 180_000).toISOString(),
      camp: fresh.length ? 'unreachable' : 'reachable',
      secondCopy: 'not yet',
      lacks: [],
      trouble: query.has('trouble') ? 'The disk is full.' : null,
      cloned: [],
      of: (e) => (fresh.includes(e) ? 'tablet' : 'camp'),
      clockDrift: 200,
    },
    exportFile: async () => new Blob(['x']),
    exchangeNow: () => undefined,
    async decide(command: any) {
      const c = structuredClone(campaign);
      const hole = c.holes[0];
      const rs = Object.fromEntries(
        Object.entries(command.readings ?? {}).map(([k, v]: any) => [
          k,
          r(k, v, parse(v), me ?? 'p-hn', at(14, 3)),
        ]),
      );
      const nid = id('x');
      if (command.do === 'log' && command.kind === 'run')
        hole.runs.push(
          thing('run', `B-R0${command.readings.number}`, rs, me!, at(14, 3), {
            id: nid,
            number: Number(command.readings.number),
            nothingRecovered: command.readings.recovered === 'nothing',
            pieces: [],
          }),
        );
      else if (command.do === 'log' && command.kind === 'piece') {
        const run = hole.runs.find((x: any) => x.id === command.run);
        run.pieces.push(
          thing('piece', `${run.name.replace('R', 'P')}.${command.readings.number}`, rs, me!, at(14, 3), {
            id: nid,
            run: run.id,
            number: Number(command.readings.number),
          }),
        );
      } else if (command.do === 'correct') {
        const all = [...hole.runs, ...hole.runs.flatMap((x: any) => x.pieces)];
        const th = all.find((x: any) => x.id === command.thing);
        for (const k of Object.keys(rs)) {
          const old = th.readings[k];
          rs[k].struck = old ? [...old.struck, { ...old, reason: command.reason }] : [];
          th.readings[k] = rs[k];
        }
      }
      setFresh((f) => [...f, nid]);
      setCampaign(c);
      const doubt =
        command.kind === 'piece' && query.has('doubt')
          ? [
              {
                field: 'length',
                what: 'With this piece 12 cm more core lie on the bench than were drilled.',
                likely: [{ label: 'Misread by 10 cm: 44.6 cm', readings: { length: '44.6 cm' } }],
              },
            ]
          : [];
      return { ok: true, entries: [nid], doubts: doubt } as any;
    },
  };
}
export const device: DeviceHandle = {
  name: 'Drill tent tablet',
  setName() {},
  updateReady: false,
  updateWaitsFor: null,
  takeUpdate() {},
};
export const campaigns = (none: boolean): CampaignsHandle => ({
  loading: false,
  camp: 'reachable',
  known: none
    ? []
    : [
        { id: 'c1', name: 'Ceredin Saddle', invented: true, entries: 71, onTablet: true, onCamp: true },
        {
          id: 'c2',
          name: 'Ceredin Saddle, north pit',
          invented: true,
          entries: 12,
          onTablet: false,
          onCamp: true,
        },
      ],
  async open() {
    return { ok: true, campaign: 'c1' };
  },
});
