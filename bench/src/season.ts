import { type Draft, type Sealed, type Signer, seal } from '@firnbook/journal';

export const seasonCampaign = '01930000-0000-7000-8000-00000000c0de';
const person = nameOf('e', 1);

/**
 * A whole season: three holes, runs of four pieces, one correction in twenty, from three devices. Invented: nothing in
 * it was ever drilled.
 *
 * @param signers one for each device, by a key that signs at once; none where nothing is to be signed
 */
export function season(count: number, signers: readonly Signer[] = []): readonly Sealed[] {
  const made: Sealed[] = [];
  const tips = [0, 1, 2].map(() => ({ sequence: 0, hash: null as string | null }));
  const holes = [1, 2, 3].map((number) => nameOf('b', number));
  const said: Draft[] = holes.map((id, index) => ({
    ...draft('hole.logged', id, { readings: { letter: 'ABC'[index]! } }),
  }));
  for (let number = 1; said.length < count; number += 1) {
    const hole = holes[number % 3]!;
    const run = nameOf('a', number);
    const [from, to] = [number * 0.9, number * 0.9 + 0.9].map((depth) => `${depth.toFixed(2)} m`);
    said.push(draft('run.logged', run, { hole, readings: { number: String(number), from: from!, to: to! } }));
    for (let piece = 1; piece <= 4; piece += 1) {
      const id = nameOf('d', number * 4 + piece);
      const readings = { number: String(piece), length: `${20 + piece},5 cm`, topBreak: 'fits' };
      said.push(draft('piece.logged', id, { hole, run, readings }));
      if ((number * 4 + piece) % 20 > 0) continue;
      const corrected = { hole, thing: id, readings: { length: `${21 + piece},1 cm` } };
      const links = { corrects: [id], reason: 'read again' };
      said.push({ ...draft('reading.corrected', nameOf('c', number * 4 + piece), corrected), ...links });
    }
  }
  for (const [index, one] of said.slice(0, count).entries()) {
    const tip = tips[index % 3]!;
    const signer = signers[index % 3];
    tip.sequence += 1;
    const entry = seal(one, {
      campaign: seasonCampaign,
      device: nameOf('f', index % 3),
      sequence: tip.sequence,
      previous: tip.hash,
      stamp: `${String(1_926_158_400_000 + index * 20_000).padStart(15, '0')}-000000`,
      salt: index.toString(16).padStart(32, '0'),
      ...(signer !== undefined && tip.sequence === 1 ? { key: signer.key } : {}),
    });
    tip.hash = entry.hash;
    const { sealed } = entry;
    made.push(signer === undefined ? sealed : { ...sealed, signature: String(signer.sign(sealed.head)) });
  }
  return made;
}

function draft(kind: string, id: string, body: Draft['body']): Draft {
  return { id, kind, version: 1, observedAt: '2031-01-14T09:00:00-03:00', by: person, body };
}

function nameOf(letter: string, number: number): string {
  return `0199b2d4-9c00-7000-8000-${letter}${number.toString(16).padStart(11, '0')}`;
}
