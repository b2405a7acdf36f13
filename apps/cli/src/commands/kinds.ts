import { type Field, fieldText, kindOf, kinds, kindText, sayEnglish } from '@firnbook/campaign';
import { Command } from 'commander';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

/** What can be logged, and how each field is written. */
export const kindsCommand = (terminal: Terminal): Command =>
  new Command('kinds')
    .description('list the kinds of things that can be logged, or the fields of one kind')
    .argument('[kind]', 'a kind, to list its fields with their units and words')
    .option('--json', 'the same for programs')
    .action((word: string | undefined, options: { readonly json?: boolean }) => {
      const all = kinds.slice(1);
      if (word === undefined) {
        const lines = all.map(({ kind, under }) => ({ kind, called: sayEnglish(kindText(kind, 2)), under }));
        if (options.json) terminal.out(`${JSON.stringify(lines, null, 2)}\n`);
        else
          for (const { kind, called, under } of lines)
            terminal.out(
              `${kind.padEnd(18)} ${called}${under === 'hole' && kind !== 'hole' ? ', of a hole' : ''}\n`,
            );
        return;
      }
      const kind = kindOf(word);
      if (kind === undefined)
        throw new CommandError(
          `"${word}" is no kind of thing`,
          '[kind]',
          `Use one of: ${all.map((one) => one.kind).join(', ')}.`,
        );
      const lines = kind.fields.map((field) => ({
        field: field.name,
        called: sayEnglish(fieldText(kind.kind, field.name)),
        written: writtenAs(field),
        required: field.required === true,
      }));
      if (options.json) terminal.out(`${JSON.stringify(lines, null, 2)}\n`);
      else
        for (const { field, called, written, required } of lines)
          terminal.out(`${field.padEnd(16)} ${called}: ${written}${required ? ' (needed)' : ''}\n`);
    });

/** How a field's value is typed. */
function writtenAs(field: Field): string {
  switch (field.quantity) {
    case 'count':
      return 'a whole number from 1 on';
    case 'word':
      return `one of ${field.words.join(', ')}`;
    case 'text':
      return `words, at most ${field.most} characters`;
    case 'time':
      return 'a time like 2026-06-14T09:30:00+05:45';
    case 'attachment':
      return 'the SHA-256 of a file kept beside the book';
    case 'position':
      return 'latitude, longitude in decimal degrees';
    case 'thing':
      return `name or id of a ${[field.of].flat().join(' or ')}`;
    case 'lengths':
      return `several lengths, ${field.unit} where none is typed`;
    default:
      return `a number with its unit, ${field.unit} where none is typed`;
  }
}
