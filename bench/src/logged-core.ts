import { type Command, createBook } from '@firnbook/campaign';
import { type Entry, type Sealed, seal } from '@firnbook/journal';
import { seeded } from '@firnbook/science/random';

export const loggedCampaign = '01930000-0000-7000-8000-0000000300ce';

const DEVICE = '01930000-0000-7000-8000-00000000000b';
const START = Date.UTC(2031, 0, 14, 8);
const TRIP = 20 * 60_000;

export interface LoggedCore {
  readonly entries: readonly Sealed[];
  /** Of the hole, metres. */
  readonly depth: number;
}

/**
 * One hole of so many runs, logged as a crew does it: counter, pieces with breaks and lengths, masses, a sounding now
 * and then. The core of the last run lies on the bench and has no pieces yet. Invented: nothing in it was ever drilled.
 */
export function loggedCore(runs: number): LoggedCore {
  const chance = seeded(runs);
  const book = createBook();
  const made: Entry[] = [];
  let ids = 0;
  let time = START;
  const newId = (): string => `01930000-0000-7000-9000-${(ids += 1).toString(16).padStart(12, '0')}`;
  const say = (command: Command): string => {
    const by = book.view().people[0]?.id ?? '';
    const decision = book.decide(command, { by, observedAt: new Date(time).toISOString(), newId });
    if (!decision.ok) throw new Error(JSON.stringify(decision.refusals));
    for (const draft of decision.drafts) {
      const entry = seal(draft, {
        campaign: loggedCampaign,
        device: DEVICE,
        sequence: made.length + 1,
        previous: made.at(-1)?.hash ?? null,
        stamp: `${String(time).padStart(15, '0')}-${String(made.length).padStart(6, '0')}`,
        salt: made.length.toString(16).padStart(32, '0'),
      });
      made.push(entry);
      book.add([entry]);
    }
    return decision.drafts[0]!.id;
  };

  say({
    do: 'open campaign',
    readings: { name: 'Three hundred runs', invented: 'yes' },
    crew: [{ initials: 'HN' }],
  });
  say({
    do: 'log',
    kind: 'site',
    readings: { name: 'Ceredin Saddle', temperature: '-17 °C', accumulation: '0.38 m' },
  });
  const setup = say({
    do: 'log',
    kind: 'set-up',
    readings: { name: 'long barrel', barrel: '1.15 m', catcherHeight: '38 mm', coreDiameter: '98 mm' },
  });
  const hole = say({ do: 'log', kind: 'hole', readings: { letter: 'A' } });
  say({ do: 'log', kind: 'zero', hole, readings: { surface: 'snow surface' } });
  let depth = 0;
  for (let number = 1; number <= runs; number += 1) {
    time += TRIP;
    const advance = 0.85 + 0.04 * chance.normal();
    const read = (at: number): string => `${(at + 0.006 * chance.normal()).toFixed(2)} m`;
    const run = say({
      do: 'log',
      kind: 'run',
      hole,
      readings: {
        number: String(number),
        from: depth === 0 ? '0 m' : read(depth),
        to: read(depth + advance),
        recovered: 'core',
        setup,
        current: `${(4 + 0.3 * chance.normal()).toFixed(1)} A`,
      },
    });
    depth += advance;
    if (number % 25 === 0)
      say({
        do: 'log',
        kind: 'sounding',
        hole,
        readings: { afterRun: run, depth: read(depth), sd: '1.5 cm' },
      });
    if (number === runs) break;
    const count = 1 + Math.floor(3 * chance.uniform());
    for (let piece = 1; piece <= count; piece += 1) {
      time += 60_000;
      const length = advance / count;
      const density = 900 - 520 * Math.exp(-depth / 40);
      const mass = density * 7.54e-3 * length * (1 + 0.01 * chance.normal());
      const thing = say({
        do: 'log',
        kind: 'piece',
        hole,
        run,
        readings: {
          number: String(piece),
          topBreak: 'fits',
          length: `${(100 * (length + 0.002 * chance.normal())).toFixed(1)} cm`,
        },
      });
      say({
        do: 'add',
        thing,
        readings: { mass: `${mass.toFixed(3)} kg`, diameterTop: '98 mm', diameterBottom: '98 mm' },
      });
    }
  }
  return { entries: made.map((entry) => entry.sealed), depth };
}
