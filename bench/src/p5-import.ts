/**
 * P5: a laboratory's CSV of 1,000,000 rows and 12 columns (invented figures, one in seventy below a limit of detection)
 * from bytes to typed columns: heading, units, decimal marks, limits. Peer: pandas.read_csv (Debian's python3-pandas)
 * on the same file, see p5_peer.py; where there is none, papaparse, which gives texts only. A process of its own for
 * each round, in turn; medians of the rounds. Memory is the most that the process held above what it held before it
 * read the file, the file's bytes included; the file's columns are rows x columns x 8 bytes.
 */
import { spawnSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readColumns } from '@firnbook/exchange/sheets';
import { seeded } from '@firnbook/science/random';
import Papa from 'papaparse';

const rounds = 5;
const rows = 1_000_000;
const columns = 12;

interface Round {
  readonly ms: number;
  readonly cpuMs: number;
  readonly memoryMb: number;
}

const [mode, path] = process.argv.slice(2);
if (mode === 'ours') once(path!, readTyped);
else if (mode === 'papaparse') once(path!, readTexts);
else measure();

function readTyped(bytes: Uint8Array): void {
  const table = readColumns(bytes, 'ions.csv');
  const figures = table.columns.filter((column) => column.holds === 'figures');
  const named = table.columns.filter(({ unit }) => unit !== null).length;
  const below = figures.reduce(
    (sum, column) => sum + (column.holds === 'figures' ? column.says.filter((one) => one === 2).length : 0),
    0,
  );
  if (table.rows !== rows || figures.length !== 10 || named !== 10 || table.unreadable > 0 || below < 50_000)
    throw new Error(`read wrongly: ${table.rows} rows, ${figures.length} of figures, ${below} below a limit`);
}

function readTexts(bytes: Uint8Array): void {
  const { data } = Papa.parse<string[]>(new TextDecoder().decode(bytes));
  if (data.length < rows) throw new Error(`read wrongly: ${data.length} rows`);
}

function once(file: string, work: (bytes: Uint8Array) => void): void {
  const before = process.memoryUsage().rss;
  const start = performance.now();
  const cpu = process.cpuUsage();
  work(readFileSync(file));
  const { user, system } = process.cpuUsage(cpu);
  const round: Round = {
    ms: performance.now() - start,
    cpuMs: (user + system) / 1000,
    memoryMb: (process.resourceUsage().maxRSS * 1024 - before) / 2 ** 20,
  };
  process.stdout.write(JSON.stringify(round));
}

function write(file: string): void {
  const random = seeded(5);
  const out = openSync(file, 'w');
  let text =
    'Sample,Depth top (m),Depth bottom (m),Na (ng/g),Cl (ng/g),SO4 (ng/g),NO3 (ng/g),Ca (ng/g),Mg (ng/g),K (ng/g),d18O (permil),Lab\n';
  for (let row = 0; row < rows; row++) {
    const top = row / 10_000;
    text += `B-P${String(Math.floor(row / 100)).padStart(5, '0')}.${row % 100},${top.toFixed(4)},${(top + 0.0001).toFixed(4)},`;
    for (let ion = 0; ion < 7; ion++) {
      const value = random.uniform() * 210;
      text += value < 3 ? '<3.0,' : `${value.toFixed(2)},`;
    }
    text += `${(-20 - random.uniform() * 20).toFixed(2)},lab ${row % 3}\n`;
    if (text.length > 2 ** 20 || row === rows - 1) {
      writeSync(out, text);
      text = '';
    }
  }
  closeSync(out);
}

function run(program: string, args: readonly string[]): Round | string {
  const ran = spawnSync(program, args, { encoding: 'utf8' });
  if (ran.error !== undefined) return `no ${program}`;
  if (ran.status !== 0) return ran.stderr.trim().split('\n').at(-1) ?? 'the peer failed';
  return JSON.parse(ran.stdout) as Round;
}

function measure(): void {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-p5-'));
  try {
    const file = join(folder, 'ions.csv');
    write(file);
    const self = (what: string) => [
      '--import',
      'tsx',
      '--conditions=source',
      fileURLToPath(import.meta.url),
      what,
      file,
    ];
    const pandas = [fileURLToPath(new URL('./p5_peer.py', import.meta.url)), file];
    const own: Round[] = [];
    const peers: Round[] = [];
    let missing: string | null = null;
    for (let round = 0; round < rounds; round++) {
      const ours = run(process.execPath, self('ours'));
      if (typeof ours === 'string') throw new Error(ours);
      own.push(ours);
      const other: Round | string = missing === null ? run('/usr/bin/python3', pandas) : missing;
      if (typeof other !== 'string') peers.push(other);
      else {
        missing = other;
        const texts = run(process.execPath, self('papaparse'));
        if (typeof texts === 'string') throw new Error(texts);
        peers.push(texts);
      }
    }
    const middle = (list: readonly Round[], of: (one: Round) => number): number =>
      list.map(of).sort((a, b) => a - b)[list.length >> 1]!;
    const ms = middle(own, (one) => one.ms);
    const cpu = middle(own, (one) => one.cpuMs);
    const memory = middle(own, (one) => one.memoryMb);
    const columnMb = (rows * columns * 8) / 2 ** 20;
    const round = (value: number, digits = 2): number => Number(value.toFixed(digits));
    process.stdout.write(
      `${JSON.stringify({
        id: 'P5',
        work: 'laboratory CSV read, typed, units and limits understood',
        rows,
        columns,
        file_mb: round(statSync(file).size / 2 ** 20, 1),
        ms: round(ms, 0),
        cpu_ms: round(cpu, 0),
        memory_mb: round(memory, 0),
        memory_over_columns: round(memory / columnMb),
        target_memory_over_columns: 6,
        peer: missing === null ? 'pandas.read_csv, limits left as texts' : 'papaparse alone, texts',
        ...(missing !== null && { no_pandas_here: missing }),
        peer_ms: round(
          middle(peers, (one) => one.ms),
          0,
        ),
        peer_cpu_ms: round(
          middle(peers, (one) => one.cpuMs),
          0,
        ),
        peer_memory_mb: round(
          middle(peers, (one) => one.memoryMb),
          0,
        ),
        ratio: round(ms / middle(peers, (one) => one.ms)),
        cpu_ratio: round(cpu / middle(peers, (one) => one.cpuMs)),
        target_ratio: 1.5,
      })}\n`,
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
