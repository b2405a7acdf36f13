import { readFileSync } from 'node:fs';
import { fixed, readFirnLayers, writeTable } from '@firnbook/exchange';
import { constants } from '@firnbook/science/constants';
import {
  type CloseOffVariant,
  closedShareOfPores,
  closeOffDensity,
  degreeDayFactor,
  degreeDayMelt,
  type FirnColumn,
  type FirnFit,
  type FirnParameter,
  type FirnSite,
  firnStrainRate,
  fitHerronLangway,
  herronLangway,
  lockInDensity,
  outsideCalibration,
  rmsAgainst,
  yearlyDegreeDays,
} from '@firnbook/science/firn';
import { inKelvin } from '@firnbook/science/units';
import { Command, Option } from 'commander';
import { numberOption } from '../number-option.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

interface Options {
  readonly accumulation?: string;
  readonly temperature?: string;
  readonly surfaceDensity?: string;
  readonly depth?: string;
  readonly step?: string;
  readonly closeOff: CloseOffVariant;
  readonly swing?: string;
  readonly measured?: string;
  readonly fit?: string;
  readonly csv?: boolean;
}

const closeOffs: readonly CloseOffVariant[] = ['Martinerie 1994', 'Martinerie 1992', '830'];
const parameters: readonly FirnParameter[] = ['k0', 'k1', 'surfaceDensity', 'accumulation'];

const example = `
Density, age and water equivalent by Herron & Langway 1980: dry firn in a steady climate, within about 20 % of its
accumulation. Not where it melts.

With --measured FILE the model is compared with measured densities: top_m, bottom_m, density_kg_m3 and, where
there are such columns, random_sd_kg_m3 and shared_sd_kg_m3 (as "firnbook density" writes them). With --fit its
parameters are fitted to them: any of k0, k1, surfaceDensity, accumulation (k1 and accumulation not together).

With --csv: depth_m,density_kg_m3,age_a,we_m,firn_air_m,strain_rate_per_a,closed_pores

Example: firnbook firn --accumulation 0.4 --temperature -18 --surface-density 360 --depth 100 --step 10
         firnbook firn --accumulation 0.4 --temperature -18 --measured densities/density.csv --fit k0,k1,surfaceDensity
`;

/** One-shot firn model of a site; fitted where there are measured densities. */
export const firnCommand = (terminal: Terminal): Command =>
  new Command('firn')
    .description('density, age, water equivalent and close-off of dry firn from climate')
    .option('--accumulation <metres>', 'metres of water equivalent a year')
    .option('--temperature <celsius>', 'of the firn at 10 m')
    .option('--surface-density <kg/m3>', 'of the snow at the surface', '350')
    .option('--depth <metres>', 'how deep the table goes', '120')
    .option('--step <metres>', 'from line to line', '10')
    .addOption(
      new Option('--close-off <name>', 'density at which air is cut off')
        .choices(closeOffs)
        .default('Martinerie 1994'),
    )
    .option(
      '--swing <kelvin>',
      'half the difference of warmest and coldest day of the mean year: says whether it melts',
    )
    .option('--measured <file>', 'table of measured densities to compare with')
    .option('--fit <names>', 'parameters to fit to them, separated by commas')
    .option('--csv', 'the table as CSV on stdout')
    .addHelpText('after', example)
    .action((options: Options) => {
      const { column, site, words } = modelled(options, terminal);
      const depth = positive('--depth', options.depth);
      const step = positive('--step', options.step);
      if (depth / step > 100_000)
        throw new CommandError(
          'the table would have more than 100,000 lines',
          '--step',
          'Give a longer step.',
        );
      const closeOff = closeOffDensity(site.temperature, options.closeOff, column.iceDensity);
      const rows = Array.from({ length: Math.floor(depth / step + 1e-9) + 1 }, (_, i) =>
        rowAt(column, i * step, closeOff),
      );
      if (options.csv) {
        terminal.err(words);
        terminal.out(
          writeTable(
            ['depth_m', 'density_kg_m3', 'age_a', 'we_m', 'firn_air_m', 'strain_rate_per_a', 'closed_pores'],
            rows,
          ),
        );
        return;
      }
      terminal.out(`${words}${inColumns(rows)}${marks(column, closeOff, options.closeOff)}`);
    });

