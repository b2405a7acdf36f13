import { createInterface } from 'node:readline/promises';

/** What a command may do to the outside: results, news for the person, and who is watching. */
export interface Terminal {
  /** Results: stdout. */
  readonly out: (text: string) => void;
  /** Progress, remarks and complaints: stderr. */
  readonly err: (text: string) => void;
  /** Whether a person sees stdout at once. */
  readonly isPerson: boolean;
  /** Asks the person and waits for one line; null where nobody is there to answer. */
  readonly ask: ((question: string) => Promise<string>) | null;
  readonly env: Readonly<Record<string, string | undefined>>;
}

export const processTerminal = (): Terminal => {
  // `firnbook ... | head` closes the pipe: that is the reader's right and no failure of ours
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    isPerson: process.stdout.isTTY === true,
    ask: process.stdin.isTTY === true && process.stdout.isTTY === true ? askOnTerminal : null,
    env: process.env,
  };
};

const askOnTerminal = async (question: string): Promise<string> => {
  const lines = createInterface({ input: process.stdin, output: process.stdout });
  try {
    return await lines.question(question);
  } finally {
    lines.close();
  }
};

/** Tells the program how a command ended, where that is not 0. */
export type End = (code: 0 | 1 | 2) => void;
