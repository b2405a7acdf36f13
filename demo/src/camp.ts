import { seeded } from '@firnbook/science/random';
import { CREW_CHANGE_DAY, DAY, SECOND_CREW, shiftsOn } from './crew.ts';
import { STORM_DAY } from './plan.ts';
import { dustLayers, holeOffsets } from './site.ts';
import { add, log, type Step } from './step.ts';

/** Days from the first to the last of the invented season. */
const DAYS = 23;

/** What goes on around the holes: weather, duties, checks, the diary. */
export function camp(seed: number): readonly Step[] {
  const steps: Step[] = [...arrival(), ...splices()];
  const chance = seeded(seed ^ 0xca3);
  for (let day = 1; day < DAYS; day++) {
    const morning = day * DAY + 8;
    const [early, late] = shiftsOn(day);
    const temperature = (offset: number): string =>
      `${(-14 + offset - (day === STORM_DAY ? 4 : 0) + 2.5 * chance.normal()).toFixed(0)} °C`;
    const wind = (day === STORM_DAY ? 19 : 4) + 2 * Math.abs(chance.normal());
    const direction = `${Math.round((250 + 25 * chance.normal() + 360) % 360)}°`;
    const sky =
      day === STORM_DAY
        ? 'drifting snow'
        : chance.uniform() < 0.6
          ? 'clear'
          : chance.uniform() < 0.5
            ? 'broken'
            : 'overcast';
    steps.push(
      log({ device: 'tablet', by: early.logger, minute: morning }, 'weather', {
        temperature: temperature(-2),
        wind: `${wind.toFixed(0)} m/s`,
        direction,
        sky,
        ...(day === STORM_DAY ? { newSnow: '31 cm' } : {}),
      }),
      log({ device: 'tablet', by: early.logger, minute: morning + 2 }, 'instrument check', {
        instrument: 'balance',
        against: '1000 g',
        read: `${(1000 + chance.normal()).toFixed(0)} g`,
        result: 'good',
      }),
      log({ device: 'phone', by: late.driller, minute: day * DAY + 432 }, 'weather', {
        temperature: temperature(3),
        wind: `${(wind + 1).toFixed(0)} m/s`,
        direction,
        sky,
      }),
    );
    if (day % 4 === 1)
      steps.push(
        log({ device: 'tablet', by: early.logger, minute: morning + 4 }, 'stake', {
          name: 'stake 1',
          height: `${(142 - 1.2 * day - (day > STORM_DAY ? 29 : 0)).toFixed(0)} cm`,
        }),
      );
    if (day % 3 === 2)
      steps.push(
        log({ device: 'tablet', by: late.logger, minute: day * DAY + 640 }, 'handover', {
          says: handovers[(day / 3) | 0] ?? 'Nothing special.',
        }),
      );
  }
  return [...steps, ...duties(), ...diary()];
}

const handovers = [
  'Cutters are still sharp. The second drawer of the balance sticks.',
  'CER-A was closed. Rope of the tent is frayed at the west peg.',
  'Board of hole B is nearly under the snow, measure it before it is lifted.',
  'Storm has buried the stakes up to the tape. Board set anew.',
  'Hole B at its depth. The tower moves tomorrow.',
  'Tray tape is used for a few runs of C: same numbers, faster.',
  'Ice gets brittle from 85 m on: let it rest before sawing.',
];

function arrival(): readonly Step[] {
  const who = { device: 'tablet', by: 'HN' } as const;
  const pit = 'snow pit';
  return [
    log({ ...who, minute: 30 }, 'site', {
      name: 'Ceredin Saddle',
      temperature: '-17.4 °C',
      accumulation: '0.38 m',
      surfaceDensity: '352 kg/m³',
      note: 'Guessed from the pit before the first hole; invented like everything here.',
    }),
    log({ ...who, minute: 40, as: pit }, 'pit', {
      name: 'pit 1',
      depth: '2.4 m',
      note: 'Ten metres upwind of hole A. Wall read in steps of 5 cm.',
    }),
    log({ ...who, minute: 95, as: 'top A' }, 'hand-augered top', {
      name: 'hand auger beside A',
      from: '0 m',
      to: '4.2 m',
      diameter: '76 mm',
    }),
    log({ ...who, minute: 60 }, 'contamination', {
      source: 'vehicle',
      note: 'Snow machine drove past the pit on the lee side, before the wall was cut.',
    }),
  ];
}

/** The dust in all three holes says how they lie to each other. */
function splices(): readonly Step[] {
  const offset = (letter: 'B' | 'C'): string => `${(holeOffsets[letter] * 100 + 0.6).toFixed(1)} cm`;
  const who = { device: 'computer', by: 'HN', minute: (DAYS - 1) * DAY + 700 } as const;
  const splice = (letter: 'B' | 'C', minute: number): Step =>
    log({ ...who, minute }, 'splice', (id) => ({
      of: id(`hole ${letter}`),
      on: id('hole A'),
      offset: offset(letter),
      sd: '1.4 cm',
      method: `${dustLayers.length} layers of dust found in both`,
    }));
  return [splice('B', who.minute), splice('C', who.minute + 5)];
}

function duties(): readonly Step[] {
  const duty = (person: string, as: string, minute: number, called: string): Step =>
    log({ device: 'tablet', by: 'HN', minute, as: called }, 'duty', (_, at) => ({
      person,
      as,
      began: at(minute),
    }));
  const change = CREW_CHANGE_DAY * DAY - 60;
  const hn = { device: 'tablet', by: 'HN' } as const;
  return [
    duty('HN', 'lead', 20, 'duty HN'),
    duty('KT', 'driller', 21, 'duty KT'),
    duty('MO', 'driller', 22, 'duty MO'),
    duty('RA', 'logger', 23, 'duty RA'),
    ...SECOND_CREW.map((initials, at) => log({ ...hn, minute: change + at }, 'person', { initials })),
    add({ ...hn, minute: change + 3 }, 'duty KT', (at) => ({ ended: at(change + 3) })),
    add({ ...hn, minute: change + 4 }, 'duty RA', (at) => ({ ended: at(change + 4) })),
    duty('LV', 'driller', change + 6, 'duty LV'),
    duty('SB', 'logger', change + 7, 'duty SB'),
  ];
}

function diary(): readonly Step[] {
  const who = { device: 'tablet', by: 'HN' } as const;
  const blanks = [3, 10, 17].flatMap((day, at) => [
    log({ ...who, minute: day * DAY + 12 }, 'blank', {
      name: `field blank ${at + 1}`,
      what: at === 1 ? 'blank ice through the drill' : 'swab',
    }),
  ]);
  const entries = [
    { day: 2, source: 'wind from camp', note: 'Wind turned to the kitchen for an hour, hole covered.' },
    { day: 9, source: 'aircraft', note: 'Supply flight, two hundred metres downwind.' },
    { day: 13, source: 'generator', note: 'Generator dug out and run beside the drill tent.' },
  ].map(({ day, source, note }) =>
    log({ ...who, minute: day * DAY + 300 }, 'contamination', (_, at) => ({
      source,
      began: at(day * DAY + 280),
      note,
    })),
  );
  return [...blanks, ...entries];
}
