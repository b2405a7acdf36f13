import { SaxesParser } from 'saxes';
import { TableError } from '../trouble.ts';
import { limits } from './limits.ts';

/** Told of what stands in a part. Names are without their prefix. */
export interface XmlListener {
  readonly open?: (name: string, attributes: Readonly<Record<string, string>>) => void;
  readonly text?: (text: string) => void;
  readonly close?: (name: string) => void;
}

const local = (name: string): string => name.slice(name.indexOf(':') + 1);

/**
 * Walks through one part of a workbook. Entities other than XML's own five are refused by the parser (nothing is
 * expanded, nothing is fetched), and so is a document type, which SpreadsheetML never has.
 *
 * @throws TableError for what is no well-formed XML, or elements nested deeper than any workbook has them
 */
export const walkXml = (text: string, file: string, part: string, listener: XmlListener): void => {
  let depth = 0;
  const refuse = (what: string): never => {
    throw new TableError(
      `${part} inside the workbook ${what}`,
      { file },
      'Open it in a spreadsheet program and save it again as XLSX.',
    );
  };
  const parser = new SaxesParser({ position: false });
  parser.on('error', (error) => refuse(`is not well-formed (${error.message})`));
  parser.on('doctype', () => refuse('has a document type, which workbooks never have'));
  parser.on('opentag', (tag) => {
    depth += 1;
    if (depth > limits.depth) refuse(`has elements nested more than ${limits.depth} deep`);
    listener.open?.(local(tag.name), tag.attributes as Record<string, string>);
  });
  parser.on('closetag', (tag) => {
    depth -= 1;
    listener.close?.(local(tag.name));
  });
  if (listener.text !== undefined) {
    parser.on('text', listener.text);
    parser.on('cdata', listener.text);
  }
  parser.write(text).close();
};

/** An attribute by its name without prefix; '' where it is not there. */
export const attribute = (attributes: Readonly<Record<string, string>>, name: string): string => {
  if (Object.hasOwn(attributes, name)) return attributes[name]!;
  for (const key of Object.keys(attributes)) if (local(key) === name) return attributes[key]!;
  return '';
};