const modelled = (options: Options, terminal: Terminal) => {
  const accumulation = numberOption(
    '--accumulation',
    options.accumulation,
    'metres w.e. a year, for example 0.4',
  );
  const celsius = numberOption('--temperature', options.temperature, 'degrees Celsius, for example -18');
  if (accumulation === undefined || celsius === undefined)
    throw new CommandError(
      'the model needs accumulation and temperature',
      'firnbook firn',
      'Give --accumulation 0.4 (m w.e. a year) and --temperature -18 (degrees Celsius).',
    );
  const given: FirnSite = {
    accumulation,
    temperature: inKelvin(celsius),
    surfaceDensity: positive('--surface-density', options.surfaceDensity),
  };
  const plain = herronLangway(given);
  const lines = [
    `Herron & Langway 1980: ${celsius} degrees C, ${accumulation} m w.e. a year, ${given.surfaceDensity} kg/m3 at the surface.`,
    ...outsideCalibration(given).map(
      (way) => `The site is ${way} than those the model was made from: take its numbers as rough.`,
    ),
    ...meltLines(celsius, options.swing),
  ];
  if (options.measured === undefined) {
    if (options.fit !== undefined)
      throw new CommandError('there is nothing to fit to', '--fit', 'Give --measured FILE as well.');
    return { column: plain, site: given, words: `${lines.join('\n')}\n` };
  }
  const { layers, remarks } = readFirnLayers({
    name: options.measured,
    bytes: readFileSync(options.measured),
  });
  for (const remark of remarks) terminal.err(`${remark}\n`);
  if (options.fit === undefined) {
    lines.push(
      `Against ${layers.length} measured densities: rms ${fixed(rmsAgainst(plain, layers), 1)} kg/m3. Fit with --fit k0,k1,surfaceDensity.`,
    );
    return { column: plain, site: given, words: `${lines.join('\n')}\n` };
  }
  const fit = fitHerronLangway(given, layers, fitted(options.fit));
  return {
    column: fit.column,
    site: fit.site,
    words: `${[...lines, ...fitLines(fit, layers.length)].join('\n')}\n`,
  };
};

const fitted = (text: string): readonly FirnParameter[] =>
  text.split(',').map((word) => {
    const name = parameters.find((one) => one.toLowerCase() === word.trim().toLowerCase());
    if (name === undefined)
      throw new CommandError(
        `"${word}" is no parameter of the model`,
        '--fit',
        `Names: ${parameters.join(', ')}.`,
      );
    return name;
  });

const units: Readonly<Record<FirnParameter, string>> = {
  k0: 'times the published',
  k1: 'times the published',
  surfaceDensity: 'kg/m3',
  accumulation: 'm w.e. a year',
};

const fitLines = (fit: FirnFit, layers: number): readonly string[] => [
  `Fitted to ${layers} measured densities: rms ${fixed(fit.rmsBefore, 1)} kg/m3 before, ${fixed(fit.rms, 1)} after; chi square ${fixed(fit.reducedChiSquare, 2)} per degree of freedom.${fit.converged ? '' : ' It did not settle: take it as rough.'}`,
  ...fit.parameters.map(({ name, value, randomSd, sharedSd }) => {
    const decimals = name === 'surfaceDensity' ? 1 : 4;
    const number = (x: number) => fixed(x, decimals);
    return `  ${name}: ${number(value)} ${units[name]}, random sd ${number(randomSd)}, shared sd ${number(sharedSd)}`;
  }),
];

/** K */
const dailySd = constants.firn!.degreeDaySpread!.value;
/** Melt from which on a year is told that the model was not made for it, m w.e. */
const muchMelt = 0.02;

const meltLines = (celsius: number, swing: string | undefined): readonly string[] => {
  const half = numberOption('--swing', swing, 'kelvin, for example 12');
  if (half === undefined) return [];
  const days = yearlyDegreeDays(celsius, half, dailySd);
  const melt = degreeDayMelt(days, degreeDayFactor('snow'));
  return [
    `Positive degree days with a swing of ${half} K: ${fixed(days, 1)} K d a year (${dailySd} K about the daily mean), some ${fixed(melt, 3)} m w.e. of melt.${melt > muchMelt ? ' The model is not made for firn that melts.' : ''}`,
  ];
};

const positive = (option: string, text: string | undefined): number => {
  const value = numberOption(option, text, 'a number above 0');
  if (value === undefined || !(value > 0))
    throw new CommandError(`"${text}" is not above 0`, option, 'Give a number above 0.');
  return value;
};

const rowAt = (column: FirnColumn, depth: number, closeOff: number): readonly string[] => {
  const density = column.density(depth);
  return [
    fixed(depth, 2),
    fixed(density, 1),
    fixed(column.age(depth), 2),
    fixed(column.waterEquivalent(depth), 3),
    fixed(column.firnAir(depth), 3),
    fixed(firnStrainRate(column, depth), 6),
    fixed(closedShareOfPores(density, closeOff, column.iceDensity), 3),
  ];
};

const heads = ['depth m', 'kg/m3', 'age a', 'w.e. m', 'air m', 'strain 1/a', 'closed'];

const inColumns = (rows: readonly (readonly string[])[]): string =>
  [heads, ...rows].map((row) => `${row.map((text) => text.padStart(11)).join('')}\n`).join('');

const marks = (column: FirnColumn, closeOff: number, name: CloseOffVariant): string => {
  const at = (what: string, density: number) => {
    const depth = column.depthOfDensity(density);
    return `${what} (${fixed(density, 1)} kg/m3): ${fixed(depth, 2)} m, ${fixed(column.age(depth), 1)} a.\n`;
  };
  return [
    column.depth550 === 0 ? '' : at('End of settling', 550),
    at('Lock-in, Blunier & Schwander 2000', lockInDensity(closeOff)),
    at(`Close-off, ${name}`, closeOff),
  ].join('');
};
