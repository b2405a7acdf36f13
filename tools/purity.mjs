// Finds clocks, chance, network and process in rooms that must be pure: those are arguments there.
import { readFileSync } from 'node:fs';
import ts from 'typescript';

const bannedNames = new Set([
  'fetch',
  'process',
  'performance',
  'setTimeout',
  'setInterval',
  'XMLHttpRequest',
  'WebSocket',
  'localStorage',
  'indexedDB',
]);
const bannedMembers = new Set([
  'Date.now',
  'Math.random',
  'crypto.getRandomValues',
  'crypto.randomUUID',
  'globalThis.crypto',
]);

/** One sentence for each impure place in a file. */
export function impurities(file) {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest, true);
  const found = [];
  const report = (node, what) => {
    const { line, character } = source.getLineAndCharacterOfPosition(node.getStart(source));
    found.push(`${file}:${line + 1}:${character + 1} uses ${what}; make it an argument`);
  };
  const isUse = (node) => {
    const up = node.parent;
    const isName =
      (ts.isPropertyAccessExpression(up) && up.name === node) ||
      (ts.isPropertyAssignment(up) && up.name === node) ||
      (ts.isPropertySignature(up) && up.name === node) ||
      ts.isImportSpecifier(up) ||
      ts.isParameter(up) ||
      (ts.isVariableDeclaration(up) && up.name === node) ||
      ts.isFunctionDeclaration(up) ||
      ts.isMethodSignature(up);
    return !isName;
  };
  const visit = (node) => {
    if (ts.isPropertyAccessExpression(node) && bannedMembers.has(node.getText(source)))
      report(node, node.getText(source));
    else if (
      ts.isNewExpression(node) &&
      node.expression.getText(source) === 'Date' &&
      !node.arguments?.length
    )
      report(node, 'new Date()');
    else if (ts.isIdentifier(node) && bannedNames.has(node.text) && isUse(node)) report(node, node.text);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}
