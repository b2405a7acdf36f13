import type { Brush } from './canvas.ts';

export interface Recorded {
  readonly brush: Brush;
  /** Calls and settings in order: "moveTo 1 2", "fillStyle = #ffffff". */
  readonly said: string[];
}

/** A canvas context that writes down what it is told. */
export function recorder(): Recorded {
  const said: string[] = [];
  const brush = new Proxy({} as Record<string, unknown>, {
    get:
      (_, name) =>
      (...values: unknown[]) => {
        said.push([String(name), ...values.map(short)].join(' '));
        return { addColorStop: (share: number, colour: string) => said.push(`stop ${share} ${colour}`) };
      },
    set: (_, name, value) => {
      said.push(`${String(name)} = ${typeof value === 'object' ? 'gradient' : short(value)}`);
      return true;
    },
  });
  return { brush: brush as unknown as Brush, said };
}

function short(value: unknown): string {
  return typeof value === 'number' ? String(Math.round(value * 1000) / 1000) : String(value);
}
