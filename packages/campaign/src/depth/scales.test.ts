import { conversion } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { sayEnglish } from '../texts/say-english.ts';
import { plainHole } from './plain-hole.suite.ts';
import { convertedSentence, scalesOfHole } from './scales.ts';

describe('scalesOfHole', () => {
  it('hold the same ice: a logged depth is told in solved metres, and in which piece', () => {
    const { pieces, solve } = plainHole();
    const { view, readings, solution } = solve();
    const [, logger, solved] = scalesOfHole(view.name, readings, solution, 'v1');
    const given = { hole: view.name, scale: logger.scale, value: 1.2, sd: 0 };
    const words = sayEnglish(
      convertedSentence(given, conversion(logger, solved)(given), (id) =>
        id === pieces[1] ? 'B-P002.1' : id,
      ),
    );
    expect(words).toMatch(/^1\.20 m on the scale "logger" is 1\.2\d m ± .* on "solved v1", in B-P002\.1\.$/);
  });
});
